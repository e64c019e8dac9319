// likelihet copy: a book in another file, checked.
#include "commands.hpp"
#include "interruption.hpp"
#include "printable.hpp"
#include <fmt/format.h>

#include <likelihet/book/copying.hpp>

namespace likelihet::cli {
namespace {

struct CopyRequest {
  std::string book;
  std::string to;
};

Reply run_copy(const CopyRequest& asked, const Shell& /*shell*/) {
  const Interruption interruption;
  if (book::copy_book(asked.book, asked.to, &Interruption::flag()) == book::CopyEnd::stopped) {
    throw Failure(Interruption::status(), asked.to, "the copying was interrupted",
                  "nothing was left of the copy; run it again");
  }
  return {fmt::format("{} is a copy of {}: sound, and with the same content\n", printable(asked.to),
                      printable(asked.book)),
          {}};
}

}  // namespace

void add_copy(CLI::App& program, CommandLine& line) {
  const auto asked = std::make_shared<CopyRequest>();
  CLI::App& command =
      new_command(program, line, "copy", "Copy a book to a new file, and check the copy.",
                  "  likelihet copy demo.book demo-2024-12-31.book\n");
  add_book(command, asked->book);
  add_file(command, "TO", asked->to, "the file to make; one that is there is never replaced");
  on_chosen(command, line, asked, run_copy);
}

}  // namespace likelihet::cli
