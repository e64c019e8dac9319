// What the leaves of a pair say together: the product of their tables, cell by cell.
#include <algorithm>
#include <array>
#include <cmath>
#include <span>
#include <type_traits>

#include <likelihet/inference/pass.hpp>
#include <likelihet/inference/product.hpp>

namespace likelihet::inference {

namespace {

// No more leaves than this, of sums of at most 2, are a small family: a product in range was then
// never far out of it on the way.
constexpr std::uint32_t small_family = 32;

// A table that is multiplied in so many times.
struct Repeated {
  const double* from;
  std::uint32_t count;
};

// Whether the product of these `n` cells of all of them is large enough to trust.
template <std::size_t n>
bool multiply_repeated(double* to, const std::uint32_t* cells, std::span<const Repeated> factors) {
  std::array<double, n> product;
  product.fill(1.0);
  for (const Repeated& factor : factors) {
    std::array<double, n> one;
    for (std::size_t c = 0; c < n; ++c) one[c] = factor.from[cells[c]];
    for (std::uint32_t k = 0; k < factor.count; ++k) {
      for (std::size_t c = 0; c < n; ++c) product[c] *= one[c];
    }
  }
  std::copy(product.begin(), product.end(), to);
  double largest = 0;
  for (double value : product) largest = value > largest ? value : largest;
  return largest > 0x1p-64;
}

bool multiply_few(double* to, std::span<const std::uint32_t> cells,
                  std::span<const Repeated> factors) {
  switch (cells.size()) {
    case 1:
      return multiply_repeated<1>(to, cells.data(), factors);
    case 2:
      return multiply_repeated<2>(to, cells.data(), factors);
    case 3:
      return multiply_repeated<3>(to, cells.data(), factors);
    case 4:
      return multiply_repeated<4>(to, cells.data(), factors);
    case 6:
      return multiply_repeated<6>(to, cells.data(), factors);
    case 9:
      return multiply_repeated<9>(to, cells.data(), factors);
    default:
      return false;
  }
}

// A number and the power of two that was taken out of it.
struct Scaled {
  double value = 1;
  std::int64_t exponent = 0;
  bool lost = false;

  void multiply(double factor) {
    if (value == 0) return;
    value *= factor;
    if (value > 0x1p-64 && value < 0x1p64) return;
    if (!(value > 0)) {
      lost = lost || factor > 0;
      return;
    }
    const int e = std::ilogb(value);
    lost = lost || e < -1000;
    value = std::ldexp(value, -e);
    exponent += e;
  }
};

double& lane(double& number, std::size_t /*k*/) {
  return number;
}
double& lane(Lanes<8>& number, std::size_t k) {
  return number.lane[k];
}
std::int64_t& exponent(Scale<double>& scale, std::size_t /*k*/) {
  return scale.exponent;
}
std::int64_t& exponent(Scale<Lanes<8>>& scale, std::size_t k) {
  return scale.exponent[k];
}
bool& lost(Scale<double>& scale, std::size_t /*k*/) {
  return scale.lost;
}
bool& lost(Scale<Lanes<8>>& scale, std::size_t k) {
  return scale.lost[k];
}

// value x 2^shift for a shift of at most 0; what is then 0 has no share in anything.
double shifted(double value, std::int64_t shift) {
  return shift > -2000 ? std::ldexp(value, static_cast<int>(shift)) : 0.0;
}

// Cells of one lane, each with an exponent of its own, under the largest of them.
template <class Number>
class Level {
 public:
  Level(std::span<Number> cells, std::size_t k) : cells_(cells), k_(k) {}

  void put(std::size_t c, const Scaled& product) {
    lane(cells_[c], k_) = product.value;
    if (product.value == 0) return;
    if (none_ || product.exponent > exponent_) {
      for (std::size_t b = 0; b < c; ++b) {
        lane(cells_[b], k_) =
            shifted(lane(cells_[b], k_), none_ ? 0 : exponent_ - product.exponent);
      }
      exponent_ = product.exponent;
      none_ = false;
    } else {
      lane(cells_[c], k_) = shifted(product.value, product.exponent - exponent_);
    }
  }
  /// Whether all cells are 0.
  [[nodiscard]] bool none() const { return none_; }
  [[nodiscard]] std::int64_t exponent() const { return exponent_; }

