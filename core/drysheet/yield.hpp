// SPDX-License-Identifier: MPL-2.0
// Trimming, drying and rehydrating: what a mass of material becomes. Everything rests on one balance,
// dry solids in = dry solids out; so a moisture named `final` or `target` is refused above the one it is
// dried from.
#pragma once

#include <cstddef>
#include <optional>
#include <span>

#include "drysheet/quantity.hpp"

namespace drysheet {

/// Usable share of a whole after peel, stone and core are off.
///   y = (m - sum of losses) / m
/// whole: m, as bought, above 0. losses: each part thrown away.
/// Errors: BadInput(arg::whole) unless above 0; BadInput(arg::loss) when the losses are more than the whole.
/// Source: mass balance.
Fraction trim_yield(Mass whole, std::span<const Mass> losses);

/// Water that drying takes out.
///   W = F (w0 - w1) / (1 - w1)
/// fresh: F, put in the dryer. start: w0, its moisture. final: w1, that of the dried product.
/// Errors: BadInput(arg::final) above start.
/// Source: solids balance F (1 - w0) = D (1 - w1), W = F - D; Geankoplis (1993) ex. 1.5-1.
Mass water_removed(Mass fresh, MoistureWet start, MoistureWet final);

/// Mass of dried product from a fresh mass and two moistures.
///   D = F (1 - w0) / (1 - w1)
/// fresh: F. start: w0. final: w1. Errors: BadInput(arg::final) above start. Source: as water_removed.
Mass dried_mass(Mass fresh, MoistureWet start, MoistureWet final);

/// Prepared fresh mass needed for an amount of dried product.
///   F = D (1 - w1) / (1 - w0)
/// dried: D. start: w0. final: w1. Errors: BadInput(arg::final) above start. Source: as water_removed.
Mass fresh_for(Mass dried, MoistureWet start, MoistureWet final);

/// Drying ratio: fresh mass per dried mass, 1 or more.
///   R = F / D = (1 - w1) / (1 - w0)
/// start: w0. final: w1. Errors: BadInput(arg::final) above start. Source: as water_removed.
double drying_ratio(MoistureWet start, MoistureWet final);

/// Moisture of the dried product from two weights and the start moisture.
///   w1 = 1 - F (1 - w0) / D
/// fresh: F. start: w0. dried: D.
/// Errors: BadInput(arg::dried) when below the dry solids in the fresh mass, or above the fresh mass.
/// Source: as water_removed.
MoistureWet final_moisture(Mass fresh, MoistureWet start, Mass dried);

/// Moisture the fresh material had, from two weights and the moisture of the dried product.
///   w0 = 1 - D (1 - w1) / F
/// fresh: F, above 0. dried: D, above 0. final: w1. Errors: BadInput(arg::dried) above fresh, or not above 0.
/// Source: as water_removed.
MoistureWet start_moisture(Mass fresh, Mass dried, MoistureWet final);

/// The scale reading, tray included, at which to stop drying.
///   M = T + F (1 - w0) / (1 - w1)
/// tare: T, the empty tray. fresh: F, net. start: w0. target: w1. Errors: BadInput(arg::target) above start.
/// Source: as water_removed.
Mass stop_mass(Mass tare, Mass fresh, MoistureWet start, MoistureWet target);

/// Dried mass that a larger batch should give, from a test.
///   D2 = D1 F2 / F1
/// test_fresh: F1, above 0. test_dried: D1. batch_fresh: F2.
/// Errors: BadInput(arg::test_fresh) unless above 0; BadInput(arg::test_dried) above test_fresh.
/// Source: proportion; same material, same end moisture.
Mass prorate(Mass test_fresh, Mass test_dried, Mass batch_fresh);

/// Yield of a chain of stages: the product of theirs.
/// yields: one a stage, one or more. Errors: BadInput(arg::yield) when there is none.
/// Source: mass balance.
Fraction chain_yield(std::span<const Fraction> yields);

/// Yield of one step from what goes in and what comes out of it.
///   y = out / (in - samples)
/// in: mass that goes in, above 0. out: mass that comes out, above 0. kept: samples taken, left out of
/// account as in stages; none means none. Errors: BadInput(arg::in), BadInput(arg::out) unless above 0;
/// BadInput(arg::kept) when the samples are all of it; BadInput(arg::out) above what is left to come out.
/// Source: mass balance.
Fraction step_yield(Mass in, Mass out, std::optional<std::span<const Mass>> kept = {});

/// Raw purchase for an amount of dried product.
///   raw = D R / (y1 y2 ...)
/// dried: D. drying_ratio: R, fresh per dried, 1 or more. yields: of every stage before or after the dryer;
/// none means no loss. Errors: BadInput(arg::drying_ratio) below 1; BadInput(arg::yield) of 0. Source: mass
/// balance.
Mass raw_for(Mass dried, double drying_ratio, std::span<const Fraction> yields);

/// Dried product that a raw purchase gives: raw_for the other way.
///   dried = raw y1 y2 ... / R
/// raw. drying_ratio: R, fresh per dried, 1 or more. yields, errors, source: as raw_for.
Mass dried_from(Mass raw, double drying_ratio, std::span<const Fraction> yields);

/// A difference of masses, exactly 0 where it is no more than the rounding of the numbers it comes from: 100
/// g − 60 g − 40 g, or 30 g − 100 g (1 − 0.7), are no binary fractions of a kilogram. largest: of the masses.
/// terms: how many they are.
Mass unless_rounding(Mass difference, Mass largest, std::size_t terms = 2);

/// What stuck, spilled or blew away. SIGNED: below 0 when more came out than went in, which is a finding (a
/// tare forgotten, water taken up), not a mistake in the call.
///   gap = in - sum of outs, by unless_rounding
/// in: the mass that went in. outs: each mass that came out. Source: mass balance.
Mass unaccounted(Mass in, std::span<const Mass> outs);

/// Moisture of a blend.
///   w = sum m w / sum m
/// masses and moistures: one each a part.
/// Errors: BadInput(arg::moistures) unless as many as masses; BadInput(arg::masses) when there is none or
/// they sum to 0. Source: water balance.
MoistureWet blend_moisture(std::span<const Mass> masses, std::span<const MoistureWet> moistures);

/// Share of a, in a blend of a and b, that gives a moisture (the Pearson square).
///   s = (w - wb) / (wa - wb)
/// moisture_a: wa. moisture_b: wb. target: w.
/// Errors: BadInput(arg::moisture_b) equal to moisture_a; BadInput(arg::target) not between the two.
/// Source: water balance; Earle, Unit Operations in Food Processing, 2nd ed. (1983), ex. 2.7.
Fraction blend_share(MoistureWet moisture_a, MoistureWet moisture_b, MoistureWet target);

/// Rehydration ratio: mass after soaking and draining over mass dried.
/// dried, above 0. rehydrated. Errors: BadInput(arg::dried) unless above 0; BadInput(arg::rehydrated) below
/// dried. Source: definition; Lewicki (1998) Some remarks on rehydration of dried foods, J. Food Eng.
/// 36:81-87.
double rehydration(Mass dried, Mass rehydrated);

/// Water to add to a dried product to bring it to a moisture.
///   W = D (w - w1) / (1 - w)
/// dried: D. moisture: w1, that it has. target: w. Errors: BadInput(arg::target) below moisture.
/// Source: solids balance.
Mass rehydration_water(Mass dried, MoistureWet moisture, MoistureWet target);

}  // namespace drysheet
