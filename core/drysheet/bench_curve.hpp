// SPDX-License-Identifier: MPL-2.0
// The drying curve of a bench test, and how it is carried to another bed and to other air.
#pragma once

#include <vector>

#include "drysheet/kinetics.hpp"
#include "drysheet/quantity.hpp"

namespace drysheet {

struct BenchCurve {
    CurveModel model = CurveModel::lewis;
    std::vector<double> parameters;  ///< time in h
};

/// The Lewis curve through start and end of a test, for want of a fitted one. k = ln((X0 − Xe)/(X − Xe))/t
/// start, end, equilibrium: moistures; time: from start to end.
/// Errors: BadInput: time not above 0, end above start or not above the equilibrium.
/// Source: Lewis 1921, J. Ind. Eng. Chem. 13:427.
BenchCurve lewis_through(MoistureWet start, MoistureWet end, MoistureWet equilibrium, Time time);

/// A curve that takes `factor` times as long: MR(factor · t) of it is MR(t) of the curve given.
/// Errors: none; the parameters must be as many as the model has.
BenchCurve stretched(BenchCurve curve, double factor);

/// Factors of drying time, by the bed and by the air.
struct Carry {
    double thickness = 1, air = 1;
    double time() const { return thickness * air; }
};
/// Which resistance rules a drying time: that of the air outside or that of diffusion inside the pieces.
struct Carried {
    Carry likely, outside, inside;
    const Carry& fast() const { return inside.time() < outside.time() ? inside : outside; }
    const Carry& slow() const { return inside.time() < outside.time() ? outside : inside; }
};

/// A time carried to a bed `depth` times as deep and to other air.
///   outside rules: depth · air_outside,  inside rules: depth² · air_inside,
///   likely: share · outside + (1 − share) · inside, the resistances in series
/// air_outside, air_inside: factors of time by the change of the air alone; share: of the outside, 0 to 1.
/// The two are never multiplied: thinner slices in drier air cannot gain by both.
/// Source: inside: Crank 1975, The mathematics of diffusion, 2nd ed, sec. 4.3 (time enters only as D t/L²);
/// outside: a heat balance of the wet surface, Geankoplis 1993, 3rd ed, sec. 9.6.
Carried carried(double depth, double air_outside, double air_inside, double share);

}  // namespace drysheet
