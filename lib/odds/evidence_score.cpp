// Marker rows, contexts, repeated and uncertain readings.
#include <algorithm>
#include <cmath>
#include <set>

#include <likelihet/inference/numbers.hpp>
#include <likelihet/odds/evidence_score.hpp>

namespace likelihet::odds {

void multiply_reading(std::size_t level, double sure, std::vector<double>& likelihood) {
  const double elsewhere = (1 - sure) / static_cast<double>(likelihood.size() - 1);
  for (std::size_t l = 0; l < likelihood.size(); ++l)
    likelihood[l] *= l == level ? sure : elsewhere;
}

std::vector<double> reading_likelihood(std::size_t levels, const std::vector<Reading>& readings) {
  std::vector<double> out(levels, 1.0);
  for (const Reading& reading : readings) multiply_reading(reading.level, reading.sure, out);
  return out;
}

bool many(const std::vector<Reading>& readings) {
  constexpr std::size_t few = 16;  // of errors down to 2^-60, half of them: above 2^-500
  return readings.size() >= few ||
         (readings.size() > 1 &&
          std::any_of(readings.begin(), readings.end(),
                      [](const Reading& r) { return r.sure > 0 && r.sure < 0x1p-60; }));
}

double scaled_reading_likelihood(std::size_t levels, const std::vector<Reading>& readings,
                                 std::vector<double>& out) {
  std::vector<inference::Extended> product(levels, inference::Extended(1.0));
  for (const Reading& reading : readings) {
    out.assign(levels, 1.0);
    multiply_reading(reading.level, reading.sure, out);
    for (std::size_t l = 0; l < levels; ++l) product[l] *= inference::Extended(out[l]);
  }
  std::optional<std::int64_t> largest;
  for (const inference::Extended& p : product) {
    if (p.mantissa > 0) largest = std::max(largest.value_or(p.exponent), p.exponent);
  }
  out.assign(levels, 0.0);
  if (!largest) return 0;
  for (std::size_t l = 0; l < levels; ++l) {
    if (!(product[l].mantissa > 0)) continue;
    product[l].exponent -= *largest;
    out[l] = std::max(inference::as_double(product[l]), 0x1p-1000);
  }
  return static_cast<double>(*largest) * std::log(2.0);
}

std::optional<std::size_t> table_in_force(const colony::Marker& marker,
                                          const std::vector<std::vector<std::size_t>>& shows,
                                          const std::string& line) {
  for (std::size_t c = 0; c < marker.contexts.size(); ++c) {
    const colony::MarkerContext& context = marker.contexts[c];
    bool holds = false;
    if (context.shows) {
      const auto& seen = shows[context.shows->first];
      holds = std::find(seen.begin(), seen.end(), context.shows->second) != seen.end();
    } else if (context.line) {
      holds = *context.line == line;
    }
    if (!holds) continue;
    if (context.ignore) return std::nullopt;
    return 1 + c;
  }
  return 0;
}

const std::vector<colony::MarkerRow>& rows_of(const colony::Marker& marker, std::size_t table) {
  return table == 0 ? marker.rows : marker.contexts[table - 1].rows;
}

std::vector<std::size_t> loci_read(const std::vector<colony::MarkerRow>& rows) {
  std::set<std::size_t> loci;
  for (const colony::MarkerRow& row : rows) {
    for (const auto& [locus, genotype] : row.at) loci.insert(locus);
  }
  return {loci.begin(), loci.end()};
}

std::vector<std::size_t> row_of_genotypes(const colony::Model& model,
                                          const std::vector<colony::MarkerRow>& rows,
                                          const std::vector<std::size_t>& loci) {
  std::size_t cells = 1;
  for (std::size_t locus : loci) cells *= model.loci()[locus].size();
  std::vector<std::size_t> out(cells);
  std::vector<std::size_t> genotype(model.loci().size(), 0);
  for (std::size_t cell = 0; cell < cells; ++cell) {
    std::size_t rest = cell;
    for (std::size_t i = loci.size(); i-- > 0;) {
      genotype[loci[i]] = rest % model.loci()[loci[i]].size();
      rest /= model.loci()[loci[i]].size();
    }
    const auto row =
        std::find_if(rows.begin(), rows.end(), [&](const colony::MarkerRow& candidate) {
          return std::all_of(candidate.at.begin(), candidate.at.end(),
                             [&](const auto& at) { return genotype[at.first] == at.second; });
        });
    out[cell] = static_cast<std::size_t>(row - rows.begin());
  }
  return out;
}

void row_likelihood(const std::vector<std::vector<double>>& expect,
                    const std::vector<double>& reading, double weight, std::vector<double>& out) {
  out.assign(expect.size(), 1.0);
  if (weight == 0) return;
  for (std::size_t r = 0; r < expect.size(); ++r) {
    double sum = 0;
    for (std::size_t level = 0; level < reading.size(); ++level) {
      sum += expect[r][level] * reading[level];
    }
    out[r] = weight == 1 ? sum : std::pow(sum, weight);
  }
}

std::vector<double> row_likelihood(const std::vector<std::vector<double>>& expect,
                                   const std::vector<double>& reading, double weight) {
  std::vector<double> out;
  row_likelihood(expect, reading, weight, out);
  return out;
}

}  // namespace likelihet::odds
