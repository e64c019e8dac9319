// What all charts share as Vega-Lite specifications: version, colours, sizes, and small pieces of
// their grammar. Private to the layer.
//
// Field names and expressions are literals of this program; what a document says stands in a
// specification as data alone, so that it can't become an expression.
#pragma once

#include <string>
#include <string_view>

#include "fields.hpp"
#include <nlohmann/json.hpp>

namespace likelihet::publishing {

using nlohmann::ordered_json;

/// Five colours of Okabe and Ito's palette (2008, "Color Universal Design"; from memory), which
/// people with any of the common kinds of colour blindness can tell apart, and two greys. No chart
/// tells things apart by them alone.
namespace colour {
inline constexpr std::string_view blue = "#0072B2";
inline constexpr std::string_view vermillion = "#D55E00";
inline constexpr std::string_view green = "#009E73";
inline constexpr std::string_view orange = "#E69F00";
inline constexpr std::string_view purple = "#CC79A7";
inline constexpr std::string_view ink = "#222222";
inline constexpr std::string_view grey = "#767676";
}  // namespace colour

/// A specification of Vega-Lite version 5, at most so wide and as high as its rows need.
ordered_json wide_chart(int width);

/// One with square axes, at most so wide.
ordered_json square_chart(int width);

/// `{"values": rows}`.
ordered_json data(ordered_json rows);

/// A figure for a row of data; null where there is none.
ordered_json value_or_null(const std::optional<double>& value);

/// A row of data for an estimate: `value`, `low` and `high`. Estimates without a value have none.
ordered_json estimate_row(const Estimate& estimate);

/// A channel for a field: {"field": …, "type": …, "title": …, "axis": …}.
ordered_json quantity(std::string_view field, std::string_view title, ordered_json scale = nullptr);
ordered_json category(std::string_view field, ordered_json title = nullptr);

/// The names of a chart's rows, on as many lines as they have.
ordered_json row_names(std::string_view field);

/// The axis of a probability, from 0 to 100 %.
ordered_json probability_axis(std::string_view field, std::string_view title);

/// Tells kinds apart by the same names in three channels at once: colour, point shape and dash. The
/// entries of the range stand in the order of the names.
struct Kind {
  std::string_view name;
  std::string_view colour;
  std::string_view shape;
  std::vector<int> dash;
};
ordered_json colour_of(std::string_view field, const std::vector<Kind>& kinds);
ordered_json shape_of(std::string_view field, const std::vector<Kind>& kinds);
ordered_json dash_of(std::string_view field, const std::vector<Kind>& kinds);

}  // namespace likelihet::publishing
