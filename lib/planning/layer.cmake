likelihet_layer(planning
  HEADERS
    kinship.hpp
    clutch_size.hpp
    chance_mixture.hpp
    young.hpp
    young_of_cell.hpp
    pair_cells.hpp
    outlook.hpp
    goal.hpp
    rank.hpp
    cautions.hpp
    proof.hpp
  SOURCES
    kinship.cpp
    clutch_size.cpp
    chance_mixture.cpp
    young.cpp
    young_of_cell.cpp
    pair_cells.cpp
    outlook.cpp
    cautions.cpp
    goal.cpp
    rank.cpp
    proof.cpp
    proof_odds.cpp
  PUBLIC_USES colony odds genetics
  PRIVATE_LINKS $<BUILD_INTERFACE:Boost::headers> fmt::fmt)
