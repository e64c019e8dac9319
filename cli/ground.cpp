// Reads a book for listings.
#include "ground.hpp"

#include "today.hpp"

namespace likelihet::cli {

BookGround::BookGround(const book::Book& book, const odds::Options& options)
    : colony_(book.colony()),
      policy_(book.policy()),
      tables_(choose_tables(book, "", options.as_of.has_value())) {
  ground_.colony = &colony_;
  ground_.policy = &policy_;
  if (tables_.used == TablesUsed::learned) ground_.learned = &tables_.draws;
  ground_.memory_bytes = options.memory_bytes;
  ground_.as_of = options.as_of;
  ground_.day = options.as_of ? *options.as_of : today();
}

}  // namespace likelihet::cli
