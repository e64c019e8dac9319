// A table as the product of others, a few at a time so that it is written seldom.
#pragma once

#include <array>
#include <span>

#include <likelihet/inference/loops.hpp>

namespace likelihet::inference {

/// Multiplies factors into `to` in the order in which they come, and takes powers of two out into
/// `scale` each time that factors_between_checks have come. Whatever `to` held is written over.
template <class Number>
class Product {
 public:
  /// All must outlive it. `to` has shape.outer x shape.inner cells.
  Product(const Loops<Number>& loops, Number* to, Shape shape, Scale<Number>& scale)
      : loops_(loops), to_(to), shape_(shape), scale_(scale) {}

  /// The lists and tables must stay as they are until finish(); the lists have the lengths of the
  /// shape.
  void multiply(const Factor<Number>& factor) {
    factors_[waiting_++] = factor;
    if (waiting_ == factors_.size()) {
      multiply_waiting();
      check();
    }
  }
  /// Nothing counts before this. Without factors the product is 1.
  void finish() {
    if (waiting_ > 0) multiply_waiting();
    if (fresh_) {
      for (std::size_t i = 0; i < cells(); ++i) to_[i] = Number(1.0);
    }
  }
  /// Takes a power of two out now.
  void check() {
    if (!loops_.in_range(to_, cells())) scale_.normalise(to_, cells());
  }

 private:
  [[nodiscard]] std::size_t cells() const { return shape_.outer * shape_.inner; }
  void multiply_waiting() {
    loops_.multiply(to_, shape_, factors_.data(), waiting_, fresh_);
    fresh_ = false;
    waiting_ = 0;
  }

  const Loops<Number>& loops_;
  Number* to_;
  Shape shape_;
  Scale<Number>& scale_;
  std::array<Factor<Number>, factors_between_checks> factors_;
  std::size_t waiting_ = 0;
  bool fresh_ = true;
};

}  // namespace likelihet::inference
