likelihet_layer(odds
  HEADERS options.hpp odds.hpp why.hpp words.hpp percent.hpp quantiles.hpp tables.hpp scenario.hpp evidence_appearance.hpp
          evidence_score.hpp strength.hpp evidence_result.hpp evidence_brood.hpp term.hpp term_numbers.hpp colony_network.hpp renewal.hpp
          layers.hpp
          number_sets.hpp table_draws.hpp joint.hpp supposed.hpp intervals.hpp surprises.hpp contradiction.hpp
  SOURCES odds.cpp words.cpp percent.cpp quantiles.cpp tables.cpp scenario.cpp evidence_appearance.cpp evidence_score.cpp strength.cpp
          evidence_result.cpp evidence_brood.cpp term_numbers.cpp colony_network.cpp renewal.cpp network_builder.cpp
          network_builder_factors.cpp network_builder_scores.cpp layers.cpp number_sets.cpp table_draws.cpp joint.cpp supposed.cpp intervals.cpp surprises.cpp reasons.cpp
          contradiction.cpp why.cpp history.cpp
  PUBLIC_USES colony genetics inference
  PRIVATE_LINKS fmt::fmt $<BUILD_INTERFACE:Eigen3::Eigen> $<BUILD_INTERFACE:Boost::headers>)
