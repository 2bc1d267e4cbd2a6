// SPDX-License-Identifier: MPL-2.0
// Curve models, their inverses, fits and ranking.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <vector>

#include "drysheet/kinetics.hpp"
#include "tests/core/shared.hpp"

using namespace drysheet;
using namespace drysheet::test;

namespace {

struct Columns {
    std::vector<Time> times;
    std::vector<MoistureRatio> ratios;
};
/// A curve of ours with a wave of `noise` on it.
Columns made(CurveModel model, const std::vector<double>& p, double noise, std::size_t n = 40) {
    Columns made;
    for (std::size_t i = 0; i < n; ++i) {
        made.times.push_back(hours(0.25 * static_cast<double>(i)));
        const double wave = noise * std::sin(17.0 * static_cast<double>(i));
        made.ratios.emplace_back(curve(model, made.times.back(), p).value() + wave);
    }
    return made;
}
Columns hemlock() {
    Columns made;
    for (const auto& row : read_csv("hemlock_drying.csv")) {
        made.times.push_back(hours(std::stod(row[0])));
        made.ratios.emplace_back((std::stod(row[1]) - 6.6) / (127 - 6.6));
    }
    return made;
}
CurveModel named(std::string_view name) {
    const auto models = curve_models();
    const auto found = std::ranges::find(models, name, &CurveModelInfo::name);
    EXPECT_NE(found, models.end()) << name;
    return static_cast<CurveModel>(found - models.begin());
}

struct Example {
    CurveModel model;
    std::vector<double> parameters;
};
const std::vector<Example> kExamples{
    {CurveModel::lewis, {0.4}},
    {CurveModel::page, {0.5, 0.8}},
    {CurveModel::henderson_pabis, {0.95, 0.4}},
    {CurveModel::logarithmic, {1.2, 0.3, -0.15}},
    {CurveModel::two_term, {0.4, 1.5, 0.6, 0.25}},
    {CurveModel::midilli, {0.98, 0.4, 1.1, -0.002}},
    {CurveModel::weibull, {2.5, 0.9}},
    {CurveModel::verma, {0.3, 1.6, 0.3}},
};

}  // namespace

// By hand, from the formulas of the papers that curve_models() names.
TEST(Curve, values_by_hand) {
    const auto at = [](CurveModel model, double t, std::vector<double> p) {
        return curve(model, hours(t), p).value();
    };
    // exp(−0.5 · 2) = e⁻¹ = 0.36787944117144233
    EXPECT_NEAR(at(CurveModel::lewis, 2, {0.5}), 0.36787944117144233, 1e-15);
    // exp(−0.5 · 4^0.5) = e⁻¹; exp(−(4/4)^0.5) = e⁻¹
    EXPECT_NEAR(at(CurveModel::page, 4, {0.5, 0.5}), 0.36787944117144233, 1e-15);
    EXPECT_NEAR(at(CurveModel::weibull, 4, {4, 0.5}), 0.36787944117144233, 1e-15);
    // 2 e⁻¹; 2 e⁻¹ + 0.1; e⁻¹ + 0.5 e⁻²; 2 e⁻¹ + 0.1 · 4; 0.25 e⁻¹ + 0.75 e⁻²  (e⁻² = 0.1353352832366127)
    EXPECT_NEAR(at(CurveModel::henderson_pabis, 2, {2, 0.5}), 0.73575888234288467, 1e-15);
    EXPECT_NEAR(at(CurveModel::logarithmic, 2, {2, 0.5, 0.1}), 0.83575888234288467, 1e-15);
    EXPECT_NEAR(at(CurveModel::two_term, 2, {1, 0.5, 0.5, 1}), 0.43554708278974868, 1e-15);
    EXPECT_NEAR(at(CurveModel::midilli, 4, {2, 0.5, 0.5, 0.1}), 1.13575888234288467, 1e-15);
    EXPECT_NEAR(at(CurveModel::verma, 2, {0.25, 0.5, 1}), 0.19347132272032012, 1e-15);
}

