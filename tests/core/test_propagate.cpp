#include <cmath>

#include "drysheet/numeric/propagate.hpp"
#include "tests/core/shared.hpp"

namespace drysheet {
namespace {

using numeric::Uncertain;
using test::near;

// JCGM 100:2008 (GUM) example H.1, end gauges: l = lS + d - lS (da theta + aS dtheta), in nm, 1/K and K.
// Printed: l = 50.000838 mm, u = 32 nm to first order; 34 nm with the second-order terms (H.1.7).
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
    EXPECT_TRUE(near(first.contributions[2], 2.9, 1e-3));     // table H.1
    EXPECT_TRUE(near(first.contributions[3], 0, 1e-6));       // table H.1
    EXPECT_LE(std::abs(first.contributions[5] - 16.6), 0.1);  // table H.1
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
            EXPECT_TRUE(near(*got, slope(at), 1e-8)) << at << " " << reach;
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

}  // namespace
}  // namespace drysheet
