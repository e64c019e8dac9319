likelihet_layer(planning
  HEADERS
    draw.hpp
    goal.hpp
    greedy.hpp
    holdbacks.hpp
    information.hpp
    kept_sets.hpp
    next_test.hpp
    report_effects.hpp
    report_tree.hpp
    supposed_book.hpp
    test_candidates.hpp
    worth.hpp
  SOURCES
    goal.cpp
    greedy.cpp
    holdbacks.cpp
    information.cpp
    kept_sets.cpp
    next_test.cpp
    report_effects.cpp
    report_tree.cpp
    supposed_book.cpp
    test_candidates.cpp
    worth.cpp
  PUBLIC_USES colony odds inference genetics
  PRIVATE_LINKS fmt::fmt)
