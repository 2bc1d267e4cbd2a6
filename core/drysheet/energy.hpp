// SPDX-License-Identifier: MPL-2.0
// Heat and money that drying takes.
#pragma once

#include "drysheet/quantity.hpp"

namespace drysheet {

/// Specific heat of a moist food above freezing from its moisture alone. cp = 0.837 + 3.349 w, kJ/(kg K)
/// moisture: wet basis.
/// Range: fruit, vegetables, meat and fish above freezing. For a dried product it is far too low (1.31
/// against a tabulated 1.84 for peas at 14 % moisture): use food_heat.
/// Errors: none.
/// Source: Siebel (1892) Ice and Refrigeration 2:256, in SI.
HeatCapacity specific_heat(MoistureWet moisture);

/// Specific heat of a food from its composition and temperature. cp = Σ xi (ai + bi t + ci t²)
/// water … ash: mass fractions that sum to 1 within 0.005 (composition tables are rounded); temp: of the
/// food. Of the two coefficients of water in print, 4.1762 agrees with the steam tables within 0.3 % from
/// 0 to 100 °C; 4.1289, in the handbooks of ASHRAE, is 1 % below, and not taken.
/// Range: 0 to 150 °C, no ice.
/// Throws BadInput: the sum; OutOfRange: temp.
/// Source: Choi & Okos (1986) in Food Engineering and Process Applications, vol. 1.
HeatCapacity food_heat(Fraction water, Fraction protein, Fraction fat, Fraction carbohydrate, Fraction fibre,
                       Fraction ash, Temperature temp);

/// Least heat that dries a batch: warm all of the feed to the dryer's temperature, evaporate the water
/// there.
/// Q = m cp(start) (dryer_temp − feed_temp) + water · λ(dryer_temp)
/// fresh: mass of feed; start, final: moistures; feed_temp, dryer_temp: of the feed and of the product in
/// the dryer.
/// Range: feed from 0 °C, dryer_temp not below feed_temp and up to 150 °C.
/// Throws BadInput: final above start, dryer_temp below feed_temp; OutOfRange: feed below 0 °C, dryer_temp
/// above 150 °C.
/// Source: Earle & Earle (1983) Unit Operations in Food Processing, ch. 7, with Siebel and IAPWS.
Energy heat_demand(Mass fresh, MoistureWet start, MoistureWet final, Temperature feed_temp,
                   Temperature dryer_temp);

/// Share of the energy used that evaporated water. water · λ(temp) / energy
/// water: evaporated; energy: used by heater and fan; temp: at which it evaporated.
/// Range: up to 1.
/// Throws BadInput: energy below the latent heat of the water.
/// Source: Earle & Earle (1983), ch. 7 (thermal efficiency).
Fraction dryer_efficiency(Mass water, Energy energy, Temperature temp);

/// Energy used per water evaporated. energy / water
/// Throws BadInput: water of 0. Source: definition.
SpecificEnergy energy_per_water(Energy energy, Mass water);

/// Energy of a run. power · time · duty
/// power: rated; duty: share of the time the heater is on. Errors: none. Source: definition.
Energy run_energy(Power power, Time time, Fraction duty = Fraction(1));

/// Cost per dried mass. (raw_cost + energy · tariff + hours · wage + other) / dried
/// Throws BadInput: dried of 0. Source: definition.
MoneyPerMass unit_cost(Mass dried, Money raw_cost, Energy energy, MoneyPerEnergy tariff, Time hours,
                       MoneyPerTime wage, Money other = {});

}  // namespace drysheet
