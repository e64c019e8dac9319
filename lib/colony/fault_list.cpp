// Keeps the first thousand faults and counts the others.
#include <utility>

#include <likelihet/colony/fault_list.hpp>
#include <likelihet/colony/nearest.hpp>

namespace likelihet::colony {

bool FaultList::counted_only() {
  if (faults_.size() < most_kept) return false;
  ++left_out_;
  return true;
}

void FaultList::add(std::string place, std::string what, std::string mend) {
  if (counted_only()) return;
  faults_.push_back({std::move(place), std::move(what), std::move(mend)});
}

std::string FaultList::many_known(std::size_t count) {
  return "name one of the " + std::to_string(count) + " that are known";
}

std::string FaultList::suggest(std::string_view word, const std::vector<std::string>& known) {
  if (faults_.size() >= most_kept) return {};
  if (known.size() > comparisons_left_) return many_known(known.size());
  comparisons_left_ -= known.size();
  return suggestion(word, known);
}

Faults FaultList::take() {
  if (left_out_ > 0) {
    faults_.push_back({"", std::to_string(left_out_) + " more faults were found",
                       "mend those above, then read it again"});
    left_out_ = 0;
  }
  return std::move(faults_);
}

}  // namespace likelihet::colony
