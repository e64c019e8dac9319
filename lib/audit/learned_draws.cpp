// Draws, weights, and chains where weights wear out.
#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include <likelihet/audit/learned_draws.hpp>
#include <likelihet/audit/learned_mode.hpp>
#include <likelihet/learning/chain.hpp>
#include <likelihet/odds/table_draws.hpp>

namespace likelihet::audit {

namespace {

// At the model's own tables: draws have the same zeros.
bool possible(const odds::Prepared& prepared, const colony::Model& model) {
  if (prepared.plan->impossible()) return false;
  const auto values = prepared.net.values(odds::Layer::posterior, odds::believed(model));
  return std::isfinite(inference::log_evidence(*prepared.plan, values));
}

double effective_size(const std::vector<double>& weights) {
  double sum = 0;
  double squares = 0;
  for (double w : weights) {
    sum += w;
    squares += w * w;
  }
  return squares > 0 ? sum * sum / squares : 0;
}

}  // namespace

LearnedDraws::LearnedDraws(const colony::Model& model, const DrawSettings& settings)
    : model_(&model), settings_(settings) {}

LearnedDraws::AtDraws LearnedDraws::at_draws(const odds::Prepared& prepared,
                                             const std::vector<Event>& events) const {
  odds::DrawTargets targets(prepared, 0, 0);
  std::multimap<std::size_t, std::size_t> asked;  // target -> event
  for (std::size_t e = 0; e < events.size(); ++e) {
    const odds::Node& node = prepared.net.node(events[e].animal, events[e].locus);
    const odds::DrawTarget target{
        node.leaf, node.leaf ? prepared.plan->leaves().run_of[node.id] : node.id, events[e].locus};
    const auto known = std::find(targets.list.begin(), targets.list.end(), target);
    asked.emplace(static_cast<std::size_t>(known - targets.list.begin()), e);
    if (known == targets.list.end()) targets.list.push_back(target);
  }
  AtDraws out;
  out.odds.assign(events.size() * tables_.size(), 0.0);
  std::size_t next = 0;
  odds::run_draws(
      prepared, *model_, odds::Layer::posterior, targets, tables_.size(), settings_.memory_bytes,
      [&]() -> const odds::Tables& { return tables_[next++]; },
      [&](const odds::DrawStep& step) {
        out.log_evidence.insert(
            out.log_evidence.end(), step.log_evidence.begin(),
            step.log_evidence.begin() + static_cast<std::ptrdiff_t>(step.count));
      },
      [&](std::size_t target, const odds::DrawStep& step,
          std::span<const odds::DrawLanes> posterior) {
        const auto [from, to] = asked.equal_range(target);
        for (auto at = from; at != to; ++at) {
          const Event& event = events[at->second];
          const auto& genotypes = model_->loci()[event.locus].genotypes();
          double* odds = out.odds.data() + at->second * tables_.size() + step.first;
          for (std::size_t g = 0; g < posterior.size(); ++g) {
            if (genotypes[g].copies(event.allele) != 1) continue;
            for (std::size_t k = 0; k < step.count; ++k) odds[k] += posterior[g].lane[k];
          }
        }
      });
  return out;
}

bool LearnedDraws::draw_from(const odds::Prepared& taught) {
  const bool first = tables_.empty();
  learning::Chain chain(taught, *model_, first ? first_start(*model_) : tables_.back(),
                        settings_.seed, chains_++);
  tables_.clear();
  const std::size_t settling = first ? settings_.first_settling : settings_.settling;
  for (std::size_t sweep = 0; sweep < settling; ++sweep) {
    if (!chain.step()) return false;
  }
  while (tables_.size() < settings_.draws) {
    for (std::size_t sweep = 0; sweep < settings_.apart; ++sweep) {
      if (!chain.step()) return false;
    }
    tables_.push_back(chain.tables());
  }
  log_evidence_ = at_draws(taught, {}).log_evidence;
  return true;
}

// Largest 1.
std::vector<double> LearnedDraws::weights(const AtDraws& now) const {
  std::vector<double> out(tables_.size());
  double largest = -std::numeric_limits<double>::infinity();
  for (std::size_t k = 0; k < out.size(); ++k) {
    out[k] = now.log_evidence[k] - log_evidence_[k];
    largest = std::max(largest, out[k]);
  }
  for (double& w : out) w = std::exp(w - largest);
  return out;
}

std::variant<std::vector<double>, odds::TooLarge> LearnedDraws::odds(
    const odds::Scenario& taught, const odds::Scenario& asked, const std::vector<Event>& events) {
  auto made = odds::prepare(taught, odds::believed(*model_), settings_.memory_bytes);
  if (auto* large = std::get_if<odds::TooLarge>(&made)) return std::move(*large);
  const auto& teacher = *std::get<std::unique_ptr<odds::Prepared>>(made);
  std::unique_ptr<odds::Prepared> other;  // where it is another scenario
  if (&asked != &taught) {
    auto second = odds::prepare(asked, odds::believed(*model_), settings_.memory_bytes);
    if (auto* large = std::get_if<odds::TooLarge>(&second)) return std::move(*large);
    other = std::move(std::get<std::unique_ptr<odds::Prepared>>(second));
  }
  const odds::Prepared& answer = other ? *other : teacher;
  if (!possible(teacher, *model_) || !possible(answer, *model_)) return std::vector<double>{};
  std::vector<double> weight;
  if (!tables_.empty()) weight = weights(at_draws(teacher, {}));
  if (effective_size(weight) < static_cast<double>(settings_.draws) / 2) {
    if (!draw_from(teacher)) {
      tables_.clear();
      return std::vector<double>{};
    }
    weight.assign(tables_.size(), 1.0);
  }
  const AtDraws now = at_draws(answer, events);
  double whole = 0;
  for (double w : weight) whole += w;
  std::vector<double> out(events.size(), 0.0);
  for (std::size_t e = 0; e < events.size(); ++e) {
    for (std::size_t k = 0; k < weight.size(); ++k) {
      out[e] += weight[k] * now.odds[e * weight.size() + k];
    }
    out[e] = std::min(out[e] / whole, 1.0);
  }
  return out;
}

}  // namespace likelihet::audit
