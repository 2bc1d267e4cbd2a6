// SPDX-License-Identifier: MPL-2.0
// The gas phase of moist air as a real mixture: second and third virial coefficients, in plain SI numbers per
// mole. Inner part of the topic air; the functions for use are in air.hpp.
#pragma once

#include "drysheet/numeric/hermite.hpp"
#include "drysheet/water.hpp"

namespace drysheet::detail {

inline constexpr double kMolarMassAir = 28.96546e-3;           ///< kg/mol, IAPWS G8-10
inline constexpr double kGasConstant = 8.314472;               ///< J/(mol K), IAPWS G8-10
inline constexpr double kColdest = 193.15, kHottest = 473.15;  ///< K, range of the virial equations
inline constexpr double kThinnest = 30e3, kDensest = 120e3;    ///< Pa, for which agreement was tested

/// Moist air at one temperature; x is the mole fraction of water vapour, p the pressure in Pa.
/// Expanded in powers of pressure:
///   v = R T/p + B + D p,  h = h°(T, x) + p (B - T B') + p² (D - T D')/2,  D = (C - B²)/(R T)
///   B = y² Baa + 2 x y Baw + x² Bww,  C = y³ Caaa + 3 x y² Caaw + 3 x² y Caww + x³ Cwww,  y = 1 - x
/// Sources: h°, Baa, Caaa of air: Lemmon, Jacobsen, Penoncello & Friend (2000) J. Phys. Chem. Ref. Data
/// 29:331; h°, Bww, Cwww of water: IAPWS R6-95(2018); Baw: Harvey & Huang (2007) Int. J. Thermophys. 28:556;
/// Caaw, Caww: Hyland & Wexler (1983) ASHRAE Trans. 89(2A):500; all as put together in IAPWS G8-10 (2010).
class MoistGas {
  public:
    explicit MoistGas(double T);

    double volume(double p, double x) const;  ///< m³/mol

    struct Enthalpy {
        double h;           ///< J/mol
        double by_T, by_x;  ///< its slopes, without what is below 1e-4 of them: good for Newton's steps
    };
    Enthalpy enthalpy(double p, double x) const;

    /// Air in equilibrium with water or ice under the same pressure, at equal fugacity:
    ///   x φ(p, x) p = ps φ(ps, 1) exp(v' (p - ps)/(R T))
    /// with the fugacity coefficient φ of IAPWS G9-12 eq. 2 to 4 (its beta and gamma).
    /// x is 1 or above from the boiling point up, and no state of air then.
    struct Saturated {
        double x, by_T;  ///< mole fraction and its slope in T along saturation
    };
    Saturated saturated(double p, const Saturation& pure) const;
    Saturated saturated(double p) const { return saturated(p, saturation(T_)); }

  private:
    enum Column { Baa, Baw, Bww, Caaa, Caaw, Caww, Cwww, ha, hw, columns };
    using Table = HermiteTable<columns>;
    static Table::Values published(double T);
    static const Table& table();

    double T_;
    Table::Place at_;
};

}  // namespace drysheet::detail
