# The sanitizers and coverage of this build have to be linked by whoever uses its archives.
set(install_flags "")
if(LIKELIHET_SANITIZE)
  string(APPEND install_flags " -fsanitize=address,undefined")
endif()
if(LIKELIHET_COVERAGE)
  string(APPEND install_flags " --coverage")
endif()
add_test(NAME install.consumer
  COMMAND ${CMAKE_COMMAND}
    -DBUILD=${PROJECT_BINARY_DIR} -DCONSUMER=${CMAKE_CURRENT_SOURCE_DIR}/install/consumer
    -DSCRATCH=${PROJECT_BINARY_DIR}/install_test -DMODELS=${PROJECT_SOURCE_DIR}/models/demo
    -DCOMPILER=${CMAKE_CXX_COMPILER} -DGENERATOR=${CMAKE_GENERATOR}
    -DCONFIGURATION=$<CONFIG> -DFLAGS=${install_flags} -DLINKER_FLAGS=${install_flags}
    "-DEXPECT=one copy: 0.666667"
    -P ${CMAKE_CURRENT_SOURCE_DIR}/install/run_install_test.cmake)
set_tests_properties(install.consumer PROPERTIES TIMEOUT 600)
