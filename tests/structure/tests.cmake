# The rules of the tree that a compiler does not hold.
find_package(Python3 REQUIRED COMPONENTS Interpreter)
foreach(rule IN ITEMS lib_is_silent sql_only_in_book top_level includes_point_down sources_are_not_included short_files
                      layers_declare_what_they_use nothing_names_this_machine every_test_is_built
                      printed_lines_fit one_word_for_one_thing)
  add_test(NAME structure.${rule}
    COMMAND Python3::Interpreter ${CMAKE_CURRENT_SOURCE_DIR}/structure/check_structure.py ${rule}
            ${PROJECT_SOURCE_DIR})
endforeach()
add_test(NAME structure.rules_find_breaches
  COMMAND Python3::Interpreter ${CMAKE_CURRENT_SOURCE_DIR}/structure/check_structure_test.py)
