// SPDX-License-Identifier: MPL-2.0
// All isotherms, and the one among them that a name means. Not for users of the core.
#pragma once

#include <stdexcept>

#include "drysheet/models/isotherms/bet.hpp"
#include "drysheet/models/isotherms/gab.hpp"
#include "drysheet/models/isotherms/halsey.hpp"
#include "drysheet/models/isotherms/henderson.hpp"
#include "drysheet/models/isotherms/modified_chung_pfost.hpp"
#include "drysheet/models/isotherms/modified_halsey.hpp"
#include "drysheet/models/isotherms/modified_henderson.hpp"
#include "drysheet/models/isotherms/modified_oswin.hpp"
#include "drysheet/models/isotherms/oswin.hpp"
#include "drysheet/models/isotherms/peleg.hpp"
#include "drysheet/sorption.hpp"

namespace drysheet::models {

/// Calls `f` with a value of the isotherm's struct.
auto with_isotherm(IsothermModel model, const auto& f) {
    switch (model) {
#define DRYSHEET_ISOTHERM(name, Isotherm) \
    case IsothermModel::name:             \
        return f(Isotherm());
        DRYSHEET_ISOTHERMS(DRYSHEET_ISOTHERM)
#undef DRYSHEET_ISOTHERM
    }
    throw std::logic_error("isotherm model");
}

/// Moisture in kg/kg dry basis, for numbers and for numbers with derivatives by the activity or by the
/// parameters p; t in °C where the model uses it.
template <class A, class P>
auto moisture(IsothermModel model, const A& aw, double t, const P& p) {
    using T = decltype(aw * p[0]);
    return with_isotherm(model, [&](auto isotherm) { return isotherm.template at<T>(aw, t, p); });
}

}  // namespace drysheet::models
