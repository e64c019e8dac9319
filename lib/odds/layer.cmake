likelihet_layer(odds
  HEADERS options.hpp odds.hpp why.hpp
  SOURCES odds.cpp
  PUBLIC_USES colony PRIVATE_USES inference genetics
  PRIVATE_LINKS Eigen3::Eigen Boost::headers)
