// Chains of conditional beliefs, eight runs side by side.
#include <algorithm>
#include <map>

#include <fmt/format.h>

#include <likelihet/odds/contradiction.hpp>
#include <likelihet/odds/joint.hpp>
#include <likelihet/odds/number_sets.hpp>

namespace likelihet::odds {

namespace {

// Cells of tables that are independent, side by side. `order` says where each part's genotypes
// belong.
JointTable product(const std::vector<JointTable>& parts,
                   const std::vector<std::vector<std::size_t>>& order, std::size_t places) {
  JointTable out;
  out.places = places;
  out.states.assign(places, 0);
  out.probability = {1.0};
  for (std::size_t p = 0; p < parts.size(); ++p) {
    JointTable next;
    next.places = places;
    for (std::size_t c = 0; c < out.cells(); ++c) {
      for (std::size_t d = 0; d < parts[p].cells(); ++d) {
        std::vector<std::uint32_t> states(out.cell(c).begin(), out.cell(c).end());
        for (std::size_t k = 0; k < order[p].size(); ++k) {
          states[order[p][k]] = parts[p].cell(d)[k];
        }
        next.states.insert(next.states.end(), states.begin(), states.end());
        next.probability.push_back(out.probability[c] * parts[p].probability[d]);
      }
    }
    out = std::move(next);
  }
  return out;
}

JointTable sorted(const JointTable& table) {
  std::vector<std::size_t> order(table.cells());
  for (std::size_t c = 0; c < order.size(); ++c) order[c] = c;
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return std::ranges::lexicographical_compare(table.cell(a), table.cell(b));
  });
  JointTable out;
  out.places = table.places;
  for (std::size_t c : order) {
    out.states.insert(out.states.end(), table.cell(c).begin(), table.cell(c).end());
    out.probability.push_back(table.probability[c]);
  }
  return out;
}

}  // namespace

JointBeliefs::Made JointBeliefs::make(const Scenario& scenario, const Options& options) {
  auto made = prepare(scenario, believed(scenario.colony->model()), options.memory_bytes);
  if (auto* large = std::get_if<TooLarge>(&made)) return std::move(*large);
  auto& prepared = std::get<std::unique_ptr<Prepared>>(made);
  if (prepared->plan->impossible()) return explain(scenario, options);
  std::unique_ptr<JointBeliefs> out(
      new JointBeliefs(scenario, std::move(prepared), options.memory_bytes));
  if (!out->beliefs_.possible) return explain(scenario, options);
  return out;
}

JointBeliefs::JointBeliefs(const Scenario& scenario, std::unique_ptr<Prepared> prepared,
                           std::size_t memory)
    : held_(scenario.held),
      prepared_(std::move(prepared)),
      believed_(believed(scenario.colony->model())),
      memory_bytes_(memory),
      values_(prepared_->net.values(Layer::posterior, believed_)),
      renewal_(prepared_->net, Layer::posterior) {
  if (lanes_bytes(*prepared_) <= memory) {
    runner_ = std::make_unique<inference::Runner<DrawLanes>>(*prepared_->plan);
  }
  take_values();
}

void JointBeliefs::take(const Tables& tables) {
  renewal_.take(tables);
  renewal_.write(Layer::posterior, values_);
  take_values();
  if (beliefs_.possible) return;
  renewal_.take(believed_);
  renewal_.write(Layer::posterior, values_);
  take_values();
}

void JointBeliefs::take_values() {
  beliefs_ = inference::infer(*prepared_->plan, values_);
  if (!runner_) return;
  lanes_.clear();
  lanes_.reserve(values_.size());
  for (double value : values_) lanes_.emplace_back(value);
}

inference::Variable JointBeliefs::variable(std::size_t held) const {
  return prepared_->net.node(held_[held].animal, held_[held].locus).id;
}

