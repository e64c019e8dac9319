// Readings of markers: which table holds, which readings look at one level, which markers share a
// strength.
#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include <likelihet/odds/evidence_score.hpp>
#include <likelihet/odds/network_builder.hpp>

namespace likelihet::odds {

using colony::Observation;

void NetworkBuilder::gather_scores(std::size_t animal,
                                   const std::vector<const Observation*>& seen) {
  std::map<std::size_t, std::vector<Reading>> readings;
  std::vector<std::vector<std::size_t>> shows(loci_);
  for (const Observation* observation : seen) {
    if (const auto* shown = std::get_if<colony::AppearanceSeen>(&observation->what)) {
      shows[shown->locus].push_back(shown->appearance);
    }
    const auto* score = std::get_if<colony::Score>(&observation->what);
    if (score != nullptr && score->level) {
      readings[score->marker].push_back(
          {*score->level, score->sure, score->own_sure ? std::nullopt : score->scorer});
    }
  }
  std::map<std::size_t, std::vector<Term::Score>> together;  // by group
  for (auto& [m, of_marker] : readings) {
    const colony::Marker& marker = model_.markers()[m];
    const auto table = table_in_force(marker, shows, colony_.animals()[animal].line);
    if (!table || marker.weight == 0) continue;
    std::sort(of_marker.begin(), of_marker.end());
    Term::Score score{m, *table, of_marker, {}};
    if (const auto of = membership(model_, m)) {
      together[of->group].push_back(std::move(score));
    } else {
      add_scores(animal, {std::move(score)});
    }
  }
  for (auto& [group, scores] : together) add_scores(animal, std::move(scores));
}

// Of one marker, or of all of a group that were read.
void NetworkBuilder::add_scores(std::size_t animal, std::vector<Term::Score> scores) {
  Key key{2};
  std::set<std::size_t> read;
  for (const Term::Score& score : scores) {
    key.insert(key.end(),
               {-1.0, static_cast<double>(score.marker), static_cast<double>(score.table)});
    for (const Reading& reading : score.readings) {
      key.push_back(static_cast<double>(reading.level));
      key.push_back(reading.sure);
      key.push_back(reading.scorer ? 1.0 + static_cast<double>(*reading.scorer) : 0.0);
    }
    const auto of_rows = loci_read(rows_of(model_.markers()[score.marker], score.table));
    read.insert(of_rows.begin(), of_rows.end());
  }
  const std::vector<std::size_t> loci(read.begin(), read.end());
  for (Term::Score& score : scores) {
    score.row_of =
        row_of_genotypes(model_, rows_of(model_.markers()[score.marker], score.table), loci);
  }
  const std::uint32_t made = term(key, {Layer::scored, {}, std::move(scores), std::nullopt});
  own_evidence_[animal] = true;
  add_scale(animal, std::move(key), made);
  out_.scored_.push_back({made, animal, loci, std::nullopt});
  if (loci.size() == 1) {
    terms_at(animal, loci.front()).push_back(made);
    return;
  }
  tied_scores_.emplace(std::pair(animal, made), out_.scored_.size() - 1);
  ties_[animal].emplace_back(loci, made);
  for (std::size_t l : loci) needs_variable_[animal * loci_ + l] = true;
}

// What was taken out of the likelihood of many readings, in factors that a double holds, also at
// other reliabilities of the scorers than these.
void NetworkBuilder::add_scale(std::size_t animal, Key key, std::uint32_t scored) {
  constexpr double part_nats = 64;
  const std::vector<Term::Score> scores = out_.terms_[scored].scores;
  const double scale = std::abs(term_numbers_.log_scale(scores));
  if (!(scale > 0)) return;
  const auto parts = static_cast<std::size_t>(std::ceil(scale / part_nats));
  key.front() = 8;
  Term made{Layer::scored, {}, scores, std::nullopt, parts};
  for (Term::Score& score : made.scores) score.row_of.assign(1, 0);
  const std::uint32_t part = term(key, std::move(made));
  for (std::size_t i = 0; i < parts; ++i) ties_[animal].push_back({{}, part});
}

}  // namespace likelihet::odds