 private:
  std::span<Number> cells_;
  std::size_t k_;
  std::int64_t exponent_ = 0;
  bool none_ = true;
};

}  // namespace

template <class Number>
bool Pass<Number>::fold_small_family(std::uint32_t f) {
  if constexpr (std::is_same_v<Number, double>) {
    const FamilyPlace& place = plan_->families()[f];
    const LeafFamilies& leaves = plan_->leaves();
    const auto members = leaves.members_of(leaves.families[f]);
    std::array<Repeated, small_family / 2> factors;
    if (!sums_at_most_two_ || place.table_cells > place.cells || members.size() > factors.size()) {
      return false;
    }
    for (std::size_t i = 0; i < members.size(); ++i) {
      factors[i] = {sums_.data() + leaves.patterns[members[i].pattern].offset, members[i].count};
    }
    return members_in(f) <= small_family &&
           multiply_few(arena_.data() + place.offset, plan_->cell_list(place.cell_list),
                        {factors.data(), members.size()});
  } else {
    return false;
  }
}

template <class Number>
std::uint32_t Pass<Number>::members_in(std::uint32_t f) const {
  std::uint32_t count = 0;
  for (const Member& member : plan_->leaves().members_of(plan_->leaves().families[f])) {
    count += member.count;
  }
  return count;
}

// Leaves come pattern by pattern, so that on the way cells may differ more than doubles can.
template <class Number>
void Pass<Number>::fold_large_family(std::uint32_t f, Scale<Number>& own) {
  if constexpr (!std::is_same_v<Number, Extended>) {
    constexpr std::size_t lanes = std::is_same_v<Number, double> ? 1 : 8;
    const FamilyPlace& place = plan_->families()[f];
    const LeafFamilies& leaves = plan_->leaves();
    const auto& cells = plan_->cell_list(place.cell_list);
    for (std::size_t k = 0; k < lanes; ++k) {
      Level<Number> level({arena_.data() + place.offset, cells.size()}, k);
      for (std::size_t c = 0; c < cells.size(); ++c) {
        Scaled product;
        for (const Member& member : leaves.members_of(leaves.families[f])) {
          const std::size_t first = leaves.patterns[member.pattern].offset;
          const double factor = lane(sums_[first + cells[c]], k);
          for (std::uint32_t n = 0; n < member.count; ++n) product.multiply(factor);
        }
        level.put(c, product);
        lost(own, k) = lost(own, k) || product.lost;
      }
      lost(own, k) = lost(own, k) || level.none();
      exponent(own, k) += level.exponent();
    }
  }
}

template <class Number>
void Pass<Number>::fold_in_one(std::uint32_t f, Scale<Number>& own) {
  const FamilyPlace& place = plan_->families()[f];
  const auto& cells = plan_->cell_list(place.cell_list);
  Product<Number> product(*loops_, arena_.data() + place.offset, {1, cells.size()}, own);
  constexpr std::uint32_t whole = 0;
  const LeafFamilies& leaves = plan_->leaves();
  for (const Member& member : leaves.members_of(leaves.families[f])) {
    const Number* sums = sums_.data() + leaves.patterns[member.pattern].offset;
    for (std::uint32_t n = 0; n < member.count; ++n) {
      product.multiply({sums, &whole, cells.data()});
    }
  }
  product.finish();
  product.check();
}

// Where a guard may be in other states the cells of its state keep their true size beside the ones.
template <class Number>
void Pass<Number>::fold_family(std::uint32_t f) {
  if (fold_small_family(f)) return;
  const FamilyPlace& place = plan_->families()[f];
  const bool guarded = place.table_cells > place.cells;
  if (guarded) std::fill_n(arena_.data() + place.table, place.table_cells, Number(1.0));
  Scale<Number> own;
  if (std::is_same_v<Number, Extended> || members_in(f) <= small_family) {
    fold_in_one(f, own);
  } else {
    fold_large_family(f, own);
  }
  if (guarded) {
    own.put_back(arena_.data() + place.offset, place.cells);
    scale_.add(own.doubt());
  } else {
    scale_.add(own);
  }
}

template void Pass<double>::fold_family(std::uint32_t);
template bool Pass<double>::fold_small_family(std::uint32_t);
template void Pass<double>::fold_large_family(std::uint32_t, Scale<double>&);
template void Pass<double>::fold_in_one(std::uint32_t, Scale<double>&);
template std::uint32_t Pass<double>::members_in(std::uint32_t) const;
template void Pass<Lanes<8>>::fold_family(std::uint32_t);
template bool Pass<Lanes<8>>::fold_small_family(std::uint32_t);
template void Pass<Lanes<8>>::fold_large_family(std::uint32_t, Scale<Lanes<8>>&);
template void Pass<Lanes<8>>::fold_in_one(std::uint32_t, Scale<Lanes<8>>&);
template std::uint32_t Pass<Lanes<8>>::members_in(std::uint32_t) const;
template void Pass<Extended>::fold_family(std::uint32_t);
template bool Pass<Extended>::fold_small_family(std::uint32_t);
template void Pass<Extended>::fold_large_family(std::uint32_t, Scale<Extended>&);
template void Pass<Extended>::fold_in_one(std::uint32_t, Scale<Extended>&);
template std::uint32_t Pass<Extended>::members_in(std::uint32_t) const;

}  // namespace likelihet::inference
