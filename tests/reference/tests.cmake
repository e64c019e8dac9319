likelihet_test(reference_tests COMPUTES
  SOURCES ${CMAKE_CURRENT_SOURCE_DIR}/reference/audit_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/reference/dystrophy_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/reference/halves.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/reference/hemophilia_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/reference/jags_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/reference/learning_jags_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/reference/logistic_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/reference/two_classes.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/reference/kinship_test.cpp
  LINKS likelihet::planning likelihet::audit likelihet::learning likelihet::odds likelihet::documents)
