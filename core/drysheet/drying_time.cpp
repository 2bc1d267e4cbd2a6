// SPDX-License-Identifier: MPL-2.0
#include <algorithm>
#include <cmath>

#include "drysheet/kinetics.hpp"
#include "drysheet/moisture.hpp"
#include "drysheet/require.hpp"

namespace drysheet {
namespace {

void check_dryer(Mass solids, Area area, MassFlux rate) {
    require_positive(solids, arg::solids);
    require_positive(area, arg::area);
    require_positive(rate, arg::rate);
}
void check_fall(MoistureDry start_db, MoistureDry end_db) {
    if (end_db > start_db) throw BadInput(arg::end_db, "is above the {} at the start", {amount(start_db)});
}

}  // namespace

Time constant_rate_time(Mass solids, MoistureDry start_db, MoistureDry end_db, Area area, MassFlux rate) {
    check_dryer(solids, area, rate);
    check_fall(start_db, end_db);
    return solids * (start_db.value() - end_db.value()) / (area * rate);
}

Time falling_rate_time(Mass solids, MoistureDry start_db, MoistureDry end_db, MoistureDry critical_db,
                       MoistureDry equilibrium_db, Area area, MassFlux rate) {
    check_dryer(solids, area, rate);
    check_fall(start_db, end_db);
    if (!(critical_db > equilibrium_db)) {
        throw BadInput(arg::critical_db, "is not above the equilibrium moisture, {}",
                       {amount(equilibrium_db)});
    }
    if (!(end_db > equilibrium_db)) {
        throw BadInput(arg::end_db, "is not above the equilibrium moisture, {}: it would take for ever",
                       {amount(equilibrium_db)});
    }
    const double Xc = critical_db.value(), Xe = equilibrium_db.value();
    const double X1 = start_db.value(), X2 = end_db.value();
    const double constant = std::max(X1, Xc) - std::max(X2, Xc);
    const double falling = (Xc - Xe) * std::log((std::min(X1, Xc) - Xe) / (std::min(X2, Xc) - Xe));
    return solids * (constant + falling) / (area * rate);
}

Time thickness_time(Time time, Length thickness, Length new_thickness, double exponent) {
    require_positive(time, arg::time);
    require_positive(thickness, arg::thickness);
    require_positive(new_thickness, arg::new_thickness);
    return time * std::pow(new_thickness / thickness, exponent);
}

Time drying_time(MoistureWet start, MoistureWet target, MoistureWet equilibrium, CurveModel model,
                 std::span<const double> parameters) {
    if (target > start) throw BadInput(arg::target, "is above the {} at the start", {amount(start)});
    if (!(target > equilibrium)) {
        throw BadInput(arg::target, "is not above the equilibrium moisture, {}: no time would be enough",
                       {amount(equilibrium)});
    }
    const MoistureRatio ratio = moisture_ratio(dry_basis(target), dry_basis(start), dry_basis(equilibrium));
    try {
        return curve_time(model, ratio, parameters);
    } catch (const NoConvergence&) {
        throw NoConvergence(arg::target, "is not reached on this curve");
    } catch (const BadInput& refused) {
        if (refused.argument() != "ratio") throw;
        throw BadInput(arg::target,
                       "lies above the start of this curve, which does not begin at a ratio of 1");
    }
}

}  // namespace drysheet
