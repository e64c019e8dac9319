# Reports in a headless browser: needs npm, node and Chromium, and charts in the program.
find_program(LIKELIHET_NODE node)
find_program(LIKELIHET_CHROMIUM NAMES chromium chromium-browser)
if(NOT (LIKELIHET_NPM AND LIKELIHET_NODE AND LIKELIHET_CHROMIUM) OR LIKELIHET_WEB STREQUAL "OFF")
  message(STATUS "Reports are not tested in a browser: npm, node or chromium is missing")
  return()
endif()

set(browser_folder ${PROJECT_BINARY_DIR}/browser)
add_test(NAME browser.install
  COMMAND ${CMAKE_COMMAND} -DNPM=${LIKELIHET_NPM} -DFROM=${CMAKE_CURRENT_SOURCE_DIR}/browser
          -DFOLDER=${browser_folder} -P ${CMAKE_CURRENT_SOURCE_DIR}/browser/install.cmake)
set_tests_properties(browser.install PROPERTIES FIXTURES_SETUP browser LABELS browser TIMEOUT 300)
foreach(name IN ITEMS audit_full audit_empty audit_one audit_only_positive)
  add_test(NAME browser.write_${name}
    COMMAND write_report ${CMAKE_CURRENT_SOURCE_DIR}/publishing/${name}.json ${browser_folder}/${name}.html)
  set_tests_properties(browser.write_${name} PROPERTIES
    FIXTURES_SETUP browser LABELS browser DEPENDS browser.install)
endforeach()
add_test(NAME browser.report
  COMMAND ${LIKELIHET_NODE} --test report_test.js WORKING_DIRECTORY ${browser_folder})
set_tests_properties(browser.report PROPERTIES FIXTURES_REQUIRED browser LABELS browser TIMEOUT 600
  ENVIRONMENT "REPORTS=${browser_folder};CHROMIUM=${LIKELIHET_CHROMIUM}")
