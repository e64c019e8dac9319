likelihet_test(cli_tests
  SOURCES ${CMAKE_CURRENT_SOURCE_DIR}/cli/add_records_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/cli/arguments_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/cli/failure_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/cli/moves_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/cli/percent_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/cli/printable_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/cli/program_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/cli/recording_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/cli/table_test.cpp
  LINKS likelihet_cli rapidcheck)
