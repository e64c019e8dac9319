likelihet_test(planning_tests
  SOURCES
    ${CMAKE_CURRENT_SOURCE_DIR}/planning/kinship_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/planning/chance_mixture_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/planning/clutch_size_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/planning/young_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/planning/young_of_cell_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/planning/pair_cells_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/planning/outlook_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/planning/cautions_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/planning/rank_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/planning/proof_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/planning/joint_memory_test.cpp
  LINKS likelihet::planning likelihet::odds likelihet::documents rapidcheck)
