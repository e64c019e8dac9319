# Random colonies, and every joint state of one gone through: what several test programs compare with.
add_library(enumeration STATIC
  ${CMAKE_CURRENT_SOURCE_DIR}/properties/joint_state.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/properties/evidence_by_definition.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/properties/enumeration.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/properties/random_colony.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/properties/random_model.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/properties/random_records.cpp)
target_include_directories(enumeration PUBLIC ${PROJECT_SOURCE_DIR}/tests)
target_link_libraries(enumeration PUBLIC likelihet::odds likelihet::documents rapidcheck fmt::fmt PRIVATE likelihet_warnings)

likelihet_test(property_tests COMPUTES
  SOURCES ${CMAKE_CURRENT_SOURCE_DIR}/properties/enumeration_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/properties/explanations_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/properties/invariance_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/properties/random_colony_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/properties/joint_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/properties/joint_margins_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/properties/outlook_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/properties/prove_out_steps_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/properties/supposed_random_test.cpp
  LINKS likelihet::planning enumeration)
