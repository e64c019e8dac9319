// QuickXplain over observations and sexes.
#include <algorithm>
#include <limits>

#include <likelihet/odds/contradiction.hpp>
#include <likelihet/odds/layers.hpp>
#include <likelihet/odds/words.hpp>

namespace likelihet::odds {

namespace {

struct Item {
  const colony::Observation* observation = nullptr;  // or else the sex of `animal`
  std::size_t animal = 0;
};
using Items = std::vector<Item>;

class Search {
 public:
  Search(const Scenario& scenario, const Options& options)
      : scenario_(scenario), options_(options), tables_(believed(scenario.colony->model())) {}

  Items run() {
    Items all;
    const auto& loci = scenario_.colony->model().loci();
    if (std::any_of(loci.begin(), loci.end(), [](const auto& l) { return l.sex_linked(); })) {
      for (std::size_t a = 0; a < scenario_.sexes.size(); ++a) {
        if (scenario_.sexes[a]) all.push_back({nullptr, a});
      }
    }
    for (const auto* observation : scenario_.observations) all.push_back({observation, 0});
    if (!possible({})) return {};
    return smallest({}, false, all);
  }

 private:
  bool possible(const Items& items) const {
    Scenario part = scenario_;
    part.observations.clear();
    part.sexes.assign(part.sexes.size(), std::nullopt);
    for (const Item& item : items) {
      if (item.observation != nullptr) {
        part.observations.push_back(item.observation);
      } else {
        part.sexes[item.animal] = scenario_.sexes[item.animal];
      }
    }
    auto made = prepare(part, tables_, options_.memory_bytes);
    // Too large to decide: taken as possible, so that the set named may be larger, never wrong.
    if (std::holds_alternative<TooLarge>(made)) return true;
    const auto& ready = *std::get<std::unique_ptr<Prepared>>(made);
    return inference::log_evidence(*ready.plan, ready.net.values(Layer::posterior, tables_)) >
           -std::numeric_limits<double>::infinity();
  }

  // A smallest part of `open` that clashes together with `held`. Splits in the middle (Junker 2004,
  // QuickXplain); `grown` says that `held` has changed since it was last asked about.
  Items smallest(const Items& held, bool grown, const Items& open) const {
    if (grown && !possible(held)) return {};
    if (open.size() == 1) return open;
    const auto middle = open.begin() + static_cast<std::ptrdiff_t>(open.size() / 2);
    const Items first(open.begin(), middle);
    const Items second(middle, open.end());
    Items with_first = held;
    with_first.insert(with_first.end(), first.begin(), first.end());
    const Items of_second = smallest(with_first, true, second);
    Items with_found = held;
    with_found.insert(with_found.end(), of_second.begin(), of_second.end());
    Items of_first = smallest(with_found, !of_second.empty(), first);
    of_first.insert(of_first.end(), of_second.begin(), of_second.end());
    return of_first;
  }

  const Scenario& scenario_;
  const Options& options_;
  Tables tables_;
};

}  // namespace

Contradiction explain(const Scenario& scenario, const Options& options) {
  const colony::Colony& colony = *scenario.colony;
  Contradiction out;
  std::string list;
  for (const Item& item : Search(scenario, options).run()) {
    std::string line;
    if (item.observation != nullptr) {
      const auto at = static_cast<std::size_t>(item.observation - colony.observations().data());
      out.observations.push_back(at);
      line = describe(colony, *item.observation) + ", recorded as " + item.observation->id;
    } else {
      out.sexes.push_back(item.animal);
      line = colony.animals()[item.animal].id + " is taken as " +
             (*scenario.sexes[item.animal] == genetics::Sex::female ? "female" : "male");
    }
    list += "\n  " + line;
  }
  out.what =
      list.empty()
          ? "the pedigree alone is impossible: no founders' genotypes allow these animals to "
            "be alive. Look at origins, bought_as and viability."
          : "these records cannot all be true, given the pedigree:" + list +
                "\nLeave out any one of them and the rest can be. Withdraw the wrong one, or "
                "mend the parents.";
  return out;
}

}  // namespace likelihet::odds
