// The loops over eight lanes for AVX2; the build compiles this file for it where the compiler can.
#include <likelihet/inference/lane_kind.hpp>
#include <likelihet/inference/wide_loops.hpp>

namespace likelihet::inference {

#ifdef __AVX2__
namespace {
struct ThisFile;
constexpr Loops<Lanes<8>> table = LoopBodies<LaneKind<32, ThisFile>>::table();
}  // namespace

const Loops<Lanes<8>>* avx2_loops() {
  return &table;
}
#else
const Loops<Lanes<8>>* avx2_loops() {
  return nullptr;
}
#endif

}  // namespace likelihet::inference
