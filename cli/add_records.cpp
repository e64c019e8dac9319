// Reads the compact forms of the add commands and adds what they say.
#include "add_records.hpp"

#include <charconv>
#include <string_view>
#include <utility>

#include "change_output.hpp"
#include "failure.hpp"
#include "open_book.hpp"
#include "printable.hpp"
#include <fmt/format.h>

#include <likelihet/book/book.hpp>

namespace likelihet::cli {
namespace {

std::optional<double> number_in(std::string_view text) {
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  return value;
}

Failure malformed(const std::string& text) {
  return {ExitStatus::usage, "command line", fmt::format("'{}' is not a --bought-as", text),
          "write it as LOCUS:KEY=P,KEY=P@TRUST, such as tarnbrook:+/+=0.34,+/e=0.66@0.9"};
}

}  // namespace

Reply add_records(const std::string& book, const colony::Records& records, const Shell& shell) {
  auto opened = open_book(book);
  auto outcome = opened.add(records, book::Mode::commit);
  if (auto* faults = std::get_if<colony::Faults>(&outcome)) {
    throw Failure(ExitStatus::input, std::move(*faults));
  }
  ChangeTold told;
  told.change = std::get<book::Change>(outcome);
  shell.has_recorded(change_text(told));
  if (shell.json) return {change_json(told), {}};
  return {fmt::format("{}: {}\n", printable(book), change_text(told)), {}};
}

colony::SireRecord sire_of(const std::string& text) {
  const auto colon = text.rfind(':');
  if (colon == std::string::npos) return {text, std::nullopt};
  const auto share = number_in(std::string_view(text).substr(colon + 1));
  if (!share) return {text, std::nullopt};
  return {text.substr(0, colon), share};
}

colony::BoughtAsRecord bought_as_of(const std::string& text) {
  colony::BoughtAsRecord bought;
  std::string_view rest = text;
  const auto colon = rest.find(':');
  if (colon == std::string_view::npos) throw malformed(text);
  bought.locus = rest.substr(0, colon);
  rest.remove_prefix(colon + 1);
  if (const auto at = rest.rfind('@'); at != std::string_view::npos) {
    bought.trust = number_in(rest.substr(at + 1));
    if (!bought.trust) throw malformed(text);
    rest = rest.substr(0, at);
  }
  while (!rest.empty()) {
    const auto comma = rest.find(',');
    const std::string_view entry = rest.substr(0, comma);
    const auto equals = entry.rfind('=');
    if (equals == std::string_view::npos) throw malformed(text);
    const auto probability = number_in(entry.substr(equals + 1));
    if (!probability) throw malformed(text);
    bought.odds.emplace_back(entry.substr(0, equals), *probability);
    rest = comma == std::string_view::npos ? std::string_view{} : rest.substr(comma + 1);
  }
  if (bought.odds.empty()) throw malformed(text);
  return bought;
}

}  // namespace likelihet::cli
