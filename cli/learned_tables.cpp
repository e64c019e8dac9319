// Choosing between belief and what was learned.
#include "learned_tables.hpp"

#include "failure.hpp"
#include "printable.hpp"

#include <likelihet/documents/digest.hpp>
#include <likelihet/learning/learned_text.hpp>

namespace likelihet::cli {

std::string words_of(TablesUsed used) {
  switch (used) {
    case TablesUsed::belief:
      return "as assumed";
    case TablesUsed::belief_as_stale:
      return "as assumed, as the book changed since 'likelihet learn'";
    case TablesUsed::belief_as_damaged:
      return "as assumed, as the learned tables are damaged: run 'likelihet learn' again";
    case TablesUsed::belief_as_of:
      return "as assumed, as what was learned later must not tell of that day";
    case TablesUsed::learned:
      return "learned from this book";
  }
  return {};
}

std::string digest_of(const book::Snapshot& book) {
  return documents::digest(book.evidence.model, book.evidence.records);
}

namespace {
bool is_fresh(const book::Snapshot& book, const book::LearnedRecord& learned) {
  return learned.digest == digest_of(book);
}
}  // namespace

Chosen choose_tables(const book::Snapshot& book, const std::string& asked, bool earlier_day) {
  if (asked == "belief") return {};
  const bool required = asked == "learned";
  if (earlier_day && !required) {
    return {book.learned ? TablesUsed::belief_as_of : TablesUsed::belief, {}};
  }
  const auto& learned = book.learned;
  if (!learned) {
    if (!required) return {};
    throw Failure(ExitStatus::input, "book", "it has no learned tables",
                  "run 'likelihet learn' first, or use --tables belief, the tables of the model");
  }
  if (!learned->sound) {
    if (!required) return {TablesUsed::belief_as_damaged, {}};
    throw Failure(ExitStatus::failed, "book", "its learned tables are not what was learned",
                  "run 'likelihet learn' again, or use --tables belief");
  }
  if (!is_fresh(book, *learned)) {
    if (!required) return {TablesUsed::belief_as_stale, {}};
    throw Failure(ExitStatus::input, "book", "the book changed since its tables were learned",
                  "run 'likelihet learn' again, or use --tables belief");
  }
  auto draws = learning::read_draws(learned->draws, book.colony.model());
  if (!draws) {
    throw Failure(ExitStatus::input, "book", "what was learned does not fit the book's model",
                  "run 'likelihet learn' again");
  }
  // Nothing is open to learning in a model without uncertain tables: belief is all there is.
  return {draws->empty() ? TablesUsed::belief : TablesUsed::learned, std::move(*draws)};
}

std::string belief_note(const book::Snapshot& book, bool earlier_day, std::size_t width) {
  if (earlier_day) return {};
  const auto& learned = book.learned;
  if (!learned || !learned->sound || !is_fresh(book, *learned)) return {};
  return wrapped(
             "Tables of markers: as assumed. 'likelihet odds' averages over what was learned from "
             "this book, so its figures differ.",
             width, 0) +
         "\n";
}

}  // namespace likelihet::cli
