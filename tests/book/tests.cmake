likelihet_test(book_tests
  SOURCES
    ${CMAKE_CURRENT_SOURCE_DIR}/book/append_only_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/book/bad_files_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/book/book_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/book/checking_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/book/example.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/book/fields_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/book/kill_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/book/learned_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/book/merging_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/book/migration_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/book/random_herd.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/book/replace_model_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/book/round_trip_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/book/storage_test.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/book/two_processes_test.cpp
  LINKS likelihet::book likelihet::documents SQLiteCpp SQLite::SQLite3 Threads::Threads rapidcheck)