TEST(Curve, starts_where_the_formula_says) {
    const std::vector<double> first{1, 1, 0.95, 1.05, 1, 0.98, 1, 1};
    for (std::size_t i = 0; i < kExamples.size(); ++i) {
        EXPECT_NEAR(curve(kExamples[i].model, hours(0), kExamples[i].parameters).value(), first[i], 1e-14)
            << info(kExamples[i].model).name;
    }
}

TEST(CurveTime, is_the_inverse_of_the_curve) {
    for (const auto& [model, p] : kExamples) {
        for (double t : {0.01, 0.5, 1.0, 3.0, 9.0}) {
            const MoistureRatio ratio = curve(model, hours(t), p);
            EXPECT_NEAR(curve_time(model, ratio, p).value() / hours(t).value(), 1, 1e-9)
                << info(model).name << " at " << t;
        }
        EXPECT_EQ(curve_time(model, curve(model, hours(0), p), p).value(), 0) << info(model).name;
    }
}

// The examples, a thousand times slower or ten thousand times faster: the same ratio after as much longer.
TEST(CurveTime, goes_with_the_time_scale) {
    for (const double scale : {1e3, 1e-4}) {
        const double k = 1 / scale, n = std::pow(k, 0.8), m = std::pow(k, 1.1);
        const std::vector<std::vector<double>> scaled{{0.4 * k},
                                                      {0.5 * n, 0.8},
                                                      {0.95, 0.4 * k},
                                                      {1.2, 0.3 * k, -0.15},
                                                      {0.4, 1.5 * k, 0.6, 0.25 * k},
                                                      {0.98, 0.4 * m, 1.1, -2e-3 * k},
                                                      {2.5 * scale, 0.9},
                                                      {0.3, 1.6 * k, 0.3 * k}};
        for (std::size_t i = 0; i < kExamples.size(); ++i)
            for (const double ratio : {0.8, 0.5, 0.05})
                EXPECT_TRUE(test::near(
                    curve_time(kExamples[i].model, MoistureRatio(ratio), scaled[i]).value(),
                    scale *
                        curve_time(kExamples[i].model, MoistureRatio(ratio), kExamples[i].parameters).value(),
                    1e-9))
                    << info(kExamples[i].model).name << " at " << ratio;
    }
}

// ln 2 over k: half of an exponential. By hand.
TEST(CurveTime, half_time_of_an_exponential) {
    // Two rates far apart, by hand: the fast part is gone, 0.9 exp(-0.001 t) = 0.1; or nearly nothing of the
    // slow one, 0.9 exp(-10 t) + 0.1 = 0.5.
    for (const auto& [model, p] : {std::pair{CurveModel::verma, std::vector{0.9, 0.001, 10.0}},
                                   {CurveModel::verma, std::vector{0.1, 10.0, 0.001}},
                                   {CurveModel::two_term, std::vector{0.9, 0.001, 0.1, 10.0}}})
        EXPECT_NEAR(curve_time(model, MoistureRatio(0.1), p).value() / 3600, std::log(9) / 0.001, 1e-6);
    for (const auto& p : {std::vector{0.9, 10.0, 1e-9}, std::vector{0.1, 1e-9, 10.0}})
        EXPECT_NEAR(curve_time(CurveModel::verma, MoistureRatio(0.5), p).value() / 3600,
                    std::log(9 / 4.) / 10, 1e-6);
    EXPECT_NEAR(curve_time(CurveModel::lewis, MoistureRatio(0.5), std::array{0.2}).value() / 3600,
                3.4657359027997265, 1e-13);
}

