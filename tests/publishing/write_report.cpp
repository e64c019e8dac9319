// Writes the report of an audit document, as the program would: write_report DOCUMENT REPORT
#include <cstdlib>
#include <fstream>
#include <iostream>

#include "report_scripts.hpp"
#include <nlohmann/json.hpp>

#include <likelihet/publishing/audit_report.hpp>

int main(int count, char** arguments) {
  if (count != 3) {
    std::cerr << "usage: write_report DOCUMENT REPORT\n";
    return EXIT_FAILURE;
  }
  std::ifstream document(arguments[1]);
  std::ofstream report(arguments[2]);
  report << likelihet::publishing::audit_report(nlohmann::json::parse(document),
                                                {likelihet::cli::report_scripts()});
  return report.flush() ? EXIT_SUCCESS : EXIT_FAILURE;
}
