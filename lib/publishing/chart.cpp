#include "chart.hpp"

#include "script.hpp"

namespace likelihet::publishing {
namespace {

Markup html_drawing(const Drawing& drawing, const std::string& id) {
  return filled(
      "<div class=\"drawing\" role=\"img\" aria-label=\"{}\" data-specification=\"{}\"></div>\n"
      "<script type=\"application/json\" id=\"{}\">{}</script>\n",
      {drawing.description, id, id, Script::data(drawing.specification)});
}

}  // namespace

Markup html_figure(const Chart& chart, bool can_draw) {
  Markup drawings;
  if (can_draw) {
    std::size_t next = 1;
    for (const Drawing& drawing : chart.drawings) {
      drawings += html_drawing(drawing, chart.id + "-drawing-" + std::to_string(next++));
    }
  }
  return filled(
      "<figure class=\"chart\" id=\"{}\">\n"
      "<figcaption><strong>{}</strong> <span>{}</span></figcaption>\n{}{}</figure>\n",
      {chart.id, chart.title, chart.caption, drawings,
       folded("The figures of this chart", chart.tables, !can_draw || chart.drawings.empty())});
}

}  // namespace likelihet::publishing
