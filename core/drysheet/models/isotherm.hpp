// SPDX-License-Identifier: MPL-2.0
// What a file of an isotherm works with. An isotherm is one file here, told whole in it (name, source,
// formula, inverse, conditions, starts of a fit), and one row in isotherm_list.hpp. Not for users of the
// core.
#pragma once

#include <cmath>
#include <functional>
#include <vector>

#include "drysheet/models/model.hpp"

namespace drysheet::models {

using std::exp;
using std::log;
using std::log1p;
using std::pow;

template <class A>
A odds(const A& aw) {
    return aw / (1.0 - aw);
}
/// −ln(1 − aw)
template <class A>
A dryness(const A& aw) {
    return -log1p(-aw);
}
/// −ln aw; 0 at aw = 0, where the formulas do not ask
template <class A>
A wetness(const A& aw) {
    return aw > 0 ? A(-log(aw)) : A(0.0);
}

/// What most isotherms share; a file says otherwise where it does.
struct Isotherm {
    static constexpr bool needs_temperature = false;
    static constexpr double pole(Parameters) { return 1; }  ///< the activity below which it holds
    static constexpr bool may_be_negative(std::size_t) { return false; }  ///< the parameter
    static constexpr double low(std::size_t) { return -kInfinity; }       ///< of a parameter in a fit
    static constexpr double high(std::size_t) { return kInfinity; }
};
/// The grain-standard forms: M is moisture in % dry basis and t in °C there, since constants are printed so.
struct GrainIsotherm : Isotherm {
    static constexpr bool needs_temperature = true;
    static constexpr std::string_view source = "ASAE D245.5 (1995)";
    static constexpr Names<3> parameters{"A", "B", "C"};
};

/// The measured points of a fit, t in °C, and starting values out of them: every model is a straight line
/// once its curved parameters are set.
struct IsothermPoints {
    std::vector<double> aw, X, t;

    /// Coefficients of y = Σ c_j column_j by linear least squares over the points: term(i) is {y, column…}.
    std::vector<double> line(const std::function<std::vector<double>(std::size_t)>& term) const;

    double ln_X(std::size_t i) const { return log(X[i]); }
    double ln_M(std::size_t i) const { return log(100 * X[i]); }
    double ln_odds(std::size_t i) const { return log(odds(aw[i])); }
    double ln_dryness(std::size_t i) const { return log(dryness(aw[i])); }
    double ln_wetness(std::size_t i) const { return log(wetness(aw[i])); }
};

}  // namespace drysheet::models
