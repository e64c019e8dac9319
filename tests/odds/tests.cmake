likelihet_test(odds_tests
  SOURCES
    ${CMAKE_CURRENT_SOURCE_DIR}/odds/account_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/odds/memory_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/odds/evidence_appearance_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/odds/evidence_brood_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/odds/evidence_result_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/odds/evidence_score_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/odds/intervals_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/odds/scenario_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/odds/tables_test.cpp
  LINKS likelihet::odds likelihet::documents Boost::headers rapidcheck)
