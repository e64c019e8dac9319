// From readings to subjects.
#include <likelihet/audit/forecast.hpp>
#include <likelihet/audit/marker_subjects.hpp>

namespace likelihet::audit {

MarkerlessTable::MarkerlessTable(const colony::Colony& colony,
                                 std::vector<genetics::CopyChances> copies)
    : copies_(std::move(copies)) {
  for (const auto& locus : colony.model().loci()) {
    first_.push_back(each_);
    each_ += locus.alleles().size() - 1;
  }
}

const genetics::CopyChances& MarkerlessTable::of(std::size_t animal, std::size_t locus,
                                                 std::uint16_t allele) const {
  return copies_[animal * each_ + first_[locus] + allele - 1];
}

std::vector<Subject> subjects_of(const colony::Colony& colony, const MarkerlessTable& markerless,
                                 std::span<const LevelRead> reads, std::size_t locus,
                                 std::uint16_t allele, double yes, double no) {
  std::vector<Subject> out;
  out.reserve(reads.size());
  for (const LevelRead& read : reads) {
    const genetics::CopyChances& copies = markerless.of(read.animal, locus, allele);
    if (copies.two > 0.5) continue;
    Subject one{read, copies.one / (copies.none + copies.one), std::nullopt,
                cluster_of(colony, read.animal)};
    if (copies.one >= yes) one.known = true;
    if (copies.one <= no) one.known = false;
    out.push_back(one);
  }
  return out;
}

LevelData level_data(std::span<const Subject> subjects, std::size_t levels) {
  LevelData out{levels, 2, {}, {}};
  out.level.reserve(subjects.size());
  out.weight.reserve(2 * subjects.size());
  for (const Subject& one : subjects) {
    out.level.push_back(one.read.level);
    out.weight.push_back(1 - one.carrier);
    out.weight.push_back(one.carrier);
  }
  return out;
}

std::vector<Compared> compared(std::span<const Subject> subjects,
                               std::span<const std::size_t> stratum) {
  std::vector<Compared> out;
  out.reserve(subjects.size());
  for (std::size_t i = 0; i < subjects.size(); ++i) {
    out.push_back({static_cast<double>(subjects[i].read.level), subjects[i].carrier, stratum[i]});
  }
  return out;
}

}  // namespace likelihet::audit
