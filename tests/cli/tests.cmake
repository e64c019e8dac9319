likelihet_test(cli_tests
  SOURCES ${CMAKE_CURRENT_SOURCE_DIR}/cli/account_output_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/cli/add_records_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/cli/arguments_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/cli/choices_output_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/cli/claims_commands_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/cli/document_input_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/cli/failure_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/cli/moves_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/cli/odds_output_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/cli/percent_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/cli/planning_output_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/cli/printable_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/cli/program_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/cli/recording_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/cli/table_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/cli/terminal_test.cpp
  LINKS likelihet_cli rapidcheck)
likelihet_test(audit_command_tests WHOLE
  SOURCES ${CMAKE_CURRENT_SOURCE_DIR}/cli/audit_output_test.cpp
  LINKS likelihet_cli rapidcheck)
# Every option that names a file to write spares what is there.
add_test(NAME cli.output_files
  COMMAND Python3::Interpreter ${CMAKE_CURRENT_SOURCE_DIR}/cli/output_files_test.py $<TARGET_FILE:likelihet>)
# Signals end every command and leave nothing; learn outlasts a lock.
add_test(NAME cli.signals
  COMMAND Python3::Interpreter ${CMAKE_CURRENT_SOURCE_DIR}/cli/signals_test.py $<TARGET_FILE:likelihet>)
