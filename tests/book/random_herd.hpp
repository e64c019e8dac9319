// Random records that fit the example's model.
#pragma once

#include <cstddef>

#include <rapidcheck.h>

#include <likelihet/colony/records.hpp>

namespace likelihet::book {

/// Founders, clutches of earlier animals, their hatchlings, and observations of every kind, with
/// fields present or absent at random; ids hold letters that need quoting somewhere.
rc::Gen<colony::Records> any_herd();

/// `animals` of them in clutches of ten out of two founders, each hatchling scored once: the same
/// records each time.
colony::Records large_herd(std::size_t animals);

}  // namespace likelihet::book
