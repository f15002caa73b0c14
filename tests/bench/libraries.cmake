# Programs that time something: built only when asked for by name.
add_executable(bench_stock EXCLUDE_FROM_ALL bench/bench_stock.c)
target_include_directories(bench_stock PRIVATE ${CMAKE_CURRENT_SOURCE_DIR}/stock)
target_compile_definitions(bench_stock PRIVATE OPEN_DATA="${shared}/data")
target_link_libraries(bench_stock PRIVATE fettle_warnings stage_stock)
