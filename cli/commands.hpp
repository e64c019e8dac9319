// The commands, each written in the file of its name. Each adds its command to the parser and says
// what to run; nothing is opened or read before the whole command line proves to be right.
#pragma once

#include "arguments.hpp"

namespace likelihet::cli {

/// Makes a book; every other command needs one.
void add_init(CLI::App& program, CommandLine& line);
void add_import(CLI::App& program, CommandLine& line);
void add_export(CLI::App& program, CommandLine& line);
/// These three read the book and compute.
void add_odds(CLI::App& program, CommandLine& line);
void add_why(CLI::App& program, CommandLine& line);
void add_history(CLI::App& program, CommandLine& line);
/// These two teach the book about its markers, and tell what it was taught.
void add_learn(CLI::App& program, CommandLine& line);
void add_tables(CLI::App& program, CommandLine& line);
/// Holds past odds against what came true.
void add_audit(CLI::App& program, CommandLine& line);
/// What may be said of animals: for buyers, and for one animal as a page to hand over.
void add_listing(CLI::App& program, CommandLine& line);
void add_sheet(CLI::App& program, CommandLine& line);
/// These plan pairings; no book is changed.
void add_outlook(CLI::App& program, CommandLine& line);
void add_prove_out(CLI::App& program, CommandLine& line);
/// Which samples to send next.
void add_next_test(CLI::App& program, CommandLine& line);
/// Which hatchlings to keep.
void add_holdbacks(CLI::App& program, CommandLine& line);
/// Draws records; no book is changed.
void add_simulate(CLI::App& program, CommandLine& line);
/// These five record one observation each.
void add_score(CLI::App& program, CommandLine& line);
void add_result(CLI::App& program, CommandLine& line);
void add_appearance(CLI::App& program, CommandLine& line);
void add_brood(CLI::App& program, CommandLine& line);
void add_withdraw(CLI::App& program, CommandLine& line);
/// These three record what was said of animals, show what became of it, and derive it again.
void add_publish(CLI::App& program, CommandLine& line);
void add_claims(CLI::App& program, CommandLine& line);
void add_verify(CLI::App& program, CommandLine& line);
/// Looks for damage, and computes nothing.
void add_check(CLI::App& program, CommandLine& line);
/// A copy of the book, to keep elsewhere.
void add_copy(CLI::App& program, CommandLine& line);
/// "add", which has commands of its own.
void add_add(CLI::App& program, CommandLine& line);
/// Called by add_add with its own command as the parent.
void add_add_animal(CLI::App& add, CommandLine& line);
void add_add_clutch(CLI::App& add, CommandLine& line);

}  // namespace likelihet::cli
