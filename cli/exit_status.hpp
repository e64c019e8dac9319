// What the program's exit status tells a script.
#pragma once

namespace likelihet::cli {

/// One number a kind of ending; docs/commands.md lists them for users. Part of the interface:
/// numbers are never given another meaning.
enum class ExitStatus : int {
  done = 0,
  failed = 1,         ///< anything else: the book is locked, the disk full, standard output closed
  usage = 2,          ///< the command line is wrong
  input = 3,          ///< a document, a value or the book is wrong; nothing was written
  contradiction = 4,  ///< the evidence contradicts itself
  too_large = 5,      ///< exact inference would not fit the memory allowed
  hung_up = 129,  ///< ended by SIGHUP; this and the next two are 128 + the signal, as shells count
  interrupted = 130,  ///< ended by SIGINT: Ctrl-C
  terminated = 143,   ///< ended by SIGTERM
};

}  // namespace likelihet::cli
