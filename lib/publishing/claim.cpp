// Claims from listings, to text and back.
#include <algorithm>
#include <stdexcept>
#include <utility>

#include <nlohmann/json.hpp>

#include <likelihet/publishing/claim.hpp>
#include <likelihet/publishing/listing_document.hpp>

namespace likelihet::publishing {
namespace {

using nlohmann::ordered_json;

ClaimedNumber number_of(const colony::Colony& colony, const Statement& statement) {
  const genetics::Locus& locus = colony.model().loci()[statement.locus];
  ClaimedNumber number{locus.id(),
                       locus.alleles()[statement.allele],
                       statement.label,
                       statement.basis,
                       statement.published,
                       statement.marked ? statement.marked->mean : statement.markerless,
                       statement.headline,
                       statement.reason,
                       {}};
  for (const std::size_t o : statement.rests_on) {
    number.rests_on.push_back(colony.observations()[o].id);
  }
  std::sort(number.rests_on.begin(), number.rests_on.end());
  return number;
}

ordered_json json_of(const ClaimedNumber& number) {
  return {{"locus", number.locus},          {"allele", number.allele},
          {"label", word_of(number.label)}, {"basis", word_of(number.basis)},
          {"low", number.published.low},    {"high", number.published.high},
          {"step", number.published.step},  {"value", number.value},
          {"headline", number.headline},    {"reason", number.reason},
          {"rests_on", number.rests_on}};
}

template <class Value>
Value from_word(const std::string& word, std::initializer_list<Value> all) {
  for (const Value value : all) {
    if (word_of(value) == word) return value;
  }
  throw std::invalid_argument("an unknown word");
}

// "marks" is what claims of earlier versions say.
Basis basis_from(const std::string& word) {
  if (word == "marks") return Basis::markers;
  return from_word<Basis>(word, {Basis::pedigree, Basis::results, Basis::markers});
}

ClaimedNumber number_from(const ordered_json& json) {
  return {json.at("locus"),
          json.at("allele"),
          from_word<Label>(json.at("label"), {Label::visual, Label::proven, Label::certain,
                                              Label::possible, Label::none}),
          basis_from(json.at("basis")),
          {json.at("low"), json.at("high"), json.at("step")},
          json.at("value"),
          json.at("headline"),
          json.at("reason"),
          json.at("rests_on")};
}

}  // namespace

bool Claim::counts_markers() const {
  return std::any_of(numbers.begin(), numbers.end(),
                     [](const ClaimedNumber& number) { return number.basis == Basis::markers; });
}

Claim claim_of(const colony::Colony& colony, const Listing& listing) {
  if (!listing.day) throw std::invalid_argument("a claim needs its day");
  Claim claim{colony.animals()[listing.animal].id, *listing.day, {}};
  for (const Statement& statement : listing.statements) {
    claim.numbers.push_back(number_of(colony, statement));
  }
  return claim;
}

std::string write_claim(const Claim& claim) {
  ordered_json document = {{"format", "likelihet-claim"},
                           {"version", 1},
                           {"animal", claim.animal},
                           {"day", claim.day.text()},
                           {"numbers", ordered_json::array()}};
  for (const ClaimedNumber& number : claim.numbers) document["numbers"].push_back(json_of(number));
  return document.dump();
}

std::optional<Claim> read_claim(std::string_view text) {
  try {
    const ordered_json document = ordered_json::parse(text);
    const auto day = colony::Date::parse(document.at("day").get<std::string>());
    if (document.at("format") != "likelihet-claim" || document.at("version") != 1 || !day) {
      return std::nullopt;
    }
    Claim claim{document.at("animal"), *day, {}};
    for (const auto& number : document.at("numbers")) claim.numbers.push_back(number_from(number));
    return claim;
  } catch (const nlohmann::json::exception&) {
    return std::nullopt;
  } catch (const std::invalid_argument&) {
    return std::nullopt;
  }
}

}  // namespace likelihet::publishing