TEST(CurveTime, says_when_the_curve_never_gets_there) {
    const auto time = [](CurveModel model, double ratio, std::vector<double> p) {
        return [=] { curve_time(model, MoistureRatio(ratio), p); };
    };
    expect_refused(time(CurveModel::logarithmic, 0.04, {0.95, 0.5, 0.05}), "ratio");
    expect_refused(time(CurveModel::lewis, 0, {0.5}), "ratio");
    expect_refused(time(CurveModel::lewis, 1.01, {0.5}), "ratio");
    // Midilli with b above 0 has a least value; this one is about 0.06.
    expect_refused(time(CurveModel::midilli, 0.02, {1, 0.5, 1, 0.01}), "ratio");
    EXPECT_THROW(time(CurveModel::midilli, 0.02, {1, 0.5, 1, 0.01})(), NoConvergence);
    EXPECT_THROW(time(CurveModel::lewis, 1.01, {0.5})(), BadInput);
}

TEST(Curve, refuses_impossible_parameters) {
    expect_refused([] { curve(CurveModel::page, hours(1), std::array{0.5}); }, "parameters");
    expect_refused([] { curve(CurveModel::page, hours(1), std::array{-0.5, 1.0}); }, "parameters");
    expect_refused([] { curve(CurveModel::page, hours(1), std::array{0.5, 0.0}); }, "parameters");
    expect_refused([] { curve(CurveModel::page, hours(1), std::array{0.5, std::nan("")}); }, "parameters");
    expect_refused([] { curve(CurveModel::lewis, hours(-1), std::array{0.5}); }, "time");
}

TEST(CurveFit, finds_the_parameters_of_exact_data) {
    for (const auto& [model, p] : kExamples) {
        const Columns data = made(model, p, 0);
        const auto& times = data.times;
        const auto& ratios = data.ratios;
        const auto fit = curve_fit(model, times, ratios);
        for (std::size_t k = 0; k < p.size(); ++k) {
            EXPECT_NEAR(fit.parameters[k], p[k], 1e-8) << info(model).name << " parameter " << k;
        }
    }
}

// Gilliland and Sherwood's hemlock board (Seader and Henley, 2nd ed, problem 18.4), fitted by
// scipy.optimize.curve_fit: tests/reference/make_hemlock_fits.py. Parameters, standard errors, rmse and AICc.
TEST(CurveFit, agrees_with_scipy_on_published_data) {
    const Columns data = hemlock();
    const auto& times = data.times;
    const auto& ratios = data.ratios;
    std::vector<Mass> masses;
    for (const auto& ratio : ratios) masses.push_back(grams(100 + 6.6 + ratio.value() * (127 - 6.6)));
    for (const auto& row : read_csv("hemlock_fits.csv")) {
        if (row[0] == "slab") continue;
        SCOPED_TRACE(row[0]);
        const bool run = row[0].starts_with("run ");
        const auto fit = run ? run_fit(named(row[0].substr(4)), times, masses, grams(100), MoistureDry(0.066))
                             : curve_fit(named(row[0]), times, ratios);
        EXPECT_NEAR(fit.rmse / std::stod(row[1]), 1, 1e-8);
        EXPECT_NEAR(fit.aicc / std::stod(row[2]), 1, 1e-8);
        for (std::size_t k = 0; k < fit.parameters.size(); ++k) {
            EXPECT_NEAR(fit.parameters[k] / std::stod(row[3 + 3 * k]), 1, 1e-5);
            EXPECT_NEAR(fit.standard_errors[k] / std::stod(row[4 + 3 * k]), 1, 1e-4);
            EXPECT_NEAR(fit.robust_errors[k] / std::stod(row[5 + 3 * k]), 1, 1e-4);
        }
    }
}

// The faster of two terms comes first, whatever the search found.
TEST(CurveFit, puts_the_faster_term_first) {
    const Columns data = made(CurveModel::two_term, {0.6, 0.25, 0.4, 1.5}, 1e-3);
    const auto& times = data.times;
    const auto& ratios = data.ratios;
    const auto two = curve_fit(CurveModel::two_term, times, ratios);
    EXPECT_GT(two.parameters[1], two.parameters[3]);
    EXPECT_NEAR(two.parameters[0], 0.4, 0.01);
    const auto [t, y] = made(CurveModel::verma, {0.7, 0.3, 1.6}, 1e-3);
    const auto verma = curve_fit(CurveModel::verma, t, y);
    EXPECT_NEAR(verma.parameters[0], 0.3, 0.01);
    EXPECT_NEAR(verma.parameters[1], 1.6, 0.05);
}

