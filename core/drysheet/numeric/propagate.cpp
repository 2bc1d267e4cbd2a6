#include "drysheet/numeric/propagate.hpp"

#include <algorithm>
#include <array>
#include <boost/math/special_functions/erf.hpp>
#include <cmath>
#include <limits>
#include <numbers>
#include <random>

#include "drysheet/error.hpp"

namespace drysheet::numeric {
namespace {

constexpr std::size_t kTableau = 10;
constexpr double kShrink = 1.4;
constexpr std::size_t kDraws = 2000;

}  // namespace

std::optional<double> derivative(const Model& model, std::span<const double> at, std::size_t i,
                                 double reach) {
    std::vector<double> x(at.begin(), at.end());
    const auto f = [&](double step) {
        x[i] = at[i] + step;
        return model(x);
    };
    const auto here = f(0);
    if (!here) return std::nullopt;
    int side = 0;  // 0: central; +1, -1: that side only
    double h = reach;
    for (int tries = 0;; ++tries) {
        if (tries > 0) h /= 4;
        const bool above = f(h).has_value(), below = f(-h).has_value();
        if (above && below) break;
        if (tries < 6) continue;  // an edge may be near but not here
        const bool two_above = above && f(2 * h), two_below = below && f(-2 * h);
        side = two_above ? 1 : two_below ? -1 : 0;
        if (side != 0) {
            h = side * reach;  // away from the edge there is room
            for (int shorter = 0; shorter < 6 && !f(2 * h); ++shorter) h /= 4;
            break;
        }
        if (tries == 20) return std::nullopt;
    }
    // Error of a central difference: h^2, h^4, …; of the three-point one-sided one: h^2, h^3, ….
    const auto difference = [&](double step) -> std::optional<double> {
        const auto one = f(step), other = f(side == 0 ? -step : 2 * step);
        if (!one || !other) return std::nullopt;
        return side == 0 ? (*one - *other) / (2 * step) : (4 * *one - 3 * *here - *other) / (2 * step);
    };
    std::array<double, kTableau> row{}, before{};
    double best = 0, error = std::numeric_limits<double>::infinity();
    for (std::size_t k = 0; k < kTableau; ++k) {
        if (k > 0) h /= kShrink;
        const auto plain = difference(h);
        if (!plain) return std::nullopt;
        row[0] = *plain;
        if (k == 0) best = row[0];
        double factor = kShrink * kShrink;
        for (std::size_t j = 1; j <= k; ++j) {
            row[j] = (row[j - 1] * factor - before[j - 1]) / (factor - 1);
            const double off = std::max(std::abs(row[j] - row[j - 1]), std::abs(row[j] - before[j - 1]));
            if (off <= error) {
                error = off;
                best = row[j];
            }
            factor *= side == 0 ? kShrink * kShrink : kShrink;
        }
        if (k > 0 && std::abs(row[k] - before[k - 1]) >= 2 * error) break;  // rounding has taken over
        before = row;
    }
    return best;
}

Propagated propagate(const Model& model, std::span<const Uncertain> inputs) {
    std::vector<double> at;
    for (const Uncertain& input : inputs) at.push_back(input.value);
    const auto value = model(at);
    if (!value) throw NoConvergence("", "has no value");
    Propagated result{.value = *value, .u = 0, .contributions = {}};
    for (std::size_t i = 0; i < inputs.size(); ++i) {
        double contribution = 0;
        if (inputs[i].u > 0) {
            const auto slope = derivative(model, at, i, std::max(inputs[i].u, 1e-3 * std::abs(at[i])));
            if (!slope)
                throw NoConvergence("",
                                    "has no derivative: on neither side of an input does it have a value");
            contribution = std::abs(*slope) * inputs[i].u;
        }
        result.contributions.push_back(contribution);
        result.u = std::hypot(result.u, contribution);
    }
    return result;
}

std::optional<Sampled> sample(const Model& model, std::span<const Uncertain> inputs) {
    // The normal deviate in the middle of each slice; every input takes them in an order of its own.
    std::array<double, kDraws> deviate{};
    for (std::size_t k = 0; k < kDraws; ++k)
        deviate[k] =
            std::numbers::sqrt2 * boost::math::erf_inv((2 * static_cast<double>(k) + 1) / double{kDraws} - 1);
    std::mt19937_64 random(20190520);  // the generator is fixed by the standard; distributions are not
    std::vector<std::array<double, kDraws>> columns(inputs.size(), deviate);
    for (auto& column : columns)
        for (std::size_t k = kDraws - 1; k > 0; --k) std::swap(column[k], column[random() % (k + 1)]);

    std::vector<double> x(inputs.size()), values;
    for (std::size_t k = 0; k < kDraws; ++k) {
        for (std::size_t i = 0; i < inputs.size(); ++i) x[i] = inputs[i].value + inputs[i].u * columns[i][k];
        if (const auto y = model(x)) values.push_back(*y);
    }
    if (values.size() < kDraws / 2) return std::nullopt;
    const double n = static_cast<double>(values.size());
    Sampled result;
    const double near = values.front();
    for (const double y : values) result.mean += (y - near) / n;
    double squares = 0;
    for (const double y : values) squares += std::pow(y - near - result.mean, 2);
    result.mean += near;
    result.u = std::sqrt(squares / (n - 1));
    std::ranges::sort(values);
    result.low = values[static_cast<std::size_t>(0.025 * n)];
    result.high = values[static_cast<std::size_t>(0.975 * n)];
    result.without_value = 1 - n / double{kDraws};
    return result;
}

}  // namespace drysheet::numeric
