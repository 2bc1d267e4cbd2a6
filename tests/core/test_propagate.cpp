// SPDX-License-Identifier: MPL-2.0
#include <cmath>

#include "drysheet/numeric/propagate.hpp"
#include "tests/core/shared.hpp"

namespace drysheet {
namespace {

using numeric::Uncertain;
using test::near;

// JCGM 100:2008 (GUM) example H.1, end gauges, as the documentation of GTC, a library of the Measurement
// Standards Laboratory of New Zealand, has it: l = lS + d - lS (da theta + aS dtheta), in nm, 1/K and K; l =
// 50.000838 mm, u = 32 nm to first order, 34 nm with the second-order terms (H.1.7). u of d: 5.8, 3.9
// and 6.7.
const std::vector<Uncertain> kEndGauge{{50.000623e6, 25}, {215, 9.7},        {0, 0.58e-6},
                                       {-0.1, 0.41},      {11.5e-6, 1.2e-6}, {0, 0.029}};
std::optional<double> end_gauge(std::span<const double> x) {
    return x[0] + x[1] - x[0] * (x[2] * x[3] + x[4] * x[5]);
}

TEST(Propagate, end_gauge_of_the_GUM) {
    const auto first = numeric::propagate(end_gauge, kEndGauge);
    EXPECT_TRUE(near(first.value, 50.000838e6, 1e-9));
    EXPECT_TRUE(near(first.u, 31.71, 1e-3));  // 32 nm printed; more digits by hand from the printed inputs
    EXPECT_TRUE(near(first.contributions[0], 25, 1e-6));
    EXPECT_TRUE(near(first.contributions[1], 9.7, 1e-6));
    EXPECT_TRUE(near(first.contributions[2], 2.9, 1e-3));       // 50 mm × 0.1 K × 0.58e-6/K
    EXPECT_TRUE(near(first.contributions[3], 0, 1e-6));         // GTC's budget
    EXPECT_LE(std::abs(first.contributions[5] - 16.599), 0.1);  // GTC's budget
    const auto drawn = numeric::sample(end_gauge, kEndGauge);
    ASSERT_TRUE(drawn);
    EXPECT_LE(std::abs(drawn->u - 34), 1);
    EXPECT_LE(std::abs(drawn->mean - 50.000838e6), 0.5);
    EXPECT_EQ(drawn->without_value, 0);
}

TEST(Propagate, derivatives_of_known_functions) {
    const struct {
        double (*f)(double);
        double (*slope)(double);
        double at;
    } cases[] = {
        {[](double x) { return std::exp(x); }, [](double x) { return std::exp(x); }, 3},
        {[](double x) { return std::sin(x); }, [](double x) { return std::cos(x); }, 1.2},
        {[](double x) { return 1 / (1 - x); }, [](double x) { return 1 / ((1 - x) * (1 - x)); }, 0.9},
        {[](double x) { return std::log(x); }, [](double x) { return 1 / x; }, 1e-3},
        {[](double x) { return x * x; }, [](double x) { return 2 * x; }, 0}};
    for (const auto& [f, slope, at] : cases)
        for (const double reach : {1e-4, 1e-2, 0.05}) {
            const numeric::Model model = [f = f](std::span<const double> x) -> std::optional<double> {
                const double y = f(x[0]);
                return std::isfinite(y) ? std::optional(y) : std::nullopt;
            };
            const auto got = numeric::derivative(model, std::vector{at}, 0, reach);
            ASSERT_TRUE(got);
            EXPECT_TRUE(near(*got, slope(at), 1e-10)) << at << " " << reach;
        }
}

TEST(Propagate, at_the_edge_of_the_range) {
    const numeric::Model only_above = [](std::span<const double> x) {
        return x[0] < 2 ? std::nullopt : std::optional(std::exp(x[0]));
    };
    const numeric::Model only_below = [](std::span<const double> x) {
        return x[0] > 2 ? std::nullopt : std::optional(std::exp(x[0]));
    };
    const numeric::Model only_there = [](std::span<const double> x) {
        return x[0] == 2 ? std::optional(1.0) : std::nullopt;
    };
    EXPECT_TRUE(near(numeric::derivative(only_above, std::vector{2.0}, 0, 0.01).value(), std::exp(2), 1e-8));
    EXPECT_TRUE(near(numeric::derivative(only_below, std::vector{2.0}, 0, 0.01).value(), std::exp(2), 1e-8));
    EXPECT_TRUE(
        near(numeric::derivative(only_above, std::vector{2.0001}, 0, 0.01).value(), std::exp(2.0001), 1e-8));
    EXPECT_FALSE(numeric::derivative(only_there, std::vector{2.0}, 0, 0.01));
    EXPECT_FALSE(numeric::derivative(only_above, std::vector{1.0}, 0, 0.01));
    EXPECT_EQ(test::refused<NoConvergence>([&] {
                  return numeric::propagate(only_there, std::vector<Uncertain>{{2, 1}});
              }),
              "");
    // Half of the draws lie below the edge.
    const auto drawn = numeric::sample(only_above, std::vector<Uncertain>{{2, 0.1}});
    ASSERT_TRUE(drawn);
    EXPECT_TRUE(near(drawn->without_value, 0.5, 1e-12));
    EXPECT_FALSE(numeric::sample(only_above, std::vector<Uncertain>{{1.9, 0.01}}));
}

TEST(Propagate, draws_of_a_linear_model_agree_with_the_exact_answer) {
    // 3x - 4y with u 1 and 1: u = 5 and 95 % within 1.96 · 5 (the normal distribution).
    const numeric::Model model = [](std::span<const double> x) { return std::optional(3 * x[0] - 4 * x[1]); };
    const std::vector<Uncertain> inputs{{10, 1}, {2, 1}};
    EXPECT_TRUE(near(numeric::propagate(model, inputs).u, 5, 1e-9));
    const auto drawn = numeric::sample(model, inputs);
    ASSERT_TRUE(drawn);
    EXPECT_TRUE(near(drawn->mean, 22, 1e-9));
    EXPECT_TRUE(near(drawn->u, 5, 0.02));
    EXPECT_LE(std::abs(drawn->high - (22 + 9.8)), 0.7);
    EXPECT_LE(std::abs(drawn->low - (22 - 9.8)), 0.7);
}

TEST(Propagate, the_same_draws_every_time) {
    const auto once = numeric::sample(end_gauge, kEndGauge), again = numeric::sample(end_gauge, kEndGauge);
    EXPECT_EQ(once->u, again->u);
    EXPECT_EQ(once->mean, again->mean);
}

TEST(Propagate, a_square_at_its_minimum_misleads_first_order) {
    // y = x² at 0: first order gives 0; in truth E y = u² and sd y = sqrt 2 u² (chi² with one degree of
    // freedom).
    const numeric::Model square = [](std::span<const double> x) { return std::optional(x[0] * x[0]); };
    const std::vector<Uncertain> inputs{{0, 1}};
    EXPECT_LE(numeric::propagate(square, inputs).u, 1e-9);
    const auto drawn = numeric::sample(square, inputs);
    EXPECT_TRUE(near(drawn->mean, 1, 0.01));
    EXPECT_TRUE(near(drawn->u, std::sqrt(2.0), 0.03));
}

// JCGM 100:2008 H.2, resistance and reactance, its correlated inputs as sums of independent ones (the
// Cholesky factor of the printed correlations -0.36, 0.86, -0.65). Printed: table H.4.
TEST(Propagate, resistance_and_reactance_of_the_GUM) {
    const double u[] = {3.2e-3, 9.5e-6, 7.5e-4}, vi = -0.36, vp = 0.86, ip = -0.65;
    const double l22 = std::sqrt(1 - vi * vi), l32 = (ip - vi * vp) / l22,
                 l33 = std::sqrt(1 - vp * vp - l32 * l32);
    const numeric::Models models = [&](std::span<const double> e) -> std::vector<std::optional<double>> {
        const double v = 4.9990 + u[0] * e[0], i = 19.661e-3 + u[1] * (vi * e[0] + l22 * e[1]),
                     phi = 1.04446 + u[2] * (vp * e[0] + l32 * e[1] + l33 * e[2]);
        return {v / i * std::cos(phi), v / i * std::sin(phi), v / i};
    };
    const auto results = numeric::propagate(models, std::vector<Uncertain>{{0, 1}, {0, 1}, {0, 1}});
    const double printed[][2] = {{127.732, 0.071}, {219.847, 0.295}, {254.260, 0.236}};
    for (std::size_t r = 0; r < 3; ++r) {
        ASSERT_TRUE(results[r]);
        EXPECT_LE(std::abs(results[r]->value - printed[r][0]), 0.0006);
        EXPECT_LE(std::abs(results[r]->u / printed[r][1] - 1),
                  0.02);  // the printed correlations have two digits
    }
}

// EURACHEM/CITAC Guide CG 4, Quantifying Uncertainty in Analytical Measurement, examples A1 to A3.
TEST(Propagate, examples_of_the_analytical_guide) {
    // A1, table A1.1: cadmium standard, 1002.7 mg/l, u 0.9 (2nd ed.); 0.8 by the table's own entries, 0.835
    // (3rd ed.).
    const auto cadmium =
        numeric::propagate([](std::span<const double> x) { return std::optional(1000 * x[1] * x[0] / x[2]); },
                           std::vector<Uncertain>{{0.9999, 0.000058}, {100.28, 0.05}, {100.0, 0.07}});
    EXPECT_LE(std::abs(cadmium.value - 1002.7), 0.05);
    EXPECT_LE(std::abs(cadmium.u - 0.86), 0.05);
    // A2: sodium hydroxide against phthalate, 0.10214 mol/l, u 0.00010; A3: hydrochloric acid, 0.10139, u
    // 0.00018.
    const double molar = 0.0038, linear = 0.00013;
    const auto hydroxide = numeric::propagate(
        [](std::span<const double> x) { return std::optional(x[4] * 1000 * x[0] * x[1] / (x[2] * x[3])); },
        std::vector<Uncertain>{
            {0.3888, linear}, {1.0, 0.00029}, {204.2212, molar}, {18.64, 0.013}, {1, 0.0005}});
    EXPECT_LE(std::abs(hydroxide.value - 0.10214), 0.000005);
    EXPECT_LE(std::abs(hydroxide.u - 0.00010), 0.000005);
    const auto acid = numeric::propagate(
        [](std::span<const double> x) {
            return std::optional(x[6] * 1000 * x[0] * x[1] * x[2] / (x[3] * x[4] * x[5]));
        },
        std::vector<Uncertain>{{0.3888, linear},
                               {1.0, 0.00029},
                               {14.89, 0.014},
                               {18.64, 0.015},
                               {204.2212, molar},
                               {15, 0.011},
                               {1, 0.001}});
    EXPECT_LE(std::abs(acid.value - 0.10139), 0.000005);
    EXPECT_LE(std::abs(acid.u - 0.00018), 0.000005);
    // The largest contribution is the titration's repeatability (figure A3.6), and no single input halves u.
    const auto better = numeric::for_half(acid.contributions);
    ASSERT_GT(better.inputs.size(), 1u);
    EXPECT_EQ(better.inputs[0], 6u);
}

TEST(Propagate, what_to_better_for_half) {
    // By hand: 4² + 1² + 2² = 21; half of u is √5.25. Alone 4 must become √(5.25 − 5) = 0.5, less than a
    // quarter of it, so 2 must be better too: 20 f² = 5.25 − 1.
    const auto better = numeric::for_half(std::vector<double>{1, 4, 2, 0});
    EXPECT_EQ(better.inputs, (std::vector<std::size_t>{1, 2}));
    EXPECT_TRUE(near(better.factor, std::sqrt(4.25 / 20), 1e-12));
    // One that is nearly all: 10² + 1² = 101, 25.25 − 1 = 24.25.
    EXPECT_TRUE(near(numeric::for_half(std::vector<double>{1, 10}).factor, std::sqrt(24.25) / 10, 1e-12));
    EXPECT_TRUE(numeric::for_half(std::vector<double>{0, 0}).inputs.empty());
}

TEST(Propagate, misleads_only_where_it_does) {
    const auto judged = [](const numeric::Model& model, const std::vector<Uncertain>& inputs) {
        return numeric::misleads(numeric::propagate(model, inputs), numeric::sample(model, inputs).value());
    };
    EXPECT_TRUE(judged(end_gauge, kEndGauge));  // 34 nm against 32, H.1.7
    EXPECT_TRUE(judged([](std::span<const double> x) { return std::optional(x[0] * x[0]); }, {{0, 1}}));
    EXPECT_FALSE(judged([](std::span<const double> x) { return std::optional(x[0] * x[0]); }, {{100, 1}}));
    EXPECT_FALSE(judged([](std::span<const double>) { return std::optional(3.0); }, {{100, 1}}));
}

// The sum of four inputs of u 1, as in JCGM 101:2008 9.2.3 and 9.2.4. 95 %: all normal, within 2 × 1.959964 =
// 3.92; all rectangular, by hand: of four from 0 to 1 the sum is above y in (4 − y)⁴/24, 2.5 % at y = 4 −
// 0.6^(1/4), and 2√3 (y − 2) = 3.879.
TEST(Propagate, adaptive_draws_of_the_supplement) {
    const numeric::Models sum = [](std::span<const double> x) {
        return std::vector{std::optional(x[0] + x[1] + x[2] + x[3])};
    };
    const auto always = [] { return true; };
    for (const auto& [spread, end] :
         {std::pair{numeric::Spread::normal, 3.92}, {numeric::Spread::rectangular, 3.88}}) {
        const std::vector<Uncertain> inputs(4, Uncertain{0, 1, spread});
        const auto drawn = numeric::sample_adaptively(sum, inputs, 2, always).front();
        ASSERT_TRUE(drawn && drawn->settled);
        EXPECT_LE(std::abs(drawn->u - 2), 0.02);
        EXPECT_LE(std::abs(drawn->mean), 0.02);
        EXPECT_LE(std::abs(drawn->high - end), 0.05);
        EXPECT_LE(std::abs(drawn->low + end), 0.05);
        EXPECT_GE(drawn->draws, 20000u);
        // Told to stop after the first block it says that nothing is settled.
        const auto cut = numeric::sample_adaptively(sum, inputs, 2, [] { return false; }).front();
        ASSERT_TRUE(cut);
        EXPECT_EQ(cut->draws, 10000u);
        EXPECT_FALSE(cut->settled);
    }
}

}  // namespace
}  // namespace drysheet
