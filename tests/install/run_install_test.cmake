# Installs a build to a scratch prefix, then configures, builds and runs a project that uses it.
# cmake -DBUILD=... -DCONSUMER=... -DSCRATCH=... -DMODELS=... -DCOMPILER=... -DGENERATOR=...
#       -DCONFIGURATION=... -DEXPECT=... -P run_install_test.cmake
function(run)
  execute_process(COMMAND ${ARGN} RESULT_VARIABLE status OUTPUT_VARIABLE out ERROR_VARIABLE out)
  if(NOT status EQUAL 0)
    list(JOIN ARGN " " command)
    message(FATAL_ERROR "${command}\nended with ${status}:\n${out}")
  endif()
  set(out "${out}" PARENT_SCOPE)
endfunction()

file(REMOVE_RECURSE ${SCRATCH})
run(${CMAKE_COMMAND} --install ${BUILD} --prefix ${SCRATCH}/prefix --config ${CONFIGURATION})
run(${CMAKE_COMMAND} -S ${CONSUMER} -B ${SCRATCH}/build -G ${GENERATOR}
    -DCMAKE_PREFIX_PATH=${SCRATCH}/prefix -DCMAKE_CXX_COMPILER=${COMPILER}
    -DCMAKE_BUILD_TYPE=${CONFIGURATION} "-DCMAKE_CXX_FLAGS=${FLAGS}"
    "-DCMAKE_EXE_LINKER_FLAGS=${LINKER_FLAGS}")
run(${CMAKE_COMMAND} --build ${SCRATCH}/build --config ${CONFIGURATION})
run(${SCRATCH}/build/consumer ${MODELS}/model.json ${MODELS}/colony.json 23-C2-07)
string(STRIP "${out}" out)
if(NOT out STREQUAL EXPECT)
  message(FATAL_ERROR "the consumer printed '${out}', not '${EXPECT}'")
endif()
message(STATUS "${out}")
