# Several processes at one book, by the program itself: what is told must be what is there.
find_package(Python3 REQUIRED COMPONENTS Interpreter)
add_test(NAME faults.writers_and_readers
  COMMAND Python3::Interpreter ${CMAKE_CURRENT_SOURCE_DIR}/faults/writers_and_readers.py
          --likelihet $<TARGET_FILE:likelihet> --models ${PROJECT_SOURCE_DIR}/models/demo
          --scratch ${CMAKE_CURRENT_BINARY_DIR}/scratch/writers_and_readers)
set_tests_properties(faults.writers_and_readers PROPERTIES TIMEOUT 3600)

# Calls to the operating system that fail, or at which the process is killed.
add_library(failing_calls MODULE ${CMAKE_CURRENT_SOURCE_DIR}/faults/failing_calls.cpp)
target_link_libraries(failing_calls PRIVATE likelihet_warnings ${CMAKE_DL_LIBS})
add_test(NAME faults.failing_calls
  COMMAND Python3::Interpreter ${CMAKE_CURRENT_SOURCE_DIR}/faults/failing_calls.py
          --likelihet $<TARGET_FILE:likelihet> --shim $<TARGET_FILE:failing_calls>
          --models ${PROJECT_SOURCE_DIR}/models/demo
          --scratch ${CMAKE_CURRENT_BINARY_DIR}/scratch/failing_calls)
set_tests_properties(faults.failing_calls PROPERTIES TIMEOUT 7200)

# Long documents of nothing but faults.
add_test(NAME faults.memory_of_nonsense
  COMMAND Python3::Interpreter ${CMAKE_CURRENT_SOURCE_DIR}/faults/memory_of_nonsense.py
          --likelihet $<TARGET_FILE:likelihet> --model ${PROJECT_SOURCE_DIR}/models/one-recessive.json)

# What may be taken is what is taken.
add_test(NAME faults.memory_allowed
  COMMAND Python3::Interpreter ${CMAKE_CURRENT_SOURCE_DIR}/faults/memory_allowed.py --likelihet $<TARGET_FILE:likelihet>)
