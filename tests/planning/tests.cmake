likelihet_test(planning_tests
  SOURCES
    ${CMAKE_CURRENT_SOURCE_DIR}/planning/kinship_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/planning/chance_mixture_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/planning/clutch_size_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/planning/offspring_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/planning/offspring_of_cell_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/planning/pair_cells_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/planning/outlook_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/planning/outlook_extremes_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/planning/cautions_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/planning/rank_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/planning/prove_out_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/planning/joint_memory_test.cpp
  LINKS likelihet::planning likelihet::odds likelihet::documents rapidcheck)

# Samples and holdbacks, against enumeration.
likelihet_test(choice_tests COMPUTES
  SOURCES
    ${CMAKE_CURRENT_SOURCE_DIR}/planning/bounds_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/planning/by_enumeration.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/planning/choice_laws_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/planning/keep_goal_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/planning/holdbacks_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/planning/information_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/planning/kept_sets_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/planning/next_test_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/planning/report_effects_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/planning/report_tree_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/planning/test_candidates_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/planning/worth_test.cpp
  LINKS likelihet::planning likelihet::documents enumeration)
