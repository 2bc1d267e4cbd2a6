// SPDX-License-Identifier: MPL-2.0
// A stranger to this project: what the installed core offers, used from outside.
#include <cmath>
#include <drysheet/air.hpp>
#include <drysheet/yield.hpp>

int main() {
    using namespace drysheet;
    // by hand: 100 g × 0.20 ÷ 0.80
    const Mass dried = dried_mass(from_si<Mass>(0.1), MoistureWet(0.8), MoistureWet(0.2));
    // standard atmosphere, ISO 2533: 89.875 kPa at 1000 m
    const Pressure p = altitude_pressure(from_si<Length>(1000));
    return std::abs(dried.value() - 0.025) < 1e-15 && std::abs(p.value() - 89875) < 1 ? 0 : 1;
}
