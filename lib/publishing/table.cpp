#include "table.hpp"

namespace likelihet::publishing {
namespace {

bool holds_figures(const Table& table, std::size_t column) {
  return column >= table.figures_from && column < table.figures_until;
}

/// Figures, ids and days stay on one line; other words, and a reason why there is no figure, may
/// take several.
bool may_break(bool figure, std::string_view words) {
  constexpr std::size_t length_of_an_id = 12;
  const bool has_digits = words.find_first_of("0123456789") != std::string_view::npos;
  return words.size() > length_of_an_id && !(figure && has_digits);
}

Markup cell(const Table& table, std::size_t column, const std::string& words) {
  const bool figure = holds_figures(table, column);
  const auto style = filled(" class=\"{} {}\"", {figure ? "figure" : "words",
                                                 may_break(figure, words) ? "long" : "short"});
  if (column == 0) return filled("<th scope=\"row\"{}><bdi>{}</bdi></th>", {style, words});
  return filled("<td{}><bdi>{}</bdi></td>", {style, words});
}

Markup table_head(const Table& table) {
  Markup html;
  for (std::size_t column = 0; column < table.columns.size(); ++column) {
    html += !holds_figures(table, column)
                ? filled("<th scope=\"col\">{}</th>", {table.columns[column]})
                : filled("<th scope=\"col\" class=\"figure\">{}</th>", {table.columns[column]});
  }
  return filled("<thead><tr>{}</tr></thead>\n", {html});
}

Markup body(const Table& table) {
  Markup html;
  for (const auto& row : table.rows) {
    html += "<tr>";
    for (std::size_t column = 0; column < row.size(); ++column) {
      html += cell(table, column, row[column]);
    }
    html += "</tr>\n";
  }
  return filled("<tbody>\n{}</tbody>", {html});
}

}  // namespace

Markup html_table(const Table& table) {
  if (table.rows.empty())
    return filled("<p class=\"none\">{}: nothing to list.</p>\n", {table.caption});
  return filled(
      "<div class=\"scroll\" tabindex=\"0\" role=\"group\" aria-label=\"Table: {}\">\n"
      "<table><caption>{}</caption>\n{}{}</table></div>\n",
      {table.caption, table.caption, table_head(table), body(table)});
}

Markup folded(const std::string& line, const std::vector<Table>& tables, bool open) {
  Markup html;
  for (const Table& table : tables) html += html_table(table);
  return filled("<details{}><summary>{}</summary>\n{}</details>\n",
                {open ? literal(" open") : Markup(), line, html});
}

}  // namespace likelihet::publishing
