// Keeps the first thousand faults and counts the others.
#include <utility>

#include <likelihet/documents/fault_list.hpp>

namespace likelihet::documents {

void FaultList::add(std::string place, std::string what, std::string mend) {
  if (!full()) {
    kept_.push_back({std::move(place), std::move(what), std::move(mend)});
  }
  ++count_;
}

colony::Faults FaultList::take() {
  if (count_ > limit) {
    const std::size_t unsaid = count_ - limit + 1;
    colony::Fault& last = kept_.back();
    last.what = std::to_string(unsaid) + " more faults from here on";
    last.mend = "mend the faults above and read it again";
  }
  count_ = 0;
  return std::move(kept_);
}

}  // namespace likelihet::documents
