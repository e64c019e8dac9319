// Characters that do not show: with one of them two ids print alike and are not the same animal.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include <likelihet/colony/fault.hpp>
#include <likelihet/colony/model_description.hpp>
#include <likelihet/colony/records.hpp>

namespace likelihet::colony {

/// Whether a code point leaves nothing to see or turns the writing around it: controls, the
/// Default_Ignorable_Code_Point of Unicode's DerivedCoreProperties (soft hyphen, zero widths, the
/// markers and embeddings of Unicode Standard Annex 9, variation selectors, tags, Hangul fillers),
/// and the separators U+2028 and U+2029.
bool is_hidden(std::uint32_t code_point);

/// Whether it is a blank, of any width (Unicode general category Zs).
bool is_blank(std::uint32_t code_point);

/// What a text hides, in words ("a blank at its end", "U+200B, which does not show"): a hidden
/// character, a blank at either end, or a blank other than U+0020 that looks like one. Nothing
/// where the text is what it looks like. The text is UTF-8; bytes that are none hide nothing here.
std::optional<std::string> hidden_in(std::string_view text);

/// A fault for each id and word of the keeper's in a record that hides something, with its field.
/// For records on their way into a book: what a book holds already stays readable. With `known` the
/// record is in the book under this id, and the id is left out.
Faults hidden_faults(const AnimalRecord& record, bool known);
Faults hidden_faults(const ClutchRecord& record, bool known);
Faults hidden_faults(const ObservationRecord& record, bool known);

/// The same for the ids and words that a model brings, at their JSON Pointers.
Faults hidden_faults(const ModelDescription& model);

}  // namespace likelihet::colony
