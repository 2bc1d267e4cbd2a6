// SPDX-License-Identifier: MPL-2.0
#include "drysheet/bench_curve.hpp"

#include <cmath>
#include <utility>

#include "drysheet/moisture.hpp"
#include "drysheet/require.hpp"
#include "drysheet/runs.hpp"

namespace drysheet {

BenchCurve lewis_through(MoistureWet start, MoistureWet end, MoistureWet equilibrium, Time time) {
    require_positive(time, arg::time);
    const Time unit = drying_time(start, end, equilibrium, CurveModel::lewis, std::vector{1.0});
    return {.model = CurveModel::lewis, .parameters = {hours(unit) / hours(time)}};
}

BenchCurve stretched(BenchCurve curve, double factor) {
    std::vector<double>& p = curve.parameters;
    switch (curve.model) {
        case CurveModel::lewis:
            p[0] /= factor;
            break;
        case CurveModel::page:
            p[0] /= std::pow(factor, p[1]);
            break;
        case CurveModel::henderson_pabis:
        case CurveModel::logarithmic:
            p[1] /= factor;
            break;
        case CurveModel::two_term:
            p[1] /= factor;
            p[3] /= factor;
            break;
        case CurveModel::midilli:
            p[1] /= std::pow(factor, p[2]);
            p[3] /= factor;
            break;
        case CurveModel::weibull:
            p[0] *= factor;
            break;
        case CurveModel::verma:
            p[1] /= factor;
            p[2] /= factor;
            break;
    }
    return curve;
}

Carried carried(double depth, double air_outside, double air_inside, double share) {
    Carried all{.outside = {.thickness = depth, .air = air_outside},
                .inside = {.thickness = depth * depth, .air = air_inside}};
    all.likely.thickness = share * all.outside.thickness + (1 - share) * all.inside.thickness;
    const double time = share * all.outside.time() + (1 - share) * all.inside.time();
    all.likely.air = time / all.likely.thickness;
    return all;
}

}  // namespace drysheet
