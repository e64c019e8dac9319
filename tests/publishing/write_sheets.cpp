// Writes listings and sheets for the tests in a browser: write_sheets FOLDER. Invented
// records: common ones, with and without a code, and the longest and most hostile that a book can
// hold.
#include <cstdlib>
#include <fstream>
#include <iostream>

#include <publishing/listed.hpp>

#include <likelihet/publishing/listing_html.hpp>
#include <likelihet/publishing/sheet.hpp>

namespace likelihet::publishing {
namespace {

void write(const std::string& name, const std::string& page) {
  std::ofstream file(name);
  file << page;
  if (!file.flush()) throw std::runtime_error("cannot write " + name);
}

std::string sheet(Listed& listed, const std::string& id, const std::optional<std::string>& code) {
  const Listing listing = listed.of(id);
  const auto evidence = std::get<std::vector<Evidence>>(evidence_of(listed.ground(), listing));
  return sheet(listed.colony(), listing, evidence, code);
}

void write_common(const std::string& folder) {
  auto records = pair_sold_as(1, 1);
  records.hatchling("H-07", "C").shows("H-07", "tarnbrook", "plain").on("2026-06-01");
  records.hatchling("H-08", "C").shows("H-08", "tarnbrook", "tarnbrook").on("2026-06-02");
  records.score("H-07", "crown-fleck", "strong").on("2026-06-11");
  records.result("H-07", "shed-pcr", "carrier").on("2026-07-02");
  Listed listed(support::recessive_model(), records);
  listed.ground().as_of = support::day("2026-12-31");
  write(folder + "/sheet_common.html", sheet(listed, "H-07", "K7Q2-M4XW-93FT"));
  write(folder + "/sheet_without_code.html", sheet(listed, "H-07", std::nullopt));
  write(folder + "/listing_common.html",
        listing_html(listed.colony(), listed.all_of({"H-07", "H-08"})));
}

// Ids of the greatest length, wide letters, many loci, many results, cautions without an end.
void write_longest(const std::string& folder) {
  const auto wide = [](char end) { return std::string(199, 'W') + end; };
  colony::ModelDescription model = support::recessive_model();
  model.origins.clear();
  model.markers.clear();
  model.assays.clear();
  model.loci.clear();
  support::RecordsBuilder records;
  records.founder(wide('a'), genetics::Sex::female);
  colony::Policy policy;
  for (char end = 'a'; end < 'i'; ++end) {
    auto locus = support::recessive_locus(wide(end));
    locus.appearance = {{"default", {{wide('p'), 1.0}}}, {"e/e", {{wide('v'), 1.0}}}};
    locus.caution = std::string(3000, 'C') + end;
    model.loci.push_back(locus);
    auto assay = support::shed_pcr();
    assay.id = wide(end);
    assay.locus = wide(end);
    assay.mix_up = 0.3;
    model.assays.push_back(assay);
    records.bought_as(wide(end), {{"+/+", 0.5}, {"+/e", 0.5}});
    policy.health.push_back({wide(end), std::string(3000, 'H'), colony::Grade::study, wide('s')});
  }
  for (char end = 'a'; end < 'i'; ++end) {
    for (int i = 0; i < 6; ++i) {
      records.result(wide('a'), wide(end), i % 2 == 0 ? "carrier" : "clear")
          .on("2026-07-1" + std::to_string(i));
      std::get<colony::ResultRecord>(records.observation().what).sample = wide('n');
    }
  }
  Listed listed(model, records, policy);
  write(folder + "/sheet_longest.html", sheet(listed, wide('a'), std::string(60, 'K')));
}

void write_hostile(const std::string& folder) {
  const std::string hostile = "</script><script>document.title='taken'</script><img src=x>\"'&";
  support::RecordsBuilder records;
  records.founder(hostile, std::nullopt, "bought").result(hostile, "shed-pcr", "carrier");
  Listed listed(support::recessive_model(), records);
  write(folder + "/sheet_hostile.html", sheet(listed, hostile, hostile));
  write(folder + "/listing_hostile.html", listing_html(listed.colony(), listed.all_of({hostile})));
}

}  // namespace
}  // namespace likelihet::publishing

int main(int count, char** arguments) {
  if (count != 2) {
    std::cerr << "usage: write_sheets FOLDER\n";
    return EXIT_FAILURE;
  }
  const std::string folder = arguments[1];
  likelihet::publishing::write_common(folder);
  likelihet::publishing::write_longest(folder);
  likelihet::publishing::write_hostile(folder);
  return EXIT_SUCCESS;
}
