// SPDX-License-Identifier: MPL-2.0
// Activation energy and drying times.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <vector>

#include "drysheet/kinetics.hpp"
#include "tests/core/shared.hpp"

using namespace drysheet;
using namespace drysheet::test;

namespace {

MassFlux kg_m2_h(double r) { return MassFlux::from_value(r / 3600); }

}  // namespace

// ---- activation energy

TEST(ActivationEnergy, published_sets) {
    const auto fit = [](std::vector<double> kelvin, std::vector<double> k) {
        std::vector<Temperature> temps;
        for (double T : kelvin) temps.push_back(from_si<Temperature>(T));
        return activation_energy(temps, k);
    };
    // scipy.stats.linregress of ln k on 1/T, two degrees of freedom: its slope and standard error times R.
    const auto four = fit({313.15, 323.15, 333.15, 343.15}, {0.21, 0.33, 0.47, 0.71});
    EXPECT_TRUE(test::near(four.energy, 35812.8029, 1e-8));
    EXPECT_TRUE(test::near(four.u_energy, 988.076092, 1e-8));
    EXPECT_TRUE(test::near(four.factor, 198697.6457, 1e-8));
    EXPECT_TRUE(test::near(four.r2, 0.998479895, 1e-8));
    // Decomposition of hydrogen iodide (McMurry and Fay, Chemistry, worked example 12.13): slope −2.24e4 K.
    const auto iodide =
        fit({556.15, 629.15, 666.15, 700.15, 781.15}, {3.52e-7, 3.02e-5, 2.19e-4, 1.16e-3, 3.95e-2});
    EXPECT_NEAR(iodide.energy.value() / 8.314462618, 2.24e4, 50);
    // A laboratory page with three points (mmsphyschem.com/actEnergy.htm): 27 kJ/mol, ln k to two digits.
    EXPECT_NEAR(fit({277, 295, 311}, {15, 25, 58}).energy.value() / 27000, 1, 0.05);
}

// k = 3 exp(−40000/(R T)): exact, with no uncertainty. By hand.
TEST(ActivationEnergy, gives_back_what_made_the_data) {
    std::vector<Temperature> temps;
    std::vector<double> k;
    for (double t : {40.0, 50.0, 60.0, 70.0}) {
        temps.push_back(from_si<Temperature>(t + 273.15));
        k.push_back(3 * std::exp(-40000 / (8.314462618 * (t + 273.15))));
    }
    const auto fit = activation_energy(temps, k);
    EXPECT_NEAR(fit.energy.value(), 40000, 1e-6);
    EXPECT_NEAR(fit.factor, 3, 1e-9);
    EXPECT_NEAR(fit.r2, 1, 1e-12);
    EXPECT_LT(fit.u_energy.value(), 1e-2);
    EXPECT_REFUSED("temps", activation_energy(std::span(temps).first(2), std::span(k).first(2)));
    EXPECT_REFUSED("values", activation_energy(temps, std::span(k).first(3)));
    const std::vector<Temperature> same(4, temps[0]);
    EXPECT_REFUSED("temps", activation_energy(same, k));
    k[1] = 0;
    EXPECT_REFUSED("values", activation_energy(temps, k));
}

// ---- drying times

TEST(ConstantRateTime, printed_examples) {
    // Geankoplis 1993, example 9.6-2: 21.5 kg/m², 1.51 kg/(h m²), 0.38 to 0.25: 1.85 h.
    EXPECT_NEAR(in_hours(constant_rate_time(kg(21.5), db(0.38), db(0.25), m2(1), kg_m2_h(1.51))), 1.85,
                0.005);
    // Geankoplis 1993, example 9.7-1, constant period, data as in the book's Scilab companion: 399 kg
    // on 18.58 m², 0.38 to 0.195; by hand 399/18.58 · 0.185/1.51 = 2.63 h.
    EXPECT_NEAR(in_hours(constant_rate_time(kg(399), db(0.38), db(0.195), m2(18.58), kg_m2_h(1.51))), 2.63,
                0.005);
    // Treybal 1980, illustration 12.3, constant period: 40 kg/m², 3e-4 kg/(m² s), 1/3 to 0.20: 17 778 s.
    EXPECT_NEAR(constant_rate_time(kg(40), db(1.0 / 3), db(0.2), m2(1), MassFlux::from_value(3e-4)).value(),
                17778, 1);
}

