// A number with how far it may be off.
#pragma once

namespace likelihet::audit {

/// Both ends belong to it. Of level 0.95 where nothing else is said.
struct Interval {
  double low = 0;
  double high = 0;
};

struct Estimate {
  double value = 0;
  Interval interval;
};

}  // namespace likelihet::audit
