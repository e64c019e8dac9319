// The steps from a network to a plan; internal to the layer.
#pragma once

#include <cstdint>
#include <map>
#include <utility>
#include <variant>
#include <vector>

#include <likelihet/inference/plan.hpp>

namespace likelihet::inference {

/// Used once: make() moves the plan out.
class PlanMaker {
 public:
  // `peel`: without its barren variables.
  PlanMaker(const Network& network, std::size_t memory_bytes, bool peel);
  std::variant<Plan, TooBig> make();

 private:
  static constexpr std::uint32_t none = UINT32_MAX;

  // plan.cpp: which variables are free, the graph of their interactions, the order
  void number_free_variables();
  // Which families can act at all, by the states left to their guards.
  void classify_families();
  [[nodiscard]] std::vector<std::uint32_t> free_of(std::span<const Variable> scope) const;
  [[nodiscard]] std::vector<std::uint32_t> free_of(const Family& family) const;
  [[nodiscard]] bool below(const Family& family) const;
  // Edges of requests are left out where they would cost too much: order() weighs that.
  [[nodiscard]] InteractionGraph graph(bool with_requests) const;
  // Whether a family only asks for a joint belief, so that its edge may be refused.
  [[nodiscard]] bool request(std::size_t family) const;
  // Twice where there are requests; they are refused over 8 times the cells without them.
  std::variant<Elimination, TooWide> order();
  [[nodiscard]] TooBig too_big(const TooWide& wide) const;

  // plan_buckets.cpp: buckets in post-order, their inputs, the arena
  void make_buckets(const Elimination& elimination);
  // Each factor goes to the bucket of whichever of its variables is summed out first.
  void sort_into_buckets();
  void order_families();
  void lay_out(std::uint32_t bucket);
  void place_family(std::uint32_t family);
  [[nodiscard]] Input table_input(const Bucket& bucket, std::uint32_t factor);
  [[nodiscard]] Input family_input(const Bucket& bucket, std::uint32_t family);
  [[nodiscard]] Input message_input(const Bucket& bucket, std::uint32_t child);
  // Dimensions of a bucket's clique, separator first.
  [[nodiscard]] static std::vector<Variable> dimensions(const Bucket& bucket);
  [[nodiscard]] std::uint32_t free_states(Variable v) const {
    return static_cast<std::uint32_t>(plan_.domains_.of[v].size());
  }
  [[nodiscard]] std::uint32_t cell_list(const Family& family);

  const Network& network_;
  std::size_t memory_bytes_;
  double cell_limit_;
  Plan plan_;
  std::vector<std::uint32_t> vertex_;  // by variable; none where fixed
  std::vector<Variable> variable_;     // by vertex
  struct Waiting {
    std::vector<std::uint32_t> factors, families, children;
  };
  std::vector<Waiting> waiting_;  // by bucket
  std::map<std::vector<std::uint32_t>, std::uint32_t> known_cell_lists_;
};

}  // namespace likelihet::inference
