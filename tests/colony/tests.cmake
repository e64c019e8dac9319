likelihet_test(colony_tests
  SOURCES ${CMAKE_CURRENT_SOURCE_DIR}/colony/date_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/colony/nearest_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/colony/policy_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/colony/model_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/colony/colony_pedigree_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/colony/colony_observations_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/colony/counting_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/colony/family_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/colony/hidden_characters_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/colony/scale_test.cpp
  LINKS likelihet::colony rapidcheck)
