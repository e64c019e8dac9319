likelihet_layer(inference
  HEADERS network.hpp
  SOURCES network.cpp)
