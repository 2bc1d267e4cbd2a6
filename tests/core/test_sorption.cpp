// SPDX-License-Identifier: MPL-2.0
// Isotherms against published tables, in both directions; fits against SciPy and published constants.
#include <algorithm>
#include <map>

#include "drysheet/sorption.hpp"
#include "tests/core/shared.hpp"

namespace drysheet {
namespace {

using test::near;
using test::reference;
using test::refused;
using test::within;
using Model = IsothermModel;
using P = std::vector<double>;

Temperature celsius(double t) { return from_si<Temperature>(t + 273.15); }
Temperature fahrenheit(double t) { return celsius((t - 32) / 1.8); }
double wet_percent(MoistureDry x) { return 100 * x.value() / (1 + x.value()); }
MoistureDry from_wet_percent(double w) { return MoistureDry(w / (100 - w)); }
Model model_called(std::string_view name) {
    const auto found = std::ranges::find(isotherm_models(), name, &IsothermModelInfo::name);
    EXPECT_NE(found, isotherm_models().end()) << name;
    return static_cast<Model>(found - isotherm_models().begin());
}

// ASAE D245.5, Table 2: soybean, durum and corn's Henderson constants as public programs quote it; corn's
// Chung-Pfost constants and rice's from memory. The printed tables below confirm those of corn, soybean, rice
// and durum.
const P kCornHenderson{8.6541e-5, 1.8634, 49.810}, kCornChungPfost{312.40, 0.16958, 30.205},
    kSoybean{2.87, -0.0054, 1.38}, kLongGrainRice{4.1276e-5, 2.1191, 49.828},
    kDurum{13.101, -0.052626, 2.9987};

TEST(Sorption, corn_of_the_grain_standard) {
    // Printed table of shelled corn: 126 values to 0.1 % wet basis, so within 0.05.
    const auto rows = reference("grain_equilibrium_corn_wb.csv", ',');
    for (std::size_t r = 1; r < rows.size(); ++r)
        for (std::size_t c = 1; c < rows[r].size(); ++c) {
            const auto x =
                equilibrium_moisture(Model::modified_henderson, WaterActivity(std::stod(rows[0][c]) / 100),
                                     kCornHenderson, fahrenheit(std::stod(rows[r][0])));
            EXPECT_TRUE(within(wet_percent(x), std::stod(rows[r][c]), 0.05))
                << rows[r][0] << " F " << rows[0][c];
        }
}

TEST(Sorption, soybean_rice_and_durum_of_the_grain_standard) {
    // Wikipedia, Equilibrium moisture content, table of grains: 40 values to 0.1 % wet basis.
    const std::map<std::string, std::pair<Model, P>> grains{
        {"soybean", {Model::modified_halsey, kSoybean}},
        {"long grain rice", {Model::modified_henderson, kLongGrainRice}},
        {"durum wheat", {Model::modified_oswin, kDurum}}};
    const auto rows = reference("grain_equilibrium_wb.csv", ',');
    for (std::size_t r = 1; r < rows.size(); ++r)
        for (std::size_t c = 2; c < rows[r].size(); ++c) {
            const auto& [model, parameters] = grains.at(rows[r][0]);
            const auto x = equilibrium_moisture(model, WaterActivity(std::stod(rows[r][1]) / 100), parameters,
                                                fahrenheit(std::stod(rows[0][c])));
            EXPECT_TRUE(within(wet_percent(x), std::stod(rows[r][c]), 0.06)) << rows[r][0] << rows[r][1];
        }
}

TEST(Sorption, chung_pfost_and_henderson_agree_on_corn) {
    // ASAE D245.5: both forms fit corn. By hand: ln(312.40/(55.205 · 0.356675))/0.16958 = 16.30 % db.
    const auto chung =
        equilibrium_moisture(Model::modified_chung_pfost, WaterActivity(0.70), kCornChungPfost, celsius(25));
    EXPECT_TRUE(within(100 * chung.value(), 16.30, 0.005));
    for (const double aw : {0.5, 0.6, 0.7, 0.8}) {
        const auto a = equilibrium_moisture(Model::modified_chung_pfost, WaterActivity(aw), kCornChungPfost,
                                            celsius(25));
        const auto b =
            equilibrium_moisture(Model::modified_henderson, WaterActivity(aw), kCornHenderson, celsius(25));
        EXPECT_TRUE(within(a.value(), b.value(), 0.004)) << aw;
    }
}

TEST(Sorption, rival_models_fitted_to_one_product_agree) {
    // Korean J. Food Preserv. 25(6):627 (2018), Table 1: four models of one measured isotherm. In mid range
    // they must tell much the same; a swapped parameter would not.
    const auto rows = reference("isotherm_parameters.csv", ',');
    for (std::size_t c = 2; c < rows[0].size(); ++c) {
        std::map<std::string, double> p;
        for (std::size_t r = 1; r < rows.size(); ++r)
            p[rows[r][0] + " " + rows[r][1]] = std::stod(rows[r][c]);
        const WaterActivity aw(0.5);
        const double gab =
            equilibrium_moisture(Model::gab, aw, P{p["GAB m0"], p["GAB C"], p["GAB K"]}).value();
        const double bet = equilibrium_moisture(Model::bet, aw, P{p["BET m0"], p["BET C"]}).value();
        const double halsey =
            equilibrium_moisture(Model::halsey, aw, P{p["Halsey A"], p["Halsey B"]}).value();
        const double henderson =
            equilibrium_moisture(Model::henderson, aw, P{p["Henderson A"], p["Henderson B"]}).value();
        EXPECT_TRUE(near(bet, gab, 0.12)) << rows[0][c];
        EXPECT_TRUE(near(halsey, gab, 0.15)) << rows[0][c];
        EXPECT_TRUE(near(henderson, gab, 0.25)) << rows[0][c];
    }
}

TEST(Sorption, by_hand) {
    // GAB 0.1, 10, 0.8 at 0.5: u = 0.4; 0.1·10·0.4 / (0.6·(0.6 + 4)) = 0.4/2.76
    EXPECT_TRUE(near(equilibrium_moisture(Model::gab, WaterActivity(0.5), P{0.1, 10, 0.8}).value(),
                     0.4 / 2.76, 1e-14));
    // BET 0.06, 20 at 0.25: 0.06·20·0.25 / (0.75·(0.75 + 5)) = 0.3/4.3125
    EXPECT_TRUE(near(equilibrium_moisture(Model::bet, WaterActivity(0.25), P{0.06, 20}).value(), 0.3 / 4.3125,
                     1e-14));
    // Oswin 0.12, 0.5 at 0.8: 0.12·√4
    EXPECT_TRUE(
        near(equilibrium_moisture(Model::oswin, WaterActivity(0.8), P{0.12, 0.5}).value(), 0.24, 1e-14));
    // Halsey a = 0.02, b = 2 at X = 0.1: aw = exp(−2)
    EXPECT_TRUE(
        near(water_activity(Model::halsey, MoistureDry(0.1), P{0.02, 2}).value(), std::exp(-2.0), 1e-14));
    // Henderson a = 30, b = 2 at X = 0.1: aw = 1 − exp(−0.3)
    EXPECT_TRUE(near(water_activity(Model::henderson, MoistureDry(0.1), P{30, 2}).value(), 1 - std::exp(-0.3),
                     1e-14));
    // Peleg 0.1, 0.5, 0.2, 4 at 0.25: 0.1·0.5 + 0.2/256
    EXPECT_TRUE(near(equilibrium_moisture(Model::peleg, WaterActivity(0.25), P{0.1, 0.5, 0.2, 4}).value(),
                     0.05 + 0.2 / 256, 1e-14));
    // GAB with K = 1 is BET; with C = 2 it is 2 Xm u / (1 − u²).
    EXPECT_TRUE(near(equilibrium_moisture(Model::gab, WaterActivity(0.3), P{0.06, 20, 1}).value(),
                     equilibrium_moisture(Model::bet, WaterActivity(0.3), P{0.06, 20}).value(), 1e-15));
    EXPECT_TRUE(
        near(water_activity(Model::gab, MoistureDry(2 * 0.1 * 0.4 / (1 - 0.16)), P{0.1, 2, 0.8}).value(), 0.5,
             1e-14));
}

struct Example {
    Model model;
    P parameters;
};
const std::vector<Example> kExamples{{Model::gab, {0.1, 10, 0.8}},
                                     {Model::gab, {0.2, 11.84, 1.143}},
                                     {Model::gab, {0.1, 0.5, 0.9}},
                                     {Model::gab, {0.1, 1, 0.9}},
                                     {Model::gab, {0.1, 2, 0.9}},
                                     {Model::gab, {0.08, 500, 0.95}},
                                     {Model::bet, {0.06, 20}},
                                     {Model::oswin, {0.12, 0.5}},
                                     {Model::halsey, {0.02, 2}},
                                     {Model::henderson, {30, 2}},
                                     {Model::peleg, {0.1, 0.5, 0.2, 4}},
                                     {Model::modified_henderson, kCornHenderson},
                                     {Model::modified_chung_pfost, kCornChungPfost},
                                     {Model::modified_halsey, kSoybean},
                                     {Model::modified_oswin, kDurum}};

TEST(Sorption, inverses_return_and_moisture_rises_with_activity) {
    for (const auto& [model, parameters] : kExamples) {
        double before = 0;
        for (double aw = 0.05; aw < 0.875; aw += 0.05) {
            const auto x = equilibrium_moisture(model, WaterActivity(aw), parameters, celsius(25));
            EXPECT_GT(x.value(), before) << info(model).name << " at " << aw;
            before = x.value();
            EXPECT_TRUE(near(water_activity(model, x, parameters, celsius(25)).value(), aw, 1e-9))
                << info(model).name << " at " << aw;
        }
    }
}

TEST(Sorption, dry_end) {
    for (const auto& [model, parameters] : kExamples) {
        if (model == Model::modified_chung_pfost) continue;
        EXPECT_EQ(equilibrium_moisture(model, WaterActivity(0), parameters, celsius(25)).value(), 0)
            << info(model).name;
        EXPECT_EQ(water_activity(model, MoistureDry(0), parameters, celsius(25)).value(), 0)
            << info(model).name;
        const auto trace = equilibrium_moisture(model, WaterActivity(1e-9), parameters, celsius(25));
        EXPECT_TRUE(near(water_activity(model, trace, parameters, celsius(25)).value(), 1e-9, 1e-9))
            << info(model).name;
    }
    // Chung–Pfost has an activity of exp(−A/(t + C)) in bone-dry material and no moisture below that.
    const double lowest = std::exp(-312.40 / (25 + 30.205));
    EXPECT_TRUE(near(
        water_activity(Model::modified_chung_pfost, MoistureDry(0), kCornChungPfost, celsius(25)).value(),
        lowest, 1e-13));
    const auto below = [&] {
        return equilibrium_moisture(Model::modified_chung_pfost, WaterActivity(0.9 * lowest), kCornChungPfost,
                                    celsius(25));
    };
    EXPECT_EQ(refused<OutOfRange>(below), "activity");
}

TEST(Sorption, poles_are_refused) {
    const auto at = [](Model model, double aw, const P& p) {
        return [=] { return equilibrium_moisture(model, WaterActivity(aw), p, celsius(25)); };
    };
    for (const auto& [model, parameters] : kExamples) {
        if (model == Model::peleg || (model == Model::gab && parameters[2] < 1)) {
            EXPECT_NO_THROW(at(model, 1, parameters)());
        } else {
            EXPECT_EQ(refused<OutOfRange>(at(model, 1, parameters)), "activity") << info(model).name;
        }
    }
    const P past_one{0.2, 11.84, 1.143};  // pole at 1/1.143 = 0.8749
    EXPECT_EQ(refused<OutOfRange>(at(Model::gab, 0.875, past_one)), "activity");
    EXPECT_NO_THROW(at(Model::gab, 0.8748, past_one)());
    EXPECT_EQ(refused<OutOfRange>(at(Model::gab, 0.8, P{0.1, 10, 1.25})), "activity");  // exactly at 1/K
    // A moisture above that at aw = 1 belongs to no activity.
    const auto wetter = [](Model model, double x, const P& p) {
        return [=] { return water_activity(model, MoistureDry(x), p); };
    };
    EXPECT_EQ(refused<OutOfRange>(wetter(Model::peleg, 0.31, {0.1, 0.5, 0.2, 4})), "moisture_db");
    EXPECT_EQ(refused<OutOfRange>(wetter(Model::gab, 2, {0.1, 10, 0.8})), "moisture_db");
    EXPECT_EQ(wetter(Model::peleg, 0.1 + 0.2, {0.1, 0.5, 0.2, 4})().value(), 1);
}

TEST(Sorption, parameters_are_checked) {
    const auto with = [](Model model, const P& p, std::optional<Temperature> temp = {}) {
        return [=] { return equilibrium_moisture(model, WaterActivity(0.5), p, temp); };
    };
    EXPECT_EQ(refused<BadInput>(with(Model::gab, {0.1, 10})), "parameters");
    EXPECT_EQ(refused<BadInput>(with(Model::gab, {0.1, 10, 0.8, 1})), "parameters");
    EXPECT_EQ(refused<BadInput>(with(Model::gab, {0.1, -10, 0.8})), "parameters");
    EXPECT_EQ(refused<BadInput>(with(Model::gab, {0.1, std::nan(""), 0.8})), "parameters");
    EXPECT_EQ(refused<BadInput>(with(Model::oswin, {0.1, 0})), "parameters");
    EXPECT_EQ(refused<BadInput>(with(Model::modified_henderson, kCornHenderson)), "temp");
    EXPECT_EQ(refused<OutOfRange>(with(Model::modified_henderson, kCornHenderson, celsius(-50))), "temp");
    EXPECT_EQ(refused<OutOfRange>(with(Model::modified_oswin, kDurum, celsius(250))), "temp");
    const P chung{300, 0.2, 30};  // t + C above 0, at 0, below
    EXPECT_NO_THROW(with(Model::modified_chung_pfost, chung, celsius(-29))());
    for (const double t : {-30, -31})
        EXPECT_EQ(refused<OutOfRange>(with(Model::modified_chung_pfost, chung, celsius(t))), "temp") << t;
    EXPECT_EQ(refused<BadInput>(with(Model::modified_halsey, {2.87, -0.0054, -1.38}, celsius(25))),
              "parameters");
}

TEST(Sorption, isosteric_heat) {
    // By hand: R/M = 8.314462618/0.018015268 = 461.523 J/(kg K); ln(0.6/0.5) = 0.1823216;
    // 1/298.15 − 1/318.15 = 2.108466e-4 → 399 083 J/kg
    const auto q = isosteric_heat(WaterActivity(0.5), celsius(25), WaterActivity(0.6), celsius(45));
    EXPECT_TRUE(near(to_si(q), 399083, 1e-4));
    EXPECT_EQ(to_si(isosteric_heat(WaterActivity(0.6), celsius(45), WaterActivity(0.5), celsius(25))),
              to_si(q));
    EXPECT_EQ(to_si(isosteric_heat(WaterActivity(0.5), celsius(25), WaterActivity(0.5), celsius(45))), 0);
    const auto same = [] {
        return isosteric_heat(WaterActivity(0.5), celsius(25), WaterActivity(0.6), celsius(25));
    };
    const auto dry = [] {
        return isosteric_heat(WaterActivity(0), celsius(25), WaterActivity(0.6), celsius(45));
    };
    EXPECT_EQ(refused<BadInput>(same), "temp2");
    EXPECT_EQ(refused<BadInput>(dry), "activity1");
}

TEST(Sorption, growth_bands) {
    // Beuchat (1981) Cereal Foods World 26:345; 21 CFR 114.3: above, not at, 0.85.
    using enum GrowthBand;
    const auto band = [](double aw) { return activity_band(WaterActivity(aw)); };
    EXPECT_EQ(band(0).growth, none);
    EXPECT_EQ(band(0.5999).growth, none);
    EXPECT_EQ(band(0.60).growth, osmophilic_yeasts);
    EXPECT_EQ(band(0.65).growth, xerophilic_moulds);
    EXPECT_EQ(band(0.75).growth, halophilic_bacteria);
    EXPECT_EQ(band(0.80).growth, most_moulds);
    EXPECT_EQ(band(0.87).growth, many_yeasts);
    EXPECT_EQ(band(0.91).growth, many_bacteria);
    EXPECT_EQ(band(0.95).growth, spoilage_bacteria);
    EXPECT_EQ(band(1).growth, spoilage_bacteria);
    EXPECT_FALSE(band(0.85).above_regulator_line);
    EXPECT_TRUE(band(std::nextafter(0.85, 1)).above_regulator_line);
    EXPECT_TRUE(band(0.25).like_a_moisture);  // a moisture of 25 % typed for an activity
    EXPECT_FALSE(band(0.26).like_a_moisture);
}

struct Points {
    std::vector<WaterActivity> aw;
    std::vector<MoistureDry> x;
    std::vector<Temperature> t;
};
Points points_of(const std::string& name) {
    Points d;
    const auto add = [&](double rh, double wb, Temperature t) {
        d.aw.emplace_back(rh / 100);
        d.x.push_back(from_wet_percent(wb));
        d.t.push_back(t);
    };
    const bool corn = name.starts_with("corn");
    const auto rows = reference(corn ? "grain_equilibrium_corn_wb.csv" : "grain_equilibrium_wb.csv", ',');
    for (std::size_t r = 1; r < rows.size(); ++r) {
        if (corn ? name != "corn" && rows[r][0] != "70" : rows[r][0] != name) continue;
        for (std::size_t c = corn ? 1 : 2; c < rows[r].size(); ++c)
            if (corn)
                add(std::stod(rows[0][c]), std::stod(rows[r][c]), fahrenheit(std::stod(rows[r][0])));
            else
                add(std::stod(rows[r][1]), std::stod(rows[r][c]), fahrenheit(std::stod(rows[0][c])));
    }
    if (name == "corn_70F_low") d.aw.resize(5), d.x.resize(5), d.t.resize(5, celsius(0));
    return d;
}

TEST(SorptionFit, agrees_with_scipy) {
    const auto rows = reference("isotherm_fits.csv", ',');
    for (std::size_t r = 1; r < rows.size(); ++r) {
        SCOPED_TRACE(rows[r][0] + " of " + rows[r][1]);
        const Model model = model_called(rows[r][0]);
        const Points d = points_of(rows[r][1]);
        ASSERT_EQ(d.x.size(), std::stoul(rows[r][2]));
        const IsothermFit fit = fit_isotherm(model, d.aw, d.x, d.t);
        const std::size_t n = info(model).parameters.size();
        for (std::size_t k = 0; k < n; ++k) {
            EXPECT_TRUE(near(fit.parameters[k], std::stod(rows[r][3 + k]), 1e-5))
                << info(model).parameters[k];
            EXPECT_TRUE(near(fit.standard_errors[k], std::stod(rows[r][7 + k]), 1e-3))
                << info(model).parameters[k];
        }
        EXPECT_TRUE(near(fit.rmse, std::sqrt(std::stod(rows[r][11]) / std::stod(rows[r][2])), 1e-6));
        EXPECT_TRUE(near(fit.deviation, std::stod(rows[r][12]), 1e-4));
        EXPECT_EQ(fit.points, d.x.size());
    }
}

TEST(SorptionFit, gives_back_the_constants_of_the_grain_standard) {
    // Points printed to 0.1 % from the constants: the fit must hold them within three standard errors.
    const std::map<std::string, std::pair<Model, P>> grains{
        {"corn", {Model::modified_henderson, kCornHenderson}},
        {"soybean", {Model::modified_halsey, kSoybean}},
        {"long grain rice", {Model::modified_henderson, kLongGrainRice}},
        {"durum wheat", {Model::modified_oswin, kDurum}}};
    for (const auto& [name, grain] : grains) {
        const Points d = points_of(name);
        const auto fit = fit_isotherm(grain.first, d.aw, d.x, d.t);
        for (std::size_t k = 0; k < 3; ++k)
            EXPECT_TRUE(within(fit.parameters[k], grain.second[k], 3 * fit.standard_errors[k])) << name << k;
    }
}

TEST(SorptionFit, is_at_least_as_close_as_what_made_the_points) {
    // Every example model with invented errors of 3 %: least squares can only be nearer to the points than
    // the truth.
    std::uint32_t state = 1;
    const auto error = [&state] {  // between −1 and 1, the same on every machine
        state = state * 1664525U + 1013904223U;
        return static_cast<double>(state >> 8U) / (1U << 23U) - 1;
    };
    for (const auto& [model, parameters] : kExamples)
        for (int run = 0; run < 20; ++run) {
            Points d;
            double truth = 0;
            for (const double t : {10.0, 25.0, 40.0})
                for (const double aw : {0.113, 0.225, 0.328, 0.432, 0.529, 0.689, 0.753, 0.843}) {
                    const double x =
                        equilibrium_moisture(model, WaterActivity(aw), parameters, celsius(t)).value();
                    const double seen = x * (1 + 0.03 * error());
                    truth += (seen - x) * (seen - x) / 24;
                    d.aw.emplace_back(aw);
                    d.x.emplace_back(seen);
                    d.t.push_back(celsius(t));
                }
            // A monolayer of C = 500 or of a C near 0 is not in such points: the fit may say so, and only
            // that.
            if (model == Model::gab && (parameters[1] > 100 || parameters[1] <= 1)) {
                try {
                    EXPECT_LE(std::pow(fit_isotherm(model, d.aw, d.x, d.t).rmse, 2), truth * (1 + 1e-9));
                } catch (const NoConvergence& refused) {
                    EXPECT_EQ(refused.argument(), "moistures");
                }
                continue;
            }
            EXPECT_LE(std::pow(fit_isotherm(model, d.aw, d.x, d.t).rmse, 2), truth * (1 + 1e-9))
                << info(model).name;
        }
}

TEST(SorptionFit, says_when_the_points_do_not_determine_it) {
    // BET on the whole range of corn: C runs off (SciPy ends at 1e8 with a standard error of 1e15).
    const Points d = points_of("corn_70F");
    const auto bet = [&] { return fit_isotherm(Model::bet, d.aw, d.x); };
    EXPECT_EQ(refused<NoConvergence>(bet), "moistures");
}

// A model of more parameters than the points allow is passed over when a better one is looked for.
TEST(SorptionFit, as_many_points_as_a_rival_has_parameters) {
    Points d = points_of("corn_70F");
    d.aw.resize(4), d.x.resize(4);  // the four of Peleg
    EXPECT_EQ(fit_isotherm(Model::gab, d.aw, d.x).parameters.size(), 3u);
}

TEST(SorptionFit, refusals) {
    Points d = points_of("corn_70F");
    const auto fit = [&](Model model) { return [&d, model] { return fit_isotherm(model, d.aw, d.x, d.t); }; };
    EXPECT_EQ(refused<BadInput>(fit(Model::modified_henderson)), "temps");  // all at one temperature
    d.t.pop_back();
    EXPECT_EQ(refused<BadInput>(fit(Model::modified_henderson)), "temps");
    d.aw[3] = WaterActivity(1);
    EXPECT_EQ(refused<BadInput>(fit(Model::gab)), "activities");
    d.aw[3] = WaterActivity(0.4);
    d.x[2] = MoistureDry(0);
    EXPECT_EQ(refused<BadInput>(fit(Model::gab)), "moistures");
    d.x.resize(3), d.aw.resize(3);
    d.x[2] = MoistureDry(0.1);
    EXPECT_EQ(refused<BadInput>(fit(Model::gab)), "moistures");  // three points, three parameters
    d.x.pop_back();
    EXPECT_EQ(refused<BadInput>(fit(Model::gab)), "moistures");
}

}  // namespace
}  // namespace drysheet
