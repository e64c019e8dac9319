// Model documents in and out.
#include <documents/generated.hpp>
#include <documents/samples.hpp>
#include <rapidcheck/gtest.h>

#include <likelihet/documents/colony_document.hpp>
#include <likelihet/documents/model_document.hpp>

namespace likelihet::documents::model_document_test {
namespace {

using colony::Named;

TEST(ModelDocument, ReadsEveryField) {
  const colony::ModelDescription model = value_of(read_model(sample("model.json")));
  EXPECT_EQ(model.name, "example");
  EXPECT_EQ(model.sex_chromosomes, genetics::SexSystem::zw);
  ASSERT_EQ(model.loci.size(), 2U);
  EXPECT_EQ(model.loci[0].id, "tarnbrook");
  EXPECT_EQ(model.loci[0].on, genetics::Chromosome::autosome);
  EXPECT_EQ(model.loci[0].alleles, (std::vector<std::string>{"+", "e"}));
  EXPECT_EQ(model.loci[0].appearance,
            (Named<Named<double>>{{"default", {{"plain", 1.0}}},
                                  {"e/e", {{"tarnbrook", 0.99}, {"plain", 0.01}}}}));
  EXPECT_EQ(model.loci[0].viability, (Named<double>{{"e/e", 0.9}}));
  EXPECT_EQ(model.loci[0].caution, "may see badly in bright light");
  EXPECT_EQ(model.loci[1].on, genetics::Chromosome::z);
  const colony::OriginDescription origin{"bought", {{"tarnbrook", {{"e", 0.02}}}}, 50};
  EXPECT_EQ(model.origins, std::vector{origin});
  const colony::MarkerDescription crown{
      "crown-fleck",
      {"absent", "faint", "strong"},
      0.8,
      {{{{"tarnbrook", "e/e"}}, {0.2, 0.3, 0.5}, 4},
       {{{"tarnbrook", "+/e"}}, {0.3, 0.3, 0.4}, 8},
       {{}, {0.8, 0.15, 0.05}, std::nullopt}},
      {{"brackmoor", "thornwick", std::nullopt, true, {}},
       {std::nullopt, std::nullopt, "north", false, {{{}, {0.5, 0.3, 0.2}, 2}}}}};
  const colony::MarkerDescription thread{
      "side-thread", {"absent", "there"}, std::nullopt, {{{}, {0.5, 0.5}, std::nullopt}}, {}};
  EXPECT_EQ(model.markers, (std::vector{crown, thread}));
  const colony::AssayDescription assay{"shed-pcr",
                                       "tarnbrook",
                                       {"clear", "carrier", "affected", "no-call"},
                                       {{"+/+", {0.985, 0.003, 0.002, 0.01}},
                                        {"+/e", {0.003, 0.985, 0.002, 0.01}},
                                        {"e/e", {0.002, 0.003, 0.985, 0.01}}},
                                       0.004,
                                       45};
  EXPECT_EQ(model.assays, std::vector{assay});
  EXPECT_EQ(model.scorers, (std::vector{colony::ScorerDescription{"ana", 0.95}}));
  EXPECT_EQ(model.together,
            (std::vector{colony::TogetherDescription{"pattern", {"crown-fleck", "side-thread"}}}));
}

TEST(ModelDocument, NeedsOnlyItsFormatVersionAndLoci) {
  const auto model =
      value_of(read_model(R"({"format":"likelihet-model","version":1,"loci":[{"id":"a",
                              "alleles":["+","a"]}]})"));
  colony::ModelDescription expected;
  expected.loci.push_back({"a", genetics::Chromosome::autosome, {"+", "a"}, {}, {}, ""});
  EXPECT_EQ(model, expected);
}

// RFC 8259 section 6 knows one kind of number: 1.0 is the whole number 1.
TEST(ModelDocument, TakesAWholeNumberWrittenWithAPoint) {
  EXPECT_EQ(faults_of(read_model(R"({"format":"likelihet-model","version":1.0,"loci":[]})")),
            colony::Faults{});
}

// What a keeper sees of a model: this text, to the byte.
TEST(ModelDocument, WritesTwoSpaceIndentsAndFieldsInOrder) {
  colony::ModelDescription model;
  model.loci.push_back({"a",
                        genetics::Chromosome::x,
                        {"+", "a"},
                        {{"default", {{"plain", 1.0}}}},
                        {{"a/a", 0.1}},
                        ""});
  model.sex_chromosomes = genetics::SexSystem::xy;
  EXPECT_EQ(write_model(model), R"({
  "format": "likelihet-model",
  "version": 1,
  "sex_chromosomes": "XY",
  "loci": [
    {
      "id": "a",
      "on": "X",
      "alleles": [
        "+",
        "a"
      ],
      "appearance": {
        "default": "plain"
      },
      "viability": {
        "a/a": 0.1
      }
    }
  ]
}
)");
}

RC_GTEST_PROP(ModelDocument, ReadsBackWhatItWrites, ()) {
  const colony::ModelDescription model = generated::model();
  const std::string text = write_model(model);
  const auto again = read_model(text);
  RC_ASSERT(faults_of(again) == colony::Faults{});
  RC_ASSERT(std::get<colony::ModelDescription>(again) == model);
  RC_ASSERT(write_model(std::get<colony::ModelDescription>(again)) == text);
}

TEST(ModelDocument, WritesTextThatIsNotUtf8WithReplacements) {
  colony::ModelDescription model;
  model.name = "a\xFFz";
  EXPECT_EQ(value_of(read_model(write_model(model))).name, "a\xEF\xBF\xBDz");
}

TEST(FormatOf, TellsWhichDocumentATextSaysThatItIs) {
  EXPECT_EQ(format_of(sample("model.json")), Format::model);
  EXPECT_EQ(format_of(sample("colony.json")), Format::colony);
  EXPECT_EQ(format_of(R"({"name":{"format":"likelihet-model"},"format":"likelihet-colony")"),
            Format::colony);
  EXPECT_EQ(format_of("\xEF\xBB\xBF{\"format\":\"likelihet-model\", broken"), Format::model);
  for (const char* text :
       {"", "{", "[]", "1", "id,animal\n", R"({"format":1})", R"({"format":"likelihet-odds"})",
        R"(["format","likelihet-model"])", R"({"a":["format","likelihet-model"]})",
        R"({"a":{"format":"likelihet-model"}})"}) {
    EXPECT_EQ(format_of(text), Format::unknown) << text;
  }
  EXPECT_EQ(format_of(std::string(3'000'000, '[')), Format::unknown);
}

}  // namespace
}  // namespace likelihet::documents::model_document_test
