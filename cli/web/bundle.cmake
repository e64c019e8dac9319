# Installs what the chart script needs and bundles it. Where that fails and WEB is AUTO, the script is
# left empty, and reports do without charts.
# cmake -DNPM=... -DFOLDER=... -DSCRIPT=... -DSOURCES=... -DWEB=AUTO|ON -P bundle.cmake
file(MAKE_DIRECTORY ${FOLDER})
file(COPY ${SOURCES} DESTINATION ${FOLDER})
set(status 0)
foreach(step IN ITEMS "ci" "run;build")
  if(status EQUAL 0)
    execute_process(COMMAND ${NPM} ${step} WORKING_DIRECTORY ${FOLDER} TIMEOUT 300
      RESULT_VARIABLE status OUTPUT_VARIABLE said ERROR_VARIABLE said)
  endif()
endforeach()
if(status EQUAL 0)
  return()
elseif(WEB STREQUAL "ON")
  message(FATAL_ERROR "npm could not bundle the chart script (${status}):\n${said}")
endif()
message("Reports will have tables but no charts: npm could not bundle the chart script (${status}).\n"
        "To try again, remove ${SCRIPT}")
file(WRITE ${SCRIPT} "")
