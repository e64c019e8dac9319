// likelihet add clutch: one clutch and its hatchlings, or what was not known of it before.
#include <vector>

#include "add_records.hpp"
#include "commands.hpp"

namespace likelihet::cli {
namespace {

struct AddClutchRequest {
  std::string book;
  colony::ClutchRecord clutch;
  std::vector<std::string> sires;
  std::vector<std::string> hatchlings;
  std::string paternity;
  std::string laid;
  std::string hatched;
};

Reply run_add_clutch(const AddClutchRequest& asked, const Shell& shell) {
  colony::Records records;
  colony::ClutchRecord clutch = asked.clutch;
  for (const auto& text : asked.sires) clutch.sires.push_back(sire_of(text));
  if (asked.paternity == "single") clutch.paternity = colony::Paternity::single;
  if (asked.paternity == "mixed") clutch.paternity = colony::Paternity::mixed;
  clutch.laid = day_of(asked.laid);
  clutch.hatched = day_of(asked.hatched);
  clutch.place.text = "command line";
  for (const auto& id : asked.hatchlings) {
    colony::AnimalRecord hatchling;
    hatchling.id = id;
    hatchling.clutch = clutch.id;
    hatchling.place.text = "command line";
    records.animals.push_back(hatchling);
  }
  records.clutches.push_back(clutch);
  return add_records(asked.book, records, shell);
}

}  // namespace

void add_add_clutch(CLI::App& add, CommandLine& line) {
  const auto asked = std::make_shared<AddClutchRequest>();
  auto& clutch = asked->clutch;
  CLI::App& command =
      new_command(add, line, "clutch", "Add a clutch, or fill in what was not known of it.",
                  "  likelihet add clutch demo.book C03 --dam F01 --sire M02 --laid 2024-04-02\n"
                  "  likelihet add clutch demo.book C04 --dam F01 --sire M02:0.7 --sire M05:0.3\n"
                  "  likelihet add clutch demo.book C03 --hatched 2024-06-01 --hatchling H0301\n");
  add_book(command, asked->book);
  add_word(command, "ID", clutch.id, "the clutch's id");
  auto* dam = add_text(command, "--dam", clutch.dam, "its dam; not given = unknown");
  auto* sires = add_texts(command, "--sire", asked->sires, "ID",
                          "a possible sire, with its share as ID:SHARE; again for another");
  add_choice(command, "--paternity", asked->paternity, {"single", "mixed"},
             "one sire for all (not given), or one for each hatchling");
  auto* dam_origin =
      add_text(command, "--dam-origin", clutch.dam_origin, "an unknown dam's population");
  auto* sire_origin =
      add_text(command, "--sire-origin", clutch.sire_origin, "an unknown sire's population");
  exclude(dam_origin, dam);
  exclude(sire_origin, sires);
  add_text(command, "--line", clutch.line, "the line of its hatchlings");
  add_date(command, "--laid", asked->laid, "the day it was laid");
  add_date(command, "--hatched", asked->hatched, "the day it hatched");
  add_count(command, "--eggs", clutch.eggs, "how many eggs");
  add_texts(command, "--hatchling", asked->hatchlings, "ID",
            "adds an animal of this clutch too; again for another");
  add_json(command, line);
  on_chosen(command, line, asked, run_add_clutch);
}

}  // namespace likelihet::cli
