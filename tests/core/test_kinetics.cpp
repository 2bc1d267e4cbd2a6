// Weighed runs, diffusion in a slab, activation energy and drying times.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>
#include <vector>

#include "core/kinetics.hpp"
#include "tests/core/reference.hpp"

using namespace drysheet;

namespace {

Time hours(double t) { return Time::from_value(3600 * t); }
double in_hours(Time t) { return t.value() / 3600; }
Mass kg(double m) { return Mass::from_value(m); }
Area m2(double a) { return Area::from_value(a); }
Length mm(double l) { return Length::from_value(l / 1000); }
MassFlux kg_m2_h(double r) { return MassFlux::from_value(r / 3600); }
MoistureDry db(double x) { return MoistureDry(x); }

struct Run {
    std::vector<Time> times;
    std::vector<Mass> masses;
};
/// 0.1 kg of solids: a constant rate of 1 kg/kg/h for 3 h from 6 to 3 kg/kg, then falling towards 0.5 with
/// the same slope at the bend (time constant 2.5 h). `noise` in kg.
Run two_periods(double noise, double first = 0) {
    Run run;
    for (int i = 0; i < 25; ++i) {
        const double t = 0.5 * i;
        const double X = t < 3 ? 6 - t : 3 - 2.5 * (1 - std::exp(-(t - 3) / 2.5));
        run.times.push_back(hours(first + t));
        run.masses.push_back(kg(0.1 * (1 + X) + noise * std::sin(31.0 * i)));
    }
    return run;
}

void expect_refused(const auto& call, std::string_view argument) {
    try {
        call();
        ADD_FAILURE() << "no refusal naming " << argument;
    } catch (const Refused& refused) {
        EXPECT_EQ(refused.argument(), argument) << refused.what();
    }
}
#define EXPECT_REFUSED(argument, ...) expect_refused([&] { __VA_ARGS__; }, argument)

}  // namespace

// ---- a weighed run

// Geankoplis 1993, problem 9.6-1: 4.944 kg at the start, 3.765 kg bone dry, 3.955 kg at equilibrium: free
// moisture 0.989 kg, 0.263 kg/kg.
TEST(Ratios, of_the_tray_test_of_geankoplis) {
    const std::vector masses{kg(4.944), kg(4.4495), kg(3.955)};
    const double Xe = (3.955 - 3.765) / 3.765;
    const auto ratios = moisture_ratios(masses, kg(3.765), db(Xe));
    EXPECT_NEAR(ratios[0].value(), 1, 1e-14);
    EXPECT_NEAR(ratios[1].value(), 0.5, 1e-12);  // half of the 0.989 kg is gone
    EXPECT_NEAR(ratios[2].value(), 0, 1e-12);
    EXPECT_NEAR((4.944 - 3.765) / 3.765 - Xe, 0.263, 5e-4);
}

TEST(Ratios, refusals) {
    const std::vector masses{kg(0.5), kg(0.3), kg(0.09)};
    EXPECT_REFUSED("masses", moisture_ratios(masses, kg(0.1), db(0)));
    EXPECT_REFUSED("solids", moisture_ratios(masses, kg(0), db(0)));
    EXPECT_REFUSED("equilibrium_db", moisture_ratios(masses, kg(0.05), db(9)));
    EXPECT_REFUSED("masses", moisture_ratios({}, kg(0.05), db(0)));
}

// A quadratic is its own local quadratic: X = 5 − 0.8 t + 0.03 t², so R = 0.8 − 0.06 t, on uneven steps. By
// hand.
TEST(Rates, of_a_quadratic_are_exact) {
    std::vector<Time> times;
    std::vector<Mass> masses;
    for (double t : {0.0, 0.2, 0.5, 0.6, 1.0, 1.5, 1.6, 2.5, 3.0, 4.0, 4.2, 5.5}) {
        times.push_back(hours(t));
        masses.push_back(kg(0.2 * (1 + 5 - 0.8 * t + 0.03 * t * t)));
    }
    const auto rates = drying_rates(times, masses, kg(0.2));
    const auto fluxes = drying_fluxes(times, masses, kg(0.2), m2(0.5));
    for (std::size_t i = 0; i < times.size(); ++i) {
        const double R = 0.8 - 0.06 * in_hours(times[i]);
        EXPECT_NEAR(rates[i].value() * 3600, R, 1e-10);
        EXPECT_NEAR(fluxes[i].value() * 3600, R * 0.2 / 0.5, 1e-10);
    }
}

