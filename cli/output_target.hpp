// What stands at the place that a result is to be written to, and whether it may be replaced.
#pragma once

#include <optional>
#include <string>

#include <sys/stat.h>

namespace likelihet::cli {

/// What a command knows of its outputs: the keeper's book, and whether --force was given.
struct OutputRules {
  std::string book;
  bool force = false;
};

/// A name taken apart. Only the last part is never followed as a link; folders are.
struct OutputPlace {
  std::string folder;  ///< "." where the name has none
  std::string file;
};

/// Throws Failure{usage} for an empty name and for one that can only be a folder.
OutputPlace place_of(const std::string& name);

/// The status of the file that would be replaced; nothing where the name is free. Never a book (any
/// SQLite file, the command's own book under any name, or the log beside one), never a symbolic
/// link: with --force neither. Another file with --force alone: all these are Failure{input}.
/// Failure{usage} for a folder, a pipe or a device; Failure{failed} where the folder cannot be
/// reached. Another program may change all this before the file is written: write_output() looks
/// again.
std::optional<struct stat> replaced_at(const std::string& name, const OutputRules& rules);

/// Whether two names are of one file, there or not yet.
bool same_place(const std::string& one, const std::string& other);

}  // namespace likelihet::cli
