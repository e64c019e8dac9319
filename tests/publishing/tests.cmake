likelihet_test(publishing_tests
  SOURCES ${CMAKE_CURRENT_SOURCE_DIR}/publishing/markup_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/publishing/fields_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/publishing/figures_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/publishing/charts_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/publishing/sections_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/publishing/table_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/publishing/audit_report_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/publishing/hostile_documents_test.cpp
  LINKS likelihet::publishing nlohmann_json::nlohmann_json rapidcheck)

# What may be said of animals.
likelihet_test(listing_tests
  SOURCES ${CMAKE_CURRENT_SOURCE_DIR}/publishing/rounding_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/publishing/non_visual_offspring_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/publishing/listing_rules_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/publishing/listing_words_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/publishing/standing_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/publishing/result_shown_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/publishing/demo_listings_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/publishing/listing_formats_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/publishing/sheet_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/publishing/printed_steps_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/publishing/random_listings_test.cpp
  LINKS likelihet::publishing likelihet::documents nlohmann_json::nlohmann_json fmt::fmt enumeration)
likelihet_test(earned_markers_tests WHOLE
  SOURCES ${CMAKE_CURRENT_SOURCE_DIR}/publishing/markers_earned_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/publishing/marked_claims_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/audit/simulated_season.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/book/example.cpp
  LINKS likelihet::publishing likelihet::book likelihet::documents rapidcheck)

# The report of a document, for the tests in a browser.
add_executable(write_report ${CMAKE_CURRENT_SOURCE_DIR}/publishing/write_report.cpp)
target_link_libraries(write_report PRIVATE likelihet::publishing
                                           likelihet_report_scripts likelihet_warnings)

# Listings and sheets, for the same.
add_executable(write_sheets ${CMAKE_CURRENT_SOURCE_DIR}/publishing/write_sheets.cpp)
target_include_directories(write_sheets PRIVATE ${PROJECT_SOURCE_DIR}/tests)
target_link_libraries(write_sheets PRIVATE likelihet::publishing likelihet_warnings)

# The published schema against the samples, and against broken ones.
find_program(LIKELIHET_PYTHON python3 PATHS /usr/bin NO_DEFAULT_PATH)
if(LIKELIHET_PYTHON)
  add_test(NAME publishing.schema
    COMMAND ${LIKELIHET_PYTHON} ${CMAKE_CURRENT_SOURCE_DIR}/publishing/schema_test.py
            ${PROJECT_SOURCE_DIR})
endif()

# What was published, and whether it holds.
likelihet_test(claims_tests
  SOURCES ${CMAKE_CURRENT_SOURCE_DIR}/publishing/claims_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/publishing/claims_of_loci_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/publishing/verification_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/book/example.cpp
  LINKS likelihet::publishing likelihet::book likelihet::documents nlohmann_json::nlohmann_json rapidcheck)
