// Writes a generated herd's documents: write_herd model MARKS, or write_herd colony MARKS ANIMALS
// ana|sure. For measuring the program on large books; see learn_large.sh and draws_jags.py.
#include <cstdlib>
#include <iostream>
#include <string>

#include "bench/recorded_herd.hpp"

#include <likelihet/documents/colony_document.hpp>
#include <likelihet/documents/model_document.hpp>

namespace likelihet::bench {
namespace {

int write_herd(const std::vector<std::string>& words) {
  if (words.size() == 2 && words[0] == "model") {
    std::cout << documents::write_model(herd_model(std::stoul(words[1])));
    return EXIT_SUCCESS;
  }
  if (words.size() != 4 || words[0] != "colony") return EXIT_FAILURE;
  HerdShape shape{std::stoul(words[2]), 0.06};
  shape.markers = std::stoul(words[1]);
  shape.scorer = words[3] == "ana";
  shape.results = true;
  std::cout << documents::write_colony(herd_records(shape));
  return EXIT_SUCCESS;
}

}  // namespace
}  // namespace likelihet::bench

int main(int count, char** words) {
  return likelihet::bench::write_herd({words + 1, words + count});
}
