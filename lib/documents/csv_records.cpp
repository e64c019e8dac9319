// Rows of a table to records.
#include <algorithm>
#include <map>
#include <set>
#include <utility>
#include <vector>

#include <likelihet/base/utf8.hpp>
#include <likelihet/documents/csv_cells.hpp>
#include <likelihet/documents/csv_columns.hpp>
#include <likelihet/documents/csv_records.hpp>
#include <likelihet/documents/csv_sires.hpp>
#include <likelihet/documents/csv_table.hpp>

namespace likelihet::documents {

namespace {

// An id made of a record's content; what parts the pieces is escaped inside them, as in a URL.
std::string made_id(const std::vector<std::string>& pieces) {
  std::string id;
  for (const std::string& piece : pieces) {
    if (&piece != &pieces.front()) id += ':';
    for (const char c : piece) {
      id += c == ':' ? std::string("%3A") : c == '%' ? std::string("%25") : std::string(1, c);
    }
  }
  return id;
}

class RecordsReader {
 public:
  RecordsReader(const CsvTable& table, CsvKind kind, const std::string& name, FaultList& faults)
      : table_(table), kind_(kind), name_(name), faults_(faults) {}

  colony::Records read() {
    if (!check_columns()) return {};
    for (std::size_t row = 0; row < table_.rows.size(); ++row) {
      const CsvCells cells(table_, row, name_, faults_);
      switch (kind_) {
        case CsvKind::animals:
          records_.animals.push_back(animal(cells));
          break;
        case CsvKind::clutches:
          records_.clutches.push_back(clutch(cells));
          break;
        case CsvKind::scores:
          records_.observations.push_back(score(cells));
          break;
        case CsvKind::results:
          records_.observations.push_back(result(cells));
          break;
      }
    }
    return std::move(records_);
  }

 private:
  bool check_columns() {
    const Columns columns = columns_of(kind_);
    const std::string place = name_ + " row 1";
    std::vector<std::string> known = columns.written;
    known.insert(known.end(), columns.only_read.begin(), columns.only_read.end());
    bool sound = true;
    for (const std::string& title : table_.header) {
      if (std::find(known.begin(), known.end(), title) != known.end()) continue;
      faults_.add(place + " column " + base::excerpt(title),
                  "unknown column '" + base::excerpt(title) + "'",
                  colony::suggestion(title, known));
      sound = false;
    }
    for (const std::string& title : columns.required) {
      if (std::find(table_.header.begin(), table_.header.end(), title) != table_.header.end()) {
        continue;
      }
      faults_.add(place, "the column '" + title + "' is missing", "add it, with a value a row");
      sound = false;
    }
    return sound;
  }

  colony::AnimalRecord animal(const CsvCells& cells) {
    using genetics::Sex;
    colony::AnimalRecord animal;
    animal.place.text = cells.place();
    animal.id = cells.required_id("id");
    animal.sex = cells.word<Sex>("sex", {{"female", Sex::female}, {"male", Sex::male}});
    animal.origin = cells.text("origin");
    animal.clutch = cells.id("clutch");
    animal.line = cells.text("line");
    animal.hatched = cells.date("hatched");
    const std::optional<std::string> dam = cells.id("dam");
    const std::optional<std::string> sire = cells.id("sire");
    if (!dam && !sire) return animal;
    if (cells.text("clutch")) {
      cells.fault("clutch", "a clutch is named beside a dam or sire",
                  "name the clutch, or its dam and sire");
      return animal;
    }
    animal.clutch = clutch_of(dam, sire, animal.hatched, cells.place());
    return animal;
  }

  // The id of the clutch of these parents and that day; the first animal of it makes the clutch.
  std::string clutch_of(const std::optional<std::string>& dam,
                        const std::optional<std::string>& sire,
                        const std::optional<colony::Date>& hatched, std::string place) {
    std::vector<std::string> pieces{dam.value_or("") + "x" + sire.value_or("")};
    if (hatched) pieces.push_back(hatched->text());
    std::string id = made_id(pieces);
    if (!made_clutches_.insert(id).second) return id;
    colony::ClutchRecord clutch;
    clutch.id = id;
    clutch.dam = dam;
    if (sire) clutch.sires.push_back({*sire, std::nullopt});
    clutch.hatched = hatched;
    clutch.place.text = std::move(place);
    records_.clutches.push_back(std::move(clutch));
    return id;
  }

