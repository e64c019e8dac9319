# Lays the browser tests into the build tree with the packages that they need.
# cmake -DNPM=... -DFROM=... -DFOLDER=... -P install.cmake
file(MAKE_DIRECTORY ${FOLDER})
file(COPY ${FROM}/package.json ${FROM}/package-lock.json ${FROM}/.npmrc ${FROM}/pages.js
          ${FROM}/report_test.js ${FROM}/sheets_test.js
     DESTINATION ${FOLDER})
execute_process(COMMAND ${NPM} ci WORKING_DIRECTORY ${FOLDER} COMMAND_ERROR_IS_FATAL ANY)
