# Tests of the whole program, in one process: they share the generator of random jobs.
set(random_jobs ${CMAKE_CURRENT_LIST_DIR}/random_job.c ${CMAKE_CURRENT_LIST_DIR}/random_draft.c ${CMAKE_CURRENT_LIST_DIR}/random_tests.c)
file(GLOB programs CONFIGURE_DEPENDS ${CMAKE_CURRENT_LIST_DIR}/test_*.c)
foreach(source IN LISTS programs)
  get_filename_component(name ${source} NAME_WE)
  target_sources(${name} PRIVATE ${random_jobs})
  fettle_test_uses(${name} stage_run)
endforeach()
target_sources(test_numbers PRIVATE ${CMAKE_CURRENT_LIST_DIR}/printed.c ${CMAKE_CURRENT_LIST_DIR}/results_path.c
  ${CMAKE_CURRENT_LIST_DIR}/sentences.c)
foreach(name IN ITEMS test_all_papers test_torture_jobs test_page_words)
  target_sources(${name} PRIVATE ${CMAKE_CURRENT_LIST_DIR}/typeset.c)
  fettle_test_uses(${name} finished)
endforeach()
target_sources(test_saw_trial PRIVATE ${CMAKE_CURRENT_LIST_DIR}/printed.c)
target_sources(test_rebuild PRIVATE ${CMAKE_CURRENT_LIST_DIR}/rebuild.c ${CMAKE_CURRENT_LIST_DIR}/printed.c
  ${CMAKE_CURRENT_LIST_DIR}/results_path.c ${CMAKE_CURRENT_LIST_DIR}/sentences.c)
