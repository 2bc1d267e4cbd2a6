#include "drysheet/quality.hpp"

#include <algorithm>

#include "drysheet/require.hpp"
#include "drysheet/yield.hpp"

namespace drysheet {

double content_after(double content, MoistureWet start, MoistureWet final, Fraction kept) {
    if (!(content >= 0)) throw BadInput(arg::content, "is below 0");
    return content * drying_ratio(start, final) * kept.value();
}

OsmoticSoak osmotic_soak(Mass mass, MoistureWet moisture, Mass mass_after, MoistureWet moisture_after) {
    require_positive(mass, arg::mass);
    require_positive(mass_after, arg::mass_after);
    const Mass gained =
        unless_rounding(mass_after * (1 - moisture_after.value()) - mass * (1 - moisture.value()),
                        std::max(mass, mass_after));
    OsmoticSoak soak{.water_loss = (mass * moisture.value() - mass_after * moisture_after.value()) / mass,
                     .solids_gain = gained / mass,
                     .weight_reduction = (mass - mass_after) / mass};
    if (soak.solids_gain > 0) soak.ratio = soak.water_loss / soak.solids_gain;
    return soak;
}

}  // namespace drysheet
