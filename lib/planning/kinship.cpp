// The tabular method over people: animals, unnamed parents, and sires in doubt.
#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <utility>

#include <likelihet/colony/family.hpp>
#include <likelihet/planning/kinship.hpp>

namespace likelihet::planning {

// Rows of the table are people. A mixture stands for one of several: linear in their shares, and
// so is every coefficient in it, which is why expected coefficients come out exactly.
struct Kinship::Person {
  enum class Kind : std::uint8_t { founder, offspring, mixture };
  Kind kind = Kind::founder;
  std::size_t dam = 0, sire = 0;                       // of offspring: rows
  std::vector<std::pair<std::size_t, double>> one_of;  // of a mixture: rows and shares
  std::array<double, 2> copies_of_sex{0.5, 0.5};       // P(one copy), P(two copies)
  bool one_copy_from_dam = true;                       // else from the sire
};

double Kinship::numbers(const colony::Colony& colony, std::span<const std::size_t> animals) {
  // Each may bring unnamed parents or a sire in doubt.
  double people = 0;
  for (std::size_t animal : colony::with_ancestors(colony, animals)) {
    people += 1;
    if (!colony.animals()[animal].clutch) continue;
    const auto& clutch = colony.clutches()[*colony.animals()[animal].clutch];
    if (clutch.sires.size() != 1) people += 1;
    if (!clutch.dam) people += 1;
  }
  return people * people;
}

Kinship::Kinship(const colony::Colony& colony, std::span<const std::size_t> animals,
                 genetics::Chromosome chromosome)
    : row_(colony.animals().size(), SIZE_MAX) {
  std::vector<Person> people;
  const bool autosome = chromosome == genetics::Chromosome::autosome;
  const genetics::Sex two = genetics::two_copy_sex(chromosome);
  const auto add = [&](Person person, std::optional<genetics::Sex> sex) {
    person.copies_of_sex = {0.5, 0.5};
    if (sex) person.copies_of_sex = *sex == two ? std::array{0.0, 1.0} : std::array{1.0, 0.0};
    if (autosome) person.copies_of_sex = {0.0, 1.0};
    person.one_copy_from_dam = two == genetics::Sex::female;
    people.push_back(std::move(person));
    return people.size() - 1;
  };
  std::map<std::pair<std::size_t, genetics::Sex>, std::size_t> shared;  // of a clutch
  const auto of_clutch = [&](std::size_t clutch, genetics::Sex sex, const Person& person) {
    const auto found = shared.find({clutch, sex});
    if (found != shared.end()) return found->second;
    return shared[{clutch, sex}] = add(person, sex);
  };
  for (std::size_t animal : colony::with_ancestors(colony, animals)) {
    Person person;
    if (const auto clutch = colony.animals()[animal].clutch) {
      const colony::Clutch& of = colony.clutches()[*clutch];
      person.kind = Person::Kind::offspring;
      person.dam = of.dam ? row_[*of.dam] : of_clutch(*clutch, genetics::Sex::female, {});
      if (of.sires.empty()) {
        person.sire = of_clutch(*clutch, genetics::Sex::male, {});
      } else if (of.sires.size() == 1) {
        person.sire = row_[of.sires.front().animal];
      } else {
        Person doubt;
        doubt.kind = Person::Kind::mixture;
        for (const auto& sire : of.sires) doubt.one_of.emplace_back(row_[sire.animal], sire.share);
        person.sire = of.paternity == colony::Paternity::single
                          ? of_clutch(*clutch, genetics::Sex::male, doubt)
                          : add(doubt, genetics::Sex::male);
      }
    }
    row_[animal] = add(std::move(person), colony.animals()[animal].sex);
  }
  fill(people);
}

void Kinship::fill(const std::vector<Person>& people) {
  size_ = people.size();
  table_.assign(size_ * size_, 0.0);
  for (std::size_t i = 0; i < size_; ++i) {
    const Person& person = people[i];
    const auto [one, two] = person.copies_of_sex;
    const std::size_t giver = person.one_copy_from_dam ? person.dam : person.sire;
    for (std::size_t j = 0; j < i; ++j) {
      double k = 0;
      if (person.kind == Person::Kind::offspring) {
        k = one * at(giver, j) + two * (at(person.dam, j) + at(person.sire, j)) / 2;
      }
      for (const auto& [row, share] : person.one_of) k += share * at(row, j);
      table_[i * size_ + j] = table_[j * size_ + i] = k;
    }
    double self = one + two / 2;
    if (person.kind == Person::Kind::offspring) self += two * at(person.dam, person.sire) / 2;
    if (person.kind == Person::Kind::mixture) {
      self = 0;
      for (const auto& [row, share] : person.one_of) self += share * at(row, row);
    }
    table_[i * size_ + i] = self;
  }
}

double inbreeding_of_offspring(const colony::Colony& colony, std::size_t dam, std::size_t sire) {
  const std::array both{dam, sire};
  return Kinship(colony, both).between(dam, sire);
}

}  // namespace likelihet::planning
