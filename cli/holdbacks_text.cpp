// Which hatchlings to keep, in words and tables.
#include <algorithm>

#include "cautions.hpp"
#include "change_output.hpp"
#include "holdbacks_output.hpp"
#include "percent.hpp"
#include "printable.hpp"
#include "table.hpp"
#include <fmt/format.h>

namespace likelihet::cli {
namespace {

class HoldbacksPage {
 public:
  HoldbacksPage(const HoldbacksTold& told, const Terminal& terminal)
      : colony_(*told.colony),
        question_(*told.question),
        found_(*told.found),
        locus_(colony_.model().loci()[question_.goal.locus]),
        terminal_(terminal) {}

  [[nodiscard]] std::string text() const {
    std::string out;
    if (question_.book.as_of) {
      out += fmt::format("As known at the end of {}.\n\n", question_.book.as_of->text());
    }
    out +=
        terminal_.heading(printable(fmt::format(
            "Clutch {}, {}: {}", colony_.clutches()[question_.clutch].id, locus_.id(), goal()))) +
        "\n";
    if (found_.hatchlings.empty())
      return out + paragraph("It has no hatchlings recorded as animals.") + cautions();
    out += hatchlings() + "\n";
    if (found_.sizes.empty()) {
      return out +
             paragraph(fmt::format("It has too few hatchlings recorded as female or male for "
                                   "{} and {}.",
                                   counted(question_.females, "female", "females"),
                                   counted(question_.males, "male", "males"))) +
             cautions();
    }
    return out + sizes() + "\n" + counts() + search() + cautions();
  }

 private:
  [[nodiscard]] std::string paragraph(const std::string& words) const {
    return wrapped(words, terminal_.width(), 0) + "\n";
  }

  // "carries (+/e, e/e)"; a key stands for itself.
  [[nodiscard]] std::string goal() const {
    std::string keys;
    for (std::size_t g = 0; g < locus_.size(); ++g) {
      if (question_.goal.meets[g]) keys += (keys.empty() ? "" : ", ") + locus_.key(g);
    }
    if (locus_.find(question_.goal.name)) return keys;
    return fmt::format("{} ({})", question_.goal.name, keys.empty() ? "no genotype" : keys);
  }

  [[nodiscard]] std::string hatchlings() const {
    Table table({{"hatchling"}, {"sex"}, {"its own chance", Align::right}});
    for (const auto& hatchling : found_.hatchlings) {
      const std::string sex = !hatchling.sex                            ? "?"
                              : *hatchling.sex == genetics::Sex::female ? "female"
                                                                        : "male";
      table.add(
          {printable_id(colony_.animals()[hatchling.animal].id), sex, percent(hatchling.chance)});
    }
    return table.text(terminal_, 2);
  }

  [[nodiscard]] std::string asked() const {
    if (question_.females > 0 && question_.males > 0) return "one of each sex";
    if (question_.females > 0) return "a female";
    return question_.males > 0 ? "a male" : "at least one";
  }

  [[nodiscard]] std::string sizes() const {
    Table table({{"keep", Align::right},
                 {asked(), Align::right},
                 {"if independent", Align::right},
                 {"expected", Align::right},
                 {"which"}});
    for (const auto& kept : found_.sizes) {
      std::string ids;
      for (const std::size_t animal : kept.animals) {
        ids += (ids.empty() ? "" : ", ") + printable_id(colony_.animals()[animal].id);
      }
      table.add({std::to_string(kept.animals.size()), percent(kept.chance), percent(kept.product),
                 fmt::format("{:.2f}", kept.expected), ids});
    }
    return table.text(terminal_, 2);
  }

  [[nodiscard]] std::string counts() const {
    if (found_.counts.empty()) return "";
    std::string words;
    for (std::size_t k = 0; k < found_.counts.size(); ++k) {
      words +=
          fmt::format("{}{}: {}", k == 0 ? "" : ", ", k, percent(std::min(found_.counts[k], 1.0)));
    }
    return paragraph("How many of the last set meet the goal: " + words + ".");
  }

  [[nodiscard]] std::string search() const {
    std::string out = paragraph(
        "Siblings share their parents, so their chances do not multiply; \"if independent\" is "
        "what "
        "multiplying them would say.");
    const auto greedy = std::find_if(found_.sizes.begin(), found_.sizes.end(),
                                     [](const auto& kept) { return !kept.searched; });
    if (greedy == found_.sizes.end()) return out;
    return out + paragraph(fmt::format(
                     "From {} on there are more than {} sets of a size: one animal at a time was "
                     "added to the set before, which {}.",
                     greedy->animals.size(), question_.exact,
                     found_.guarantee ? "is at least " + percent(*found_.guarantee) +
                                            " of the best, whatever the clutch"
                                      : "may miss the best set where sexes are asked for"));
  }

  [[nodiscard]] std::string cautions() const {
    std::string out;
    if (question_.females > 0 || question_.males > 0) {
      const auto unsexed = static_cast<std::size_t>(
          std::count_if(found_.hatchlings.begin(), found_.hatchlings.end(),
                        [](const auto& hatchling) { return !hatchling.sex; }));
      if (unsexed > 0) {
        out += paragraph(counted(unsexed, "hatchling", "hatchlings") +
                         " of unknown sex can't count as female or male.");
      }
    }
    out += paragraph(
        "These are chances, not promises: a set may hold none. Pairing siblings with each other or "
        "with their parents inbreeds; before that, and where two copies may do harm, ask a reptile "
        "veterinarian. Local law on keeping and trade comes first.");
    return out + cautions_of(colony_.model(), {question_.goal.locus}, terminal_);
  }

  const colony::Colony& colony_;
  const planning::HoldbackQuestion& question_;
  const planning::Holdbacks& found_;
  const genetics::Locus& locus_;
  const Terminal& terminal_;
};

}  // namespace

std::string holdbacks_text(const HoldbacksTold& told, const Terminal& terminal) {
  return HoldbacksPage(told, terminal).text();
}

}  // namespace likelihet::cli
