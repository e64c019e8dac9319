// Eight sets of numbers a step, or one where memory is short.
#include <algorithm>
#include <limits>
#include <map>

#include <likelihet/odds/number_sets.hpp>

namespace likelihet::odds {

namespace {

constexpr std::size_t width = draws_side_by_side;

class Runs {
 public:
  Runs(const Prepared& prepared, const colony::Model& model, std::span<const DrawTarget> targets,
       NumberSets sets, const StepVisitor& step, const TargetVisitor& visit)
      : prepared_(prepared),
        model_(model),
        targets_(targets),
        sets_(std::move(sets)),
        values_(std::move(sets_.values)),
        step_(step),
        visit_(visit) {}

  void one_by_one(std::size_t count) {
    for (std::size_t done = 0; done < count; ++done) {
      sets_.write(values_);
      hand_on({inference::infer(*prepared_.plan, values_)}, done);
    }
  }

  void side_by_side(std::size_t count) {
    lanes_.reserve(values_.size());
    for (double value : values_) lanes_.emplace_back(value);
    inference::Runner<DrawLanes> runner(*prepared_.plan);
    for (std::size_t done = 0; done < count; done += width) {
      const std::size_t now = std::min(width, count - done);
      write_lanes(now);
      if (runner.run(lanes_)) {
        hand_on(runner.pass(), done, now);
      } else {
        hand_on(each_alone(now), done);
      }
    }
  }

 private:
  void write_lanes(std::size_t count) {
    if (sets_.write_lanes) {
      sets_.write_lanes(count, lanes_);
      return;
    }
    for (std::size_t k = 0; k < count; ++k) {
      sets_.write(values_);
      for (const auto& [begin, end] : sets_.written) {
        for (std::size_t i = begin; i < end; ++i) lanes_[i].lane[k] = values_[i];
      }
    }
  }

  std::vector<inference::Beliefs> each_alone(std::size_t now) {
    std::vector<inference::Beliefs> out;
    for (std::size_t k = 0; k < now; ++k) {
      for (std::size_t i = 0; i < values_.size(); ++i) values_[i] = lanes_[i].lane[k];
      out.push_back(inference::infer(*prepared_.plan, values_));
    }
    return out;
  }

  void hand_on(const inference::Pass<DrawLanes>& pass, std::size_t first, std::size_t count) {
    DrawStep at{first, count, {}};
    for (std::size_t k = 0; k < count; ++k) {
      const inference::Scale<double> scale{pass.scale().exponent[k], false};
      at.log_evidence[k] =
          inference::log_of(pass.total().lane[k], scale) + prepared_.plan->silent_log();
    }
    step_(at);
    std::vector<DrawLanes> marginal;
    for (std::size_t t = 0; t < targets_.size(); ++t) {
      const DrawTarget& target = targets_[t];
      if (target.leaf) {
        visit_(t, at, pass.run_posterior(target.id));
        continue;
      }
      marginal.assign(model_.loci()[target.locus].size(), DrawLanes{});
      pass.marginal(target.id, marginal);
      visit_(t, at, marginal);
    }
  }

  // Null where nothing is possible and nothing stands in for it.
  [[nodiscard]] const inference::Beliefs* counted(const inference::Beliefs& beliefs) const {
    if (beliefs.possible) return &beliefs;
    return sets_.instead ? &*sets_.instead : nullptr;
  }

  void hand_on(const std::vector<inference::Beliefs>& drawn, std::size_t first) {
    DrawStep at{first, drawn.size(), {}};
    for (std::size_t k = 0; k < drawn.size(); ++k) {
      const auto* belief = counted(drawn[k]);
      at.log_evidence[k] =
          belief != nullptr ? belief->log_evidence : -std::numeric_limits<double>::infinity();
    }
    step_(at);
    std::vector<DrawLanes> marginal;
    for (std::size_t t = 0; t < targets_.size(); ++t) {
      const DrawTarget& target = targets_[t];
      marginal.assign(model_.loci()[target.locus].size(), DrawLanes{});
      for (std::size_t k = 0; k < drawn.size(); ++k) {
        const auto* belief = counted(drawn[k]);
        if (belief == nullptr) continue;
        const auto of = target.leaf ? belief->run(target.id) : belief->variable(target.id);
        for (std::size_t g = 0; g < of.size(); ++g) marginal[g].lane[k] = of[g];
      }
      visit_(t, at, marginal);
    }
  }

  const Prepared& prepared_;
  const colony::Model& model_;
  std::span<const DrawTarget> targets_;
  NumberSets sets_;
  std::vector<double> values_;
  const StepVisitor& step_;
  const TargetVisitor& visit_;
  std::vector<DrawLanes> lanes_;
};

}  // namespace

DrawTargets::DrawTargets(const Prepared& prepared, std::size_t animals, std::size_t loci) {
  std::map<DrawTarget, std::size_t> known;
  for (std::size_t a = 0; a < animals; ++a) {
    for (std::size_t l = 0; l < loci; ++l) {
      const Node& node = prepared.net.node(a, l);
      const DrawTarget target{node.leaf,
                              node.leaf ? prepared.plan->leaves().run_of[node.id] : node.id, l};
      const auto [found, fresh] = known.try_emplace(target, list.size());
      if (fresh) list.push_back(target);
      of.push_back(found->second);
    }
  }
}

// Eight sets of numbers take eight times the memory of one: the tables, given and as they are run,
// and what is made of them.
std::size_t lanes_bytes(const Prepared& prepared) {
  const std::size_t numbers =
      prepared.plan->whole_size() + 2 * prepared.net.network().values().size();
  return numbers * sizeof(DrawLanes);
}

void run_sets(const Prepared& prepared, const colony::Model& model,
              std::span<const DrawTarget> targets, NumberSets sets, std::size_t count,
              std::size_t memory_bytes, const StepVisitor& step, const TargetVisitor& visit) {
  Runs runs(prepared, model, targets, std::move(sets), step, visit);
  if (lanes_bytes(prepared) > memory_bytes) {
    runs.one_by_one(count);
  } else {
    runs.side_by_side(count);
  }
}

}  // namespace likelihet::odds
