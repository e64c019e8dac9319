// Modes first, then chains in rounds until they agree.
#include <algorithm>
#include <cmath>
#include <exception>
#include <memory>
#include <thread>

#include <likelihet/inference/random_bits.hpp>
#include <likelihet/learning/chain.hpp>
#include <likelihet/learning/learn.hpp>
#include <likelihet/learning/random_stream.hpp>
#include <likelihet/odds/contradiction.hpp>
#include <likelihet/odds/quantiles.hpp>

namespace likelihet::learning {

namespace {

constexpr double good_size_a_chain = 100;
constexpr std::size_t dependence_draws = 400;
constexpr std::size_t dependence_thinning = 2;

// Longer chains are thinned to so many sweeps: memory stays bounded, and neighbours tell little.
constexpr std::size_t longest_trail = 8000;

// What one chain went through, every so many sweeps.
struct Trail {
  std::size_t sweeps = 0;
  std::vector<std::vector<double>> numbers;  // as flat() orders them
  std::vector<double> log_evidence;

  // Leaves the second of each two.
  void thin() {
    std::size_t kept = 0;
    for (std::size_t i = 1; i < numbers.size(); i += 2, ++kept) {
      numbers[kept] = std::move(numbers[i]);
      log_evidence[kept] = log_evidence[i];
    }
    numbers.resize(kept);
    log_evidence.resize(kept);
  }
};

class Learner {
 public:
  Learner(const colony::Colony& colony, const Settings& settings)
      : colony_(colony), model_(colony.model()), settings_(settings) {}

  LearnOutcome run() {
    const odds::Scenario all = odds::scenario(colony_, settings_.as_of);
    // Each chain has working memory of its own, and so has EM; one more may run without underflow.
    auto made =
        odds::prepare(all, odds::believed(model_), settings_.memory_bytes / (settings_.chains + 2));
    if (auto* large = std::get_if<odds::TooLarge>(&made)) return std::move(*large);
    prepared_ = std::move(std::get<std::unique_ptr<odds::Prepared>>(made));
    if (prepared_->plan->impossible()) return contradiction(all);
    Expecting expecting(*prepared_, model_);
    ClimbSettings climbing;
    climbing.stop = settings_.stop;
    auto found = modes(expecting, model_, settings_.further_starts, settings_.seed, climbing);
    if (stopped()) return Stopped{};
    if (!found) return contradiction(all);
    out_.modes = std::move(found->found);
    out_.trace = std::move(found->best.trace);
    if (!sample()) return Stopped{};
    summarise();
    if (!model_.together().empty()) {
      out_.left_out = clutches_left_out(all, *prepared_, out_.modes.front().tables,
                                        settings_.memory_bytes / 4, settings_.stop);
    }
    if (stopped()) return Stopped{};
    return std::move(out_);
  }

 private:
  odds::Contradiction contradiction(const odds::Scenario& all) const {
    odds::Options options;
    options.as_of = settings_.as_of;
    options.memory_bytes = settings_.memory_bytes;
    return odds::explain(all, options);
  }

  // Rounds that double the length; the first half of each chain settles in.
  bool sample() {
    const odds::Tables believed = odds::believed(model_);
    for (std::size_t c = 0; c < settings_.chains; ++c) {
      // Spread out at the start, so that chains that come to agree came from far apart.
      inference::RandomBits random = random_stream(settings_.seed, Purpose::chain_starts, c);
      chains_.push_back(std::make_unique<Chain>(*prepared_, model_,
                                                c == 0 ? believed : drawn_belief(model_, random, 1),
                                                settings_.seed, c));
    }
    trails_.resize(settings_.chains);
    std::size_t target = 2 * settings_.draws;
    while (true) {
      if (!extend(target)) return false;
      assess();
      if (stopped()) return false;
      if (out_.converged || 2 * target > settings_.most_sweeps) return true;
      target *= 2;
      while (target / keep_every_ > longest_trail) {
        for (Trail& trail : trails_) trail.thin();
        keep_every_ *= 2;
      }
    }
  }

  bool stopped() const { return settings_.stop != nullptr && settings_.stop->load(); }

  bool extend(std::size_t target) {
    std::atomic<std::size_t> next{0};
    std::atomic<std::size_t> steps{0};
    const std::size_t whole = settings_.chains * (target - trails_.front().sweeps);
    std::atomic<bool> failed{false};
    std::exception_ptr failure;
    const auto sweep = [&](bool first) {
      for (std::size_t c = next++; c < settings_.chains; c = next++) {
        while (trails_[c].sweeps < target && !stopped() && !failed) {
          advance(c);
          const std::size_t done = ++steps;
          if (first && settings_.progress && done % 16 == 0) {
            settings_.progress(
                {static_cast<double>(done) / static_cast<double>(whole), last_r_hat_});
          }
        }
      }
    };
    const auto work = [&](bool first) {
      try {
        sweep(first);
      } catch (...) {  // told by the thread that asked, once all have ended
        if (!failed.exchange(true)) failure = std::current_exception();
      }
    };
    const unsigned asked =
        settings_.threads != 0 ? settings_.threads : std::thread::hardware_concurrency();
    const std::size_t threads = std::clamp<std::size_t>(asked, 1, settings_.chains);
    std::vector<std::jthread> others;
    for (std::size_t t = 1; t < threads; ++t) others.emplace_back(work, false);
    work(true);
    others.clear();  // joins
    if (failure) std::rethrow_exception(failure);
    return !stopped();
  }

