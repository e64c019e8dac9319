// likelihet add animal: one animal, or what was not known of it before.
#include <vector>

#include "add_records.hpp"
#include "commands.hpp"

namespace likelihet::cli {
namespace {

struct AddAnimalRequest {
  std::string book;
  colony::AnimalRecord animal;
  std::string sex;
  std::string hatched;
  std::vector<std::string> bought_as;
};

Reply run_add_animal(const AddAnimalRequest& asked, const Shell& shell) {
  colony::AnimalRecord animal = asked.animal;
  if (asked.sex == "female") animal.sex = genetics::Sex::female;
  if (asked.sex == "male") animal.sex = genetics::Sex::male;
  animal.hatched = day_of(asked.hatched);
  for (const auto& text : asked.bought_as) animal.bought_as.push_back(bought_as_of(text));
  animal.place.text = "command line";
  return add_records(asked.book, {{animal}, {}, {}}, shell);
}

}  // namespace

void add_add_animal(CLI::App& add, CommandLine& line) {
  const auto asked = std::make_shared<AddAnimalRequest>();
  auto& animal = asked->animal;
  CLI::App& command =
      new_command(add, line, "animal", "Add an animal, or fill in what was not known of it.",
                  "  likelihet add animal demo.book F01 --sex female --origin bought \\\n"
                  "      --bought-as tarnbrook:+/+=0.34,+/e=0.66@0.9\n"
                  "  likelihet add animal demo.book H0301 --clutch C03\n");
  add_book(command, asked->book);
  add_word(command, "ID", animal.id, "the animal's id");
  add_choice(command, "--sex", asked->sex, {"female", "male"}, "not given = not known");
  auto* clutch = add_text(command, "--clutch", animal.clutch, "the clutch it hatched from");
  auto* origin = add_text(command, "--origin", animal.origin, "a founder's population");
  add_text(command, "--line", animal.line, "the line it belongs to, a word of yours");
  add_date(command, "--hatched", asked->hatched, "the day it hatched");
  auto* bought_as = add_texts(
      command, "--bought-as", asked->bought_as, "CLAIM",
      "the seller's description of a founder: LOCUS:KEY=P,KEY=P@TRUST; again for another locus");
  exclude(origin, clutch);
  exclude(bought_as, clutch);
  add_json(command, line);
  on_chosen(command, line, asked, run_add_animal);
}

}  // namespace likelihet::cli
