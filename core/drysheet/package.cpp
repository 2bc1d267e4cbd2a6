// SPDX-License-Identifier: MPL-2.0
#include "drysheet/package.hpp"

#include <cmath>

#include "drysheet/models/isotherms.hpp"
#include "drysheet/numeric/dual.hpp"
#include "drysheet/numeric/quadrature.hpp"
#include "drysheet/require.hpp"
#include "drysheet/water.hpp"

namespace drysheet {
namespace {

WaterActivity activity_at(MoistureDry limit_db, IsothermModel model, std::span<const double> parameters,
                          Temperature temp) {
    try {
        return water_activity(model, limit_db, parameters, temp);
    } catch (const OutOfRange& refused) {
        if (refused.argument() != "moisture_db") throw;
        throw OutOfRange(arg::limit_db, "is above the moisture of this isotherm at a water activity of 1");
    }
}

/// What a film of permeance 1 must have passed, vapour pressure × time × area, for the food to reach its
/// limit: ms / ps ∫ dX / (rh − aw(X)).
auto uptake_over_driving_force(Mass solids, MoistureDry start_db, MoistureDry limit_db, IsothermModel model,
                               std::span<const double> parameters, Temperature temp, RelativeHumidity rh) {
    const double X0 = start_db.value(), Xc = limit_db.value(), outside = rh.value();
    if (!(Xc > X0)) throw BadInput(arg::limit_db, "is not above start_db ({})", {amount(start_db)});
    const auto aw = [&](double X) { return water_activity(model, MoistureDry(X), parameters, temp).value(); };
    const WaterActivity at_limit = activity_at(limit_db, model, parameters, temp);
    if (!(at_limit.value() < outside))
        throw BadInput(arg::limit_db,
                       "is never reached: its water activity {} is not below the store's humidity {}",
                       {amount(at_limit), amount(rh)});
    // With u = −ln(rh − aw) it is ∫ (dX/daw) du, without a pole and without the inverse of the isotherm; in
    // very dry food, where aw says too little of the moisture, it is taken along the moisture.
    constexpr double kDry = 0.02;
    const double t = to_si(temp) - 273.15, a0 = aw(X0), ac = at_limit.value();
    double integral = 0;
    if (a0 < kDry) {
        const double Xm = ac > kDry ? models::moisture(model, kDry, t, parameters) : Xc;
        integral = numeric::integrate([&](double X) { return 1 / (outside - aw(X)); }, X0, Xm);
    }
    if (ac > kDry) {
        const auto slope = [&](double u) {
            const auto activity = numeric::Dual<1>::parameter(outside - std::exp(-u), 0);
            return models::moisture(model, activity, t, parameters).slope[0];
        };
        const double um = -std::log(outside - std::fmax(a0, kDry)), uc = -std::log(outside - ac);
        const auto smooth = numeric::integrate_smooth(slope, um, uc);
        integral += smooth ? *smooth : numeric::integrate(slope, um, uc);
    }
    return solids * integral / saturation_pressure(temp);
}

}  // namespace

Permeance film_permeance(MassFlux wvtr, Temperature temp, RelativeHumidity rh) {
    require_positive(rh, arg::rh);
    return wvtr / (rh.value() * saturation_pressure(temp));
}

Time shelf_time(Mass solids, MoistureDry start_db, MoistureDry limit_db, IsothermModel model,
                std::span<const double> parameters, Area area, Permeance permeance, Temperature temp,
                RelativeHumidity rh) {
    require_positive(area, arg::area);
    require_positive(permeance, arg::permeance);
    return uptake_over_driving_force(solids, start_db, limit_db, model, parameters, temp, rh) /
           (permeance * area);
}

Permeance barrier_for(Time days, Mass solids, MoistureDry start_db, MoistureDry limit_db, IsothermModel model,
                      std::span<const double> parameters, Area area, Temperature temp, RelativeHumidity rh) {
    require_positive(days, arg::days);
    require_positive(area, arg::area);
    return uptake_over_driving_force(solids, start_db, limit_db, model, parameters, temp, rh) / (days * area);
}

Mass desiccant_mass(Time days, Area area, Permeance permeance, Temperature temp, RelativeHumidity rh_out,
                    RelativeHumidity rh_in, MoistureDry capacity) {
    require_positive(capacity, arg::capacity);
    if (!(rh_in < rh_out)) throw BadInput(arg::rh_in, "is not below rh_out ({})", {amount(rh_out)});
    const Pressure difference = saturation_pressure(temp) * (rh_out.value() - rh_in.value());
    return permeance * area * difference * days / capacity.value();
}

}  // namespace drysheet
