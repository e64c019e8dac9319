likelihet_test(learning_tests COMPUTES STATISTICS "Calibration.*"
  SOURCES
    ${CMAKE_CURRENT_SOURCE_DIR}/learning/calibration_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/learning/chain_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/learning/counts_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/learning/dependence_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/learning/diagnostics_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/learning/expectation_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/learning/extremes_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/learning/learn_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/learning/level_factors_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/learning/levels_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/learning/maximum_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/learning/together_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/learning/starts_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/bench/pedigree.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/bench/recorded_herd.cpp
  LINKS likelihet::learning Boost::headers)
