// JSON Pointers and the places of tables and books.
#include <algorithm>
#include <array>

#include <likelihet/colony/place.hpp>

namespace likelihet::colony {

namespace {

void append_step(std::string& pointer, std::string_view member) {
  pointer += '/';
  for (const char c : member) {
    if (c == '~') {
      pointer += "~0";
    } else if (c == '/') {
      pointer += "~1";
    } else {
      pointer += c;
    }
  }
}

// A table's name may begin with a slash too, so the whole form is looked at.
bool is_pointer(std::string_view record) {
  constexpr std::array<std::string_view, 3> lists = {"/animals/", "/clutches/", "/observations/"};
  return std::any_of(lists.begin(), lists.end(), [&](std::string_view list) {
    return record.substr(0, list.size()) == list && record.size() > list.size() &&
           record.find_first_not_of("0123456789", list.size()) == std::string_view::npos;
  });
}

}  // namespace

Pointer Pointer::operator/(std::string_view member) const {
  Pointer deeper = *this;
  append_step(deeper.text_, member);
  return deeper;
}

Pointer Pointer::operator/(std::size_t element) const {
  return *this / std::to_string(element);
}

std::string field_of(const std::string& record, Field field) {
  std::string place = record;
  if (is_pointer(record)) {
    for (const std::string_view step : field) append_step(place, step);
  } else if (record.find(" row ") != std::string::npos && record.substr(0, 5) != "book:") {
    place += " column ";
    place += *field.begin();
  } else {
    const char* separator = place.empty() ? "" : ", ";
    for (const std::string_view step : field) {
      place += separator;
      place += step;
      separator = " ";
    }
  }
  return place;
}

}  // namespace likelihet::colony
