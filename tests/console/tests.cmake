# Each transcript, and each document with commands in it, is a test of its own.
find_package(Python3 REQUIRED COMPONENTS Interpreter)

function(likelihet_transcript name file)
  add_test(NAME console.${name}
    COMMAND Python3::Interpreter ${CMAKE_CURRENT_SOURCE_DIR}/console/run_transcript.py
            --likelihet $<TARGET_FILE:likelihet> --scratch ${CMAKE_CURRENT_BINARY_DIR}/scratch/${name}
            ${ARGN} ${file})
  set_tests_properties(console.${name} PROPERTIES TIMEOUT 1200)  # audits, instrumented
endfunction()

file(GLOB transcripts CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/console/*.transcript)
foreach(transcript IN LISTS transcripts)
  cmake_path(GET transcript STEM name)
  # Each has audits in it, minutes with instruments; test programs run the same there.
  if(LIKELIHET_SANITIZE AND name MATCHES "^(audit|claims|listing|next_test)$")
    continue()
  endif()
  likelihet_transcript(${name} ${transcript})
endforeach()

# What the documents show is what happens: a matter of words.
set(documents README.md docs/commands.md)
if(LIKELIHET_SANITIZE)
  set(documents "")
endif()
foreach(document IN LISTS documents)
  cmake_path(GET document STEM name)
  likelihet_transcript(document_${name} ${PROJECT_SOURCE_DIR}/${document} --document)
endforeach()

# Every command, option, exit status and schema is in the documents.
add_test(NAME console.documents_are_complete
  COMMAND Python3::Interpreter ${CMAKE_CURRENT_SOURCE_DIR}/console/documents_are_complete.py
          $<TARGET_FILE:likelihet>)
# The runner finds what differs.
add_test(NAME console.runner
  COMMAND Python3::Interpreter ${CMAKE_CURRENT_SOURCE_DIR}/console/run_transcript_test.py)

include(${CMAKE_CURRENT_SOURCE_DIR}/cli/tests.cmake)
