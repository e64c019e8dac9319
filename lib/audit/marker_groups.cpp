// Groups of animals, and other traits.
#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <vector>

#include <likelihet/audit/homogeneity.hpp>
#include <likelihet/audit/marker_groups.hpp>

namespace likelihet::audit {

namespace {

constexpr std::size_t fewest_animals = 5;
constexpr double widest_variance = 10;

}  // namespace

bool tells(const GroupAudit& group) {
  return group.variance > 0 && group.variance < widest_variance;
}

namespace {

using NameOf = std::function<std::optional<std::string>(const Subject&)>;

// Returns the p of their being alike, where two or more tell anything.
std::optional<double> add_groups(std::span<const Subject> subjects, GroupAudit::By by,
                                 const NameOf& name_of, MarkerAudit& out) {
  std::map<std::string, std::vector<Subject>> groups;
  for (const Subject& one : subjects) {
    if (const auto name = name_of(one)) groups[*name].push_back(one);
  }
  if (groups.size() < 2 && by != GroupAudit::By::scorer) return std::nullopt;
  std::vector<LevelData> telling;
  for (const auto& [name, members] : groups) {
    if (members.size() < fewest_animals) continue;
    const std::size_t levels = out.estimated_carriers.size();
    const LevelData data = at_cut(level_data(members, levels), 1);
    const CutFit fit = fit_cut(data);
    GroupAudit group{by,
                     name,
                     members.size(),
                     0,
                     fit.log_odds_ratio(),
                     fit.log_odds_ratio_variance(),
                     fit.odds_ratio()};
    group.known = static_cast<std::size_t>(std::count_if(
        members.begin(), members.end(), [](const Subject& s) { return s.known.has_value(); }));
    if (tells(group)) telling.push_back(data);
    out.groups.push_back(std::move(group));
  }
  if (telling.size() < 2) return std::nullopt;
  return homogeneity_p(telling);
}

// Positions of another trait's hets among the subjects, in names.
NameOf carriers_of(const colony::Colony& colony, const MarkerlessTable& markerless,
                   std::size_t locus, std::uint16_t allele) {
  const auto& of = colony.model().loci()[locus];
  const std::string name = of.id() + " " + of.alleles()[allele];
  return [&markerless, locus, allele, name](const Subject& one) -> std::optional<std::string> {
    const genetics::CopyChances& copies = markerless.of(one.read.animal, locus, allele);
    if (copies.two > 0.5) return std::nullopt;
    return (copies.one >= 0.5 ? "het for " : "not het for ") + name;
  };
}

template <class Do>
void for_each_other(const colony::Colony& colony, std::size_t locus, Do&& act) {
  const auto& loci = colony.model().loci();
  for (std::size_t l = 0; l < loci.size(); ++l) {
    if (l == locus) continue;
    const auto alleles = static_cast<std::uint16_t>(loci[l].alleles().size());
    for (std::uint16_t a = 1; a < alleles; ++a) act(l, a);
  }
}

}  // namespace

void audit_groups(const colony::Colony& colony, const MarkerlessTable& markerless,
                  std::span<const Subject> subjects, std::span<const Subject> separate,
                  MarkerAudit& out) {
  using By = GroupAudit::By;
  out.lines_differ = add_groups(
      subjects, By::line,
      [&](const Subject& one) -> std::optional<std::string> {
        const auto& line = colony.animals()[one.read.animal].line;
        return line.empty() ? std::nullopt : std::optional(line);
      },
      out);
  add_groups(
      separate, By::scorer,
      [&](const Subject& one) -> std::optional<std::string> {
        if (!one.read.scorer) return std::nullopt;
        return colony.model().scorers()[*one.read.scorer].id;
      },
      out);
  add_groups(
      subjects, By::season,
      [](const Subject& one) -> std::optional<std::string> {
        if (!one.read.on) return std::nullopt;
        return one.read.on->text().substr(0, 4);
      },
      out);
  out.blinding_differs = add_groups(
      subjects, By::blinding,
      [](const Subject& one) -> std::optional<std::string> {
        if (!one.read.blind) return std::nullopt;
        return *one.read.blind ? "blind" : "not blind";
      },
      out);
  for_each_other(colony, out.locus, [&](std::size_t l, std::uint16_t a) {
    add_groups(subjects, By::carriers_of, carriers_of(colony, markerless, l, a), out);
  });
}

std::optional<OtherTrait> other_trait(const colony::Colony& colony,
                                      const MarkerlessTable& markerless,
                                      std::span<const Subject> subjects, const MarkerAudit& of,
                                      std::size_t levels) {
  std::optional<OtherTrait> best;
  double tried = 0;
  for_each_other(colony, of.locus, [&](std::size_t l, std::uint16_t a) {
    // Classes: 2 x (carrier of this trait) + (carrier of the other).
    LevelData data{levels, 4, {}, {}};
    for (const Subject& one : subjects) {
      const genetics::CopyChances& copies = markerless.of(one.read.animal, l, a);
      if (copies.two > 0.5) continue;
      const double other = copies.one / (copies.none + copies.one);
      data.level.push_back(one.read.level);
      for (double mine : {1 - one.carrier, one.carrier}) {
        data.weight.push_back(mine * (1 - other));
        data.weight.push_back(mine * other);
      }
    }
    if (data.level.empty()) return;
    ++tried;
    const double both = fit_levels(data).log_likelihood;
    const double mine =
        fit_levels(joined(data, std::vector<std::size_t>{0, 0, 1, 1})).log_likelihood;
    const double others =
        fit_levels(joined(data, std::vector<std::size_t>{0, 1, 0, 1})).log_likelihood;
    const double degrees = degrees_between(data, 4, 2);
    const OtherTrait found{l, a, likelihood_ratio_p(both, mine, degrees),
                           likelihood_ratio_p(both, others, degrees)};
    if (!best || found.p < best->p) best = found;
  });
  if (best) best->p = std::min(1.0, best->p * tried);
  return best;
}

}  // namespace likelihet::audit
