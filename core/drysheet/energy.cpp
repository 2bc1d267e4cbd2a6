// SPDX-License-Identifier: MPL-2.0
#include "drysheet/energy.hpp"

#include <cmath>

#include "drysheet/require.hpp"
#include "drysheet/water.hpp"

namespace drysheet {

HeatCapacity specific_heat(MoistureWet moisture) {
    return from_si<HeatCapacity>(1000 * (0.837 + 3.349 * moisture.value()));
}

HeatCapacity food_heat(Fraction water, Fraction protein, Fraction fat, Fraction carbohydrate, Fraction fibre,
                       Fraction ash, Temperature temp) {
    const struct {
        double x, a, b, c;
    } parts[] = {
        {water.value(), 4.1762, -9.0864e-5, 5.4731e-6}, {protein.value(), 2.0082, 1.2089e-3, -1.3129e-6},
        {fat.value(), 1.9842, 1.4733e-3, -4.8008e-6},   {carbohydrate.value(), 1.5488, 1.9625e-3, -5.9399e-6},
        {fibre.value(), 1.8459, 1.8306e-3, -4.6509e-6}, {ash.value(), 1.0926, 1.8896e-3, -3.6817e-6}};
    const double t = to_si(temp) - 273.15;
    if (!(t >= 0 && t <= 150))
        throw OutOfRange(arg::temp, "is outside {} to {}",
                         {amount(from_si<Temperature>(273.15)), amount(from_si<Temperature>(423.15))});
    double sum = 0, cp = 0;
    for (const auto& part : parts) {
        sum += part.x;
        cp += part.x * (part.a + part.b * t + part.c * t * t);
    }
    if (!(std::abs(sum - 1) <= 0.005 + 1e-12))
        throw BadInput(arg::water, "and the other fractions sum to {}, not to 1", {amount(sum)});
    return from_si<HeatCapacity>(1000 * cp);
}

Energy heat_demand(Mass fresh, MoistureWet start, MoistureWet final, Temperature feed_temp,
                   Temperature dryer_temp) {
    const Temperature freezing = from_si<Temperature>(273.15);
    if (final > start) throw BadInput(arg::final, "is above the start moisture {}", {amount(start)});
    if (feed_temp < freezing) throw OutOfRange(arg::feed_temp, "is below {}", {amount(freezing)});
    const Temperature hottest = from_si<Temperature>(423.15);  // where latent_heat ends
    if (dryer_temp > hottest) throw OutOfRange(arg::dryer_temp, "is above {}", {amount(hottest)});
    const TemperatureDifference rise = dryer_temp - feed_temp;
    if (to_si(rise) < 0)
        throw BadInput(arg::dryer_temp, "is below the feed temperature {}", {amount(feed_temp)});
    const Mass water = fresh * ((start.value() - final.value()) / (1 - final.value()));
    return fresh * specific_heat(start) * rise + water * latent_heat(dryer_temp);
}

Fraction dryer_efficiency(Mass water, Energy energy, Temperature temp) {
    const Energy latent = water * latent_heat(temp);
    require_positive(energy, arg::energy);
    if (!(energy >= latent))
        throw BadInput(arg::energy,
                       "is below the latent heat {} of that water: more heat came from elsewhere",
                       {amount(latent)});
    return Fraction(latent / energy);
}

SpecificEnergy energy_per_water(Energy energy, Mass water) {
    require_positive(water, arg::water);
    return energy / water;
}

Energy run_energy(Power power, Time time, Fraction duty) { return power * time * duty.value(); }

MoneyPerMass unit_cost(Mass dried, Money raw_cost, Energy energy, MoneyPerEnergy tariff, Time hours,
                       MoneyPerTime wage, Money other) {
    require_positive(dried, arg::dried);
    return (raw_cost + energy * tariff + hours * wage + other) / dried;
}

}  // namespace drysheet
