likelihet_test(genetics_tests
  SOURCES ${CMAKE_CURRENT_SOURCE_DIR}/genetics/locus_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/genetics/copies_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/genetics/looks_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/genetics/transmission_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/genetics/mendel_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/genetics/founder_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/genetics/sex_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/genetics/viability_test.cpp
  LINKS likelihet::colony likelihet::genetics rapidcheck)
