// A chart: what is drawn, what it says in words, and the table that says the same in figures.
// Private to the layer.
#pragma once

#include <string>
#include <vector>

#include "table.hpp"
#include <nlohmann/json.hpp>

namespace likelihet::publishing {

using nlohmann::ordered_json;

/// One picture: a Vega-Lite specification, and what it shows for those who can't see it.
struct Drawing {
  ordered_json specification;
  std::string description;
};

struct Chart {
  std::string id;  ///< Unique in the page; letters, digits and dashes.
  std::string title;
  std::string caption;  ///< How to read it.
  std::vector<Drawing> drawings;
  std::vector<Table> tables;
};

/// The chart as a figure. Where the page has no script to draw it, the tables stand open instead.
Markup html_figure(const Chart& chart, bool can_draw);

}  // namespace likelihet::publishing
