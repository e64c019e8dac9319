// Which characters do not show, and where they stand in records and models.
#include <algorithm>
#include <array>
#include <cstddef>
#include <utility>

#include <likelihet/base/hexadecimal.hpp>
#include <likelihet/base/utf8.hpp>
#include <likelihet/colony/hidden_characters.hpp>
#include <likelihet/colony/place.hpp>
#include <likelihet/colony/value_checks.hpp>
#include <likelihet/colony/wording.hpp>

namespace likelihet::colony {

namespace {

struct CodePoints {
  std::uint32_t first, last;
};

/// Controls; DerivedCoreProperties.txt, Default_Ignorable_Code_Point; the separators of lines and
/// paragraphs, the blank of Braille, and the markers of interlinear notes.
constexpr std::array<CodePoints, 20> hidden_ranges = {{
    {0x0000, 0x001F}, {0x007F, 0x009F}, {0x00AD, 0x00AD},   {0x034F, 0x034F},   {0x061C, 0x061C},
    {0x115F, 0x1160}, {0x17B4, 0x17B5}, {0x180B, 0x180F},   {0x200B, 0x200F},   {0x2028, 0x202E},
    {0x2060, 0x206F}, {0x2800, 0x2800}, {0x3164, 0x3164},   {0xFE00, 0xFE0F},   {0xFEFF, 0xFEFF},
    {0xFFA0, 0xFFA0}, {0xFFF0, 0xFFFB}, {0x1BCA0, 0x1BCA3}, {0x1D173, 0x1D17A}, {0xE0000, 0xE0FFF},
}};

constexpr std::array<CodePoints, 7> blank_ranges = {{
    {0x0020, 0x0020},
    {0x00A0, 0x00A0},
    {0x1680, 0x1680},
    {0x2000, 0x200A},
    {0x202F, 0x202F},
    {0x205F, 0x205F},
    {0x3000, 0x3000},
}};

template <std::size_t size>
bool is_in(const std::array<CodePoints, size>& ranges, std::uint32_t value) {
  return std::any_of(ranges.begin(), ranges.end(), [&](const CodePoints& range) {
    return value >= range.first && value <= range.last;
  });
}

/// The code point that starts at `at`, and moves past it; a stray byte stands for itself as U+FFFD.
std::uint32_t taken(std::string_view text, std::size_t& at) {
  const base::CodePoint point = base::code_point_at(text, at);
  at += std::max<std::size_t>(point.length, 1);
  return point.length == 0 ? 0xFFFD : point.value;
}

std::string number_of(std::uint32_t code_point) {
  return "U+" + base::hexadecimal(code_point, 4);
}

/// An ideographic blank is as wide as a letter and seen between letters.
bool looks_like_a_space(std::uint32_t code_point) {
  return is_blank(code_point) && code_point != 0x20 && code_point != 0x3000;
}

Fault hiding(std::string place, const std::string& name, const std::string& text,
             const std::string& hidden) {
  return {std::move(place), "the " + name + " " + in_quotes(text) + " has " + hidden,
          "leave it out: two that print alike cannot be told apart"};
}

/// Collects the faults of one record's texts.
class HiddenFinder {
 public:
  explicit HiddenFinder(const std::string& record) : record_(record) {}

  /// Of a text that a colony checks: what it refuses itself is not told twice.
  void look_at_id(const std::string& text, const std::string& name, Field field) {
    if (good_id(text)) look(text, name, field);
  }
  void look(const std::string& text, const std::string& name, Field field) {
    if (const auto hidden = hidden_in(text)) {
      faults_.push_back(hiding(field_of(record_, field), name, text, *hidden));
    }
  }
  Faults take() { return std::move(faults_); }

 private:
  const std::string& record_;
  Faults faults_;
};

void look(const std::string& text, const std::string& name, const Pointer& place, Faults& faults) {
  if (const auto hidden = hidden_in(text)) {
    faults.push_back(hiding(place.text(), name, text, *hidden));
  }
}

void look(const std::vector<std::string>& words, const std::string& name, const Pointer& place,
          Faults& faults) {
  for (std::size_t i = 0; i < words.size(); ++i) look(words[i], name, place / i, faults);
}

template <class List>
void look_at_ids(const List& list, const std::string& member, const std::string& name,
                 Faults& faults) {
  for (std::size_t i = 0; i < list.size(); ++i) {
    look(list[i].id, name + " id", Pointer() / member / i / "id", faults);
  }
}

void look(const LocusDescription& locus, const Pointer& place, Faults& faults) {
  look(locus.alleles, "allele", place / "alleles", faults);
  for (const auto& [key, shows] : locus.appearance) {
    for (const auto& [appearance, probability] : shows) {
      look(appearance, "appearance", place / "appearance" / key, faults);
    }
  }
}

}  // namespace

bool is_hidden(std::uint32_t code_point) {
  return is_in(hidden_ranges, code_point);
}

bool is_blank(std::uint32_t code_point) {
  return is_in(blank_ranges, code_point);
}

std::optional<std::string> hidden_in(std::string_view text) {
  std::uint32_t last = 0;
  for (std::size_t at = 0; at < text.size();) {
    const bool first = at == 0;
    last = taken(text, at);
    if (is_hidden(last)) return number_of(last) + " in it, which does not show";
    if (first && is_blank(last)) return "a blank at its beginning";
    const bool at_end = at == text.size();
    if (!at_end && looks_like_a_space(last)) {
      return number_of(last) + " in it, which looks like a space";
    }
  }
  if (is_blank(last)) return "a blank at its end";
  return std::nullopt;
}

Faults hidden_faults(const AnimalRecord& record, bool known) {
  HiddenFinder finder(record.place.text);
  if (!known) finder.look_at_id(record.id, "animal id", {"id"});
  if (record.line) finder.look_at_id(*record.line, "line", {"line"});
  return finder.take();
}

Faults hidden_faults(const ClutchRecord& record, bool known) {
  HiddenFinder finder(record.place.text);
  if (!known) finder.look_at_id(record.id, "clutch id", {"id"});
  if (record.line) finder.look_at_id(*record.line, "line", {"line"});
  return finder.take();
}

Faults hidden_faults(const ObservationRecord& record, bool known) {
  HiddenFinder finder(record.place.text);
  if (!known) finder.look_at_id(record.id, "observation id", {"id"});
  if (const auto* result = std::get_if<ResultRecord>(&record.what)) {
    if (result->sample) finder.look(*result->sample, "sample", {"sample"});
  }
  return finder.take();
}

Faults hidden_faults(const ModelDescription& model) {
  Faults faults;
  look_at_ids(model.loci, "loci", "locus", faults);
  for (std::size_t i = 0; i < model.loci.size(); ++i) {
    look(model.loci[i], Pointer() / "loci" / i, faults);
  }
  look_at_ids(model.origins, "origins", "origin", faults);
  look_at_ids(model.markers, "markers", "marker", faults);
  for (std::size_t i = 0; i < model.markers.size(); ++i) {
    look(model.markers[i].levels, "level", Pointer() / "markers" / i / "levels", faults);
  }
  look_at_ids(model.assays, "assays", "assay", faults);
  for (std::size_t i = 0; i < model.assays.size(); ++i) {
    look(model.assays[i].reports, "report", Pointer() / "assays" / i / "reports", faults);
  }
  look_at_ids(model.scorers, "scorers", "scorer", faults);
  look_at_ids(model.together, "together", "group", faults);
  return faults;
}

}  // namespace likelihet::colony
