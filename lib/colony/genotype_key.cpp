// Mending genotype keys.
#include <algorithm>

#include <likelihet/colony/genotype_key.hpp>
#include <likelihet/colony/wording.hpp>

namespace likelihet::colony {

std::string key_mend(std::string_view key, const std::vector<std::string>& keys,
                     FaultList& faults) {
  const std::size_t slash = key.find('/');
  if (slash != std::string_view::npos) {
    std::string turned(key.substr(slash + 1));
    turned += '/';
    turned += key.substr(0, slash);
    if (std::find(keys.begin(), keys.end(), turned) != keys.end()) {
      return "write " + in_quotes(turned) + ": the order in which the locus declares its alleles";
    }
  }
  return faults.suggest(key, keys);
}

}  // namespace likelihet::colony
