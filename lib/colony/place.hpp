// Where in an input a fault stands. Private to the layer.
#pragma once

#include <cstddef>
#include <initializer_list>
#include <string>
#include <string_view>

namespace likelihet::colony {

/// A JSON Pointer (RFC 6901), made one step at a time: `Pointer() / "loci" / 0 / "on"`. The pointer
/// of the whole document is empty. A step copies the text: fine for faults and for checks of a
/// model, which is short.
class Pointer {
 public:
  [[nodiscard]] Pointer operator/(std::string_view member) const;  ///< escapes `~` and `/`
  [[nodiscard]] Pointer operator/(std::size_t element) const;
  [[nodiscard]] const std::string& text() const { return text_; }

 private:
  std::string text_;
};

/// Steps from a record down to one of its fields: {"sires", "0", "share"}. Views only: the words
/// must outlive the call that they are given to.
using Field = std::initializer_list<std::string_view>;

/// The place of a field of a record that was read at `record`. "/animals/3" gives
/// "/animals/3/origin"; a table's "rack.csv row 7" gives "rack.csv row 7 column origin" (a cell has
/// no parts, so deeper steps are left out); "book: animal F01" gives "book: animal F01, origin".
/// `field` has one step at least.
std::string field_of(const std::string& record, Field field);

}  // namespace likelihet::colony
