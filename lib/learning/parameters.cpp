// Tables to a list and back.
#include <likelihet/learning/counts.hpp>
#include <likelihet/learning/parameters.hpp>

namespace likelihet::learning {

namespace {

// Visits every entry in the order of flat().
template <class Tables, class Visit>
void each_entry(Tables& tables, Visit visit) {
  for (auto& marker : tables.rows) {
    for (auto& table : marker) {
      for (auto& row : table) {
        for (auto& p : row) visit(p);
      }
    }
  }
  for (auto& origin : tables.origins) {
    for (auto& locus : origin) {
      for (auto& p : locus) visit(p);
    }
  }
  for (auto& sure : tables.scorers) visit(sure);
  for (auto& group : tables.loadings) {
    for (auto& loading : group) visit(loading);
  }
}

}  // namespace

std::vector<double> flat(const odds::Tables& tables) {
  std::vector<double> out;
  each_entry(tables, [&](double p) { out.push_back(p); });
  return out;
}

odds::Tables unflattened(std::span<const double> numbers, odds::Tables like) {
  std::size_t next = 0;
  each_entry(like, [&](double& p) { p = numbers[next++]; });
  return like;
}

std::vector<Parameter> parameters(const colony::Model& model) {
  using Kind = Parameter::Kind;
  const Counts prior = prior_counts(model);
  std::vector<Parameter> out;
  for (std::size_t m = 0; m < prior.rows.size(); ++m) {
    for (std::size_t t = 0; t < prior.rows[m].size(); ++t) {
      for (std::size_t r = 0; r < prior.rows[m][t].size(); ++r) {
        const auto& row = prior.rows[m][t][r];
        for (std::size_t k = 0; k < row.size(); ++k) {
          out.push_back({Kind::row, m, t, r, k, open(row) && row[k] > 0});
        }
      }
    }
  }
  for (std::size_t o = 0; o < prior.origins.size(); ++o) {
    for (std::size_t l = 0; l < prior.origins[o].size(); ++l) {
      const auto& alleles = prior.origins[o][l];
      for (std::size_t a = 0; a < alleles.size(); ++a) {
        out.push_back({Kind::origin, o, 0, l, a, open(alleles) && alleles[a] > 0});
      }
    }
  }
  for (std::size_t s = 0; s < prior.scorers.size(); ++s) {
    const Readings& of = prior.scorers[s];
    out.push_back({Kind::scorer, s, 0, 0, 0, open({of.right, of.wrong})});
  }
  for (std::size_t g = 0; g < model.together().size(); ++g) {
    for (std::size_t i = 0; i < model.together()[g].markers.size(); ++i) {
      out.push_back({Kind::loading, g, 0, 0, i, open_group(model, g)});
    }
  }
  return out;
}

}  // namespace likelihet::learning
