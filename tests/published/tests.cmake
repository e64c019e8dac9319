likelihet_test(published_tests
  SOURCES ${CMAKE_CURRENT_SOURCE_DIR}/published/worked_colony.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/published/bugs_pigs_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/published/gelman_xlinked_sons_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/published/negative_carrier_test_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/published/gelman_brown_eyes_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/published/first_cousins_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/published/test_mating_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/published/mixed_mates_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/published/clear_young_table_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/published/johnson_wichern_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/published/criss_cross_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/published/wright_inbreeding_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/published/possible_het_table_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/published/demo_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/published/taught.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/published/begg_greenes_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/published/hui_walter_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/published/dawid_skene_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/published/dentistry_test.cpp
          ${CMAKE_CURRENT_SOURCE_DIR}/published/pigs_frequency_test.cpp
  LINKS likelihet::learning likelihet::odds likelihet::documents nlohmann_json::nlohmann_json Boost::headers
        Eigen3::Eigen)
