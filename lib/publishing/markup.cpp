#include "markup.hpp"

#include <algorithm>
#include <array>
#include <stdexcept>

namespace likelihet::publishing {
namespace {

bool is_forbidden(char character) {
  const auto byte = static_cast<unsigned char>(character);
  return (byte < 0x20 && byte != '\t' && byte != '\n') || byte == 0x7F;
}

std::string_view reference(char character) {
  switch (character) {
    case '&':
      return "&amp;";
    case '<':
      return "&lt;";
    case '>':
      return "&gt;";
    case '"':
      return "&quot;";
    case '\'':
      return "&#39;";
    default:
      return is_forbidden(character) ? "\xEF\xBF\xBD" : std::string_view();
  }
}

}  // namespace

Markup& Markup::operator+=(const Markup& other) {
  html_ += other.html_;
  return *this;
}

Markup& Markup::operator+=(Literal literal) {
  html_ += literal.text;
  return *this;
}

Markup literal(Literal written) {
  return Markup(std::string(written.text));
}

Markup escaped(std::string_view text) {
  std::string html;
  html.reserve(text.size());
  for (const char character : text) {
    const auto instead = reference(character);
    if (instead.empty()) {
      html += character;
    } else {
      html += instead;
    }
  }
  return Markup(std::move(html));
}

Markup filled(Literal pattern, std::initializer_list<Filling> fillings) {
  std::string html;
  std::string_view rest = pattern.text;
  for (const Filling& filling : fillings) {
    const auto place = rest.find("{}");
    if (place == std::string_view::npos) throw std::logic_error("more fillings than places");
    html += rest.substr(0, place);
    html += filling.markup.str();
    rest.remove_prefix(place + 2);
  }
  if (rest.find("{}") != std::string_view::npos) throw std::logic_error("a place was not filled");
  return Markup(html += rest);
}

std::string one_way(std::string_view text) {
  constexpr std::string_view replacement = "\xEF\xBF\xBD";
  // All start with D8 or E2 in UTF-8; the rest is looked up whole.
  constexpr std::array<std::string_view, 12> turning = {
      "\xD8\x9C",     "\xE2\x80\x8E", "\xE2\x80\x8F", "\xE2\x80\xAA",
      "\xE2\x80\xAB", "\xE2\x80\xAC", "\xE2\x80\xAD", "\xE2\x80\xAE",
      "\xE2\x81\xA6", "\xE2\x81\xA7", "\xE2\x81\xA8", "\xE2\x81\xA9"};
  std::string out;
  while (!text.empty()) {
    const auto* const found = std::find_if(turning.begin(), turning.end(), [&](const auto& marker) {
      return text.starts_with(marker);
    });
    if (found == turning.end()) {
      out += text.front();
      text.remove_prefix(1);
    } else {
      out += replacement;
      text.remove_prefix(found->size());
    }
  }
  return out;
}

Markup name(std::string_view text) {
  return filled("<bdi>{}</bdi>", {text});
}

}  // namespace likelihet::publishing
