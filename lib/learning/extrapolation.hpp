// A long step along the way that EM goes; internal to the layer.
#pragma once

#include <likelihet/colony/model.hpp>
#include <likelihet/odds/tables.hpp>

namespace likelihet::learning {

/// Three neighbouring points of an EM climb, and where they lead: the squared extrapolation of
/// Varadhan and Roland (2008, Scandinavian Journal of Statistics 35:335, scheme S3) in logarithms
/// of rows and frequencies, log odds of scorers and logarithms of loadings, so that every result is
/// a set of tables. What learning may not move stays. It may lead downhill: the climber checks.
odds::Tables extrapolated(const colony::Model& model, const odds::Tables& first,
                          const odds::Tables& second, const odds::Tables& third);

}  // namespace likelihet::learning
