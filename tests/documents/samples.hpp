// Sample documents of these tests, and faults made comparable and printable.
#pragma once

#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <variant>

#include <gtest/gtest.h>

#include <likelihet/colony/fault.hpp>

namespace likelihet::colony {

inline void PrintTo(const Fault& fault, std::ostream* out) {
  *out << "{" << fault.place << " | " << fault.what << " | " << fault.mend << "}";
}

}  // namespace likelihet::colony

namespace likelihet::documents {

inline std::string file_text(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file) throw std::runtime_error("cannot read " + path);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

/// A file of tests/documents/cases.
inline std::string sample(const std::string& name) {
  return file_text(std::string(LIKELIHET_SOURCE_DIR) + "/tests/documents/cases/" + name);
}

/// The faults of something read; none if it was read without any.
template <class Value>
colony::Faults faults_of(const std::variant<Value, colony::Faults>& read) {
  const auto* faults = std::get_if<colony::Faults>(&read);
  return faults == nullptr ? colony::Faults{} : *faults;
}

/// The value of something read; fails the test and throws where there are faults.
template <class Value>
Value value_of(const std::variant<Value, colony::Faults>& read) {
  EXPECT_EQ(faults_of(read), colony::Faults{});
  return std::get<Value>(read);
}

}  // namespace likelihet::documents