TEST(FallingRateTime, printed_examples) {
    // Coulson and Richardson vol. 2, example 16.1: 25 to 10 % takes 15 ks with 15 % critical and 5 %
    // equilibrium; 30 to 8 % takes 23.9 ks (6.65 h) in the same dryer.
    const auto coulson = [](double X1, double X2) {
        return falling_rate_time(kg(1), db(X1), db(X2), db(0.15), db(0.05), m2(1), kg_m2_h(1)).value();
    };
    EXPECT_NEAR(15 * coulson(0.30, 0.08) / coulson(0.25, 0.10), 23.9, 0.1);
    // Anantharaman and Begum (title from memory), Mass transfer, example 6.9: 0.9 kg of solids, 1e-4 kg/s in
    // the constant period, X 3 to 0.25, critical 1.5, equilibrium 0.1/0.9. By its formula: 9000 · (1.5
    // + 1.38889 ln(1.38889/0.138889)) s = 9000 · (1.5 + 3.198035) s = 11.745 h.
    EXPECT_NEAR(in_hours(falling_rate_time(kg(0.9), db(3), db(0.25), db(1.5), db(0.1 / 0.9), m2(0.18),
                                           MassFlux::from_value(1e-4 / 0.18))),
                11.745, 0.001);
    // The same book, example 6.10: 33 to 9 % takes 7 h, critical 16 %, equilibrium 5 %; 37 to 7 %: by its
    // formula 7 · (0.21 + 0.11 ln(0.11/0.02)) / (0.17 + 0.11 ln(0.11/0.04)) = 7 · 0.397522/0.281276 = 9.893
    // h.
    const auto begum = [](double X1, double X2) {
        return falling_rate_time(kg(1), db(X1), db(X2), db(0.16), db(0.05), m2(1), kg_m2_h(1)).value();
    };
    EXPECT_NEAR(7 * begum(0.37, 0.07) / begum(0.33, 0.09), 9.893, 0.001);
    // A wet solid (askfilo.com, question 4, printed answer 6.56 h): 35 to 10 % wet basis in 5 h, 14 %
    // critical, 4 % equilibrium; to 6 % in the same dryer.
    const auto filo = [](double end) {
        const auto X = [](double w) { return db(w / (1 - w)); };
        return falling_rate_time(kg(1), X(0.35), X(end), X(0.14), X(0.04), m2(1), kg_m2_h(1)).value();
    };
    EXPECT_NEAR(5 * filo(0.06) / filo(0.10), 6.56, 0.005);
    // Singh and Heldman, Introduction to food engineering, ch. 12 (from memory): 0.0797 kg of water at 0.1
    // kg/(m² s) from a cube of 5 cm: 53.2 s; solids 0.95 · 0.125 kg · 0.23, X 3.348 to 0.4286.
    EXPECT_NEAR(constant_rate_time(kg(0.95 * 0.125 * 0.23), db(0.77 / 0.23), db(0.3 / 0.7), m2(6 * 0.0025),
                                   MassFlux::from_value(0.1))
                    .value(),
                53.2, 0.1);
}

TEST(FallingRateTime, identities) {
    const auto time = [](double X1, double X2) {
        return falling_rate_time(kg(2), db(X1), db(X2), db(0.5), db(0.05), m2(0.4), kg_m2_h(1.2)).value();
    };
    // Parts add up; above the critical moisture it is the constant rate; steady across the bend.
    EXPECT_NEAR(time(1.5, 0.2), time(1.5, 0.7) + time(0.7, 0.4) + time(0.4, 0.2), 1e-9);
    EXPECT_NEAR(time(1.5, 0.7), constant_rate_time(kg(2), db(1.5), db(0.7), m2(0.4), kg_m2_h(1.2)).value(),
                1e-9);
    EXPECT_NEAR(time(1.5, 0.5 + 1e-9), time(1.5, 0.5 - 1e-9), 1e-4);
    EXPECT_EQ(time(0.7, 0.7), 0);
}

