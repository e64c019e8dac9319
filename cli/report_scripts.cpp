// The script lies in the program's read-only data: cli/web/report_scripts.S.
#include "report_scripts.hpp"

extern "C" {
extern const char likelihet_report_scripts[];
extern const char likelihet_report_scripts_end[];
}

namespace likelihet::cli {

std::string_view report_scripts() {
  return {likelihet_report_scripts, likelihet_report_scripts_end};
}

}  // namespace likelihet::cli
