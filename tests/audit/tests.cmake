likelihet_test(audited_books_tests COMPUTES STATISTICS "CalibrationOfForecasts.*:SimulatedMarkers.AUselessOneInALargeBook*"
  SOURCES
    ${CMAKE_CURRENT_SOURCE_DIR}/audit/calibration_of_forecasts_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/audit/extremes_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/audit/flow_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/audit/forecasts_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/audit/learned_draws_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/audit/level_mixture_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/audit/marker_groups_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/audit/marker_readings_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/audit/marker_subjects_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/audit/markerless_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/audit/other_trait_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/audit/repeats_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/audit/score_table_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/audit/scorers_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/audit/selection_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/audit/simulated_markers_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/audit/simulated_season.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/audit/truths_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/audit/verdict_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/audit/warnings_test.cpp
  LINKS likelihet::audit likelihet::documents rapidcheck)
likelihet_test(audit_tests
  SOURCES
    ${CMAKE_CURRENT_SOURCE_DIR}/audit/agreement_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/audit/bootstrap_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/audit/claims_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/audit/calibration_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/audit/isotonic_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/audit/multiplicity_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/audit/net_benefit_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/audit/pitfalls_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/audit/proportion_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/audit/reliability_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/audit/roc_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/audit/score_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/audit/strata_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/audit/two_by_two_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/audit/verification_test.cpp
  LINKS likelihet::audit rapidcheck)
if(NOT LIKELIHET_SANITIZE)
  likelihet_test(demo_audit_tests WHOLE
    SOURCES ${CMAKE_CURRENT_SOURCE_DIR}/audit/demo_audit_test.cpp
    LINKS likelihet::audit likelihet::documents rapidcheck)
endif()