  colony::ClutchRecord clutch(const CsvCells& cells) {
    using colony::Paternity;
    colony::ClutchRecord clutch;
    clutch.place.text = cells.place();
    clutch.id = cells.required_id("id");
    clutch.dam = cells.id("dam");
    if (const std::optional<std::string> sires = cells.text("sires")) {
      clutch.sires = sires_of(cells, *sires);
    }
    clutch.paternity = cells.word<Paternity>(
        "paternity", {{"single", Paternity::single}, {"mixed", Paternity::mixed}});
    clutch.dam_origin = cells.text("dam_origin");
    clutch.sire_origin = cells.text("sire_origin");
    clutch.line = cells.text("line");
    clutch.laid = cells.date("laid");
    clutch.hatched = cells.date("hatched");
    clutch.eggs = cells.count("eggs");
    return clutch;
  }

  static std::vector<colony::SireRecord> sires_of(const CsvCells& cells, const std::string& cell) {
    if (!mangled_into(cell)) {
      const auto sires = parse_sires(cell, cells.decimal_comma());
      if (!sires) {
        cells.fault("sires", "'" + base::excerpt(cell) + "' is not a list of sires",
                    "write ids with their shares, such as M02:0.7 M05:0.3");
        return {};
      }
      for (const colony::SireRecord& sire : *sires) {
        if (!cells.is_sound_id("sires", sire.id)) return {};
      }
      return *sires;
    }
    static_cast<void>(cells.is_sound_id("sires", cell));
    return {};
  }

  colony::ObservationRecord score(const CsvCells& cells) {
    colony::ScoreRecord score;
    score.animal = cells.required_id("animal");
    score.marker = cells.required_text("marker");
    score.level = cells.text("level");
    score.reason = cells.text("reason");
    score.scorer = cells.text("scorer");
    score.sure = cells.number("sure");
    score.blind = cells.word<bool>("blind", {{"true", true},
                                             {"false", false},
                                             {"yes", true},
                                             {"no", false},
                                             {"1", true},
                                             {"0", false}});
    return observation(cells, {"score", score.animal, score.marker, score.scorer.value_or("")},
                       score);
  }

  colony::ObservationRecord result(const CsvCells& cells) {
    colony::ResultRecord result;
    result.animal = cells.required_id("animal");
    result.assay = cells.required_text("assay");
    result.report = cells.required_text("report");
    result.sample = cells.text("sample");
    return observation(cells, {"result", result.animal, result.assay, result.sample.value_or("")},
                       result);
  }

  // What is read (the level, the report) is no part of a made id: a row that was corrected is then
  // refused as a changed record, where it would otherwise count as a second reading.
  template <class What>
  colony::ObservationRecord observation(const CsvCells& cells, std::vector<std::string> pieces,
                                        What what) {
    colony::ObservationRecord observation;
    observation.place.text = cells.place();
    observation.what = std::move(what);
    observation.on = cells.date("on");
    observation.recorded = cells.timestamp("recorded");
    if (cells.text("id")) {
      observation.id = cells.id("id").value_or(std::string());
      return observation;
    }
    pieces.push_back(observation.on ? observation.on->text() : std::string());
    observation.id = made_id(pieces);
    const std::size_t times = ++made_ids_[observation.id];
    if (times > 1) observation.id += ":" + std::to_string(times);
    return observation;
  }

  const CsvTable& table_;
  CsvKind kind_;
  const std::string& name_;
  FaultList& faults_;
  colony::Records records_;
  std::set<std::string> made_clutches_;
  std::map<std::string, std::size_t> made_ids_;
};

}  // namespace

std::optional<CsvKind> csv_kind(std::string_view word) {
  if (word == "animals") return CsvKind::animals;
  if (word == "clutches") return CsvKind::clutches;
  if (word == "scores") return CsvKind::scores;
  if (word == "results") return CsvKind::results;
  return std::nullopt;
}

std::variant<colony::Records, colony::Faults> read_csv_records(std::string_view text, CsvKind kind,
                                                               const std::string& name) {
  std::variant<CsvTable, colony::Faults> table = read_csv(text, name);
  if (auto* faults = std::get_if<colony::Faults>(&table)) return std::move(*faults);
  FaultList faults;
  colony::Records records = RecordsReader(std::get<CsvTable>(table), kind, name, faults).read();
  if (!faults.empty()) return faults.take();
  return records;
}

}  // namespace likelihet::documents
