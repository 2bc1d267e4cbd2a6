// SPDX-License-Identifier: MPL-2.0
// Moisture through a pack against closed forms, an independent integration and a textbook problem.
#include <cmath>

#include "drysheet/package.hpp"
#include "drysheet/water.hpp"
#include "tests/core/shared.hpp"

namespace drysheet {
namespace {

using test::near;
using test::reference;
using test::refused;
using Model = IsothermModel;
using P = std::vector<double>;

Temperature celsius(double t) { return from_si<Temperature>(t + 273.15); }
Mass grams(double x) { return from_si<Mass>(x / 1000); }
Area m2(double x) { return from_si<Area>(x); }
Permeance permeance(double g_per_m2_day_kpa) {
    return from_si<Permeance>(g_per_m2_day_kpa / 1000 / 86400 / 1000);
}
double days(Time t) { return to_si(t) / 86400; }
double ps(double t) { return to_si(saturation_pressure(celsius(t))) / 1000; }

TEST(Permeance, from_a_rated_transmission) {
    // 38 °C, 90 %: ps 6.632 kPa (steam tables), so 5 g/(m² day) is 5/(0.9·6.632) = 0.8377 g/(m² day kPa).
    const auto of = [](double rh) {
        return [=] {
            return film_permeance(from_si<MassFlux>(5e-3 / 86400), celsius(38), RelativeHumidity(rh));
        };
    };
    EXPECT_TRUE(near(to_si(of(0.9)()), to_si(permeance(0.8377)), 1e-3));
    EXPECT_EQ(refused<BadInput>(of(0)), "rh");
    // ASTM E96: 1 g/(m² day mmHg) is 8.6813e-11 kg/(m² s Pa).
    EXPECT_TRUE(near(to_si(permeance(1 / 0.133322368)), 8.6813e-11, 1e-4));
}

TEST(Shelf, linear_isotherm_has_the_closed_form) {
    // Labuza, Mizrahi & Karel (1972): ln[(me − mi)/(me − mc)] = (P A/ms)(p0/b) t. The straight isotherm X =
    // 0.1 aw is a Peleg pair with exponents 1; at 80 % me = 0.08, from 0.02 to 0.05 is ln 2.
    const P straight{0.04, 1, 0.06, 1};
    const double expected = std::log(2.0) * 100 * 0.1 / (1.2 * 0.05 * ps(25));
    const auto t = shelf_time(grams(100), MoistureDry(0.02), MoistureDry(0.05), Model::peleg, straight,
                              m2(0.05), permeance(1.2), celsius(25), RelativeHumidity(0.8));
    EXPECT_TRUE(near(days(t), expected, 1e-8));
}

TEST(Shelf, henderson_with_exponent_1_has_the_closed_form) {
    // aw = 1 − exp(−a X): ∫ dX/(rh − aw) = ln[(1 − c e^{a X0})/(1 − c e^{a Xc})]/(a c), c = 1 − rh
    const double a = 12, c = 0.3, X0 = 0.01, Xc = 0.09;
    const double integral = std::log((1 - c * std::exp(a * X0)) / (1 - c * std::exp(a * Xc))) / (a * c);
    const auto t = shelf_time(grams(250), MoistureDry(X0), MoistureDry(Xc), Model::henderson, P{a, 1},
                              m2(0.08), permeance(0.7), celsius(30), RelativeHumidity(1 - c));
    EXPECT_TRUE(near(days(t), 250 * integral / (0.7 * 0.08 * ps(30)), 1e-8));
}

TEST(Shelf, agrees_with_the_uptake_integrated_over_time) {
    const auto rows = reference("pack_uptake.csv", ',');
    for (std::size_t r = 1; r < rows.size(); ++r) {
        std::vector<double> v;
        for (const auto& cell : rows[r]) v.push_back(std::stod(cell));
        const P gab{v[0], v[1], v[2]};
        const auto t = shelf_time(grams(v[3]), MoistureDry(v[4]), MoistureDry(v[5]), Model::gab, gab,
                                  m2(v[6]), permeance(v[7]), celsius(v[8]), RelativeHumidity(v[9]));
        EXPECT_TRUE(near(days(t), v[10], 1e-4)) << r;  // IF97 and IAPWS-95 differ by 1e-5
        const auto film = barrier_for(t, grams(v[3]), MoistureDry(v[4]), MoistureDry(v[5]), Model::gab, gab,
                                      m2(v[6]), celsius(v[8]), RelativeHumidity(v[9]));
        EXPECT_TRUE(near(to_si(film), to_si(permeance(v[7])), 1e-12)) << r;
    }
}

TEST(Shelf, balances) {
    const P gab{0.1, 10, 0.8};
    const auto t = [&](double solids, double start, double limit, double area, double p, double rh) {
        return days(shelf_time(grams(solids), MoistureDry(start), MoistureDry(limit), Model::gab, gab,
                               m2(area), permeance(p), celsius(25), RelativeHumidity(rh)));
    };
    const double whole = t(100, 0.05, 0.12, 0.06, 1, 0.75);
    EXPECT_TRUE(near(t(100, 0.05, 0.08, 0.06, 1, 0.75) + t(100, 0.08, 0.12, 0.06, 1, 0.75), whole, 1e-8));
    EXPECT_TRUE(near(t(200, 0.05, 0.12, 0.06, 2, 0.75), whole, 1e-12));
    EXPECT_LT(t(100, 0.05, 0.12, 0.06, 1, 0.85), whole);
    // Close to equilibrium it takes ever longer, and still has an end.
    const double x_at_75 = equilibrium_moisture(Model::gab, WaterActivity(0.75), gab).value();
    double before = whole;
    for (const double gap : {1e-3, 1e-6, 1e-9, 1e-12}) {
        const double longer = t(100, 0.05, x_at_75 - gap, 0.06, 1, 0.75);
        EXPECT_GT(longer, before);
        // Three decades nearer cost ln(1000) times dX/daw at 75 % each.
        if (gap < 1e-4) {
            const double slope =
                (x_at_75 - equilibrium_moisture(Model::gab, WaterActivity(0.75 - 1e-6), gab).value()) / 1e-6;
            EXPECT_TRUE(near(longer - before, 100 * slope * std::log(1000) / (0.06 * ps(25)), 5e-3)) << gap;
        }
        before = longer;
    }
}

TEST(Shelf, is_additive_along_every_isotherm) {
    const std::pair<Model, P> isotherms[] = {
        {Model::gab, {0.1, 10, 0.8}},
        {Model::bet, {0.05, 12}},
        {Model::oswin, {0.12, 0.4}},
        {Model::halsey, {0.02, 1.8}},
        {Model::henderson, {60, 1.7}},
        {Model::peleg, {0.12, 0.6, 0.2, 8}},
        {Model::modified_henderson, {1e-4, 2, 50}},
        {Model::modified_chung_pfost, {400, 0.2, 70}},
        {Model::modified_halsey, {4, -0.01, 2}},
        {Model::modified_oswin, {12, -0.05, 3}},
    };
    const auto t = [](Model model, const P& p, double start, double limit) {
        return days(shelf_time(grams(100), MoistureDry(start), MoistureDry(limit), model, p, m2(0.05),
                               permeance(1), celsius(25), RelativeHumidity(0.8)));
    };
    for (const auto& [model, p] : isotherms) {
        SCOPED_TRACE(info(model).name);
        const double limit = equilibrium_moisture(model, WaterActivity(0.78), p, celsius(25)).value();
        double parts = 0;
        for (int i = 0; i < 10; ++i) parts += t(model, p, limit * i / 10, limit * (i + 1) / 10);
        EXPECT_TRUE(near(t(model, p, 0, limit), parts, 1e-8));
    }
}

TEST(Shelf, very_dry_food) {
    // Halsey's activity in very dry food is next to nothing: there the time is the moisture taken up over the
    // store's humidity.
    const P halsey{0.0177893, 2.78577};
    const auto t = days(shelf_time(grams(100), MoistureDry(0), MoistureDry(0.02), Model::halsey, halsey,
                                   m2(0.05), permeance(1), celsius(25), RelativeHumidity(0.3)));
    EXPECT_TRUE(near(t, 100 * 0.02 / 0.3 / (0.05 * ps(25)), 1e-9));
    // The whole by SciPy 1.10.1: quad(1/(0.279326 − exp(−a X^−b)), 0, the moisture at 0.0577230854756).
    const double limit = std::pow(halsey[0] / -std::log(0.0577230854756), 1 / halsey[1]);
    const auto whole = days(shelf_time(grams(100), MoistureDry(0), MoistureDry(limit), Model::halsey, halsey,
                                       m2(0.05), permeance(1), celsius(25), RelativeHumidity(0.279326)));
    EXPECT_TRUE(near(whole, 100 * 0.5909110270934654 / (0.05 * ps(25)), 1e-8));
}

TEST(Shelf, refusals) {
    const P gab{0.1, 10, 0.8};
    const auto t = [&](double start, double limit, double area, double p, double rh) {
        return [=] {
            return shelf_time(grams(100), MoistureDry(start), MoistureDry(limit), Model::gab, gab, m2(area),
                              permeance(p), celsius(25), RelativeHumidity(rh));
        };
    };
    EXPECT_EQ(refused<BadInput>(t(0.12, 0.12, 0.06, 1, 0.75)), "limit_db");
    EXPECT_EQ(refused<BadInput>(t(0.05, 0.12, 0, 1, 0.75)), "area");
    EXPECT_EQ(refused<BadInput>(t(0.05, 0.12, 0.06, 0, 0.75)), "permeance");
    EXPECT_EQ(refused<BadInput>(t(0.05, 0.12, 0.06, 1, 0.35)), "limit_db");  // 35 % air never brings it there
    EXPECT_EQ(refused<OutOfRange>(t(0.05, 2, 0.06, 1, 0.75)), "limit_db");
    const auto bare = [&] {
        return barrier_for(from_si<Time>(0), grams(100), MoistureDry(0.05), MoistureDry(0.12), Model::gab,
                           gab, m2(0.06), celsius(25), RelativeHumidity(0.75));
    };
    EXPECT_EQ(refused<BadInput>(bare), "days");
}

TEST(Desiccant, takes_up_what_passes_the_film) {
    // Çengel & Ghajar, Heat and Mass Transfer 5e, ch. 14, review problem: 2.86e-9 kg/(s m² Pa), 3 m by 8 m,
    // 20 °C and 60 % inside, dry outside, 24 h; with 2339.2 Pa by hand 8.324 kg. A desiccant that takes its
    // own mass is that mass.
    const auto mass = [](double out, double in, double capacity) {
        return [=] {
            return desiccant_mass(from_si<Time>(86400), m2(24), from_si<Permeance>(2.86e-9), celsius(20),
                                  RelativeHumidity(out), RelativeHumidity(in), MoistureDry(capacity));
        };
    };
    EXPECT_TRUE(near(to_si(mass(0.6, 0, 1)()), 2.86e-9 * 24 * 0.6 * 2339.2 * 86400, 1e-4));
    EXPECT_TRUE(near(to_si(mass(0.6, 0.3, 0.2)()), 8.32 / 2 / 0.2, 1e-3));
    EXPECT_EQ(refused<BadInput>(mass(0.6, 0.6, 0.2)), "rh_in");
    EXPECT_EQ(refused<BadInput>(mass(0.6, 0.3, 0)), "capacity");
}

}  // namespace
}  // namespace drysheet
