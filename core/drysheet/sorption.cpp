// SPDX-License-Identifier: MPL-2.0
#include "drysheet/sorption.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "drysheet/models/isotherms.hpp"
#include "drysheet/runs.hpp"

namespace drysheet {
namespace {

template <class Isotherm>
constexpr IsothermModelInfo described() {
    return {Isotherm::name,       Isotherm::formula,           Isotherm::moisture, Isotherm::activity,
            Isotherm::parameters, Isotherm::needs_temperature, Isotherm::source};
}
#define DRYSHEET_ISOTHERM(name, Isotherm) described<models::Isotherm>(),
constexpr auto kModels = std::to_array({DRYSHEET_ISOTHERMS(DRYSHEET_ISOTHERM)});
#undef DRYSHEET_ISOTHERM

void must_be_positive(double p) {
    if (!(p > 0))
        throw BadInput(arg::parameters, "holds {}, where this model needs a number above 0", {amount(p)});
}

/// Parameters that passed the model's own conditions, and the temperature in °C where the model uses one.
struct Checked {
    std::span<const double> p;
    double t = 0;
};

Checked checked(IsothermModel model, std::span<const double> p, std::optional<Temperature> temp) {
    const IsothermModelInfo& about = info(model);
    if (p.size() != about.parameters.size())
        throw BadInput(arg::parameters, "must be as many numbers as this model has, {}",
                       {count(about.parameters.size())});
    for (const double value : p)
        if (!std::isfinite(value))
            throw BadInput(arg::parameters, "holds {}, which is no number", {amount(value)});
    Checked c{p};
    if (about.needs_temperature) {
        if (!temp) throw BadInput(arg::temp, "is missing: this model depends on temperature");
        c.t = to_si(*temp) - 273.15;
    }
    models::with_isotherm(model, [&](auto isotherm) {
        for (std::size_t k = 0; k < p.size(); ++k)
            if (!isotherm.may_be_negative(k)) must_be_positive(p[k]);
        if constexpr (requires { isotherm.must_be_positive; })
            if (const double x = isotherm.positive(c.t, p); !(x > 0))
                throw OutOfRange(arg::temp, isotherm.must_be_positive, {amount(x)});
    });
    return c;
}

double moisture(IsothermModel model, double aw, const Checked& c) {
    return models::moisture(model, aw, c.t, c.p);
}
double activity_of(IsothermModel model, double X, const Checked& c) {
    return models::with_isotherm(model, [&](auto isotherm) { return isotherm.activity_at(X, c.t, c.p); });
}

}  // namespace

std::span<const IsothermModelInfo> isotherm_models() { return kModels; }
const IsothermModelInfo& info(IsothermModel model) { return kModels.at(static_cast<std::size_t>(model)); }

MoistureDry equilibrium_moisture(IsothermModel model, WaterActivity activity,
                                 std::span<const double> parameters, std::optional<Temperature> temp) {
    const Checked c = checked(model, parameters, temp);
    const double aw = activity.value();
    const double pole = models::with_isotherm(model, [&](auto isotherm) { return isotherm.pole(c.p); });
    if (aw >= pole)
        throw OutOfRange(arg::activity,
                         "is at or past {}, where this model with these parameters has its pole",
                         {amount(pole)});
    const double X = moisture(model, aw, c);
    if (!(X >= 0))  // only Chung–Pfost, which is below 0 near aw = 0
        throw OutOfRange(arg::activity, "is below {}, where this model gives a moisture of 0",
                         {amount(activity_of(model, 0, c))});
    if (!std::isfinite(X)) throw OutOfRange(arg::activity, "gives no finite moisture with these parameters");
    return MoistureDry(X);
}

WaterActivity water_activity(IsothermModel model, MoistureDry moisture_db, std::span<const double> parameters,
                             std::optional<Temperature> temp) {
    const Checked c = checked(model, parameters, temp);
    const double aw = activity_of(model, moisture_db.value(), c);
    if (!(aw <= 1))
        throw OutOfRange(arg::moisture_db,
                         "is above {}, the moisture of this isotherm at a water activity of 1",
                         {amount(MoistureDry(moisture(model, 1, c)))});
    return WaterActivity(aw);
}

SpecificEnergy isosteric_heat(WaterActivity activity1, Temperature temp1, WaterActivity activity2,
                              Temperature temp2) {
    constexpr double R = kMolarGasConstant, M = 18.015268e-3;  // kg/mol, IAPWS
    if (activity1.value() == 0) throw BadInput(arg::activity1, "must be above 0");
    if (activity2.value() == 0) throw BadInput(arg::activity2, "must be above 0");
    const double T1 = to_si(temp1), T2 = to_si(temp2);
    if (T1 == T2) throw BadInput(arg::temp2, "equals temp1: two different temperatures are needed");
    return from_si<SpecificEnergy>(R / M * std::log(activity2.value() / activity1.value()) /
                                   (1 / T1 - 1 / T2));
}

namespace {
constexpr GrowthBandInfo kBands[] = {
    {0.00, GrowthBand::none},
    {0.60, GrowthBand::osmophilic_yeasts},
    {0.65, GrowthBand::xerophilic_moulds},
    {0.75, GrowthBand::halophilic_bacteria},
    {0.80, GrowthBand::most_moulds},
    {0.87, GrowthBand::many_yeasts},
    {0.91, GrowthBand::many_bacteria},
    {0.95, GrowthBand::spoilage_bacteria},
};
}

std::span<const GrowthBandInfo> growth_bands() { return kBands; }

ActivityBand activity_band(WaterActivity activity) {
    const auto next = std::ranges::upper_bound(kBands, activity.value(), {}, &GrowthBandInfo::low);
    return {std::prev(next)->band, activity.value() > 0.85, activity.value() <= 0.25};
}

}  // namespace drysheet
