// SPDX-License-Identifier: MPL-2.0
// A number as a student writes it: more spellings than an argument may have, since a mark must not hang on
// one.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "addin/text/cell.hpp"
#include "drysheet/units.hpp"

namespace drysheet {

struct Answer {
    double value = 0;
    std::optional<Unit> unit;  ///< as written; none for a plain number
    std::string unit_name;
    bool counts = false;  ///< "64 trays": a number of things, with no unit

    bool physical() const { return unit && unit->dimension != Dimension{}; }
};

/// Beyond a quantity: "1.35 × 10^-3", "19 h 54 min", "19:54", "1.35 kg/m²h", "5.2 kg water/kg dry solids",
/// "64 trays". Nothing for a blank cell. Errors: Refusal naming `argument` for what is no number, or has no
/// unit that is known.
std::optional<Answer> read_answer(std::string_view argument, const Input& given, const Reading& reading);

}  // namespace drysheet
