likelihet_test(fuzz_tests
  SOURCES ${CMAKE_CURRENT_SOURCE_DIR}/fuzz/mutation_test.cpp
  LINKS likelihet::documents)

# Coverage-guided fuzzing, by hand: configure with -DLIKELIHET_FUZZ=ON -DLIKELIHET_SANITIZE=ON and
# clang++, then run reader_fuzz on a copy of tests/fuzz/corpus.
option(LIKELIHET_FUZZ "Build the fuzzing target (clang only)" OFF)
if(LIKELIHET_FUZZ)
  if(NOT CMAKE_CXX_COMPILER_ID STREQUAL "Clang")
    message(FATAL_ERROR "LIKELIHET_FUZZ needs clang: configure with -DCMAKE_CXX_COMPILER=clang++")
  endif()
  add_executable(reader_fuzz ${CMAKE_CURRENT_SOURCE_DIR}/fuzz/reader_fuzz.cpp)
  target_include_directories(reader_fuzz PRIVATE ${PROJECT_SOURCE_DIR}/tests)
  target_compile_options(reader_fuzz PRIVATE -fsanitize=fuzzer)
  target_link_options(reader_fuzz PRIVATE -fsanitize=fuzzer)
  target_link_libraries(reader_fuzz PRIVATE likelihet::documents likelihet_warnings)
endif()
