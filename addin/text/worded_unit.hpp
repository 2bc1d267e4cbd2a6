// SPDX-License-Identifier: MPL-2.0
// Units as people write them in a label or an answer, with the nouns that say of what.
#pragma once

#include <string>
#include <string_view>

#include "drysheet/units.hpp"

namespace drysheet {

struct WordedUnit {
    std::string unit;  ///< what is left, for read_unit
    Basis basis = Basis::unsaid;
};

/// Drops the nouns of a unit, in English, German, French and Spanish: "g water/g dry matter" is "g/g" on the
/// dry basis, "% TS" is "%" on the dry basis, "g/kg dry air" is "g/kg". `alone`: also where there is neither
/// a quotient nor a per cent, as in "kg water", which in a label is a word and no unit.
WordedUnit without_nouns(std::string_view text, bool alone);

}  // namespace drysheet
