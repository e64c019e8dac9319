// Reads a book for listings.
#include "ground.hpp"

#include <utility>

#include "today.hpp"

namespace likelihet::cli {

BookGround::BookGround(book::Snapshot book, const odds::Options& options)
    : book_(std::move(book)), tables_(choose_tables(book_, "", options.as_of.has_value())) {
  ground_.colony = &book_.colony;
  ground_.policy = &book_.evidence.policy;
  if (tables_.used == TablesUsed::learned) ground_.learned = &tables_.draws;
  ground_.memory_bytes = options.memory_bytes;
  ground_.as_of = options.as_of;
  ground_.day = options.as_of ? *options.as_of : today();
}

}  // namespace likelihet::cli
