likelihet_test(reference_tests
  SOURCES ${CMAKE_CURRENT_SOURCE_DIR}/reference/jags_test.cpp
  LINKS likelihet::odds likelihet::documents)