TEST(CurveFit, refuses_what_it_cannot_tell) {
    // One exponential holds no second one.
    const Columns data = made(CurveModel::lewis, {0.4}, 1e-3);
    const auto& times = data.times;
    const auto& ratios = data.ratios;
    expect_refused([&] { curve_fit(CurveModel::two_term, times, ratios); }, "ratios");
    expect_refused([&] { curve_fit(CurveModel::verma, times, ratios); }, "ratios");
    // Two points for two parameters; a column that is shorter; a time before the start; a flat run.
    expect_refused(
        [&] { curve_fit(CurveModel::page, std::span(times).first(2), std::span(ratios).first(2)); },
        "ratios");
    expect_refused([&] { curve_fit(CurveModel::page, times, std::span(ratios).first(2)); }, "ratios");
    auto early = times;
    early[0] = hours(-1);
    expect_refused([&] { curve_fit(CurveModel::page, early, ratios); }, "times");
    const std::vector<MoistureRatio> flat(times.size(), MoistureRatio(0.5));
    expect_refused([&] { curve_fit(CurveModel::page, times, flat); }, "ratios");
}

// A ratio of 1 at time 0 is so by definition: with it alone or beside one reading there is nothing to fit.
TEST(CurveFit, takes_a_ratio_of_1_at_time_0_for_no_reading) {
    const std::vector<Time> times{hours(0), hours(1), hours(2), hours(3)};
    const std::vector<MoistureRatio> ratios{MoistureRatio(1), MoistureRatio(0.7), MoistureRatio(0.5),
                                            MoistureRatio(0.34)};
    const auto of = [&](std::size_t from, std::size_t to) {
        return curve_fit(CurveModel::lewis, std::span(times).subspan(from, to - from),
                         std::span(ratios).subspan(from, to - from));
    };
    EXPECT_EQ(of(0, 4).points, 3U);
    EXPECT_EQ(of(0, 4).parameters, of(1, 4).parameters);
    // The ratios have the first weighing's error in common, which the errors of equal noise do not see.
    EXPECT_EQ(of(0, 4).standard_errors, of(1, 4).standard_errors);
    EXPECT_GT(of(0, 4).robust_errors[0], 1.2 * of(1, 4).robust_errors[0]);
    EXPECT_REFUSED("ratios", of(0, 2));
    EXPECT_REFUSED("ratios", of(1, 2));
    EXPECT_EQ(of(0, 3).points, 2U);
}

// What the verdict must find in a run without noise but in its last digit: made by hand, spoilt in one way
// each.
TEST(CurveFit, says_what_speaks_against_the_curve) {
    const auto spoilt = [](auto spoil) {
        Columns data = made(CurveModel::lewis, {0.4}, 1e-3, 20);
        for (std::size_t i = 0; i < 20; ++i) spoil(i, data);
        return curve_fit(CurveModel::lewis, data.times, data.ratios);
    };
    using Kind = numeric::Misfit::Kind;
    EXPECT_EQ(spoilt([](auto, auto&) {}).misfit.kind, Kind::none);
    const auto one = spoilt([](auto i, auto& data) {
        if (i == 12) data.ratios[i] = MoistureRatio(data.ratios[i].value() + 0.05);
    });
    EXPECT_EQ(one.misfit.kind, Kind::one_reading);
    EXPECT_NEAR(one.misfit.size, 0.05, 0.004);
    EXPECT_NEAR(in_hours(one.at), 3, 1e-9);
    const auto step = spoilt([](auto i, auto& data) {
        if (i >= 9) data.ratios[i] = MoistureRatio(data.ratios[i].value() - 0.03);
    });
    EXPECT_EQ(step.misfit.kind, Kind::step);
    EXPECT_NEAR(step.misfit.size, -0.03, 0.004);
    EXPECT_NEAR(in_hours(step.at), 2.25, 1e-9);
    const auto late = spoilt([](auto i, auto& data) {
        if (i > 0) data.times[i] = data.times[i] - hours(0.1);
    });
    EXPECT_EQ(late.misfit.kind, Kind::term);
    EXPECT_NEAR(late.misfit.size, 0.1, 0.02);
    const Columns lag = made(CurveModel::page, {0.3, 1.4}, 1e-3, 20);
    const auto bend = curve_fit(CurveModel::lewis, lag.times, lag.ratios);
    EXPECT_NE(bend.misfit.kind, Kind::none);
    ASSERT_TRUE(bend.better);
    EXPECT_EQ(*bend.better, CurveModel::page);
    EXPECT_GT(bend.better_by, 20);
}

