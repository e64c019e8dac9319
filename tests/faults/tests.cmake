# Several processes at one book, by the program itself: what is told must be what is there.
find_package(Python3 REQUIRED COMPONENTS Interpreter)
add_test(NAME faults.writers_and_readers
  COMMAND Python3::Interpreter ${CMAKE_CURRENT_SOURCE_DIR}/faults/writers_and_readers.py
          --likelihet $<TARGET_FILE:likelihet> --models ${PROJECT_SOURCE_DIR}/models/demo
          --scratch ${CMAKE_CURRENT_BINARY_DIR}/scratch/writers_and_readers)
set_tests_properties(faults.writers_and_readers PROPERTIES TIMEOUT 3600)