TEST(Rates, one_bad_reading_makes_no_rate) {
    const auto [times, masses] = two_periods(2e-4);
    const auto clean = drying_rates(times, masses, kg(0.1));
    for (std::size_t bad : {4U, 9U, 15U, 22U}) {
        auto spoilt = masses;
        spoilt[bad] += kg(0.02);
        const auto rates = drying_rates(times, spoilt, kg(0.1));
        for (std::size_t i = 0; i < rates.size(); ++i) {
            EXPECT_NEAR(rates[i].value() * 3600, clean[i].value() * 3600, 0.05)
                << "bad " << bad << " at " << i;
        }
    }
}

// The rate of the constant period and that of the exponential after it, smoothed over 3 h windows.
TEST(Rates, follow_the_periods_within_the_window) {
    const auto [times, masses] = two_periods(2e-4);
    const auto rates = drying_rates(times, masses, kg(0.1));
    for (std::size_t i = 0; i < rates.size(); ++i) {
        const double t = in_hours(times[i]);
        EXPECT_NEAR(rates[i].value() * 3600, t < 3 ? 1 : std::exp(-(t - 3) / 2.5), 0.1) << t;
    }
}

TEST(Rates, refusals) {
    const auto [times, masses] = two_periods(0);
    auto back = times;
    back[5] = back[3];
    EXPECT_REFUSED("times", drying_rates(back, masses, kg(0.1)));
    EXPECT_REFUSED("masses", drying_rates(times, std::span(masses).first(4), kg(0.1)));
    EXPECT_REFUSED("times", drying_rates(std::span(times).first(2), std::span(masses).first(2), kg(0.1)));
    EXPECT_REFUSED("masses", drying_rates(times, masses, kg(0.5)));
    EXPECT_REFUSED("area", drying_fluxes(times, masses, kg(0.1), m2(0)));
}

TEST(CriticalPoint, is_found_with_its_uncertainty) {
    const auto [times, masses] = two_periods(5e-4, 8);  // the clock began 8 h earlier
    const auto point = critical_point(times, masses, kg(0.1));
    const double R = point.rate.value() * 3600, u_R = point.u_rate.value() * 3600;
    EXPECT_NEAR(R, 1, 4 * u_R);
    EXPECT_NEAR(point.moisture.value(), 3, 4 * point.u_moisture.value());
    EXPECT_NEAR(in_hours(point.time), 11, 4 * in_hours(point.u_time));
    EXPECT_LT(u_R, 0.01);
    EXPECT_LT(point.u_moisture.value(), 0.05);
    EXPECT_EQ(point.points, 25U);
}

TEST(CriticalPoint, leaves_one_bad_reading_out) {
    auto [times, masses] = two_periods(5e-4);
    masses[9] += kg(0.02);
    const auto point = critical_point(times, masses, kg(0.1));
    EXPECT_EQ(point.points, 24U);
    EXPECT_NEAR(point.moisture.value(), 3, 0.05);
}

// The readings of Geankoplis 1993, problem 9.6-1, are from memory, and so is the answer, 0.996 kg/(h m²) on
// 0.186 m².
TEST(CriticalPoint, of_the_tray_test_of_geankoplis) {
    std::vector<Time> times;
    std::vector<Mass> masses;
    for (const auto& row : read_csv("tray_test_geankoplis.csv")) {
        times.push_back(hours(std::stod(row[0])));
        masses.push_back(kg(std::stod(row[1])));
    }
    const auto point = critical_point(times, masses, kg(3.765));
    EXPECT_NEAR(point.rate.value() * 3600 * 3.765 / 0.186, 0.996, 0.04);
}

