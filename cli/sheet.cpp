// likelihet sheet: one animal's odds and evidence on one sheet.
#include "claims_output.hpp"
#include "commands.hpp"
#include "computation.hpp"
#include "ground.hpp"
#include "open_book.hpp"
#include "output_file.hpp"

#include <likelihet/publishing/sheet.hpp>

namespace likelihet::cli {
namespace {

struct SheetRequest {
  std::string book;
  std::string animal;
  std::optional<std::string> html;  // a file; "-": standard output
  bool force = false;
  ComputationAsked computation;
};

Reply run_sheet(const SheetRequest& asked, const Shell& /*shell*/) {
  const OutputRules rules{asked.book, asked.force};
  const bool prints = !asked.html || *asked.html == "-";
  if (!prints) replaced_at(*asked.html, rules);
  const BookGround state(open_book(asked.book).snapshot(), asked.computation.options());
  const colony::Colony& colony = state.colony();
  const std::size_t animal = animal_named(colony, asked.animal);
  const auto claims =
      asked.computation.as_of.empty() ? claims_now(state, {animal}) : std::vector<ClaimNow>{};
  refuse_out_of_date(claims);
  const auto listed = value_or_fail(colony, publishing::listings(state.ground(), {animal}));
  const auto& listing = listed.front();
  const auto evidence = value_or_fail(colony, publishing::evidence_of(state.ground(), listing));
  std::string page =
      publishing::sheet(colony, listing, evidence, standing_code(claims, asked.animal));
  if (prints) return {std::move(page), {}};
  write_output(*asked.html, page, rules);
  return {};
}

}  // namespace

void add_sheet(CLI::App& program, CommandLine& line) {
  const auto asked = std::make_shared<SheetRequest>();
  CLI::App& command =
      new_command(program, line, "sheet", "Put an animal's chances and evidence on one A4 page.",
                  "  likelihet sheet demo.book H0301 --html H0301.html\n"
                  "  likelihet sheet demo.book H0301 > H0301.html\n");
  add_book(command, asked->book);
  add_word(command, "ANIMAL", asked->animal, "the animal's id");
  add_output(command, "--html", asked->html, false,
             "write the page to this file, not to the screen");
  add_force(command, asked->force);
  add_computation(command, asked->computation);
  on_chosen(command, line, asked, run_sheet);
}

}  // namespace likelihet::cli
