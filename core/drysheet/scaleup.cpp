// SPDX-License-Identifier: MPL-2.0
#include "drysheet/scaleup.hpp"

#include <cmath>

#include "drysheet/require.hpp"

namespace drysheet {
namespace {

/// A quotient of typed numbers is a whole number when it is one but for rounding: 0.3 / 0.1 is 3.
double settled(double quotient) {
    const double whole = std::round(quotient);
    return std::abs(quotient - whole) <= 1e-9 * whole ? whole : quotient;
}

}  // namespace

ArealLoad tray_load(Mass mass, Area area) {
    require_positive(area, arg::area);
    return mass / area;
}

double trays_for(Mass mass, ArealLoad load, Area tray_area) {
    require_positive(load, arg::load);
    require_positive(tray_area, arg::tray_area);
    return std::ceil(settled(mass / (load * tray_area)));
}

double batches_for(Mass target, Mass per_batch) {
    require_positive(per_batch, arg::per_batch);
    return std::ceil(settled(target / per_batch));
}

MassFlow daily_output(Mass per_batch, Time drying_time, Time turnaround, Time hours_per_day) {
    const Time day = from_si<Time>(86400);
    require_positive(drying_time, arg::drying_time);
    if (!(to_si(turnaround) >= 0)) throw BadInput(arg::turnaround, "is below 0");
    if (!(hours_per_day <= day)) throw BadInput(arg::hours_per_day, "is more than {}", {amount(day)});
    const Time batch = drying_time + turnaround;
    const double batches = std::floor(settled(hours_per_day / batch));
    if (batches < 1) throw BadInput(arg::hours_per_day, "is shorter than one batch of {}", {amount(batch)});
    return batches * per_batch / day;
}

}  // namespace drysheet
