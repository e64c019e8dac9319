likelihet_test(audited_books_tests
  SOURCES
    ${CMAKE_CURRENT_SOURCE_DIR}/audit/calibration_of_forecasts_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/audit/extremes_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/audit/forecasts_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/audit/simulated_marks_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/audit/simulated_season.cpp
  LINKS likelihet::audit)
