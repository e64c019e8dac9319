likelihet_layer(learning
  HEADERS counts.hpp parameters.hpp diagnostics.hpp expectation.hpp maximum.hpp chain.hpp
          dependence.hpp learn.hpp learned_text.hpp level_factors.hpp random_stream.hpp
          simulate.hpp
  SOURCES counts.cpp parameters.cpp diagnostics.cpp expectation.cpp maximum.cpp chain.cpp
          dependence.cpp learn.cpp learned_text.cpp level_factors.cpp simulate.cpp
  PUBLIC_USES odds colony inference
  PRIVATE_USES genetics
  PRIVATE_LINKS $<BUILD_INTERFACE:Boost::headers> nlohmann_json::nlohmann_json Threads::Threads)
