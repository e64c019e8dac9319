likelihet_layer(colony
  HEADERS fault.hpp date.hpp nearest.hpp model_description.hpp records.hpp model.hpp colony.hpp
          counting.hpp
  SOURCES date.cpp nearest.cpp model.cpp model_locus.cpp model_evidence.cpp colony.cpp
          colony_pedigree.cpp colony_observations.cpp counting.cpp
  PUBLIC_USES genetics)
