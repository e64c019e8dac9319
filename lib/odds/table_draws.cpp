// Eight sets of tables a step, or one where memory is short.
#include <algorithm>
#include <map>

#include <likelihet/odds/table_draws.hpp>

namespace likelihet::odds {

namespace {

constexpr std::size_t width = draws_side_by_side;

class Runs {
 public:
  Runs(const Prepared& prepared, const colony::Model& model, Layer layer,
       const DrawTargets& targets, const std::function<const Tables&()>& next,
       const std::function<void(const DrawStep&)>& step,
       const std::function<void(std::size_t, const DrawStep&, std::span<const DrawLanes>)>& visit)
      : prepared_(prepared),
        model_(model),
        layer_(layer),
        targets_(targets),
        next_(next),
        step_(step),
        visit_(visit),
        values_(prepared.net.values(layer, believed(model))),
        central_(inference::infer(*prepared.plan, values_)),
        renewed_(prepared.net.renewed()) {}

  void one_by_one(std::size_t draws) {
    for (std::size_t done = 0; done < draws; ++done) {
      prepared_.net.renew(layer_, next_(), values_);
      hand_on({inference::infer(*prepared_.plan, values_)}, done);
    }
  }

  void side_by_side(std::size_t draws) {
    lanes_.reserve(values_.size());
    for (double value : values_) lanes_.emplace_back(value);
    inference::Runner<DrawLanes> runner(*prepared_.plan);
    for (std::size_t done = 0; done < draws; done += width) {
      const std::size_t now = std::min(width, draws - done);
      for (std::size_t k = 0; k < now; ++k) {
        prepared_.net.renew(layer_, next_(), values_);
        for (const auto& [begin, end] : renewed_) {
          for (std::size_t i = begin; i < end; ++i) lanes_[i].lane[k] = values_[i];
        }
      }
      if (runner.run(lanes_)) {
        hand_on(runner.pass(), done, now);
      } else {
        hand_on(each_alone(now), done);
      }
    }
  }

 private:
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
    for (std::size_t t = 0; t < targets_.list.size(); ++t) {
      const DrawTarget& target = targets_.list[t];
      if (target.leaf) {
        visit_(t, at, pass.run_posterior(target.id));
        continue;
      }
      marginal.assign(model_.loci()[target.locus].size(), DrawLanes{});
      pass.marginal(target.id, marginal);
      visit_(t, at, marginal);
    }
  }

  void hand_on(const std::vector<inference::Beliefs>& drawn, std::size_t first) {
    DrawStep at{first, drawn.size(), {}};
    const auto belief = [&](std::size_t k) -> const inference::Beliefs& {
      return drawn[k].possible ? drawn[k] : central_;
    };
    for (std::size_t k = 0; k < drawn.size(); ++k) at.log_evidence[k] = belief(k).log_evidence;
    step_(at);
    std::vector<DrawLanes> marginal;
    for (std::size_t t = 0; t < targets_.list.size(); ++t) {
      const DrawTarget& target = targets_.list[t];
      marginal.assign(model_.loci()[target.locus].size(), DrawLanes{});
      for (std::size_t k = 0; k < drawn.size(); ++k) {
        const auto of = target.leaf ? belief(k).run(target.id) : belief(k).variable(target.id);
        for (std::size_t g = 0; g < of.size(); ++g) marginal[g].lane[k] = of[g];
      }
      visit_(t, at, marginal);
    }
  }

  const Prepared& prepared_;
  const colony::Model& model_;
  Layer layer_;
  const DrawTargets& targets_;
  const std::function<const Tables&()>& next_;
  const std::function<void(const DrawStep&)>& step_;
  const std::function<void(std::size_t, const DrawStep&, std::span<const DrawLanes>)>& visit_;
  std::vector<double> values_;
  inference::Beliefs central_;
  std::vector<std::pair<std::size_t, std::size_t>> renewed_;
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

void run_draws(
    const Prepared& prepared, const colony::Model& model, Layer layer, const DrawTargets& targets,
    std::size_t draws, std::size_t memory_bytes, const std::function<const Tables&()>& next,
    const std::function<void(const DrawStep&)>& step,
    const std::function<void(std::size_t, const DrawStep&, std::span<const DrawLanes>)>& visit) {
  Runs runs(prepared, model, layer, targets, next, step, visit);
  // Eight sets of numbers take eight times the memory of one.
  if (prepared.plan->whole_size() * sizeof(DrawLanes) > memory_bytes) {
    runs.one_by_one(draws);
  } else {
    runs.side_by_side(draws);
  }
}

}  // namespace likelihet::odds
