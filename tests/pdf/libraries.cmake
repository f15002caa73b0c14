fettle_test_uses(test_pdf Threads::Threads)
# A finished PDF looked at from outside: for tests of all stages, and as a program for those of the command line.
add_library(finished STATIC ${CMAKE_CURRENT_LIST_DIR}/finished.c)
target_include_directories(finished PUBLIC ${CMAKE_CURRENT_SOURCE_DIR} ${PROJECT_SOURCE_DIR}/src)
target_link_libraries(finished PRIVATE fettle_warnings PUBLIC stage_base m)
add_executable(look_at ${CMAKE_CURRENT_LIST_DIR}/look_at.c)
target_link_libraries(look_at PRIVATE fettle_warnings finished)
fettle_test_uses(test_finished finished)
