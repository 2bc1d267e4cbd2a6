// SPDX-License-Identifier: MPL-2.0
// All curves, and the one among them that a name means. Not for users of the core.
#pragma once

#include <stdexcept>

#include "drysheet/kinetics.hpp"
#include "drysheet/models/curves/henderson_pabis.hpp"
#include "drysheet/models/curves/lewis.hpp"
#include "drysheet/models/curves/logarithmic.hpp"
#include "drysheet/models/curves/midilli.hpp"
#include "drysheet/models/curves/page.hpp"
#include "drysheet/models/curves/two_term.hpp"
#include "drysheet/models/curves/verma.hpp"
#include "drysheet/models/curves/weibull.hpp"

namespace drysheet::models {

/// Calls `f` with a value of the curve's struct.
auto with_curve(CurveModel model, const auto& f) {
    switch (model) {
#define DRYSHEET_CURVE(name, Curve) \
    case CurveModel::name:          \
        return f(Curve());
        DRYSHEET_CURVES(DRYSHEET_CURVE)
#undef DRYSHEET_CURVE
    }
    throw std::logic_error("curve model");
}

}  // namespace drysheet::models
