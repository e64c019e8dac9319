// Random values for properties of documents: awkward texts, doubles of every size, whole records.
#pragma once

#include <cmath>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include <rapidcheck.h>

#include <likelihet/colony/model_description.hpp>
#include <likelihet/colony/records.hpp>

namespace likelihet::documents::generated {

/// Text of up to `most` pieces that JSON and CSV must escape, quote or leave alone.
inline std::string text(int least, int most) {
  static const std::vector<std::string> pieces = {
      "a", "B7", " ", "\"", "\"\"", ",", ";",  "\t", "\n",   "\r\n", "\\",  "/",    "~", ":", "=",
      "@", "-",  "+", "{",  "]",    "ä", "漢", "😀",  "\x01", "\x7F", "0.5", "null", "'", "%"};
  std::string made;
  const int count = *rc::gen::inRange(least, most + 1);
  for (int i = 0; i < count; ++i) made += *rc::gen::elementOf(pieces);
  return made;
}

inline std::string id() {
  return text(1, 5);
}

inline bool yes() {
  return *rc::gen::arbitrary<bool>();
}

/// Doubles of every exponent and sign, as their bits fall.
inline double number() {
  const int kind = *rc::gen::inRange(0, 4);
  if (kind == 0) return *rc::gen::inRange(-9, 100);
  if (kind == 1) return *rc::gen::inRange(0, 1000001) / 1e6;
  const double fraction = *rc::gen::arbitrary<double>();
  return std::isfinite(fraction) ? std::ldexp(fraction, *rc::gen::inRange(-1000, 900)) : -0.0;
}

template <class Make>
auto maybe(Make make) -> std::optional<decltype(make())> {
  if (!yes()) return std::nullopt;
  return make();
}

template <class Make>
auto several(int most, Make make) -> std::vector<decltype(make())> {
  std::vector<decltype(make())> made;
  const int count = *rc::gen::inRange(0, most + 1);
  for (int i = 0; i < count; ++i) made.push_back(make());
  return made;
}

/// Pairs whose keys differ, as a JSON object's do.
template <class Make>
auto named(int most, Make make) -> colony::Named<decltype(make())> {
  colony::Named<decltype(make())> made;
  std::set<std::string> keys;
  for (const std::string& key : several(most, [] { return text(0, 4); })) {
    if (keys.insert(key).second) made.emplace_back(key, make());
  }
  return made;
}

inline colony::Date date() {
  const auto two = [](int value) { return (value < 10 ? "0" : "") + std::to_string(value); };
  return *colony::Date::parse(std::to_string(*rc::gen::inRange(1000, 3000)) + "-" +
                              two(*rc::gen::inRange(1, 13)) + "-" + two(*rc::gen::inRange(1, 29)));
}

inline colony::Timestamp timestamp() {
  static const std::vector<std::string> ends = {"T00:00:00Z", "T18:30:59.25+02:00",
                                                "T23:59:59-09:30"};
  return *colony::Timestamp::parse(date().text() + *rc::gen::elementOf(ends));
}

inline genetics::Sex sex() {
  return yes() ? genetics::Sex::female : genetics::Sex::male;
}

inline colony::RowDescription row() {
  return {named(2, id), several(4, number), maybe(number)};
}

inline colony::ContextDescription context() {
  colony::ContextDescription made;
  if (yes()) {
    made.line = id();
  } else {
    made.locus = id();
    made.shows = id();
  }
  made.ignore = yes();
  if (!made.ignore) made.rows = several(2, row);
  return made;
}

inline colony::ModelDescription model() {
  using genetics::Chromosome;
  using genetics::SexSystem;
  colony::ModelDescription made;
  made.name = text(0, 4);
  made.sex_chromosomes = *rc::gen::element(SexSystem::none, SexSystem::xy, SexSystem::zw);
  made.loci = several(3, [] {
    return colony::LocusDescription{
        id(),
        *rc::gen::element(Chromosome::autosome, Chromosome::x, Chromosome::z),
        several(3, id),
        named(3,
              [] {
                if (yes()) return colony::Named<double>{{id(), 1.0}};
                return named(3, number);
              }),
        named(2, number),
        text(0, 3)};
  });
  made.origins = several(2, [] {
    return colony::OriginDescription{id(), named(2, [] { return named(2, number); }),
                                     maybe(number)};
  });
  made.markers = several(2, [] {
    return colony::MarkerDescription{id(), several(3, id), maybe(number), several(3, row),
                                     several(2, context)};
  });
  made.assays = several(2, [] {
    return colony::AssayDescription{id(),
                                    id(),
                                    several(3, id),
                                    several(3, [] { return colony::AssayRowDescription{id(), several(3, number)}; }),
                                    maybe(number),
                                    maybe(number)};
  });
  made.scorers = several(2, [] { return colony::ScorerDescription{id(), maybe(number)}; });
  made.together = several(2, [] { return colony::TogetherDescription{id(), several(2, id)}; });
  return made;
}

/// Makes records; `Ids` and `Texts` make an id and a text that may stand in a field.
template <class Ids, class Texts>
struct RecordMaker {
  Ids an_id;
  Texts a_text;

