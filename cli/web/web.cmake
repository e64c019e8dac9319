# The script that draws the charts of reports: bundled with npm in the build tree, then assembled into
# the program. Without it the program is whole but for the charts.
set(LIKELIHET_WEB AUTO CACHE STRING
  "The chart script of reports: AUTO takes it where npm can make it, ON insists on it, OFF leaves it out")
set_property(CACHE LIKELIHET_WEB PROPERTY STRINGS AUTO ON OFF)
find_program(LIKELIHET_NPM npm)
if(LIKELIHET_WEB STREQUAL "ON" AND NOT LIKELIHET_NPM)
  message(FATAL_ERROR "LIKELIHET_WEB is ON, but there is no npm")
endif()

set(web_sources package.json package-lock.json .npmrc build.js report.js)
list(TRANSFORM web_sources PREPEND ${CMAKE_CURRENT_SOURCE_DIR}/web/)
set(web_folder ${PROJECT_BINARY_DIR}/web)
set(web_script ${web_folder}/report.min.js)
if(LIKELIHET_NPM AND NOT LIKELIHET_WEB STREQUAL "OFF")
  add_custom_command(OUTPUT ${web_script}
    COMMAND ${CMAKE_COMMAND} -DNPM=${LIKELIHET_NPM} -DFOLDER=${web_folder} -DSCRIPT=${web_script}
            "-DSOURCES=${web_sources}" -DWEB=${LIKELIHET_WEB}
            -P ${CMAKE_CURRENT_SOURCE_DIR}/web/bundle.cmake
    DEPENDS ${web_sources} ${CMAKE_CURRENT_SOURCE_DIR}/web/bundle.cmake
    COMMENT "Bundling the chart script of reports" VERBATIM)
else()
  message(STATUS "Reports will have tables but no charts: npm is missing or LIKELIHET_WEB is OFF")
  file(WRITE ${web_script} "")
endif()

# A library of its own, so that tests can have the script without the rest of the program.
enable_language(ASM)
add_library(likelihet_report_scripts STATIC report_scripts.cpp web/report_scripts.S)
target_include_directories(likelihet_report_scripts PUBLIC ${CMAKE_CURRENT_SOURCE_DIR})
target_link_libraries(likelihet_report_scripts PRIVATE likelihet_warnings)
target_compile_features(likelihet_report_scripts PRIVATE cxx_std_20)
set_source_files_properties(web/report_scripts.S PROPERTIES
  OBJECT_DEPENDS ${web_script} INCLUDE_DIRECTORIES ${web_folder})
