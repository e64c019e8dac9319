// STARD 2015, item by item.
#include "reporting_items.hpp"

namespace likelihet::publishing {

std::vector<ReportingItem> stard_items(const json& audit) {
  const ReportingFacts facts = reporting_facts(audit);
  return {
      {"1", "say that this is a study of accuracy",
       "an audit of forecasts of hets, and of the markers behind them"},
      {"2", "a summary", "“In short”"},
      {"3", "what the marker is for",
       "to say, before a test or breeding, how likely an animal carries one copy"},
      {"4", "aims and hypotheses",
       "whether forecasts come true, and whether markers improve on the pedigree"},
      {"5", "planned before or after the data",
       "computed afterwards from records kept as they came; each forecast uses only what was known "
       "on its day"},
      {"6", "who could take part",
       "animals of the book, not known from the start, with a forecast before their outcome"},
      {"7", "how they were found", "all in the book; none were sought out"},
      {"8", "where and when", facts.as_of + "; the place is " + not_recorded},
      {"9", "in a row, at random, or as it came",
       "as the keeper tested and bred; see “Who was tested”"},
      {"10a", "the marker, so that it can be repeated",
       facts.markers + " with their levels; where on the animal and how to look is " +
           not_recorded},
      {"10b", "the reference, so that it can be repeated", facts.outcomes},
      {"11", "why that reference",
       "what proves an animal to its keeper; test, breeding and looks are told apart in the "
       "scores"},
      {"12a", "levels of the marker that count as seen, set before or after",
       "every level is shown, none was chosen by its result"},
      {"12b", "cuts of the reference", facts.settings},
      {"13a", "did scorers know the outcome", facts.blinding},
      {"13b", "did those who gave the outcome know the marker", not_recorded},
      {"14", "how accuracy was estimated",
       "naive counts with Wilson intervals, corrected for who was tested, and within clutches"},
      {"15", "scores that can't be decided", facts.indeterminate},
      {"16", "what is missing",
       "animals without an outcome are listed as not known; the correction allows for them"},
      {"17", "differences between groups",
       "by line, scorer, season, blinding, other traits; all exploratory"},
      {"18", "size planned for", not_recorded},
      {"19", "flow of those who took part", "“Which animals were checked”"},
      {"20", "who they were", facts.animals},
      {"21a", "how severe it was in those who had it",
       "does not apply: one copy is all that is asked"},
      {"21b", "what else the others had",
       "other traits that a marker goes with are named at the marker"},
      {"22", "time between score and reference", "the days of each are in “Every forecast”"},
      {"23", "marker against reference, in a table", "the levels of each marker, in its figures"},
      {"24", "accuracy with its precision", "95 % intervals throughout"},
      {"25", "harm done by marker or reference", not_recorded},
      {"26", "limits", "the warnings at the top, and “Limits and cautions”"},
      {"27", "what it means for practice", "the verdict on each marker, and net benefit"},
      {"28", "registration", not_recorded},
      {"29", "where the full plan is", "the program’s own description of its methods"},
      {"30", "who paid", not_recorded}};
}

}  // namespace likelihet::publishing
