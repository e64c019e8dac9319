likelihet_layer(learning
  HEADERS counts.hpp parameters.hpp diagnostics.hpp expectation.hpp maximum.hpp scored_cells.hpp level_sampler.hpp chain.hpp
          dependence.hpp learn.hpp learned_text.hpp level_factors.hpp random_stream.hpp
          simulate.hpp strength_step.hpp shared_levels.hpp levels_together.hpp scorer_moves.hpp together_factors.hpp clutch_left_out.hpp
  SOURCES counts.cpp parameters.cpp diagnostics.cpp expectation.cpp maximum.cpp scored_cells.cpp level_sampler.cpp chain.cpp
          dependence.cpp learn.cpp learned_text.cpp level_factors.cpp simulate.cpp ascent.cpp extrapolation.cpp strength_step.cpp
          shared_levels.cpp levels_together.cpp scorer_moves.cpp together_factors.cpp clutch_left_out.cpp
  PUBLIC_USES odds colony inference
  PRIVATE_USES genetics
  PRIVATE_LINKS $<BUILD_INTERFACE:Eigen3::Eigen> $<BUILD_INTERFACE:Boost::headers> nlohmann_json::nlohmann_json Threads::Threads)
