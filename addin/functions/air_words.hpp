// SPDX-License-Identifier: MPL-2.0
// What the entries of moist air share.
#pragma once

#include "addin/functions/function.hpp"

namespace drysheet {

inline constexpr std::string_view kAirSource =
    "Real mixture of air and water vapour with second and third virial coefficients, as IAPWS G8-10 (2010): "
    "dry air Lemmon et al. (2000) J. Phys. Chem. Ref. Data 29:331, water IAPWS R6-95(2018), air with water "
    "Harvey & Huang (2007) Int. J. Thermophys. 28:556 and Hyland & Wexler (1983) ASHRAE Trans. 89(2A):500; "
    "saturation IAPWS SR1-86(1992) over water and R14-08(2011) over ice, with the fugacity of G9-12 (2012).";
inline constexpr std::string_view kAirRange =
    "30 to 120 kPa, from -80 °C to the boiling point at that pressure; agrees with the IAPWS formulation "
    "within 0.02 % and 0.002 K; near boiling, where the humidity ratio is above 2 kg/kg, within 0.01 % times "
    "that "
    "ratio. Relative humidity is x / x_s, over ice below 0.01 °C.";

inline constexpr double kUsualPressureKPa = kStandardPressure.value() / 1000;
inline constexpr Limits kTemps = within(-80, 200);
inline constexpr Param kTemp{arg::temp, "temperature of the air", kTemps};
inline constexpr Param kRh{arg::rh, "its relative humidity"};
inline constexpr Param kPressure{.name = arg::pressure,
                                 .text = "pressure of the air, DRY.ALTITUDEPRESSURE above the sea",
                                 .range = within(30, 120),
                                 .otherwise = kUsualPressureKPa};

}  // namespace drysheet
