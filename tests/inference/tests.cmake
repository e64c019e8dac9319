find_package(Boost 1.74 REQUIRED)
likelihet_test(inference_tests COMPUTES
  SOURCES
    ${CMAKE_CURRENT_SOURCE_DIR}/inference/barren_random_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/inference/barren_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/inference/brute_force.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/inference/domains_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/inference/elimination_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/inference/engine_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/inference/leaf_families_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/inference/loops_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/inference/min_fill_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/inference/multinomial_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/inference/numbers_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/inference/pairwise_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/inference/pass_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/inference/plan_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/inference/random_descent.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/inference/random_bits_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/inference/sampling_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/inference/families_test.cpp
  LINKS likelihet::inference Boost::headers)

# Sanitizers and coverage bring functions of their own.
if(CMAKE_NM AND NOT LIKELIHET_SANITIZE AND NOT LIKELIHET_COVERAGE)
  find_package(Python3 REQUIRED COMPONENTS Interpreter)
  add_test(NAME inference.wide_loops_stay_apart
    COMMAND Python3::Interpreter ${CMAKE_CURRENT_SOURCE_DIR}/inference/wide_loops_stay_apart.py
            ${CMAKE_NM} $<TARGET_OBJECTS:likelihet_inference>
    COMMAND_EXPAND_LISTS)
endif()
