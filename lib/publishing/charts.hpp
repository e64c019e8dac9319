// The charts of an audit, one function and one file each. All take the audit document; those that
// have nothing to show return no chart. Private to the layer.
#pragma once

#include <vector>

#include "chart.hpp"
#include "fields.hpp"

namespace likelihet::publishing {

/// For each basis and scheme, those with markers first: what was forecast against what came true,
/// as an isotonic curve with its consistency band and as a few groups of equal count (Dimitriadis,
/// Gneiting and Jordan 2021, PNAS 118, for the curve and band), and below it how often each
/// percentage was given, by outcome.
std::vector<Chart> reliability_charts(const json& audit);

/// For each scheme: how hets and others are told apart at every threshold.
std::vector<Chart> roc_charts(const json& audit);

/// For each scheme: net benefit at the thresholds (Vickers and Elkin 2006, Medical Decision Making
/// 26), beside those of the pedigree and of taking all or none for hets.
std::vector<Chart> net_benefit_charts(const json& audit);

/// For each scheme: hets expected and found, period by period.
std::vector<Chart> drift_charts(const json& audit);

/// Of everything called so many per cent: how many turned out het. One chart at most.
std::vector<Chart> listing_charts(const json& audit);

/// What each marker does to the odds, in three estimates. One chart at most.
std::vector<Chart> forest_charts(const json& audit);

/// How well scorers agree. One chart at most.
std::vector<Chart> agreement_charts(const json& audit);

/// For each animal that the document explains: what moved its odds, step by step.
std::vector<Chart> waterfall_charts(const json& audit);

/// The charts as figures, one below the other; where there are none, the sentence that says why.
Markup html_figures(const std::vector<Chart>& charts, bool can_draw, Literal without);

}  // namespace likelihet::publishing
