// SPDX-License-Identifier: MPL-2.0
#include <array>
#include <cmath>

#include "drysheet/models/curves.hpp"
#include "drysheet/runs.hpp"

namespace drysheet {
namespace {

template <class Curve>
constexpr CurveModelInfo described() {
    return {Curve::name, Curve::ratio, Curve::time, Curve::parameters, Curve::source};
}
#define DRYSHEET_CURVE(name, Curve) described<models::Curve>(),
constexpr auto kModels = std::to_array({DRYSHEET_CURVES(DRYSHEET_CURVE)});
#undef DRYSHEET_CURVE

void check_parameters(CurveModel model, std::span<const double> parameters) {
    const auto names = info(model).parameters;
    if (parameters.size() != names.size()) {
        throw BadInput(arg::parameters, "must be as many numbers as this model has, {}",
                       {count(names.size())});
    }
    for (std::size_t i = 0; i < names.size(); ++i) {
        if (!std::isfinite(parameters[i]))
            throw BadInput(arg::parameters, "holds something that is no number");
        if (models::positive_by_nature(names[i]) && !(parameters[i] > 0)) {
            throw BadInput(arg::parameters,
                           "holds {} where a rate constant, exponent or time scale above 0 is wanted",
                           {amount(parameters[i])});
        }
    }
}

double value_at(CurveModel model, double t, std::span<const double> parameters) {
    return models::with_curve(model, [&](auto curve) { return curve.at(models::Instant(t), parameters); });
}

}  // namespace

std::span<const CurveModelInfo> curve_models() { return kModels; }
const CurveModelInfo& info(CurveModel model) { return kModels.at(static_cast<std::size_t>(model)); }

MoistureRatio curve(CurveModel model, Time time, std::span<const double> parameters) {
    check_parameters(model, parameters);
    if (!(time.value() >= 0)) throw BadInput(arg::time, "is before the start of the curve");
    const double ratio = value_at(model, hours(time), parameters);
    if (!std::isfinite(ratio)) throw BadInput(arg::parameters, "give no finite ratio");
    return MoistureRatio(ratio);
}

Time curve_time(CurveModel model, MoistureRatio ratio, std::span<const double> parameters) {
    check_parameters(model, parameters);
    const double start = value_at(model, 0, parameters);
    if (ratio.value() > start)
        throw BadInput(arg::ratio, "is above {}, where the curve starts", {amount(start)});
    const auto t =
        models::with_curve(model, [&](auto curve) { return curve.time_at(ratio.value(), parameters); });
    if (!t || !std::isfinite(*t)) throw NoConvergence(arg::ratio, "is never reached on this curve");
    return from_hours(*t);
}

}  // namespace drysheet
