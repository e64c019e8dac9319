likelihet_layer(inference
  HEADERS network.hpp leaf_families.hpp domains.hpp elimination.hpp index_map.hpp numbers.hpp
          plan.hpp pass.hpp engine.hpp sampling.hpp pairwise.hpp
  SOURCES network.cpp leaf_families.cpp domains.cpp elimination.cpp index_map.cpp plan.cpp
          plan_buckets.cpp pass.cpp pass_leaves.cpp engine.cpp
          sampling.cpp pairwise.cpp)
