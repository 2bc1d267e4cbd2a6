// SPDX-License-Identifier: MPL-2.0
// Compiled once per CASE by ctest. CASE 0 must compile, every other must not.
#include "drysheet/quantity.hpp"

using namespace drysheet;

double mix(Temperature t, TemperatureDifference dt, Mass m, MoistureWet w, RelativeHumidity rh) {
#if CASE == 0
    const Temperature later = t + dt;
    const TemperatureDifference between = later - t;
    return between.value() + m.value() + w.value() + rh.value();
#elif CASE == 1
    const TemperatureDifference wrong = t;
    return wrong.value();
#elif CASE == 2
    const Temperature wrong(dt);
    return wrong.value();
#elif CASE == 3
    return (t + t).value();
#elif CASE == 4
    const MoistureDry wrong = w;
    return wrong.value();
#elif CASE == 5
    const WaterActivity wrong = rh;
    return wrong.value();
#elif CASE == 6
    const Fraction wrong = m;
    return wrong.value();
#elif CASE == 7
    return (m + 1.0).value();
#endif
}