std::vector<double> JointBeliefs::marginal(std::size_t held) const {
  const auto belief = beliefs_.variable(variable(held));
  return {belief.begin(), belief.end()};
}

std::size_t JointBeliefs::part(std::size_t held) const {
  const auto& buckets = prepared_->plan->buckets();
  auto bucket = prepared_->plan->bucket_of(variable(held));
  if (!bucket) return buckets.size() + held;
  while (buckets[*bucket].parent) bucket = buckets[*bucket].parent;
  return *bucket;
}

void JointBeliefs::given_alone(const Holds& holds, std::size_t number,
                               std::span<const std::size_t> wanted, const Visit& visit) {
  std::vector<double> values = values_;
  const auto& net = prepared_->net;
  for (const auto& [held, state] : holds) {
    const std::size_t offset = net.network().offset(net.hold(held));
    for (std::size_t g = 0; g < net.network().size(net.hold(held)); ++g) {
      if (g != state) values[offset + g] = 0;
    }
  }
  const auto beliefs = inference::infer(*prepared_->plan, values);
  for (std::size_t w = 0; w < wanted.size(); ++w) {
    if (beliefs.possible) {
      visit(number, w, beliefs.variable(variable(wanted[w])));
    } else {
      visit(number, w, std::vector<double>(net.network().states(variable(wanted[w])), 0.0));
    }
  }
}

void JointBeliefs::given_each(const std::vector<Holds>& given, std::span<const std::size_t> wanted,
                              const Visit& visit) {
  const auto& net = prepared_->net;
  const auto write = [&](const Holds& holds, std::size_t lane, double others) {
    for (const auto& [held, state] : holds) {
      const std::size_t offset = net.network().offset(net.hold(held));
      for (std::size_t g = 0; g < net.network().size(net.hold(held)); ++g) {
        if (g != state) lanes_[offset + g].lane[lane] = others;
      }
    }
  };
  for (std::size_t first = 0; first < given.size(); first += draws_side_by_side) {
    const std::size_t now = std::min(draws_side_by_side, given.size() - first);
    bool sure = false;
    if (runner_) {
      for (std::size_t k = 0; k < now; ++k) write(given[first + k], k, 0.0);
      sure = runner_->run(lanes_);
      for (std::size_t k = 0; k < now; ++k) write(given[first + k], k, 1.0);
    }
    if (!sure) {
      for (std::size_t k = 0; k < now; ++k) {
        given_alone(given[first + k], first + k, wanted, visit);
      }
      continue;
    }
    std::vector<DrawLanes> marginal;
    std::vector<double> one;
    for (std::size_t w = 0; w < wanted.size(); ++w) {
      marginal.assign(net.network().states(variable(wanted[w])), DrawLanes{});
      runner_->pass().marginal(variable(wanted[w]), marginal);
      one.resize(marginal.size());
      for (std::size_t k = 0; k < now; ++k) {
        for (std::size_t g = 0; g < marginal.size(); ++g) one[g] = marginal[g].lane[k];
        visit(first + k, w, one);
      }
    }
  }
}

std::vector<std::vector<double>> JointBeliefs::pairs(std::size_t first,
                                                     std::span<const std::size_t> seconds) {
  const std::vector<double> of_first = marginal(first);
  std::vector<std::vector<double>> out;
  std::vector<std::size_t> connected, wanted;
  for (std::size_t s = 0; s < seconds.size(); ++s) {
    const std::vector<double> of_second = marginal(seconds[s]);
    auto& table = out.emplace_back(of_first.size() * of_second.size());
    if (part(seconds[s]) == part(first)) {
      connected.push_back(s);
      wanted.push_back(seconds[s]);
      continue;
    }
    for (std::size_t i = 0; i < of_first.size(); ++i) {
      for (std::size_t j = 0; j < of_second.size(); ++j) {
        table[i * of_second.size() + j] = of_first[i] * of_second[j];
      }
    }
  }
  if (wanted.empty()) return out;
  std::vector<Holds> given;
  for (std::uint32_t i = 0; i < of_first.size(); ++i) {
    if (of_first[i] > 0) given.push_back({{first, i}});
  }
  given_each(given, wanted, [&](std::size_t g, std::size_t w, std::span<const double> belief) {
    const std::uint32_t i = given[g].front().second;
    for (std::size_t j = 0; j < belief.size(); ++j) {
      out[connected[w]][i * belief.size() + j] = of_first[i] * belief[j];
    }
  });
  return out;
}

