// The loops for any processor, and the choice among those over eight lanes.
#include <stdexcept>

#include <likelihet/inference/lane_kind.hpp>
#include <likelihet/inference/wide_loops.hpp>

namespace likelihet::inference {

namespace {

struct ThisFile;

struct DoubleKind {
  using Number = double;
  using Piece = double;
  static double fill(double value) { return value; }
  static double quotient(double a, double b) { return divide(a, b); }
  static double larger(double a, double b) { return b > a ? b : a; }
  static bool in_range(double a) { return a > 0x1p-64 && a < 0x1p64; }
};

// Nothing is ever out of range: these numbers carry their exponents themselves.
struct ExtendedKind {
  using Number = Extended;
  using Piece = Extended;
  static Extended fill(double value) { return Extended(value); }
  static Extended quotient(const Extended& a, const Extended& b) { return divide(a, b); }
  static Extended larger(const Extended& a, const Extended& /*b*/) { return a; }
  static bool in_range(const Extended& /*a*/) { return true; }
};

const Loops<Lanes<8>>* compiled(Instructions instructions) {
  static constexpr Loops<Lanes<8>> portable = LoopBodies<LaneKind<16, ThisFile>>::table();
  if (instructions == Instructions::avx2) return avx2_loops();
  if (instructions == Instructions::avx512) return avx512_loops();
  return &portable;
}

bool processor_has(Instructions instructions) {
  if (instructions == Instructions::portable) return true;
#if defined(__x86_64__) || defined(__i386__)
  // Both ask the operating system, too, whether it keeps the wide registers.
  if (instructions == Instructions::avx2) return __builtin_cpu_supports("avx2") != 0;
  if (instructions == Instructions::avx512) return __builtin_cpu_supports("avx512f") != 0;
#endif
  return false;
}

}  // namespace

template <>
const Loops<double>& loops<double>() {
  static constexpr Loops<double> table = LoopBodies<DoubleKind>::table();
  return table;
}

template <>
const Loops<Extended>& loops<Extended>() {
  static constexpr Loops<Extended> table = LoopBodies<ExtendedKind>::table();
  return table;
}

template <>
const Loops<Lanes<8>>& loops<Lanes<8>>() {
  for (Instructions wide : {Instructions::avx512, Instructions::avx2}) {
    if (can_run(wide)) return lane_loops(wide);
  }
  return lane_loops(Instructions::portable);
}

bool can_run(Instructions instructions) {
  return processor_has(instructions) && compiled(instructions) != nullptr;
}

const Loops<Lanes<8>>& lane_loops(Instructions instructions) {
  if (!can_run(instructions)) {
    throw std::invalid_argument("these instructions are not in this build or this processor");
  }
  return *compiled(instructions);
}

}  // namespace likelihet::inference
