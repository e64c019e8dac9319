// Files that the user names, read whole and without hanging.
#pragma once

#include <string>

namespace likelihet::cli {

/// The content of a regular file, or of standard input for "-". Throws Failure{input} that says
/// what is wrong: missing, a folder, a socket, a pipe or a device (none is waited on), not
/// permitted, or larger than 1 GiB. The kind is asked of the name before opening and of the open
/// file after it, so a file swapped in between is caught too. Standard input may be a pipe and is
/// waited for. Bytes as they are: neither line ends nor encoding are touched.
std::string read_input(const std::string& name);

}  // namespace likelihet::cli
