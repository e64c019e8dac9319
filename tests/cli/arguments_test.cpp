// Kinds of options: what each takes, and what is said of what it does not take.
#include "arguments.hpp"

#include <string>
#include <vector>

#include <CLI/CLI.hpp>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>
#include <support/keeper.hpp>

namespace likelihet::cli::arguments_test {
namespace {

using support::Keeper;

// Parses one option alone; empty where it is taken, else what is wrong.
template <class Add>
std::string parsed(Add add, const std::vector<std::string>& arguments) {
  CLI::App app;
  add(app);
  std::vector<std::string> reversed(arguments.rbegin(), arguments.rend());
  try {
    app.parse(reversed);
  } catch (const CLI::ParseError& error) {
    return error.what();
  }
  return "";
}

TEST(DateOption, TakesDaysThatExist) {
  std::string text;
  const auto add = [&](CLI::App& app) { add_date(app, "--on", text, ""); };
  EXPECT_EQ(parsed(add, {"--on", "2024-02-29"}), "");
  EXPECT_EQ(day_of(text)->text(), "2024-02-29");
  for (const char* wrong : {"2023-02-29", "2024-13-01", "24-02-01", "today", "2024-2-1", " "}) {
    const std::string what = parsed(add, {"--on", wrong});
    EXPECT_NE(what.find("is not a day; write it as 2024-06-11"), std::string::npos) << what;
  }
  EXPECT_EQ(day_of(""), std::nullopt);
}

TEST(ProbabilityOption, TakesNumbersFromZeroToOne) {
  std::optional<double> sure;
  const auto add = [&](CLI::App& app) { add_probability(app, "--sure", sure, ""); };
  EXPECT_EQ(parsed(add, {}), "");
  EXPECT_FALSE(sure);
  for (const auto& [text, value] :
       {std::pair{"0", 0.0}, {"1", 1.0}, {"0.95", 0.95}, {"5e-1", 0.5}}) {
    EXPECT_EQ(parsed(add, {"--sure", text}), "");
    EXPECT_EQ(sure, value);
  }
  for (const char* wrong : {"1.01", "-0.1", "95%", "nan", "inf", "", "0,9"}) {
    EXPECT_NE(parsed(add, {"--sure", wrong}), "") << wrong;
  }
}

TEST(CountOption, TakesWholeNumbers) {
  std::optional<std::int64_t> eggs;
  const auto add = [&](CLI::App& app) { add_count(app, "--eggs", eggs, ""); };
  EXPECT_EQ(parsed(add, {"--eggs", "7"}), "");
  EXPECT_EQ(eggs, 7);
  EXPECT_EQ(parsed(add, {"--eggs", "0"}), "");
  for (const char* wrong : {"-1", "7.5", "seven", "1e16", ""}) {
    EXPECT_NE(parsed(add, {"--eggs", wrong}), "") << wrong;
  }
}

TEST(ChoiceOption, TakesItsWordsAlone) {
  std::string word = "single";
  const auto add = [&](CLI::App& app) {
    add_choice(app, "--paternity", word, {"single", "mixed"}, "");
  };
  EXPECT_EQ(parsed(add, {"--paternity", "mixed"}), "");
  EXPECT_EQ(word, "mixed");
  EXPECT_NE(parsed(add, {"--paternity", "Mixed"}).find("'Mixed' is none of single, mixed"),
            std::string::npos);
}

TEST(TextOption, MustBeUtf8) {
  std::optional<std::string> text;
  const auto add = [&](CLI::App& app) { add_text(app, "--line", text, ""); };
  EXPECT_EQ(parsed(add, {"--line", "größe"}), "");
  EXPECT_EQ(text, "größe");
  EXPECT_NE(parsed(add, {"--line", "\xff"}).find("'\\xff' is not UTF-8"), std::string::npos);
}

TEST(TextsOption, IsGivenAsOftenAsWanted) {
  std::vector<std::string> sires;
  std::string rest;
  const auto add = [&](CLI::App& app) {
    add_texts(app, "--sire", sires, "ID", "");
    add_word(app, "ID", rest, "");
  };
  EXPECT_EQ(parsed(add, {"--sire", "M1", "C03", "--sire=M2:0.3"}), "");
  EXPECT_EQ(sires, (std::vector<std::string>{"M1", "M2:0.3"}));
  EXPECT_EQ(rest, "C03") << "an option takes one value, not what follows";
}

ComputationAsked computation_of(const std::vector<std::string>& arguments) {
  ComputationAsked asked;
  EXPECT_EQ(parsed(
                [&](CLI::App& app) {
                  add_computation(app, asked);
                  add_draws(app, asked);
                },
                arguments),
            "");
  return asked;
}

TEST(ComputationOptions, AreThoseOfTheLibraryUnlessGiven) {
  const odds::Options options = computation_of({}).options();
  EXPECT_FALSE(options.as_of);
  EXPECT_EQ(options.memory_bytes, odds::Options{}.memory_bytes);
  EXPECT_EQ(options.draws, odds::Options{}.draws);
  EXPECT_EQ(options.seed, odds::Options{}.seed);
  EXPECT_TRUE(options.surprises);
}

TEST(ComputationOptions, ReachTheLibrary) {
  const odds::Options options =
      computation_of({"--as-of", "2024-06-30", "--memory=512MiB", "--draws", "50", "--seed", "9"})
          .options();
  EXPECT_EQ(options.as_of->text(), "2024-06-30");
  EXPECT_EQ(options.memory_bytes, std::size_t{512} << 20U);
  EXPECT_EQ(options.draws, 50U);
  EXPECT_EQ(options.seed, 9U);
}

// IEC 80000-13: KiB is 2^10 bytes, and so on; the short forms mean the same here.
TEST(MemoryOption, TakesBinaryUnits) {
  for (const auto& [text, bytes] : {std::pair<const char*, std::uint64_t>{"1000", 1000},
                                    {"1000b", 1000},
                                    {"2k", 2048},
                                    {"2KiB", 2048},
                                    {"3m", 3U << 20U},
                                    {"3MB", 3U << 20U},
                                    {"1G", 1ULL << 30U},
                                    {"1gib", 1ULL << 30U},
                                    {"2TiB", 2ULL << 40U}}) {
    EXPECT_EQ(computation_of({"--memory", text}).memory, bytes) << text;
  }
}

TEST(MemoryOption, RefusesWhatIsNoSize) {
  ComputationAsked asked;
  const auto add = [&](CLI::App& app) { add_computation(app, asked); };
  for (const char* wrong : {"0", "GiB", "1.5G", "-1G", "1 G", "1PiB", "99999999T", "", "1Gx"}) {
    EXPECT_NE(parsed(add, {"--memory", wrong}).find("is not a size; write it as 512MiB or 4GiB"),
              std::string::npos)
        << wrong;
  }
}

TEST(CommandOptions, ThatExcludeEachOtherAreRefused) {
  const auto ended = Keeper::run({"odds", "a.book", "--animal", "H0301", "--clutch", "C03"});
  EXPECT_EQ(ended.status(), ExitStatus::usage);
}

TEST(CommandOptions, AreNamedWhereTheyAreMissing) {
  for (const auto& [arguments, name] :
       {std::pair<std::vector<std::string>, std::string>{{"odds"}, "BOOK"},
        {{"why", "a.book"}, "ANIMAL"},
        {{"withdraw", "a.book", "o1"}, "--why"},
        {{"init", "a.book"}, "--model"}}) {
    const auto ended = Keeper::run(arguments);
    ASSERT_EQ(ended.status(), ExitStatus::usage) << name;
    const auto& fault = ended.failure->faults().front();
    EXPECT_NE((fault.what + fault.mend).find(name), std::string::npos) << fault.what;
  }
}

// Whatever number is given as a probability is taken if and only if it is one.
RC_GTEST_PROP(ProbabilityOptionProperty, IsTakenIfItIsOne, ()) {
  const int thousandths = *rc::gen::inRange(-3000, 3000);
  std::optional<double> sure;
  const std::string text = std::to_string(thousandths / 1000.0);
  const std::string what =
      parsed([&](CLI::App& app) { add_probability(app, "--sure", sure, ""); }, {"--sure=" + text});
  RC_ASSERT((what.empty() == (thousandths >= 0 && thousandths <= 1000)));
}

}  // namespace
}  // namespace likelihet::cli::arguments_test
