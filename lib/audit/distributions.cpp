// Quantiles and tails.
#include <cmath>
#include <stdexcept>

#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/normal.hpp>

#include <likelihet/audit/distributions.hpp>

namespace likelihet::audit {

double normal_width(double level) {
  if (!(level > 0 && level < 1)) {
    throw std::invalid_argument("the level of an interval lies between 0 and 1");
  }
  return boost::math::quantile(complement(boost::math::normal(), (1 - level) / 2));
}

double two_sided_p(double z) {
  return 2 * boost::math::cdf(complement(boost::math::normal(), std::abs(z)));
}

double chi_squared_p(double chi_squared, double degrees) {
  return boost::math::cdf(complement(boost::math::chi_squared(degrees), chi_squared));
}

}  // namespace likelihet::audit
