likelihet_layer(inference
  HEADERS network.hpp common_sum.hpp leaf_families.hpp leaf_sampler.hpp barren.hpp domains.hpp elimination.hpp
          index_map.hpp numbers.hpp loops.hpp plan.hpp lower.hpp pass.hpp pick.hpp multinomial.hpp engine.hpp random_bits.hpp
          sampling.hpp
          pairwise.hpp
  SOURCES network.cpp leaf_families.cpp leaf_sampler.cpp barren.cpp domains.cpp elimination.cpp index_map.cpp
          plan.cpp plan_buckets.cpp lower.cpp loops.cpp loops_avx2.cpp loops_avx512.cpp pass.cpp
          pass_leaves.cpp pass_families.cpp pass_below.cpp engine.cpp multinomial.cpp sampling.cpp pairwise.cpp
  PUBLIC_LINKS Boost::headers)

# The loops are compiled for several processors and chosen at run time. No multiplication may be
# fused with an addition, or results would hang on the choice.
include(CheckCXXCompilerFlag)
set(loops inference/loops.cpp inference/loops_avx2.cpp inference/loops_avx512.cpp)
set_property(SOURCE ${loops} APPEND PROPERTY COMPILE_OPTIONS -ffp-contract=off)
check_cxx_compiler_flag(-mavx2 LIKELIHET_COMPILES_AVX2)
if(LIKELIHET_COMPILES_AVX2)
  set_property(SOURCE inference/loops_avx2.cpp APPEND PROPERTY COMPILE_OPTIONS -mavx2)
endif()
check_cxx_compiler_flag(-mavx512f LIKELIHET_COMPILES_AVX512)
if(LIKELIHET_COMPILES_AVX512)
  set_property(SOURCE inference/loops_avx512.cpp APPEND PROPERTY COMPILE_OPTIONS -mavx512f)
endif()
