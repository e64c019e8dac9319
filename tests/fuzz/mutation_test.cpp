// Twenty thousand broken documents and tables from one seed: no crash, and always a value or
// faults.
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>
#include <sstream>
#include <string>
#include <vector>

#include <fuzz/read_anything.hpp>
#include <gtest/gtest.h>

namespace likelihet::fuzz::mutation_test {
namespace {

// The sound texts that are broken below: a model, a colony, and a table of each kind.
std::vector<std::string> seeds() {
  std::vector<std::filesystem::path> paths;
  const std::filesystem::path folder = std::string(LIKELIHET_SOURCE_DIR) + "/tests/fuzz/corpus";
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    paths.push_back(entry.path());
  }
  std::sort(paths.begin(), paths.end());
  std::vector<std::string> texts;
  for (const auto& path : paths) {
    std::ifstream file(path, std::ios::binary);
    texts.emplace_back(std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>());
  }
  return texts;
}

class Mutator {
 public:
  Mutator(std::vector<std::string> texts, unsigned seed)
      : texts_(std::move(texts)), random_(seed) {}

  std::string next() {
    std::string text = texts_[below(texts_.size())];
    for (std::size_t times = 1 + below(4); times > 0; --times) mutate(text);
    return text;
  }

 private:
  std::size_t below(std::size_t end) { return end == 0 ? 0 : random_() % end; }

  void mutate(std::string& text) {
    const std::size_t at = below(text.size() + 1);
    const std::size_t length = below(std::min<std::size_t>(text.size() - at, 40) + 1);
    switch (below(8)) {
      case 0:
        text.resize(at);
        break;
      case 1:
        if (at < text.size()) text[at] = static_cast<char>(text[at] ^ (1 << below(8)));
        break;
      case 2:
        text.erase(at, length);
        break;
      case 3:
        text.insert(at, text.substr(at, length));
        break;
      case 4: {
        const std::string& other = texts_[below(texts_.size())];
        text = text.substr(0, at) + other.substr(below(other.size()));
        break;
      }
      case 5:
        text.insert(at, std::string(1 + below(200), "[{\"(,"[below(5)]));
        break;
      case 6:
        text.insert(at, token());
        break;
      default:
        text.insert(at, std::string(below(300), static_cast<char>(below(256))));
        break;
    }
  }

  const std::string& token() {
    static const std::vector<std::string> tokens = {"null",
                                                    "true",
                                                    "-0",
                                                    "1e999",
                                                    "1e-999",
                                                    "NaN",
                                                    "18446744073709551616",
                                                    "-9223372036854775809",
                                                    "{}",
                                                    "[]",
                                                    "\"\"",
                                                    "\"\\uD800\"",
                                                    "\\u0000",
                                                    "\xEF\xBB\xBF",
                                                    "\xED\xA0\x80",
                                                    "\r",
                                                    "\n",
                                                    ";",
                                                    "\t",
                                                    "\"\"\"",
                                                    "3-Feb",
                                                    "2024-02-30",
                                                    "0.1",
                                                    "1.5",
                                                    ",",
                                                    ":",
                                                    "\"id\":",
                                                    "M02:0.5 M03"};
    return tokens[below(tokens.size())];
  }

  std::vector<std::string> texts_;
  std::mt19937 random_;
};

TEST(ReaderMutations, SeedsAreSound) {
  const std::vector<std::string> texts = seeds();
  ASSERT_GE(texts.size(), 6U);
  for (const std::string& text : texts) EXPECT_EQ(read_anything(text), 1) << text;
}

TEST(ReaderMutations, GiveAValueOrFaults) {
  constexpr unsigned seed = 20240611;
  constexpr int mutations = 20'000;
  Mutator mutator(seeds(), seed);
  int taken = 0;
  for (int i = 0; i < mutations; ++i) {
    const std::string text = mutator.next();
    ASSERT_NO_THROW(taken += read_anything(text) > 0 ? 1 : 0) << "mutation " << i << ":\n" << text;
  }
  // Both ways out are taken often, or the mutations test nothing.
  EXPECT_GT(taken, mutations / 50);
  EXPECT_LT(taken, mutations - mutations / 50);
}

TEST(ReaderMutations, OfHugeAndDeepTexts) {
  const std::size_t huge = 500'000;
  const std::vector<std::string> texts = {
      std::string(huge, '['),
      std::string(huge, '{'),
      std::string(huge, '"'),
      std::string(huge, ','),
      std::string(huge, '\n'),
      std::string(huge, '9'),
      std::string(huge, '\0'),
      "\"" + std::string(huge, 'x') + "\"",
      "{\"format\":\"" + std::string(huge, 'x') + "\",\"version\":1}",
      "id\n" + std::string(huge, 'x'),
      "id\n\"" + std::string(huge, 'x'),
      "[" + std::string(huge, '1') + "]"};
  for (const std::string& text : texts) {
    EXPECT_NO_THROW(read_anything(text)) << text.substr(0, 20);
  }
}

}  // namespace
}  // namespace likelihet::fuzz::mutation_test