TEST(CriticalPoint, refuses_runs_without_a_bend) {
    const auto [times, masses] = two_periods(2e-4);
    std::vector<Mass> falling, constant, flat(masses.size(), kg(0.5));
    for (std::size_t i = 0; i < times.size(); ++i) {
        const double t = in_hours(times[i]);
        const double wave = 2e-4 * std::sin(31.0 * static_cast<double>(i));
        falling.push_back(kg(0.1 * (1 + 6 * std::exp(-0.3 * t)) + wave));
        constant.push_back(kg(0.1 * (1 + 6 - 0.4 * t) + wave));
    }
    EXPECT_REFUSED("masses", critical_point(times, falling, kg(0.1)));
    EXPECT_REFUSED("masses", critical_point(times, constant, kg(0.1)));
    EXPECT_REFUSED("masses", critical_point(times, flat, kg(0.1)));
    EXPECT_REFUSED("times", critical_point(std::span(times).first(6), std::span(masses).first(6), kg(0.1)));
    EXPECT_THROW(critical_point(times, falling, kg(0.1)), NoConvergence);
}

// ---- diffusion

// 20000 terms of Crank 1975, eq. 4.18: tests/reference/make_slab_series.py.
TEST(SlabRatio, agrees_with_the_long_series) {
    for (const auto& row : read_csv("slab_series.csv")) {
        const double Fo = std::stod(row[0]);
        EXPECT_NEAR(slab_ratio(Fo).value(), std::stod(row[1]), 1e-13) << Fo;
    }
}

TEST(SlabRatio, printed_values) {
    // polykin documentation, uptake_sheet: Fo = 0.25 gives an uptake of 0.562233541762138.
    EXPECT_NEAR(1 - slab_ratio(0.25).value(), 0.562233541762138, 1e-14);
    // Crank 1975, sec. 10.6: half is gone at D t/l² = 0.049 of the full thickness (0.04919 there, from
    // memory).
    EXPECT_NEAR(slab_ratio(4 * 0.04919).value(), 0.5, 2e-4);
    // Coulson and Richardson vol. 2, example 16.2, printed relation of E and J: chart accuracy.
    EXPECT_NEAR(slab_ratio(0.1).value(), 0.64, 0.01);
    EXPECT_NEAR(slab_ratio(0.2).value(), 0.49, 0.01);
    EXPECT_NEAR(slab_ratio(0.3).value(), 0.38, 0.01);
    EXPECT_NEAR(slab_ratio(0.7).value(), 0.14, 0.01);
    // Geankoplis 1993, example 9.9-1: E = 0.05/0.25 is read off the chart at 0.56.
    EXPECT_NEAR(slab_ratio(0.56).value(), 0.20, 0.005);
}

TEST(SlabRatio, limits) {
    EXPECT_EQ(slab_ratio(0).value(), 1);
    // Short times: 1 − 2 √(Fo/π); long times: the first term alone.
    EXPECT_NEAR(slab_ratio(1e-6).value(), 1 - 2 * std::sqrt(1e-6 / std::numbers::pi), 1e-15);
    EXPECT_NEAR(slab_ratio(3).value(),
                8 / std::pow(std::numbers::pi, 2) * std::exp(-std::pow(std::numbers::pi, 2) * 0.75), 1e-15);
    // Both forms meet.
    EXPECT_NEAR(slab_ratio(std::nextafter(0.2, 0)).value(), slab_ratio(0.2).value(), 1e-14);
    EXPECT_REFUSED("fourier", slab_ratio(-0.1));
    EXPECT_REFUSED("fourier", slab_ratio(std::nan("")));
}

// Geankoplis 1993, example 9.9-1, backwards: a 25.4 mm board drying from both sides takes 30.8 h from free
// moisture 0.25 to 0.05 with D = 2.97e-6 m²/h (first term of the series).
TEST(Diffusivity, of_the_board_of_geankoplis) {
    const std::vector<Time> times{hours(0), hours(15.4), hours(30.8)};
    const double Fo_half = 2.97e-6 * 15.4 / std::pow(0.0127, 2);
    const std::vector<MoistureRatio> ratios{MoistureRatio(1), slab_ratio(Fo_half), MoistureRatio(0.2)};
    const auto fit = diffusivity(times, ratios, mm(25.4), 2);
    EXPECT_NEAR(fit.diffusivity.value() * 3600 / 2.97e-6, 1, 0.005);
    EXPECT_EQ(fit.points, 2U);
}

