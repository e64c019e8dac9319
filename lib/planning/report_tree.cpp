// Growing the tree by one test: every class of every branch, or one drawn for each.
#include <likelihet/inference/random_bits.hpp>
#include <likelihet/planning/report_tree.hpp>

namespace likelihet::planning {

namespace {

// One of the positions, in proportion to its chance.
std::size_t drawn(const std::vector<double>& chances, inference::RandomBits& random) {
  double sum = 0;
  for (double p : chances) sum += p;
  double left = random.uniform() * sum;
  std::size_t last = 0;
  for (std::size_t r = 0; r < chances.size(); ++r) {
    if (!(chances[r] > 0)) continue;
    last = r;
    left -= chances[r];
    if (left < 0) return r;
  }
  return last;
}

// Which branch stands at each of `count` places a step of 1 / count apart.
std::vector<std::size_t> systematic(const std::vector<ReportTree::Branch>& branches,
                                    std::size_t count, inference::RandomBits& random) {
  std::vector<std::size_t> out;
  const double start = random.uniform();
  double reached = branches.front().weight;
  std::size_t b = 0;
  for (std::size_t i = 0; i < count; ++i) {
    const double place = (static_cast<double>(i) + start) / static_cast<double>(count);
    while (place >= reached && b + 1 < branches.size()) reached += branches[++b].weight;
    out.push_back(b);
  }
  return out;
}

}  // namespace

std::vector<odds::SupposedSet> ReportTree::sets() const {
  std::vector<odds::SupposedSet> out;
  out.reserve(branches_.size());
  for (const Branch& branch : branches_) {
    auto& set = out.emplace_back();
    for (std::size_t t = 0; t < tests_.size(); ++t) {
      set.push_back({tests_[t].place, tests_[t].classes[branch.classes[t]].likelihood});
    }
  }
  return out;
}

void ReportTree::add(const odds::GenotypePlace& place, const std::vector<ReportClass>& classes,
                     std::span<const std::vector<double>> genotypes,
                     inference::RandomBits& random) {
  std::vector<std::vector<double>> chances;
  for (const auto& of_branch : genotypes) {
    auto& of = chances.emplace_back(classes.size(), 0.0);
    for (std::size_t r = 0; r < classes.size(); ++r) {
      for (std::size_t g = 0; g < of_branch.size(); ++g) {
        of[r] += of_branch[g] * classes[r].likelihood[g];
      }
    }
  }
  tests_.push_back({place, classes});
  if (sampled_ || branches_.size() * classes.size() > limits_.exact) {
    draw(chances, random);
  } else {
    split(chances);
  }
}

void ReportTree::split(const std::vector<std::vector<double>>& chances) {
  std::vector<Branch> next;
  for (std::size_t b = 0; b < branches_.size(); ++b) {
    for (std::size_t r = 0; r < chances[b].size(); ++r) {
      if (!(chances[b][r] > 0)) continue;
      Branch branch = branches_[b];
      branch.weight *= chances[b][r];
      branch.classes.push_back(r);
      next.push_back(std::move(branch));
    }
  }
  branches_ = std::move(next);
}

void ReportTree::draw(const std::vector<std::vector<double>>& chances,
                      inference::RandomBits& random) {
  std::vector<std::size_t> from;
  if (sampled_) {
    for (std::size_t b = 0; b < branches_.size(); ++b) from.push_back(b);
  } else {
    from = systematic(branches_, limits_.samples, random);
  }
  std::vector<Branch> next;
  for (const std::size_t b : from) {
    Branch branch = branches_[b];
    branch.weight = 1 / static_cast<double>(from.size());
    branch.classes.push_back(drawn(chances[b], random));
    next.push_back(std::move(branch));
  }
  branches_ = std::move(next);
  sampled_ = true;
}

}  // namespace likelihet::planning
