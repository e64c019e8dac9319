#include "figures.hpp"

#include <fmt/format.h>

#include <likelihet/odds/percent.hpp>

namespace likelihet::publishing {
namespace {

/// With spaces at which no line is broken (U+00A0).
std::string unbroken(std::string_view words) {
  std::string out;
  for (const char character : words) {
    if (character == ' ') {
      out += "\u00A0";
    } else {
      out += character;
    }
  }
  return out;
}

template <typename Write>
std::string with_interval(const Estimate& estimate, const Write& write) {
  if (!estimate.value) return estimate.why.empty() ? std::string(not_given) : estimate.why;
  std::string words = write(*estimate.value);
  if (estimate.interval) {
    words += " " + unbroken(fmt::format("({} – {})", write(estimate.interval->first),
                                        write(estimate.interval->second)));
  }
  return words;
}

}  // namespace

std::string count_text(const json& object, std::string_view name) {
  const auto value = number(object, name);
  return value ? fmt::format("{}", *value) : std::string(not_given);
}

std::string counted(long long count, std::string_view one, std::string_view many) {
  return fmt::format("{} {}", count, count == 1 ? one : many);
}

std::string percent_text(const Estimate& estimate) {
  if (!estimate.value || !estimate.interval) {
    return with_interval(estimate, [](double value) { return unbroken(odds::percent(value)); });
  }
  const auto range = odds::percent_range(estimate.interval->first, estimate.interval->second);
  return unbroken(odds::percent(*estimate.value)) + " (" + unbroken(range) + ")";
}

std::string percent_text(const json& object, std::string_view name) {
  return percent_text({number(object, name), std::nullopt, ""});
}

std::string decimal_text(const Estimate& estimate, int decimals) {
  return with_interval(estimate,
                       [=](double value) { return fmt::format("{:.{}f}", value, decimals); });
}

std::string ratio_text(const Estimate& estimate) {
  const auto words =
      with_interval(estimate, [](double value) { return fmt::format("{:.3g}", value); });
  return estimate.value ? "×" + words : words;
}

std::string p_text(const json& object, std::string_view name) {
  const auto p = number(object, name);
  if (!p) return std::string(not_given);
  return *p < 0.001 ? "<0.001" : fmt::format("{:.3f}", *p);
}

std::string marker_name(const json& audit, const json& marker) {
  std::string words = text(marker, "marker");
  if (different(entries(audit, "markers"), "locus").size() > 1)
    words += " at " + text(marker, "locus");
  if (number(marker, "context")) words += ", context " + count_text(marker, "context");
  return words;
}

std::string basis_words(std::string_view basis) {
  if (basis == "scored") return "with markers";
  return std::string(basis);
}

std::string scheme_words(std::string_view scheme) {
  if (scheme == "as-it-stood") return "as it stood on the day";
  if (scheme == "clutch-left-out") return "its own clutch left out";
  return std::string(scheme);
}

std::string kind_words(std::string_view kind) {
  if (kind == "visual") return "looks";
  if (kind == "all") return "all kinds";
  return std::string(kind);
}

}  // namespace likelihet::publishing