TEST(CurveRank, puts_the_true_model_first_and_the_undetermined_last) {
    const Columns data = made(CurveModel::logarithmic, {1.2, 0.3, -0.2}, 2e-3);
    const auto& times = data.times;
    const auto& ratios = data.ratios;
    const auto ranked = curve_rank(times, ratios);
    EXPECT_EQ(ranked.size(), curve_models().size());
    EXPECT_EQ(ranked.front().model, CurveModel::logarithmic);
    for (std::size_t i = 1; i < ranked.size(); ++i) {
        if (ranked[i].fit) {
            ASSERT_TRUE(ranked[i - 1].fit);
            EXPECT_LE(ranked[i - 1].fit->aicc, ranked[i].fit->aicc + 1e-6);
        }
    }
    const auto one = made(CurveModel::lewis, {0.4}, 1e-3);
    const auto simple = curve_rank(one.times, one.ratios);
    EXPECT_FALSE(simple.back().fit);
    EXPECT_FALSE(simple[simple.size() - 2].fit);
    std::vector<CurveModel> undetermined;  // in the order in which the models are listed
    for (const RankedCurve& curve : simple)
        if (!curve.fit) undetermined.push_back(curve.model);
    EXPECT_TRUE(std::ranges::is_sorted(undetermined));
}

// Page and Weibull are one curve: k = alpha^−beta, n = beta.
TEST(CurveRank, page_and_weibull_tie) {
    const Columns data = hemlock();
    const auto& times = data.times;
    const auto& ratios = data.ratios;
    const auto page = curve_fit(CurveModel::page, times, ratios);
    const auto weibull = curve_fit(CurveModel::weibull, times, ratios);
    EXPECT_NEAR(page.aicc, weibull.aicc, 1e-7);
    EXPECT_NEAR(page.parameters[1] / weibull.parameters[1], 1, 1e-7);
    EXPECT_NEAR(std::pow(weibull.parameters[0], -weibull.parameters[1]) / page.parameters[0], 1, 1e-7);
    const auto ranked = curve_rank(times, ratios);
    const auto at = std::ranges::find(ranked, CurveModel::page, &RankedCurve::model);
    ASSERT_NE(at, ranked.end() - 1);
    EXPECT_EQ((at + 1)->model, CurveModel::weibull);
}

// The parameters do not depend on the order of the points, nor on the clock's unit beyond k's own.
TEST(CurveFit, does_not_depend_on_the_order_of_points) {
    Columns data = hemlock();
    auto& times = data.times;
    auto& ratios = data.ratios;
    const auto forward = curve_fit(CurveModel::midilli, times, ratios);
    std::ranges::reverse(times);
    std::ranges::reverse(ratios);
    const auto backward = curve_fit(CurveModel::midilli, times, ratios);
    for (std::size_t k = 0; k < 4; ++k) EXPECT_NEAR(forward.parameters[k], backward.parameters[k], 1e-6);
}
