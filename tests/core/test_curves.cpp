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

// ln 2 over k: half of an exponential. By hand.
TEST(CurveTime, half_time_of_an_exponential) {
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
    for (const auto& row : read_csv("hemlock_fits.csv")) {
        if (row[0] == "slab") continue;
        SCOPED_TRACE(row[0]);
        const auto fit = curve_fit(named(row[0]), times, ratios);
        EXPECT_NEAR(fit.rmse / std::stod(row[1]), 1, 1e-8);
        EXPECT_NEAR(fit.aicc / std::stod(row[2]), 1, 1e-8);
        for (std::size_t k = 0; k < fit.parameters.size(); ++k) {
            EXPECT_NEAR(fit.parameters[k] / std::stod(row[3 + 2 * k]), 1, 1e-5);
            EXPECT_NEAR(fit.standard_errors[k] / std::stod(row[4 + 2 * k]), 1, 1e-4);
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
    EXPECT_EQ(curve_rank(times, ratios).front().model, CurveModel::page);
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
