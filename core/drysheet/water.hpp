// SPDX-License-Identifier: MPL-2.0
// Water by itself: saturation over liquid and ice, boiling, latent heat. The IAPWS equations.
#pragma once

#include "drysheet/quantity.hpp"

namespace drysheet {

/// Vapour pressure at saturation, over liquid water, and over ice below the triple point (0.01 °C).
///   liquid: ln(p/pc) = (Tc/T) (a1 θ + a2 θ^1.5 + a3 θ^3 + a4 θ^3.5 + a5 θ^4 + a6 θ^7.5), θ = 1 - T/Tc
///   ice:    ln(p/pt) = (1/θ) Σ ai θ^bi, θ = T/Tt
/// temp: T, -100 to 373 °C. Errors: OutOfRange(arg::temp).
/// Source: IAPWS SR1-86(1992) Saturation properties of ordinary water substance, eq. 1 (Wagner & Pruss 1993);
/// IAPWS R14-08(2011) Pressure along the melting and sublimation curves, eq. 6.
Pressure saturation_pressure(Temperature temp);

/// Temperature at which water boils, or ice sublimes, under a pressure: saturation_pressure turned round.
/// pressure: p, 1 Pa to 20 MPa. Errors: OutOfRange(arg::pressure). Source: as saturation_pressure.
Temperature boiling_point(Pressure pressure);

/// Latent heat: of evaporation from 0 °C up, of sublimation of ice below 0 °C.
///   L = h'' - h'
/// with h'' from the IAPWS-95 equation expanded to the third power of density at the saturation pressure, h'
/// of the liquid from SR1-86 eq. 6, or h of ice at 101.325 kPa from R10-06. Within 0.15 kJ/kg of IAPWS-95 up
/// to 120 °C, 0.5 kJ/kg up to 150 °C. temp: T, -80 to 150 °C. Errors: OutOfRange(arg::temp). Source: IAPWS
/// R6-95(2018) Formulation 1995; IAPWS SR1-86(1992) eq. 2, 4, 6; IAPWS R10-06(2009) Ice Ih.
SpecificEnergy latent_heat(Temperature temp);

/// The same in plain SI numbers and with slopes, for the formulas of moist air.
namespace detail {

inline constexpr double kTriplePoint = 273.16;           ///< K
inline constexpr double kMolarMassWater = 18.015268e-3;  ///< kg/mol, R6-95

struct Saturation {
    double p;        ///< Pa
    double dlnp_dT;  ///< 1/K
};
Saturation saturation(double T);

struct Condensed {
    double h;  ///< J/kg; 0 for liquid water at the triple point
    double v;  ///< m³/kg
    double c;  ///< dh/dT, J/(kg K)
};
/// Liquid water on the saturation line from the triple point up, ice at 101.325 kPa below it.
/// T: 193.15 to 473.15 K.
Condensed condensed(double T);

/// Vapour as an ideal gas and its virial coefficients, all from R6-95.
double ideal_vapour_enthalpy(double T);  ///< J/mol, on the same zero as Condensed::h
double virial_Bww(double T);             ///< m³/mol
double virial_Cwww(double T);            ///< m⁶/mol²

}  // namespace detail
}  // namespace drysheet
