// The isotherms as moisture over activity, once for numbers and for numbers with derivatives by the activity
// or by the parameters.
#pragma once

#include <cmath>

#include "drysheet/sorption.hpp"

namespace drysheet::detail {

/// GAB in the reduced activity u = K aw; BET is K = 1.
template <class T>
T gab(const T& u, const T& Xm, const T& C) {
    return Xm * C * u / ((1.0 - u) * (1.0 - u + C * u));
}

/// Moisture in kg/kg dry basis; t in °C where the model uses it. p holds the model's parameters.
template <class A, class P>
auto moisture(IsothermModel model, const A& aw, double t, const P& p) {
    using T = decltype(aw * p[0]);
    using std::exp, std::log, std::log1p, std::pow;
    const auto odds = [&] { return T(aw / (1.0 - aw)); };            // aw/(1 − aw)
    const auto dry = [&] { return A(-log1p(-aw)); };                 // −ln(1 − aw)
    const auto wet = [&] { return aw > 0 ? A(-log(aw)) : A(0.0); };  // −ln aw
    switch (model) {
        case IsothermModel::gab:
            return gab<T>(p[2] * aw, p[0], p[1]);
        case IsothermModel::bet:
            return gab<T>(T(aw), p[0], p[1]);
        case IsothermModel::oswin:
            return T(p[0] * pow(odds(), p[1]));
        case IsothermModel::halsey:
            return aw > 0 ? T(pow(T(p[0] / wet()), 1.0 / p[1])) : T(0.0);
        case IsothermModel::henderson:
            return T(pow(T(dry() / p[0]), 1.0 / p[1]));
        case IsothermModel::peleg:
            return T(p[0] * pow(T(aw), p[1]) + p[2] * pow(T(aw), p[3]));
        case IsothermModel::modified_henderson:
            return T(pow(dry() / (p[0] * (t + p[2])), 1.0 / p[1]) / 100.0);
        case IsothermModel::modified_chung_pfost:
            return T(-log((t + p[2]) * wet() / p[0]) / p[1] / 100.0);
        case IsothermModel::modified_halsey:
            return aw > 0 ? T(pow(exp(p[0] + p[1] * t) / wet(), 1.0 / p[2]) / 100.0) : T(0.0);
        case IsothermModel::modified_oswin:
            return T((p[0] + p[1] * t) * pow(odds(), 1.0 / p[2]) / 100.0);
    }
    return T(0.0);
}

}  // namespace drysheet::detail
