// SPDX-License-Identifier: MPL-2.0
#include "drysheet/water.hpp"

#include <array>
#include <cmath>
#include <complex>
#include <span>
#include <utility>

#include "drysheet/numeric/hermite.hpp"
#include "drysheet/numeric/roots.hpp"

namespace drysheet {
namespace detail {
namespace {

constexpr double Tc = 647.096, pc = 22.064e6, rhoc = 322;  // critical point, R6-95
constexpr double Tt = kTriplePoint, pt = 611.657;          // triple point, R14-08
constexpr double R = 461.51805;                            // J/(kg K), R6-95

// SR1-86 eq. 1 and its derivative.
Saturation over_liquid(double T) {
    constexpr double a1 = -7.85951783, a2 = 1.84408259, a3 = -11.7866497, a4 = 22.6807411, a5 = -15.9618719,
                     a6 = 1.80122502;
    const double th = 1 - T / Tc, root = std::sqrt(th), th2 = th * th, th3 = th2 * th, th6 = th3 * th3;
    const double sum = th * (a1 + a2 * root + a3 * th2 + a4 * th2 * root + a5 * th3 + a6 * th6 * root);
    const double slope = a1 + 1.5 * a2 * root + 3 * a3 * th2 + 3.5 * a4 * th2 * root + 4 * a5 * th3 +
                         7.5 * a6 * th6 * root;  // d(sum)/d(th)
    return {pc * std::exp(Tc / T * sum), -(Tc / T * sum + slope) / T};
}

// R14-08 eq. 6 and its derivative.
Saturation over_ice(double T) {
    constexpr double a1 = -0.212144006e2, a2 = 0.273203819e2, a3 = -0.610598130e1;
    constexpr double b1 = 0.333333333e-2, b2 = 0.120666667e1, b3 = 0.170333333e1;
    const double th = T / Tt, ln = std::log(th);
    const double s1 = a1 * std::exp((b1 - 1) * ln), s2 = a2 * std::exp((b2 - 1) * ln),
                 s3 = a3 * std::exp((b3 - 1) * ln);
    return {pt * std::exp(s1 + s2 + s3), ((b1 - 1) * s1 + (b2 - 1) * s2 + (b3 - 1) * s3) / T};
}

// SR1-86 eq. 2 (density), eq. 4 (alpha) and eq. 6 (enthalpy) of the saturated liquid: {h, v}.
std::array<double, 2> liquid(double T) {
    constexpr double b1 = 1.99274064, b2 = 1.09965342, b3 = -0.510839303, b4 = -1.75493479, b5 = -45.5170352,
                     b6 = -6.74694450e5;
    constexpr double d_alpha = -1135.905627715, d1 = -5.65134998e-8, d2 = 2690.66631, d3 = 127.287297,
                     d4 = -135.003439, d5 = 0.981825814;
    const double th = T / Tc, tau3 = std::cbrt(1 - th);
    const double rho = rhoc * (1 + b1 * tau3 + b2 * std::pow(tau3, 2) + b3 * std::pow(tau3, 5) +
                               b4 * std::pow(tau3, 16) + b5 * std::pow(tau3, 43) + b6 * std::pow(tau3, 110));
    const double alpha = 1000 * (d_alpha + d1 * std::pow(th, -19) + d2 * th + d3 * std::pow(th, 4.5) +
                                 d4 * std::pow(th, 5) + d5 * std::pow(th, 54.5));
    const Saturation s = over_liquid(T);
    return {alpha + T / rho * s.p * s.dlnp_dT, 1 / rho};
}

// R10-06 at 101.325 kPa, where only the first term of g0 and of r2 is left: h = g - T dg/dT.
std::array<double, 2> ice(double T) {
    using complex = std::complex<double>;
    constexpr double g00 = -0.632020233335886e6;
    constexpr complex t1(0.368017112855051e-1, 0.510878114959572e-1),
        r1(0.447050716285388e2, 0.656876847463481e2), t2(0.337315741065416, 0.335449415919309),
        r20(-0.725974574329220e2, -0.781008427112870e2);
    const double tau = T / Tt;
    const auto term = [tau](complex r, complex t) {
        return r * (t * (std::log(t - tau) + std::log(t + tau) - 2.0 * std::log(t)) + tau * tau / t);
    };
    constexpr double v = 1 / 916.72;  // R10-06, table 6: density at the melting point of 101.325 kPa
    return {g00 + Tt * (term(r1, t1) + term(r20, t2)).real(), v};
}

// The terms of the residual part of R6-95, table 2, that count at low density: φr = Σ n δ^d τ^t, with
// the factors exp(-δ^c) expanded. Below 2 kg/m³ third powers are enough to 3e-5 of the enthalpy.
struct Term {
    double n, t;
};
constexpr double n8 = -0.66856572307965, n9 = 0.20433810950965, n10 = -0.66212605039687e-4,
                 n11 = -0.19232721156002, n12 = -0.25709043003438, n23 = -0.10793600908932;
constexpr Term kFirst[] = {{0.12533547935523e-1, -0.5},
                           {0.78957634722828e1, 0.875},
                           {-0.87803203303561e1, 1},
                           {n8, 4},
                           {n9, 6},
                           {n10, 12},
                           {n23, 7}};
constexpr Term kSecond[] = {{0.31802509345418, 0.5},
                            {-0.26145533859358, 0.75},
                            {-n8, 4},
                            {-n9, 6},
                            {-n10, 12},
                            {n11, 1},
                            {n12, 5},
                            {0.17611491008752e-1, 1},
                            {0.22132295167546, 9},
                            {-0.40247669763528, 10}};
constexpr Term kThird[] = {{-0.78199751687981e-2, 0.375},
                           {n8 / 2, 4},
                           {n9 / 2, 6},
                           {n10 / 2, 12},
                           {-n11, 1},
                           {-n12, 5},
                           {-n23, 7},
                           {0.16074868486251, 4},
                           {0.58083399985759, 10},
                           {0.43613615723811e-1, 16},
                           {-0.55711118565645e-9, 50}};

struct Sum {
    double value, tau_slope;  // Σ n τ^t and Σ t n τ^t
};
Sum sum(std::span<const Term> terms, double tau) {
    Sum s{0, 0};
    const double ln = std::log(tau);
    for (const auto& [n, t] : terms) {
        const double x = n * std::exp(t * ln);
        s.value += x;
        s.tau_slope += t * x;
    }
    return s;
}

// Enthalpy of saturated vapour, J/kg.
double saturated_vapour_enthalpy(double T) {
    const double tau = Tc / T, p = (T < 273.15 ? over_ice(T) : over_liquid(T)).p;
    const Sum b = sum(kFirst, tau), c = sum(kSecond, tau), d = sum(kThird, tau);
    const auto pressure = [&](double delta) {
        return std::pair(
            rhoc * delta * R * T * (1 + delta * (b.value + delta * (2 * c.value + delta * 3 * d.value))) - p,
            rhoc * R * T * (1 + delta * (2 * b.value + delta * (6 * c.value + delta * 12 * d.value))));
    };
    const double ideal = p / (R * T * rhoc);
    const double delta = newton_root(pressure, ideal, 0.5 * ideal, 2 * ideal, 48, "temp");
    return ideal_vapour_enthalpy(T) / kMolarMassWater +
           R * T * delta *
               (b.value + b.tau_slope +
                delta * (2 * c.value + c.tau_slope + delta * (3 * d.value + d.tau_slope)));
}

}  // namespace

Saturation saturation(double T) { return T < Tt ? over_ice(T) : over_liquid(T); }

Condensed condensed(double T) {
    static const HermiteTable<2> liquid_table(liquid, Tt, 2, 100), ice_table(ice, Tt - 80, 2, 40);
    const auto at = (T < Tt ? ice_table : liquid_table).at(T);
    return {at.value(0), at.value(1), at.slope(0)};
}

// R6-95 eq. 5: h°/(R T) = 1 + τ dφ°/dτ.
double ideal_vapour_enthalpy(double T) {
    constexpr double n2 = 6.6832105275932, n3 = 3.00632;
    constexpr std::array<std::pair<double, double>, 5> einstein{{{0.012436, 1.28728967},
                                                                 {0.97315, 3.53734222},
                                                                 {1.27950, 7.74073708},
                                                                 {0.96956, 9.24437796},
                                                                 {0.24873, 27.5075105}}};
    const double tau = Tc / T;
    double sum = n2 * tau + n3;
    for (const auto& [n, gamma] : einstein) sum += n * gamma * tau / std::expm1(gamma * tau);
    return kMolarMassWater * R * T * (1 + sum);
}

double virial_Bww(double T) { return sum(kFirst, Tc / T).value * kMolarMassWater / rhoc; }
double virial_Cwww(double T) { return 2 * sum(kSecond, Tc / T).value * std::pow(kMolarMassWater / rhoc, 2); }

}  // namespace detail

namespace {

void require_within(Temperature temp, double low, double high) {
    constexpr double rounding = 1e-6;  // -80 °C typed is 193.149999...
    if (const double T = temp.value(); !(T >= low - rounding && T <= high + rounding))
        throw OutOfRange(arg::temp, "is outside {} to {}, for which the equation holds",
                         {Amount{low, Kind::temperature}, Amount{high, Kind::temperature}});
}

}  // namespace

Pressure saturation_pressure(Temperature temp) {
    require_within(temp, 173.15, 646.15);
    return from_si<Pressure>(detail::saturation(temp.value()).p);
}

Temperature boiling_point(Pressure pressure) {
    const double p = pressure.value();
    if (!(p >= 1 && p <= 20e6))
        throw OutOfRange(arg::pressure, "is outside {} to {}",
                         {Amount{1, Kind::pressure}, Amount{20e6, Kind::pressure}});
    // ln p is nearly linear in 1/T, u = 1/T.
    const auto f = [p](double u) {
        const auto s = detail::saturation(1 / u);
        return std::pair(std::log(s.p / p), -s.dlnp_dT / (u * u));
    };
    return from_si<Temperature>(
        1 / newton_root(f, 1 / 373.15 - std::log(p / 101325) / 5000, 1 / 647.0, 1 / 190.0, 48, "pressure"));
}

SpecificEnergy latent_heat(Temperature temp) {
    require_within(temp, 193.15, 423.15);
    const double T = temp.value();
    const auto h = T < 273.15 ? detail::ice(T)[0] : detail::liquid(T)[0];
    return from_si<SpecificEnergy>(detail::saturated_vapour_enthalpy(T) - h);
}

}  // namespace drysheet
