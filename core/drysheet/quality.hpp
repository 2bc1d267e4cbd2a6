// What drying and soaking do to what a food holds.
#pragma once

#include <optional>

#include "drysheet/quantity.hpp"

namespace drysheet {

/// Content per mass after drying, from that before: of a vitamin, sugar, acid ...
///   c1 = c0 (1 - w1)/(1 - w0) s
/// content: c0, in any unit per wet mass, 0 or more. start: w0. final: w1. kept: s, the share that survives.
/// Errors: BadInput(arg::content) below 0; BadInput(arg::final) above start.
/// Source: balance of the substance over the solids balance.
double content_after(double content, MoistureWet start, MoistureWet final, Fraction kept = Fraction(1));

/// What a soak in sugar or salt does to a food, each per initial mass. SIGNED: salt soaks may give water, and
/// leaching takes solids out.
struct OsmoticSoak {
    double water_loss = 0, solids_gain = 0, weight_reduction = 0;
    std::optional<double> ratio;  ///< water lost per solids gained; none where no solids were gained
};

/// Water loss, solids gain and weight reduction of an osmotic soak.
///   WL = (M0 w0 - M w)/M0; SG = (M (1 - w) - M0 (1 - w0))/M0; WR = (M0 - M)/M0 = WL - SG
/// mass: M0, before the soak, above 0. moisture: w0. mass_after: M, drained and blotted, above 0.
/// moisture_after: w. Errors: BadInput(arg::mass), BadInput(arg::mass_after) unless above 0.
/// Source: water and solids balance; Lazarides, Katsanidis & Nickolaidis (1995) J. Food Eng. 25:151-166.
OsmoticSoak osmotic_soak(Mass mass, MoistureWet moisture, Mass mass_after, MoistureWet moisture_after);

}  // namespace drysheet