JointTable JointBeliefs::joint_of_part(const std::vector<std::size_t>& held) {
  std::vector<Holds> given;
  std::vector<double> probability;
  const auto first = marginal(held.front());
  for (std::uint32_t g = 0; g < first.size(); ++g) {
    if (!(first[g] > 0)) continue;
    given.push_back({{held.front(), g}});
    probability.push_back(first[g]);
  }
  for (std::size_t k = 1; k < held.size(); ++k) {
    std::vector<Holds> longer;
    std::vector<double> of_longer;
    const std::size_t wanted = held[k];
    given_each(given, std::span(&wanted, 1),
               [&](std::size_t n, std::size_t, std::span<const double> belief) {
                 for (std::uint32_t g = 0; g < belief.size(); ++g) {
                   if (!(belief[g] > 0)) continue;
                   longer.push_back(given[n]);
                   longer.back().emplace_back(wanted, g);
                   of_longer.push_back(probability[n] * belief[g]);
                 }
               });
    given = std::move(longer);
    probability = std::move(of_longer);
  }
  JointTable out;
  out.places = held.size();
  out.probability = std::move(probability);
  for (const Holds& holds : given) {
    for (const auto& [place, state] : holds) out.states.push_back(state);
  }
  return out;
}

// A cell is its probability and its states, held twice while the table grows.
std::optional<TooLarge> JointBeliefs::too_many_cells(std::span<const std::size_t> held) const {
  double cells = 1;
  for (std::size_t h : held) {
    cells *= static_cast<double>(prepared_->plan->domain(variable(h)).size());
  }
  const double bytes = 2 * cells * (sizeof(double) + 16.0 * static_cast<double>(held.size()));
  if (bytes <= static_cast<double>(memory_bytes_)) return std::nullopt;
  TooLarge out;
  out.bytes = bytes;
  out.part_animals = held.size();
  for (std::size_t h : held) out.clique.emplace_back(held_[h].animal, held_[h].locus);
  out.what = fmt::format(
      "the joint odds of {} genotypes have {:.3g} combinations, which take {:.3g} bytes, and {} "
      "are "
      "allowed. Allow more with --memory.",
      held.size(), cells, bytes, memory_bytes_);
  return out;
}

std::variant<JointTable, TooLarge> JointBeliefs::joint(std::span<const std::size_t> held) {
  if (auto large = too_many_cells(held)) return std::move(*large);
  std::map<std::size_t, std::vector<std::size_t>> parts;  // positions in `held`
  for (std::size_t k = 0; k < held.size(); ++k) parts[part(held[k])].push_back(k);
  std::vector<JointTable> tables;
  std::vector<std::vector<std::size_t>> order;
  for (const auto& [number, positions] : parts) {
    std::vector<std::size_t> of_part;
    for (std::size_t k : positions) of_part.push_back(held[k]);
    tables.push_back(joint_of_part(of_part));
    order.push_back(positions);
  }
  return sorted(product(tables, order, held.size()));
}

std::vector<const Tables*> thinned(const std::vector<Tables>& draws, std::size_t most) {
  const std::size_t kept = std::min(draws.size(), most);
  std::vector<const Tables*> out;
  for (std::size_t k = 0; k < kept; ++k) out.push_back(&draws[k * draws.size() / kept]);
  return out;
}

}  // namespace likelihet::odds
