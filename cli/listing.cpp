// likelihet listing: what may honestly be said of animals, as text to publish.
#include "claims_output.hpp"
#include "commands.hpp"
#include "computation.hpp"
#include "ground.hpp"
#include "listing_output.hpp"
#include "open_book.hpp"
#include <nlohmann/json.hpp>

#include <likelihet/publishing/listing_document.hpp>
#include <likelihet/publishing/listing_html.hpp>
#include <likelihet/publishing/listing_markdown.hpp>

namespace likelihet::cli {
namespace {

struct ListingRequest {
  std::string book;
  std::vector<std::string> animals;
  std::optional<std::string> clutch;
  std::string format;  // empty: text
  bool brief = false;
  ComputationAsked computation;
};

Reply run_listing(const ListingRequest& asked, const Shell& shell) {
  const BookGround state(open_book(asked.book).snapshot(), asked.computation.options());
  const colony::Colony& colony = state.colony();
  const auto animals = animals_of(colony, asked.animals, asked.clutch);
  const auto claims =
      asked.computation.as_of.empty() ? claims_now(state, animals) : std::vector<ClaimNow>{};
  refuse_out_of_date(claims);
  auto found = value_or_fail(colony, publishing::listings(state.ground(), animals));
  for (auto& listing : found) {
    listing.claim = standing_code(claims, colony.animals()[listing.animal].id);
  }
  if (shell.json || asked.format == "json") {
    return {publishing::listing_document(colony, found).dump(2) + "\n", {}};
  }
  if (asked.format == "html") return {publishing::listing_html(colony, found), {}};
  if (asked.format == "markdown") return {publishing::listing_markdown(colony, found), {}};
  const Terminal terminal = shell.terminal();
  return {asked.brief ? short_listing_text(colony, found, terminal)
                      : listing_text(colony, found, terminal),
          {}};
}

}  // namespace

void add_listing(CLI::App& program, CommandLine& line) {
  const auto asked = std::make_shared<ListingRequest>();
  CLI::App& command =
      new_command(program, line, "listing", "Say what may honestly be said of animals for sale.",
                  "  likelihet listing demo.book H0301\n"
                  "  likelihet listing demo.book H0301 --short\n"
                  "  likelihet listing demo.book --clutch C03 --format markdown\n"
                  "  likelihet listing demo.book H0301 --format html > H0301.html\n");
  add_book(command, asked->book);
  add_more_words(command, "ANIMAL", asked->animals, "animals' ids");
  add_text(command, "--clutch", asked->clutch, "also the hatchlings of this clutch");
  auto* format = add_choice(command, "--format", asked->format,
                            {"text", "markdown", "html", "json"}, "not given = text");
  exclude(add_flag(command, "--short", asked->brief, "a few lines, to paste into an advert"),
          format);
  add_computation(command, asked->computation);
  add_json(command, line);
  on_chosen(command, line, asked, run_listing);
}

}  // namespace likelihet::cli
