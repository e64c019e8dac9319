#include "markup.hpp"

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

Markup name(std::string_view text) {
  return filled("<bdi>{}</bdi>", {text});
}

}  // namespace likelihet::publishing
