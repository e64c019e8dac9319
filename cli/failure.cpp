// Endings without a result, told to people and to programs.
#include "failure.hpp"

#include <cstddef>
#include <new>
#include <utility>

#include "printable.hpp"
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <likelihet/book/book_error.hpp>

namespace likelihet::cli {
namespace {

constexpr std::size_t most_faults_shown = 50;
constexpr std::size_t error_width = 80;  // standard error need not be where standard output is

ExitStatus status_of(book::BookTrouble trouble) {
  switch (trouble) {
    case book::BookTrouble::missing:
    case book::BookTrouble::exists:
    case book::BookTrouble::not_a_book:
    case book::BookTrouble::newer_version:
    case book::BookTrouble::damaged:
      return ExitStatus::input;
    case book::BookTrouble::locked:
    case book::BookTrouble::storage:
      break;
  }
  return ExitStatus::failed;
}

/// A BookError's message ends in "; " and what to do.
Failure book_failure(const book::BookError& error) {
  const std::string message = error.what();
  const auto parting = message.rfind("; ");
  if (parting == std::string::npos) {
    return {status_of(error.trouble()), "book", message,
            "check the file, its folder's permissions and the disk's free space"};
  }
  return {status_of(error.trouble()), "book", message.substr(0, parting),
          message.substr(parting + 2)};
}

}  // namespace

Failure::Failure(ExitStatus status, colony::Faults faults)
    : status_(status), faults_(std::move(faults)) {}

Failure::Failure(ExitStatus status, std::string place, std::string what, std::string mend)
    : status_(status), faults_{colony::Fault{std::move(place), std::move(what), std::move(mend)}} {}

Failure failure_of_current_exception() {
  try {
    throw;
  } catch (const Failure& failure) {
    return failure;
  } catch (const book::BookError& error) {
    return book_failure(error);
  } catch (const std::bad_alloc&) {
    return {ExitStatus::failed, "memory", "there is not enough of it",
            "close other programs, or try a smaller part of the book"};
  } catch (const std::exception& error) {
    return {ExitStatus::failed, "likelihet", error.what(),
            "this is a fault of the program; please report it"};
  }
}

Failure after_recording(const std::string& recorded, Failure failure) {
  if (recorded.empty()) return failure;
  colony::Faults faults = {{"book", "this is recorded and stays: " + recorded,
                            "do not enter it again; what failed after it follows"}};
  faults.insert(faults.end(), failure.faults().begin(), failure.faults().end());
  return {failure.status(), std::move(faults)};
}

std::string failure_text(const Failure& failure) {
  std::string text;
  std::size_t shown = 0;
  for (const auto& fault : failure.faults()) {
    if (shown++ == most_faults_shown) {
      text += fmt::format("and {} more (all of them with --json)\n",
                          failure.faults().size() - most_faults_shown);
      break;
    }
    const std::string place = fault.place.empty() ? "" : printable(fault.place) + ": ";
    text += fitted("error: " + place + printable(fault.what), error_width, 2) + "\n";
    if (!fault.mend.empty()) {
      text += fitted("  fix: " + printable(fault.mend), error_width, 4) + "\n";
    }
  }
  return text;
}

std::string failure_json(const Failure& failure) {
  using nlohmann::ordered_json;
  auto faults = ordered_json::array();
  for (const auto& fault : failure.faults()) {
    faults.push_back({{"place", fault.place}, {"what", fault.what}, {"mend", fault.mend}});
  }
  const ordered_json document = {{"format", "likelihet-error"},
                                 {"version", 1},
                                 {"exit", static_cast<int>(failure.status())},
                                 {"faults", faults}};
  return for_programs(document.dump(-1, ' ', false, ordered_json::error_handler_t::replace)) + "\n";
}

}  // namespace likelihet::cli
