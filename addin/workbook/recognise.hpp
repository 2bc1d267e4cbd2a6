// SPDX-License-Identifier: MPL-2.0
// Known sums and known slips in plain formulas.
#pragma once

#include <optional>
#include <string>

#include "addin/text/cell.hpp"
#include "addin/workbook/findings.hpp"
#include "addin/workbook/labels.hpp"
#include "addin/workbook/picture.hpp"

namespace drysheet::workbook {

/// What a plain formula was recognised as.
struct Recognised {
    enum class What : unsigned char {
        right,    ///< one of our functions, with arguments that the labels bear out
        slip,     ///< one with a known slip
        elsewise  ///< a known sum, under a label that says another
    };
    What what = What::right;
    Verdict verdict = Verdict::could_be_checked;
    std::string why;        ///< one sentence
    std::string suggested;  ///< the call for this cell, "=DRY.DRIEDMASS(B2;C2;D2)"; empty: none
    std::optional<double> would_show;
    std::string evidence;
};

/// Nothing where the formula is no sum that is known.
std::optional<Recognised> recognise(const Picture& picture, const Place& at, const Labels& labels,
                                    const Reading& reading);

}  // namespace drysheet::workbook
