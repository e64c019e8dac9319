likelihet_test(documents_tests
  SOURCES ${CMAKE_CURRENT_SOURCE_DIR}/documents/broken_documents_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/documents/json_text_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/documents/model_document_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/documents/colony_document_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/documents/policy_document_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/documents/random_policies_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/documents/evidence_digest_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/documents/csv_table_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/documents/csv_cells_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/documents/csv_records_test.cpp
  LINKS likelihet::documents nlohmann_json::nlohmann_json rapidcheck)

# The published schemas against the same samples and the same broken documents.
find_program(LIKELIHET_PYTHON python3 PATHS /usr/bin NO_DEFAULT_PATH)
if(LIKELIHET_PYTHON)
  add_test(NAME documents.schema
    COMMAND ${LIKELIHET_PYTHON} ${CMAKE_CURRENT_SOURCE_DIR}/documents/schema_test.py
            ${PROJECT_SOURCE_DIR})
endif()
