# Pages in a headless browser: needs npm, node and Chromium; codes are read where zbarimg is there.
find_program(LIKELIHET_NPM npm)
find_program(LIKELIHET_NODE node)
find_program(LIKELIHET_CHROMIUM NAMES chromium chromium-browser)
find_program(LIKELIHET_ZBARIMG zbarimg)
if(NOT (LIKELIHET_NPM AND LIKELIHET_NODE AND LIKELIHET_CHROMIUM))
  message(STATUS "Pages are not tested in a browser: npm, node or chromium is missing")
  return()
endif()

set(browser_folder ${PROJECT_BINARY_DIR}/browser)
add_test(NAME browser.install
  COMMAND ${CMAKE_COMMAND} -DNPM=${LIKELIHET_NPM} -DFROM=${CMAKE_CURRENT_SOURCE_DIR}/browser
          -DFOLDER=${browser_folder} -P ${CMAKE_CURRENT_SOURCE_DIR}/browser/install.cmake)
set_tests_properties(browser.install PROPERTIES FIXTURES_SETUP browser LABELS browser TIMEOUT 300)
set(browser_environment "REPORTS=${browser_folder};CHROMIUM=${LIKELIHET_CHROMIUM}")

add_test(NAME browser.write_sheets COMMAND write_sheets ${browser_folder})
set_tests_properties(browser.write_sheets PROPERTIES
  FIXTURES_SETUP browser LABELS browser DEPENDS browser.install)
set(sheets_environment ${browser_environment})
if(LIKELIHET_ZBARIMG)
  list(APPEND sheets_environment "ZBARIMG=${LIKELIHET_ZBARIMG}")
endif()
add_test(NAME browser.sheets
  COMMAND ${LIKELIHET_NODE} --test sheets_test.js WORKING_DIRECTORY ${browser_folder})
set_tests_properties(browser.sheets PROPERTIES FIXTURES_REQUIRED browser LABELS browser TIMEOUT 600
  ENVIRONMENT "${sheets_environment}")

# Reports need their charts.
if(LIKELIHET_WEB STREQUAL "OFF")
  return()
endif()
foreach(name IN ITEMS audit_full audit_empty audit_one audit_only_positive)
  add_test(NAME browser.write_${name}
    COMMAND write_report ${CMAKE_CURRENT_SOURCE_DIR}/publishing/${name}.json ${browser_folder}/${name}.html)
  set_tests_properties(browser.write_${name} PROPERTIES
    FIXTURES_SETUP browser LABELS browser DEPENDS browser.install)
endforeach()
add_test(NAME browser.report
  COMMAND ${LIKELIHET_NODE} --test report_test.js WORKING_DIRECTORY ${browser_folder})
set_tests_properties(browser.report PROPERTIES FIXTURES_REQUIRED browser LABELS browser TIMEOUT 600
  ENVIRONMENT "${browser_environment}")
