// Writing beside, then renaming.
#include "output_file.hpp"

#include <cerrno>
#include <filesystem>
#include <fstream>
#include <system_error>

#include "failure.hpp"
#include <unistd.h>

namespace likelihet::cli {

void write_output(const std::string& name, const std::string& text) {
  std::error_code none;
  if (std::filesystem::exists(name, none) && !std::filesystem::is_regular_file(name, none)) {
    throw Failure(ExitStatus::usage, name, "is not a file that can be written",
                  "name a file, new or old");
  }
  const std::string beside = name + ".part-" + std::to_string(getpid());
  errno = 0;
  {
    std::ofstream file(beside, std::ios::binary | std::ios::trunc);
    file << text;
    file.close();
    if (!file.fail()) {
      std::error_code failed;
      std::filesystem::rename(beside, name, failed);
      if (!failed) return;
    }
  }
  const std::string why = errno == 0 ? "" : ": " + std::generic_category().message(errno);
  std::filesystem::remove(beside, none);
  throw Failure(ExitStatus::failed, name, "could not be written" + why,
                "check that the folder exists and has free space");
}

}  // namespace likelihet::cli
