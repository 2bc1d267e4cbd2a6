// SPDX-License-Identifier: MPL-2.0
#include "drysheet/moist_gas.hpp"

#include <cmath>

namespace drysheet::detail {
namespace {

constexpr double R = kGasConstant;

// Lemmon et al. (2000): reducing temperature, reducing density, gas constant.
constexpr double kTj = 132.6312, kRhoj = 10.4477e3, kRair = 8.314510;

// Lemmon et al. (2000): the terms of first and second power in density (l = 1 expanded).
double virial_Baa(double T) {
    const double tau = kTj / T;
    return (0.118160747229 + 0.713116392079 * std::pow(tau, 0.33) - 1.61824192067 * std::pow(tau, 1.01) -
            0.101365037912 * std::pow(tau, 1.6) - 0.146629609713 * std::pow(tau, 3.6) +
            0.148287891978e-1 * std::pow(tau, 3.5)) /
           kRhoj;
}
double virial_Caaa(double T) {
    const double tau = kTj / T;
    return 2 * (0.0714140178971 + 0.101365037912 * std::pow(tau, 1.6)) / (kRhoj * kRhoj);
}

// Harvey & Huang (2007), G8-10 eq. for Baw.
double virial_Baw(double T) {
    const double th = T / 100;
    return 1e-6 *
           (66.5687 * std::pow(th, -0.237) - 238.834 * std::pow(th, -1.048) - 176.755 * std::pow(th, -3.183));
}

// Hyland & Wexler (1983), in the form of G8-10.
double virial_Caaw(double T) {
    const double th = 100 / T;
    return 1e-6 *
           (0.482737e-3 + th * (0.105678e-2 + th * (-0.656394e-2 + th * (0.294442e-1 - th * 0.319317e-1))));
}
double virial_Caww(double T) {
    const double th = 100 / T;
    return -1e-6 * std::exp(-0.10728876e2 + th * (0.347802e2 + th * (-0.383383e2 + th * 0.33406e2)));
}

// Lemmon et al. (2000) with the constant n5 of G8-10 (enthalpy 0 at 0 °C, 101.325 kPa): h°/(R T) = 1 +
// τ dφ°/dτ.
double ideal_air_enthalpy(double T) {
    constexpr double N1 = 0.605719400e-7, N2 = -0.210274769e-4, N3 = -0.158860716e-3, N5 = 10.0986147428912,
                     N6 = -0.195363420e-3, N7 = 2.490888032, N8 = 0.791309509, N9 = 0.212236768,
                     N10 = -0.197938904, N11 = 25.36365, N12 = 16.90741, N13 = 87.31279;
    const double tau = kTj / T;
    const double e8 = N8 * N11 * tau / std::expm1(N11 * tau), e9 = N9 * N12 * tau / std::expm1(N12 * tau),
                 e10 = N10 * N13 * tau / (1 + 2.0 / 3 * std::exp(-N13 * tau));
    return kRair * T *
           (1 - 3 * N1 / (tau * tau * tau) - 2 * N2 / (tau * tau) - N3 / tau + N5 * tau +
            1.5 * N6 * tau * std::sqrt(tau) + N7 + e8 + e9 + e10);
}

}  // namespace

MoistGas::Table::Values MoistGas::published(double T) {
    Table::Values made{};
    made[Baa] = virial_Baa(T);
    made[Baw] = virial_Baw(T);
    made[Bww] = virial_Bww(T);
    made[Caaa] = virial_Caaa(T);
    made[Caaw] = virial_Caaw(T);
    made[Caww] = virial_Caww(T);
    made[Cwww] = virial_Cwww(T);
    made[ha] = ideal_air_enthalpy(T);
    made[hw] = ideal_vapour_enthalpy(T);
    return made;
}

const MoistGas::Table& MoistGas::table() {
    static const Table made(published, kColdest, 2, 140);
    return made;
}

MoistGas::MoistGas(double T) : T_(T), at_(table().at(T)) {}

namespace {

// Virial coefficients, or their slopes, at one temperature, with the mixing rules.
struct Second {
    double aa, aw, ww;
    double mixed(double x) const {
        const double y = 1 - x;
        return y * y * aa + 2 * x * y * aw + x * x * ww;
    }
    double mixed_by_x(double x) const { return 2 * (-(1 - x) * aa + (1 - 2 * x) * aw + x * ww); }
    double beta(double x) const { return x * (2 - x) * ww + (1 - x) * (1 - x) * (2 * aw - aa); }
};
struct Third {
    double aaa, aaw, aww, www;
    double mixed(double x) const {
        const double y = 1 - x;
        return y * y * (y * aaa + 3 * x * aaw) + x * x * (3 * y * aww + x * www);
    }
};
double gamma(const Second& B, const Third& C, double x) {
    const double y = 1 - x;
    return x * x * (3 - 2 * x) * C.www + y * y * (6 * x * C.aww + 3 * (1 - 2 * x) * C.aaw - 2 * y * C.aaa) +
           B.mixed(x) * (x * (3 * x - 4) * B.ww + 2 * y * (3 * x - 2) * B.aw + 3 * y * y * B.aa);
}

}  // namespace

double MoistGas::volume(double p, double x) const {
    const Second second{at_.value(Baa), at_.value(Baw), at_.value(Bww)};
    const Third third{at_.value(Caaa), at_.value(Caaw), at_.value(Caww), at_.value(Cwww)};
    const double B = second.mixed(x), C = third.mixed(x);
    return R * T_ / p + B + p * (C - B * B) / (R * T_);
}

MoistGas::Enthalpy MoistGas::enthalpy(double p, double x) const {
    const Second second{at_.value(Baa), at_.value(Baw), at_.value(Bww)},
        second_by_T{at_.slope(Baa), at_.slope(Baw), at_.slope(Bww)},
        second_curved{at_.curvature(Baa), at_.curvature(Baw), at_.curvature(Bww)};
    const Third third{at_.value(Caaa), at_.value(Caaw), at_.value(Caww), at_.value(Cwww)},
        third_by_T{at_.slope(Caaa), at_.slope(Caaw), at_.slope(Caww), at_.slope(Cwww)};
    const double B = second.mixed(x), dB = second_by_T.mixed(x), C = third.mixed(x), dC = third_by_T.mixed(x);
    const double air = at_.value(ha), vapour = at_.value(hw);
    return {(1 - x) * air + x * vapour + p * (B - T_ * dB) +
                p * p * (2 * (C - B * B) - T_ * (dC - 2 * B * dB)) / (2 * R * T_),
            (1 - x) * at_.slope(ha) + x * at_.slope(hw) - p * T_ * second_curved.mixed(x),
            vapour - air + p * (second.mixed_by_x(x) - T_ * second_by_T.mixed_by_x(x))};
}

MoistGas::Saturated MoistGas::saturated(double p, const Saturation& pure) const {
    const Second B{at_.value(Baa), at_.value(Baw), at_.value(Bww)},
        B_by_T{at_.slope(Baa), at_.slope(Baw), at_.slope(Bww)};
    const Third C{at_.value(Caaa), at_.value(Caaw), at_.value(Caww), at_.value(Cwww)};
    const double rho = p / (R * T_), rho_s = pure.p / (R * T_);
    // ln φ(ps, 1) + v' (p - ps)/(R T)
    const double alone = rho_s * (B.ww + 0.5 * rho_s * (C.www - B.ww * B.ww)) +
                         condensed(T_).v * kMolarMassWater * (rho - rho_s);
    // x = ps/p exp(alone - ln φ(p, x)) by two of Newton's steps. The start is within 5e-3 of x; the slope of
    // ln φ is small and known to 1 % of itself, so that each step leaves less than 1e-3 of the error.
    const double excess = B.ww - 2 * B.aw + B.aa;
    const auto exponent = [&](double x) { return alone - rho * (B.beta(x) + 0.5 * rho * gamma(B, C, x)); };
    const double start = std::fmin(1.004 * pure.p / p, 1), first = exponent(start), factor = std::exp(first);
    double slope = 2 * start * (1 - start) * rho * excess;
    double x = start + (pure.p / p * factor - start) / (1 + slope);
    const double change = exponent(x) - first;  // below 1e-4, hence no second exponential
    slope = 2 * x * (1 - x) * rho * excess;
    x += (pure.p / p * factor * (1 + change * (1 + change / 2)) - x) / (1 + slope);
    const double by_T = pure.dlnp_dT * (1 + rho_s * B.ww) + rho_s * (B_by_T.ww - B.ww / T_) -
                        rho * (B_by_T.beta(x) - B.beta(x) / T_);
    return {x, x * by_T / (1 + slope)};
}

}  // namespace drysheet::detail