  colony::AnimalRecord animal(bool with_bought_as) const {
    colony::AnimalRecord made;
    made.id = an_id();
    made.sex = maybe(sex);
    made.origin = maybe(an_id);
    made.clutch = maybe(an_id);
    made.line = maybe(a_text);
    made.hatched = maybe(date);
    if (with_bought_as) {
      made.bought_as = several(2, [&] {
        return colony::BoughtAsRecord{an_id(), named(3, number), maybe(number)};
      });
    }
    return made;
  }

  colony::ClutchRecord clutch() const {
    using colony::Paternity;
    colony::ClutchRecord made;
    made.id = an_id();
    made.dam = maybe(an_id);
    made.sires = several(3, [&] { return colony::SireRecord{an_id(), maybe(number)}; });
    made.paternity = maybe([] { return yes() ? Paternity::single : Paternity::mixed; });
    made.dam_origin = maybe(an_id);
    made.sire_origin = maybe(an_id);
    made.line = maybe(a_text);
    made.laid = maybe(date);
    made.hatched = maybe(date);
    made.eggs = maybe([] { return std::int64_t{*rc::gen::inRange(0, 70)}; });
    return made;
  }

  colony::ScoreRecord score() const {
    return {an_id(), an_id(), maybe(an_id), maybe(a_text), maybe(an_id), maybe(number), maybe(yes)};
  }
  colony::ResultRecord result() const { return {an_id(), an_id(), an_id(), maybe(a_text)}; }

  /// `kinds` 2: scores and results; 5: all.
  colony::ObservationRecord observation(int kinds) const {
    colony::ObservationRecord made;
    made.id = an_id();
    const int kind = *rc::gen::inRange(0, kinds);
    if (kind == 0) made.what = score();
    if (kind == 1) made.what = result();
    if (kind == 2) made.what = colony::AppearanceRecord{an_id(), an_id(), an_id()};
    if (kind == 3) {
      made.what =
          colony::BroodRecord{an_id(), an_id(), an_id(),
                              named(3, [] { return std::int64_t{*rc::gen::inRange(0, 100000)}; })};
    }
    if (kind == 4) made.what = colony::WithdrawalRecord{an_id(), maybe(a_text)};
    made.on = maybe(date);
    made.recorded = maybe(timestamp);
    return made;
  }
};

inline colony::Records records() {
  const auto a_text = [] { return text(0, 4); };
  const RecordMaker<std::string (*)(), decltype(a_text)> make{id, a_text};
  return {several(4, [&] { return make.animal(true); }), several(3, [&] { return make.clutch(); }),
          several(6, [&] { return make.observation(5); })};
}

/// Records that a table holds: no empty texts, ids that no spreadsheet would touch.
inline colony::Records table_records() {
  const auto an_id = [] { return "k" + text(0, 4) + "k"; };
  const auto a_text = [] { return text(1, 4); };
  const RecordMaker<decltype(an_id), decltype(a_text)> make{an_id, a_text};
  return {several(4, [&] { return make.animal(false); }), several(3, [&] { return make.clutch(); }),
          several(6, [&] { return make.observation(2); })};
}

}  // namespace likelihet::documents::generated