  void advance(std::size_t c) {
    Chain& chain = *chains_[c];
    // Tables at which the evidence is impossible have no place in the posterior; the chain stays.
    chain.step();
    Trail& trail = trails_[c];
    if (++trail.sweeps % keep_every_ != 0) return;
    trail.numbers.push_back(flat(chain.tables()));
    trail.log_evidence.push_back(chain.log_evidence());
  }

  std::vector<std::vector<double>> kept(std::size_t parameter) const {
    std::vector<std::vector<double>> out;
    for (const Trail& trail : trails_) {
      auto& chain = out.emplace_back();
      for (std::size_t i = trail.numbers.size() / 2; i < trail.numbers.size(); ++i) {
        chain.push_back(parameter == SIZE_MAX ? trail.log_evidence[i]
                                              : trail.numbers[i][parameter]);
      }
    }
    return out;
  }

  void assess() {
    const auto all = parameters(model_);
    convergence_.assign(all.size(), {});
    out_.worst_r_hat = 1;
    out_.least_bulk = out_.least_tail = INFINITY;
    const auto take = [&](const Convergence& of) {
      out_.worst_r_hat = std::max(out_.worst_r_hat, of.r_hat);
      out_.least_bulk = std::min(out_.least_bulk, of.bulk);
      out_.least_tail = std::min(out_.least_tail, of.tail);
    };
    for (std::size_t p = 0; p < all.size(); ++p) {
      if (!all[p].open || stopped()) continue;
      convergence_[p] = convergence(kept(p));
      take(convergence_[p]);
    }
    take(convergence(kept(SIZE_MAX)));
    last_r_hat_ = out_.worst_r_hat;
    const double enough = good_size_a_chain * static_cast<double>(settings_.chains);
    out_.converged =
        out_.worst_r_hat <= good_r_hat && out_.least_bulk >= enough && out_.least_tail >= enough;
  }

  void summarise() {
    const auto all = parameters(model_);
    const odds::Tables believed = odds::believed(model_);
    const auto belief = flat(believed);
    const auto mode = flat(out_.modes.front().tables);
    for (std::size_t p = 0; p < all.size(); ++p) {
      std::vector<double> values;
      for (const auto& chain : kept(p)) values.insert(values.end(), chain.begin(), chain.end());
      std::sort(values.begin(), values.end());
      double sum = 0;
      for (double value : values) sum += value;
      out_.summaries.push_back({all[p], belief[p], mode[p],
                                sum / static_cast<double>(values.size()),
                                odds::quantile_of_sorted(values, 0.025),
                                odds::quantile_of_sorted(values, 0.975), convergence_[p]});
    }
    keep_draws(believed);
    out_.chains = settings_.chains;
    out_.sweeps = trails_.front().sweeps;
    Expecting expecting(*prepared_, model_);
    count_animals(expecting);
    check_dependence();
  }

  void keep_draws(const odds::Tables& believed) {
    const std::size_t a_chain = std::max<std::size_t>(settings_.kept / settings_.chains, 1);
    for (const Trail& trail : trails_) {
      const std::size_t begin = trail.numbers.size() / 2;
      const std::size_t length = trail.numbers.size() - begin;
      const std::size_t n = std::min(a_chain, length);
      for (std::size_t i = 0; i < n; ++i) {
        out_.draws.push_back(
            unflattened(trail.numbers[begin + (i + 1) * length / n - 1], believed));
      }
    }
  }

  void check_dependence() {
    DependenceCheck check(*prepared_, model_);
    if (check.empty()) return;
    inference::RandomBits random = random_stream(settings_.seed, Purpose::dependence);
    for (std::size_t i = 0; i < dependence_draws && !stopped(); ++i) {
      for (std::size_t sweep = 0; sweep < dependence_thinning; ++sweep) chains_.front()->step();
      check.add(*chains_.front(), random);
    }
    out_.dependences = check.result();
  }

  // At the mode: close to the average over draws, and exact.
  void count_animals(Expecting& expecting) {
    const auto expected = expecting.at(out_.modes.front().tables);
    const Counts counts = expected ? expected->counts : Counts(model_);
    for (std::size_t m = 0; m < counts.rows.size(); ++m) {
      const double weight = model_.markers()[m].weight;
      auto& of_marker = out_.animals.emplace_back();
      for (const auto& table : counts.rows[m]) {
        auto& of_table = of_marker.emplace_back();
        for (const auto& row : table) {
          double sum = 0;
          for (double count : row) sum += count;
          of_table.push_back(weight > 0 ? sum / weight : 0.0);
        }
      }
    }
  }

  const colony::Colony& colony_;
  const colony::Model& model_;
  const Settings& settings_;
  std::unique_ptr<odds::Prepared> prepared_;
  std::vector<std::unique_ptr<Chain>> chains_;
  std::vector<Trail> trails_;
  std::size_t keep_every_ = 1;  // sweeps
  std::vector<Convergence> convergence_;
  double last_r_hat_ = 0;
  Learned out_;
};

}  // namespace

LearnOutcome learn(const colony::Colony& colony, const Settings& settings) {
  return Learner(colony, settings).run();
}

}  // namespace likelihet::learning
