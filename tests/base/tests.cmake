likelihet_test(base_tests
  SOURCES ${CMAKE_CURRENT_SOURCE_DIR}/base/hexadecimal_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/base/log_odds_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/base/shortest_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/base/utf8_test.cpp
  LINKS likelihet::base rapidcheck)
