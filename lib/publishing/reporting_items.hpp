// Reporting guidelines for studies like an audit, and what a document answers to them. Private to
// the layer.
#pragma once

#include <string>
#include <vector>

#include "fields.hpp"

namespace likelihet::publishing {

/// One item: its number in the guideline, what it asks for in our own words, and the answer.
struct ReportingItem {
  std::string number;
  std::string asks;
  std::string answer;
};

/// The answer where the book has no place for what is asked.
inline constexpr const char* not_recorded = "not recorded by the program";

/// STARD 2015, studies of diagnostic accuracy (Bossuyt et al. 2015, BMJ 351:h5527): 30 items, some
/// in two parts. Numbers and sense are from memory and were not checked against the paper.
std::vector<ReportingItem> stard_items(const json& audit);

/// TRIPOD+AI, studies of prediction models (Collins et al. 2024, BMJ 385:e078378): 27 items. From
/// memory too, and not checked.
std::vector<ReportingItem> tripod_items(const json& audit);

/// Sums and settings of the document that several answers need.
struct ReportingFacts {
  std::string as_of;
  std::string animals;   ///< "in the book 103, scored 82, forecasts checked 41", of each locus.
  std::string outcomes;  ///< "by test 22, by breeding 9, …", of each locus.
  std::string left_out;  ///< How many, and that the reasons are listed.
  std::string blinding;  ///< How many readings were blind.
  std::string indeterminate;
  std::string settings;
  std::string markers;
};
ReportingFacts reporting_facts(const json& audit);

}  // namespace likelihet::publishing
