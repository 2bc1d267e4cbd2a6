// SPDX-License-Identifier: MPL-2.0
#include "drysheet/numeric/propagate.hpp"

#include <algorithm>
#include <array>
#include <boost/math/special_functions/erf.hpp>
#include <cmath>
#include <limits>
#include <map>
#include <numbers>
#include <numeric>
#include <random>

#include "drysheet/error.hpp"

namespace drysheet::numeric {
namespace {

constexpr double kShrink = 1.4;
constexpr std::size_t kDraws = 2000, kBlock = 10000;
// First order misleads beyond these, in units of its own u.
constexpr double kSpread = 0.05, kShift = 0.1, kEnds = 0.3;
constexpr double kLeastFactor =
    0.25;  // an input is not asked to be better than this where another could help

// The results with one input moved, each step worked out once.
class Moved {
  public:
    Moved(const Models& models, std::span<const double> at, std::size_t i)
        : models_(models), x_(at.begin(), at.end()), here_(at[i]), i_(i) {}

    std::optional<double> operator()(double step, std::size_t result) {
        auto known = seen_.find(step);
        if (known == seen_.end()) {
            x_[i_] = here_ + step;
            known = seen_.emplace(step, models_(x_)).first;
        }
        return known->second[result];
    }

  private:
    const Models& models_;
    std::vector<double> x_;
    double here_;
    std::size_t i_;
    std::map<double, std::vector<std::optional<double>>> seen_;
};

std::optional<double> derivative(Moved& moved, std::size_t result, double reach, std::size_t rows) {
    const auto f = [&](double step) { return moved(step, result); };
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
    for (std::size_t k = 0; k < rows; ++k) {
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

Models one(const Model& model) {
    return [&model](std::span<const double> x) { return std::vector{model(x)}; };
}

// The standard deviate at the share p of a distribution.
double deviate(Spread spread, double p) {
    return spread == Spread::normal ? std::numbers::sqrt2 * boost::math::erf_inv(2 * p - 1)
                                    : std::numbers::sqrt3 * (2 * p - 1);
}

double uniform(std::mt19937_64& random) { return std::ldexp(static_cast<double>(random() >> 11U), -53); }

// The values of every result over so many draws, every input in as many equal slices, in an order of its own;
// in the middle of each, or anywhere in it.
std::vector<std::vector<double>> drawn(const Models& models, std::span<const Uncertain> inputs,
                                       std::size_t draws, std::mt19937_64& random, bool in_the_middle) {
    std::vector<std::vector<double>> columns;
    for (const Uncertain& input : inputs) {
        std::vector<double> column(input.u > 0 ? draws : 0);
        for (std::size_t k = 0; k < column.size(); ++k) {
            const double within = in_the_middle ? 0.5 : uniform(random);
            column[k] = input.value + input.u * deviate(input.spread, (static_cast<double>(k) + within) /
                                                                          static_cast<double>(draws));
        }
        for (std::size_t k = column.size(); k > 1; --k) std::swap(column[k - 1], column[random() % k]);
        columns.push_back(std::move(column));
    }
    std::vector<std::vector<double>> values;
    std::vector<double> x;
    for (const Uncertain& input : inputs) x.push_back(input.value);
    for (std::size_t k = 0; k < draws; ++k) {
        for (std::size_t i = 0; i < inputs.size(); ++i)
            if (!columns[i].empty()) x[i] = columns[i][k];
        const auto results = models(x);
        values.resize(results.size());
        for (std::size_t r = 0; r < results.size(); ++r)
            if (results[r]) values[r].push_back(*results[r]);
    }
    return values;
}

std::optional<Sampled> summed_up(std::vector<double> values, std::size_t draws) {
    if (values.size() < std::max<std::size_t>(draws / 2, 2)) return std::nullopt;
    const double n = static_cast<double>(values.size());
    Sampled result{.without_value = 1 - n / static_cast<double>(draws), .draws = draws};
    const double near = values.front();
    for (const double y : values) result.mean += (y - near) / n;
    double squares = 0;
    for (const double y : values) squares += std::pow(y - near - result.mean, 2);
    result.mean += near;
    result.u = std::sqrt(squares / (n - 1));
    std::ranges::sort(values);
    result.low = values[static_cast<std::size_t>(0.025 * n)];
    result.high = values[static_cast<std::size_t>(0.975 * n)];
    return result;
}

// Half a unit of the last of so many digits of u.
double tolerance(double u, int digits) {
    const double exponent = std::floor(std::log10(u)) - (digits - 1);
    return 0.5 * std::pow(10, exponent);
}

// Whether the averages over the blocks stand to this tolerance.
bool stands(const std::vector<Sampled>& blocks, double tolerance) {
    const double h = static_cast<double>(blocks.size());
    for (double Sampled::*const part : {&Sampled::mean, &Sampled::u, &Sampled::low, &Sampled::high}) {
        double mean = 0, squares = 0;
        for (const Sampled& block : blocks) mean += block.*part / h;
        for (const Sampled& block : blocks) squares += std::pow(block.*part - mean, 2);
        if (2 * std::sqrt(squares / (h * (h - 1))) > tolerance) return false;
    }
    return true;
}

}  // namespace

std::optional<double> derivative(const Model& model, std::span<const double> at, std::size_t i,
                                 double reach) {
    const Models models = one(model);
    Moved moved(models, at, i);
    return derivative(moved, 0, reach, kTableau);
}

std::vector<std::optional<Propagated>> propagate(const Models& models, std::span<const Uncertain> inputs,
                                                 std::size_t rows) {
    std::vector<double> at;
    for (const Uncertain& input : inputs) at.push_back(input.value);
    const auto values = models(at);
    std::vector<std::optional<Propagated>> results;
    results.reserve(values.size());
    for (const auto& value : values)
        results.push_back(value ? std::optional(Propagated{.value = *value}) : std::nullopt);
    for (std::size_t i = 0; i < inputs.size(); ++i) {
        const double u = inputs[i].u;
        Moved moved(models, at, i);
        for (std::size_t r = 0; r < results.size(); ++r) {
            if (!results[r]) continue;
            Propagated& result = *results[r];
            double contribution = 0, bend = 0;
            if (u > 0) {
                const auto slope = derivative(moved, r, std::max(u, 1e-3 * std::abs(at[i])), rows);
                if (!slope) {
                    results[r].reset();
                    continue;
                }
                contribution = std::abs(*slope) * u;
                const auto above = moved(u, r), below = moved(-u, r);
                if (above && below) bend = (*above - 2 * result.value + *below) / 2;
            }
            result.contributions.push_back(contribution);
            result.bends.push_back(bend);
            result.u = std::hypot(result.u, contribution);
        }
    }
    return results;
}

Propagated propagate(const Model& model, std::span<const Uncertain> inputs) {
    std::vector<double> at;
    for (const Uncertain& input : inputs) at.push_back(input.value);
    if (!model(at)) throw NoConvergence("", "has no value");
    const auto results = propagate(one(model), inputs);
    if (!results.front())
        throw NoConvergence("", "has no derivative: on neither side of an input does it have a value");
    return *results.front();
}

std::vector<std::optional<Sampled>> sample(const Models& models, std::span<const Uncertain> inputs) {
    std::mt19937_64 random(20190520);  // the generator is fixed by the standard; distributions are not
    std::vector<std::optional<Sampled>> results;
    for (auto& values : drawn(models, inputs, kDraws, random, true))
        results.push_back(summed_up(std::move(values), kDraws));
    return results;
}

std::optional<Sampled> sample(const Model& model, std::span<const Uncertain> inputs) {
    return sample(one(model), inputs).front();
}

bool misleads(const Propagated& first, const Sampled& drawn) {
    // Rounding alone gives a u where a result does not depend on its inputs.
    if (drawn.u <= 1e-9 * std::abs(first.value)) return false;
    const auto far = [&](double a, double b, double limit) { return std::abs(a - b) > limit * first.u; };
    return far(drawn.u, first.u, kSpread) || far(drawn.mean, first.value, kShift) ||
           far(drawn.low, first.value - 1.96 * first.u, kEnds) ||
           far(drawn.high, first.value + 1.96 * first.u, kEnds) ||
           std::ranges::any_of(first.bends, [&](double bend) { return far(bend, 0, kShift); });
}

std::vector<std::optional<Sampled>> sample_adaptively(const Models& models, std::span<const Uncertain> inputs,
                                                      int digits, const std::function<bool()>& go_on) {
    std::mt19937_64 random(20081001);
    std::vector<std::vector<double>> all;
    std::vector<std::vector<Sampled>> blocks;
    bool settled = false, going = true;
    std::size_t draws = 0;
    while (!settled && going) {
        auto block = drawn(models, inputs, kBlock, random, false);
        draws += kBlock;
        all.resize(block.size());
        blocks.resize(block.size());
        settled = draws > kBlock;
        for (std::size_t r = 0; r < block.size(); ++r) {
            all[r].insert(all[r].end(), block[r].begin(), block[r].end());
            const auto this_block = summed_up(std::move(block[r]), kBlock);
            if (!this_block) continue;
            blocks[r].push_back(*this_block);
            double u = 0;
            for (const Sampled& one : blocks[r]) u += one.u / static_cast<double>(blocks[r].size());
            settled =
                settled && (u == 0 || (blocks[r].size() > 1 && stands(blocks[r], tolerance(u, digits))));
        }
        going = go_on();
    }
    std::vector<std::optional<Sampled>> results;
    for (auto& values : all) {
        results.push_back(summed_up(std::move(values), draws));
        if (results.back()) results.back()->settled = settled;
    }
    return results;
}

Better for_half(std::span<const double> contributions) {
    std::vector<std::size_t> order(contributions.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::ranges::stable_sort(order, std::ranges::greater(), [&](std::size_t i) { return contributions[i]; });
    double rest = 0;
    for (const double part : contributions) rest += part * part;
    const double wanted = rest / 4;
    Better better;
    double bettered = 0;
    for (const std::size_t i : order) {
        if (contributions[i] == 0) break;
        better.inputs.push_back(i);
        bettered += contributions[i] * contributions[i];
        rest -= contributions[i] * contributions[i];
        better.factor = rest < wanted ? std::sqrt((wanted - rest) / bettered) : 0;
        if (better.factor >= kLeastFactor) break;
    }
    return better;
}

}  // namespace drysheet::numeric
