// TRIPOD+AI, item by item.
#include "reporting_items.hpp"

namespace likelihet::publishing {

std::vector<ReportingItem> tripod_items(const json& audit) {
  const ReportingFacts facts = reporting_facts(audit);
  return {{"1", "a title that says what was studied",
           "an audit of a prediction model on the records of its own book"},
          {"2", "a summary", "“In short”"},
          {"3", "what for, and for whom",
           "for keepers, to say how likely an animal carries one copy; unequal harm is " +
               std::string(not_recorded)},
          {"4", "aims",
           "to evaluate, not to develop: forecasts against outcomes, markers against the pedigree"},
          {"5", "where the data come from, and when", "one keeper’s book; " + facts.as_of},
          {"6", "who took part, and where", facts.animals + "; the place is " + not_recorded},
          {"7", "how data were prepared",
           "taken as recorded; withdrawn records are left out from the day of withdrawal"},
          {"8", "the outcome and how it was known", facts.outcomes + "; " + facts.settings},
          {"9", "what forecasts are made from",
           "pedigree, " + facts.markers + ", results; " + facts.blinding},
          {"10", "why so many", "all there are; intervals show whether they are enough"},
          {"11", "what is missing",
           facts.indeterminate + "; animals without an outcome are not scored"},
          {"12", "how it was analysed",
           "proper scores, calibration, discrimination and net benefit; " + facts.settings},
          {"13", "rare outcomes",
           "nothing was reweighed; the share of hets stands in the reliability diagram"},
          {"14", "fairness between groups", "markers are split by line, scorer and season"},
          {"15", "what the model gives out",
           "the chance of exactly one copy of the allele, from 0 to 100 %"},
          {"16", "how evaluation differs from development",
           "as it stood on the day; and with the animal’s own clutch left out"},
          {"17", "ethics approval", not_recorded},
          {"18", "openness: money, interests, plan, registration, data, code",
           "the audit document holds every forecast; the rest is " + std::string(not_recorded)},
          {"19", "part that those concerned had in the study", not_recorded},
          {"20", "flow and description of those who took part",
           "“Which animals were checked”; " + facts.left_out},
          {"21", "numbers in each analysis", "forecasts and clutches stand beside each score"},
          {"22", "the whole model",
           "the model document of the book; steps of some animals under “Where a percentage comes "
           "from”"},
          {"23", "performance, with intervals, and by group", "“How good the forecasts were”"},
          {"24", "updating", "nothing is updated by an audit"},
          {"25", "interpretation", "“In short”, and the verdict on each marker"},
          {"26", "limits", "the warnings at the top, and “Limits and cautions”"},
          {"27", "use in practice, and poor input",
           "net benefit; a look that can’t be taken is recorded as not scorable"}};
}

}  // namespace likelihet::publishing
