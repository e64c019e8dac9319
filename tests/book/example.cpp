// What the tests of a book share.
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <utility>

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Exception.h>
#include <book/example.hpp>
#include <sys/wait.h>
#include <unistd.h>

#include <likelihet/documents/model_document.hpp>

namespace likelihet::book {

namespace fs = std::filesystem;

Folder::Folder() {
  std::string name = (fs::temp_directory_path() / "likelihet-book-XXXXXX").string();
  if (::mkdtemp(name.data()) == nullptr) {
    throw std::runtime_error("no temporary folder");
  }
  path_ = name;
}

Folder::~Folder() {
  std::error_code ignored;
  fs::remove_all(path_, ignored);
}

colony::Date day(const std::string& text) {
  return colony::Date::parse(text).value();
}

colony::Timestamp moment(const std::string& text) {
  return colony::Timestamp::parse(text).value();
}

colony::Model example_model(double fleck_clear) {
  colony::ModelDescription model;
  model.name = "example";
  model.sex_chromosomes = genetics::SexSystem::zw;
  model.loci = {{"tarnbrook",
                 genetics::Chromosome::autosome,
                 {"+", "e"},
                 {{"default", {{"plain", 1}}}, {"e/e", {{"tarnbrook", 1}}}},
                 {},
                 ""},
                {"brackmoor",
                 genetics::Chromosome::z,
                 {"+", "h"},
                 {{"default", {{"dark", 1}}}, {"h/h", {{"thornwick", 1}}}},
                 {},
                 ""}};
  model.origins = {{"bought", {{"tarnbrook", {{"e", 0.02}}}}, 50}};
  model.markers = {
      {"crown-fleck",
       {"absent", "strong"},
       1.0,
       {{{{"tarnbrook", "+/e"}}, {0.6, 0.4}, 8}, {{}, {1 - fleck_clear, fleck_clear}, 8}},
       {}}};
  model.assays = {{"shed-pcr",
                   "tarnbrook",
                   {"clear", "carrier"},
                   {{"+/+", {0.99, 0.01}}, {"+/e", {0.01, 0.99}}, {"e/e", {0.01, 0.99}}},
                   0.004,
                   45}};
  model.scorers = {{"ana", 0.95}};
  auto made = colony::Model::make(model);
  if (const auto* faults = std::get_if<colony::Faults>(&made)) {
    throw std::logic_error(faults->front().place + ": " + faults->front().what);
  }
  return std::get<colony::Model>(std::move(made));
}

colony::Records example_records() {
  using namespace colony;
  using genetics::Sex;
  Records records;
  records.animals = {
      {"F01",
       Sex::female,
       "bought",
       {},
       "north",
       day("2021-06-30"),
       {{"tarnbrook", {{"+/e", 0.66}, {"+/+", 0.34}}, 0.9}},
       {"/animals/0"}},
      {"M02", Sex::male, {}, {}, {}, {}, {}, {"/animals/1"}},
      {"H0301", {}, {}, "C03", {}, {}, {}, {"/animals/2"}},
  };
  records.clutches = {{"C03",
                       "F01",
                       {{"M02", 1.0}},
                       {},
                       {},
                       {},
                       {},
                       day("2024-04-02"),
                       day("2024-06-01"),
                       7,
                       {"/clutches/0"}}};
  records.observations = {
      {"o1", AppearanceRecord{"F01", "tarnbrook", "plain"}, day("2024-01-10"), {}, {}, {"/o/0"}},
      {"o2",
       ScoreRecord{"H0301", "crown-fleck", "strong", {}, "ana", 0.9, true},
       {},
       {},
       {},
       {"/o/1"}},
      {"o3",
       ResultRecord{"H0301", "shed-pcr", "carrier", "S-0091"},
       day("2024-07-02"),
       moment("2024-07-03T18:30:00+02:00"),
       {},
       {"/o/2"}},
      {"o4",
       BroodRecord{"M02", "tarnbrook", "e/e", {{"plain", 7}, {"tarnbrook", 0}}},
       {},
       {},
       {},
       {"/o/3"}},
      {"o5", WithdrawalRecord{"o2", "wrong animal"}, {}, {}, {}, {"/o/4"}},
      {"o6", ScoreRecord{"H0301", "crown-fleck", {}, "in shed", {}, {}, {}}, {}, {}, {}, {"/o/5"}},
  };
  return records;
}

Settings test_settings() {
  Settings settings;
  settings.clock = [] { return moment("2026-05-04T03:02:01Z"); };
  settings.patience = std::chrono::milliseconds(20);
  return settings;
}

Book make_example(const fs::path& file) {
  Book book = Opener::create(file, example_model(), test_settings());
  added(book, example_records());
  return book;
}

Change added(Book& book, const colony::Records& records, Mode mode) {
  auto outcome = book.add(records, mode);
  if (const auto* faults = std::get_if<colony::Faults>(&outcome)) {
    for (const colony::Fault& fault : *faults) {
      ADD_FAILURE() << fault.place << ": " << fault.what << "; " << fault.mend;
    }
    return {};
  }
  return std::get<Change>(outcome);
}

colony::Faults refused(Book& book, const colony::Records& records, Mode mode) {
  auto outcome = book.add(records, mode);
  if (auto* faults = std::get_if<colony::Faults>(&outcome)) {
    return std::move(*faults);
  }
  ADD_FAILURE() << "the records were not refused";
  return {};
}

std::string bytes_of(const fs::path& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), {}};
}

void write_bytes(const fs::path& file, const std::string& bytes) {
  std::ofstream stream(file, std::ios::binary | std::ios::trunc);
  stream.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
}

std::string run_raw(const fs::path& file, const std::string& statements) {
  try {
    SQLite::Database database(file.string(), SQLite::OPEN_READWRITE, 2000);
    database.exec(statements);
    return "";
  } catch (const SQLite::Exception& error) {
    return error.what();
  }
}

int in_child(const std::function<int()>& work) {
  const pid_t child = ::fork();
  if (child == 0) {
    int status = 99;
    try {
      status = work();
    } catch (...) {
    }
    ::_exit(status);
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status);
}

}  // namespace likelihet::book
