likelihet_layer(colony
  HEADERS fault.hpp fault_list.hpp date.hpp nearest.hpp model_description.hpp records.hpp model.hpp colony.hpp
          counting.hpp policy.hpp hidden_characters.hpp trait_cautions.hpp family.hpp
  SOURCES trait_cautions.cpp family.cpp date.cpp wording.cpp nearest.cpp place.cpp fault_list.cpp value_checks.cpp genotype_key.cpp
          model.cpp model_locus.cpp model_origin.cpp model_marker.cpp model_evidence.cpp
          colony.cpp colony_animals.cpp colony_pedigree.cpp pedigree_time.cpp
          colony_observations.cpp counting.cpp policy.cpp hidden_characters.cpp
  PUBLIC_USES genetics base)
