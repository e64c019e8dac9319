// HTML that cannot be mixed up with text. Private to the layer.
#pragma once

#include <cstddef>
#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>

namespace likelihet::publishing {

/// Text of this program's own source, known when it is compiled: the only text that may stand in a
/// page as it is. Nothing out of a document can become one.
struct Literal {
  template <std::size_t size>
  consteval Literal(const char (&written)[size]) : text(written, size - 1) {}  // NOLINT
  std::string_view text;
};

struct Filling;

/// A piece of HTML. It is made from literals, from escaped text and from other pieces, and in no
/// other way, so that what a document says can't become a tag.
class Markup {
 public:
  Markup() = default;
  const std::string& str() const { return html_; }
  bool empty() const { return html_.empty(); }
  Markup& operator+=(const Markup& other);
  Markup& operator+=(Literal literal);

 private:
  friend Markup literal(Literal written);
  friend Markup escaped(std::string_view text);
  friend Markup filled(Literal pattern, std::initializer_list<Filling> fillings);
  friend struct Script;  // script.hpp
  explicit Markup(std::string html) : html_(std::move(html)) {}
  std::string html_;
};

Markup literal(Literal written);

/// Text as HTML: `&`, `<`, `>` and both quotes as references, so that it may also stand in a quoted
/// attribute. Control characters other than tab and newline, which HTML forbids, are shown as
/// U+FFFD. The text is UTF-8.
Markup escaped(std::string_view text);

/// What stands for a `{}`: text, which is escaped, or markup, which is not. Made in passing, hence
/// not explicit.
struct Filling {
  Filling(std::string_view text) : markup(escaped(text)) {}    // NOLINT
  Filling(const std::string& text) : markup(escaped(text)) {}  // NOLINT
  Filling(const char* text) : markup(escaped(text)) {}         // NOLINT
  Filling(Markup ready) : markup(std::move(ready)) {}          // NOLINT
  Markup markup;
};

/// The pattern with each `{}` filled in turn: filled("<td>{}</td>", {name}). Throws
/// std::logic_error where their numbers differ, a fault of the caller's.
Markup filled(Literal pattern, std::initializer_list<Filling> fillings);

/// A name of the keeper's (an animal, a marker, a scorer), set apart so that one written from right
/// to left doesn't turn the words around it (HTML, `bdi`).
Markup name(std::string_view text);

/// The text without characters that turn the direction of writing (Unicode Standard Annex 9:
/// U+061C, U+200E, U+200F, U+202A-202E, U+2066-2069), each as U+FFFD: with them a keeper's word
/// could show a percentage the other way round. The text is UTF-8.
std::string one_way(std::string_view text);

}  // namespace likelihet::publishing