TEST(DryingTimes, refusals) {
    EXPECT_REFUSED("end_db", constant_rate_time(kg(1), db(0.2), db(0.3), m2(1), kg_m2_h(1)));
    EXPECT_REFUSED("solids", constant_rate_time(kg(0), db(0.3), db(0.2), m2(1), kg_m2_h(1)));
    EXPECT_REFUSED("area", constant_rate_time(kg(1), db(0.3), db(0.2), m2(0), kg_m2_h(1)));
    EXPECT_REFUSED("rate", constant_rate_time(kg(1), db(0.3), db(0.2), m2(1), kg_m2_h(0)));
    EXPECT_REFUSED("end_db",
                   falling_rate_time(kg(1), db(0.3), db(0.05), db(0.2), db(0.05), m2(1), kg_m2_h(1)));
    EXPECT_REFUSED("critical_db",
                   falling_rate_time(kg(1), db(0.3), db(0.2), db(0.05), db(0.05), m2(1), kg_m2_h(1)));
    EXPECT_REFUSED("new_thickness", thickness_time(hours(5), mm(4), mm(0), 2));
    EXPECT_REFUSED("thickness", thickness_time(hours(5), mm(0), mm(4), 2));
    EXPECT_REFUSED("time", thickness_time(hours(0), mm(3), mm(4), 2));
}

// Twice as thick takes four times as long by diffusion (Crank 1975, sec. 4.3), twice as long with exponent 1.
// Coulson and Richardson vol. 2, example 16.2, scales 10 mm strips to 60 mm planks by (l2/l1)² = 36 in the
// same way.
TEST(ThicknessTime, scales) {
    EXPECT_NEAR(in_hours(thickness_time(hours(5), mm(4), mm(8), 2)), 20, 1e-12);
    EXPECT_NEAR(in_hours(thickness_time(hours(5), mm(4), mm(8), 1)), 10, 1e-12);
    EXPECT_NEAR(in_hours(thickness_time(hours(1), mm(10), mm(60), 2)), 36, 1e-12);
    // The series says the same: one ratio at one Fourier number.
    const double Fo = 0.3, D = 2e-10;
    const double t1 = Fo * std::pow(0.002, 2) / D;
    const double t2 = thickness_time(Time::from_value(t1), mm(4), mm(7), 2).value();
    EXPECT_NEAR(D * t2 / std::pow(0.0035, 2), Fo, 1e-12);
}

// 80 % to 20 % wet basis is X 4 to 0.25; with Xe = 0, MR = 0.0625 = e^(−k t), so t = 4 ln 2 / k. By hand.
TEST(DryingTime, by_hand) {
    const auto time = [](double start, double target, double equilibrium) {
        return in_hours(drying_time(MoistureWet(start), MoistureWet(target), MoistureWet(equilibrium),
                                    CurveModel::lewis, std::array{0.4}));
    };
    EXPECT_NEAR(time(0.8, 0.2, 0), 4 * std::numbers::ln2 / 0.4, 1e-12);
    // Xe = 0.05/0.95 = 1/19: MR = (1/4 − 1/19)/(4 − 1/19) = 0.05 exactly; t = ln 20 / 0.4.
    EXPECT_NEAR(time(0.8, 0.2, 0.05), std::log(20.0) / 0.4, 1e-12);
    EXPECT_REFUSED("target", time(0.8, 0.85, 0.05));
    EXPECT_REFUSED("target", time(0.8, 0.04, 0.05));
    EXPECT_REFUSED("target", drying_time(MoistureWet(0.8), MoistureWet(0.1), MoistureWet(0),
                                         CurveModel::logarithmic, std::array{0.9, 0.4, 0.1}));
}
