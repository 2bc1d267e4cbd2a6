// SPDX-License-Identifier: MPL-2.0
#include "drysheet/moisture.hpp"

namespace drysheet {

MoistureDry dry_basis(MoistureWet moisture) {
    const double w = moisture.value();
    return MoistureDry(w / (1 - w));
}

MoistureWet wet_basis(MoistureDry moisture_db) {
    const double X = moisture_db.value(), w = X / (1 + X);
    if (!(w < 1)) throw OutOfRange(arg::moisture_db, "leaves no dry solids that could be told from none");
    return MoistureWet(w);
}

MoistureWet oven_moisture(Mass dish, Mass dish_wet, Mass dish_dry) {
    if (!(dish_wet > dish))
        throw BadInput(arg::dish_wet, "is not above the empty dish, {}: there is no sample in it",
                       {amount(dish)});
    if (!(dish_dry > dish))
        throw BadInput(arg::dish_dry, "is not above the empty dish, {}: no dry solids are left",
                       {amount(dish)});
    if (!(dish_dry <= dish_wet))
        throw BadInput(arg::dish_dry, "is above the dish with the wet sample, {}", {amount(dish_wet)});
    return MoistureWet((dish_wet - dish_dry) / (dish_wet - dish));
}

Mass solids_mass(Mass mass, MoistureWet moisture) { return mass * (1 - moisture.value()); }

Mass water_mass(Mass mass, MoistureWet moisture) { return mass * moisture.value(); }

MoistureRatio moisture_ratio(MoistureDry moisture_db, MoistureDry start_db, MoistureDry equilibrium_db) {
    const double X = moisture_db.value(), X0 = start_db.value(), Xe = equilibrium_db.value();
    if (!(Xe < X0))
        throw BadInput(arg::equilibrium_db, "is not below the start moisture, {}: there is nothing to remove",
                       {amount(start_db)});
    return MoistureRatio((X - Xe) / (X0 - Xe));
}

}  // namespace drysheet
