# The fuzzer compiles the reader anew, so that all of it is instrumented.
if(FETTLE_FUZZ)
  file(GLOB fuzzed CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/src/base/*.c ${PROJECT_SOURCE_DIR}/src/job/*.c)
  add_executable(fuzz_job fuzz/fuzz_job.c ${fuzzed})
  target_include_directories(fuzz_job PRIVATE ${PROJECT_SOURCE_DIR}/include ${PROJECT_SOURCE_DIR}/src)
  target_compile_options(fuzz_job PRIVATE -g -O1 -fsanitize=fuzzer,address,undefined)
  target_link_options(fuzz_job PRIVATE -fsanitize=fuzzer,address,undefined)
  target_link_libraries(fuzz_job PRIVATE PkgConfig::YAML PkgConfig::MD PkgConfig::CJSON m)
endif()
