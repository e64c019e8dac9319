likelihet_layer(genetics
  HEADERS sex.hpp genotype.hpp locus.hpp gamete.hpp mendel.hpp transmission.hpp founder.hpp copies.hpp
  SOURCES copies.cpp locus.cpp looks.cpp gamete.cpp mendel.cpp transmission.cpp founder.cpp)
