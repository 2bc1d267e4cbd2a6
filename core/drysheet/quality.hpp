// SPDX-License-Identifier: MPL-2.0
// What drying and soaking do to what a food holds.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "drysheet/quantity.hpp"

namespace drysheet {

/// Content per mass after drying, from that before: of a vitamin, sugar, acid ...
///   c1 = c0 (1 - w1)/(1 - w0) s
/// content: c0, in any unit per wet mass, 0 or more. start: w0. final: w1. kept: s, the share that survives.
/// Errors: BadInput(arg::content) below 0; BadInput(arg::final) above start.
/// Source: balance of the substance over the solids balance.
double content_after(double content, MoistureWet start, MoistureWet final, Fraction kept = Fraction(1));

/// What is left of a quality after a temperature history, its losses following Arrhenius; straight lines
/// between the points of the history.
///   k(T) = k0 exp(E/R (1/T0 - 1/T)); order 1: q = exp(-S), order 0: q = 1 - S, none below 0; S the integral
///   of k dt
/// times, temps: the history, times rising, two or more. rate: k0, of loss at rate_temp: per time, in order 0
/// the share of the initial. rate_temp: T0. energy: E, of activation, 0 or more. order: 1 or 0. Errors:
/// BadInput(arg::temps) unless as many as times; BadInput(arg::times) below two, or not rising;
/// BadInput(arg::rate) unless above 0; BadInput(arg::energy) below 0; BadInput(arg::order) of another order.
/// Source: Labuza (1984) J. Chem. Educ. 61:348-358; Arrhenius (1889).
Fraction quality_left(std::span<const Time> times, std::span<const Temperature> temps, DryingRate rate,
                      Temperature rate_temp, MolarEnergy energy, double order = 1);

/// S of quality_left, section by section of the history. Errors and source: as quality_left.
std::vector<double> quality_losses(std::span<const Time> times, std::span<const Temperature> temps,
                                   DryingRate rate, Temperature rate_temp, MolarEnergy energy);

/// Time until a share of a quality is left, at one temperature: the inverse of quality_left.
///   order 1: t = -ln q / k; order 0: t = (1 - q)/k
/// left: q, above 0. temp: of the store. The rest, errors and source as quality_left; BadInput(arg::left) of
/// 0.
Time quality_time(Fraction left, Temperature temp, DryingRate rate, Temperature rate_temp, MolarEnergy energy,
                  double order = 1);

/// Colour difference of two colours in CIELAB, CIEDE2000 with all parametric factors 1.
/// L1, a1, b1, L2, a2, b2: the colours. Errors: none.
/// Source: CIE 142-2001; Sharma, Wu & Dalal (2005) Color Res. Appl. 30:21-30, whose symbols these are.
double colour_difference(double L1, double a1, double b1, double L2, double a2, double b2);

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
