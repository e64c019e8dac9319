// Odds of one animal out of two documents: consumer MODEL.json COLONY.json ANIMAL
#include <fstream>
#include <iostream>
#include <iterator>
#include <memory>
#include <string>
#include <variant>

#include <likelihet/documents/colony_document.hpp>
#include <likelihet/documents/model_document.hpp>
#include <likelihet/odds/odds.hpp>

using namespace likelihet;

std::string text(const char* path) {
  std::ifstream file(path);
  return {std::istreambuf_iterator<char>(file), {}};
}

int main(int, char** arguments) {
  auto model = colony::Model::make(
      std::get<colony::ModelDescription>(documents::read_model(text(arguments[1]))));
  const auto colony = std::get<colony::Colony>(colony::Colony::make(
      std::make_shared<const colony::Model>(std::get<colony::Model>(std::move(model))),
      std::get<colony::Records>(documents::read_colony(text(arguments[2])))));
  const auto odds = std::get<odds::ColonyOdds>(odds::compute(colony, odds::Options{}));
  const auto animal = colony.find_animal(arguments[3]).value();
  std::cout << "one copy: " << odds.animals[animal].loci[0].pedigree[1] << '\n';
}