TEST(Diffusivity, gives_back_what_made_the_data) {
    for (double D : {1e-12, 3e-10, 2e-8}) {
        std::vector<Time> times;
        std::vector<MoistureRatio> ratios;
        for (int i = 0; i < 20; ++i) {
            times.push_back(hours(0.5 * i));
            ratios.push_back(slab_ratio(D * times.back().value() / (0.003 * 0.003)));
        }
        // 6 mm from both sides is 3 mm from one side.
        const auto both = diffusivity(times, ratios, mm(6), 2);
        const auto one = diffusivity(times, ratios, mm(3), 1);
        EXPECT_NEAR(both.diffusivity.value() / D, 1, 1e-7);
        EXPECT_NEAR(one.diffusivity.value() / both.diffusivity.value(), 1, 1e-12);
        EXPECT_EQ(both.points, 19U);
    }
}

// scipy.optimize.curve_fit of 2000 terms to Gilliland and Sherwood's hemlock board, make_hemlock_fits.py; 7.5
// mm, both faces: D = k L² with L = 3.75 mm.
TEST(Diffusivity, agrees_with_scipy_on_published_data) {
    std::vector<Time> times;
    std::vector<MoistureRatio> ratios;
    for (const auto& row : read_csv("hemlock_drying.csv")) {
        times.push_back(hours(std::stod(row[0])));
        ratios.emplace_back((std::stod(row[1]) - 6.6) / (127 - 6.6));
    }
    const auto rows = read_csv("hemlock_fits.csv");
    const auto& slab = *std::ranges::find(rows, "slab", [](const auto& row) { return row[0]; });
    const auto fit = diffusivity(times, ratios, mm(7.5), 2);
    const double L2_per_s = std::pow(0.00375, 2) / 3600;
    EXPECT_NEAR(fit.diffusivity.value() / (std::stod(slab[3]) * L2_per_s), 1, 1e-6);
    EXPECT_NEAR(fit.standard_error.value() / (std::stod(slab[4]) * L2_per_s), 1, 1e-4);
}

TEST(Diffusivity, refusals) {
    const std::vector<Time> times{hours(0), hours(1), hours(2)};
    const std::vector<MoistureRatio> ratios{MoistureRatio(1), MoistureRatio(0.6), MoistureRatio(0.4)};
    const std::vector<MoistureRatio> wet(3, MoistureRatio(1.2));
    EXPECT_REFUSED("sides", diffusivity(times, ratios, mm(5), 3));
    EXPECT_REFUSED("thickness", diffusivity(times, ratios, mm(0), 2));
    EXPECT_REFUSED("ratios", diffusivity(times, std::span(ratios).first(2), mm(5), 2));
    EXPECT_REFUSED("ratios", diffusivity(times, wet, mm(5), 2));
    EXPECT_REFUSED("times", diffusivity(std::span(times).first(2), std::span(ratios).first(2), mm(5), 2));
}

// ---- activation energy

TEST(ActivationEnergy, published_sets) {
    const auto fit = [](std::vector<double> kelvin, std::vector<double> k) {
        std::vector<Temperature> temps;
        for (double T : kelvin) temps.push_back(from_si<Temperature>(T));
        return activation_energy(temps, k);
    };
    // Iodination of acetone (github.com/pkaysantana/acetone-iodination-analysis, final report): 71.99 kJ/mol,
    // 8.95e5, R² = 0.9995, from rate constants of which three digits are printed.
    const auto acetone = fit({288, 298, 308, 318, 328}, {8.06e-8, 2.13e-7, 5.24e-7, 1.34e-6, 3.15e-6});
    EXPECT_NEAR(acetone.energy.value() / 71990, 1, 1e-3);
    EXPECT_NEAR(acetone.factor / 8.95e5, 1, 0.02);
    EXPECT_NEAR(acetone.r2, 0.9995, 5e-5);
    // Decomposition of hydrogen iodide (OpenStax, Chemistry 2e, example 12.11; from memory): slope −2.2e4 K.
    const auto iodide = fit({555, 575, 645, 700, 781}, {3.52e-7, 1.22e-6, 8.59e-5, 1.16e-3, 3.95e-2});
    EXPECT_NEAR(iodide.energy.value() / 8.314462618, 2.2e4, 5e2);
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
    // Geankoplis 1993, example 9.7-1, constant period: 399 kg on 18.58 m², 0.38 to 0.195: 2.63 h.
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
