#include "drysheet/numeric/smooth.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <utility>

namespace drysheet::numeric {
namespace {

constexpr std::size_t kMostReadings = 200;  // in a window

double cube(double x) { return x * x * x; }

/// How to smooth: a polynomial of this degree through so many readings.
struct Smoother {
    std::size_t window;
    Eigen::Index degree;
};

/// The polynomial around one reading.
struct Local {
    double value = 0;
    double slope = 0;
    double residual = 0;  ///< of the reading, over its standard deviation in units of the readings'
    double foretold = 0;  ///< residual of the reading from the polynomial that the others alone would give
};

struct Readings {
    std::span<const double> x, y;
    std::vector<bool> kept;  ///< the others do not count

    std::size_t size() const { return x.size(); }
};

Local local_polynomial(const Readings& of, std::size_t at, const Smoother& smoother) {
    // The window grows from the reading to whichever side is nearer.
    const auto next = [&](std::size_t i, std::ptrdiff_t step) {
        do {
            i += static_cast<std::size_t>(step);  // wraps below 0 to beyond the end
        } while (i < of.size() && !of.kept[i]);
        return i;
    };
    std::vector<std::size_t> chosen;
    if (of.kept[at]) chosen.push_back(at);
    std::size_t left = next(at, -1), right = next(at, 1);
    while (chosen.size() < smoother.window && (left < of.size() || right < of.size())) {
        const bool take_left =
            right >= of.size() || (left < of.size() && of.x[at] - of.x[left] <= of.x[right] - of.x[at]);
        chosen.push_back(take_left ? left : right);
        (take_left ? left : right) = take_left ? next(left, -1) : next(right, 1);
    }
    // Weights end a tenth beyond the furthest, so that it still counts.
    const double reach = 1.1 * std::abs(of.x[chosen.back()] - of.x[at]);
    const auto rows = static_cast<Eigen::Index>(chosen.size()), terms = smoother.degree + 1;
    using Matrix = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, 0, Eigen::Dynamic, 4>;
    Matrix powers(rows, terms);
    Eigen::VectorXd right_side(rows);
    double own_weight = 0;
    for (Eigen::Index k = 0; k < rows; ++k) {
        const std::size_t i = chosen[static_cast<std::size_t>(k)];
        const double d = (of.x[i] - of.x[at]) / reach;
        const double tricube = cube(1 - cube(std::abs(d)));
        double power = std::sqrt(tricube);
        right_side[k] = power * of.y[i];
        for (Eigen::Index j = 0; j < terms; ++j) {
            powers(k, j) = power;
            power *= d;
        }
        if (i == at) own_weight = tricube;
    }
    const Eigen::HouseholderQR<Matrix> qr(powers);
    const Eigen::VectorXd coefficients = qr.solve(right_side);
    // Leverage: own weight · e₁ᵀ(AᵀA)⁻¹e₁.
    const Matrix r = qr.matrixQR().topRows(terms).triangularView<Eigen::Upper>();
    const Eigen::VectorXd z =
        r.transpose().triangularView<Eigen::Lower>().solve(Eigen::VectorXd::Unit(terms, 0));
    const double own_share = std::max(1 - own_weight * z.squaredNorm(), 1e-3);
    const double residual = of.kept[at] ? of.y[at] - coefficients[0] : 0;
    double slope = coefficients[1] / reach;
    // Beyond a gap longer than the rest of its window a polynomial is a guess; the way to the neighbour is
    // not.
    if (of.kept[at] && chosen.size() > 2) {
        const double gap = of.x[at] - of.x[chosen[1]], rest = of.x[chosen[1]] - of.x[chosen.back()];
        if (gap * rest > 0 && std::abs(gap) > std::abs(rest)) slope = (of.y[at] - of.y[chosen[1]]) / gap;
    }
    return {coefficients[0], slope, residual / std::sqrt(own_share), residual / own_share};
}

/// The smoother by which the readings foretell each other best, asked at 100 of them at most. A narrower
/// window or a higher degree must be better by a tenth, as it passes more of the noise.
Smoother best_smoother(const Readings& of) {
    const auto n = static_cast<std::size_t>(std::ranges::count(of.kept, true));
    const std::size_t step = (of.size() + 99) / 100;
    Smoother best{n, 2};
    double least = std::numeric_limits<double>::infinity();
    for (const Eigen::Index degree : {2, 3})
        for (std::size_t window = std::min(n, kMostReadings); window >= 5; window = window * 10 / 13) {
            double sum = 0;
            for (std::size_t i = 0; i < of.size(); i += step)
                sum += std::pow(local_polynomial(of, i, {window, degree}).foretold, 2);
            if (sum < 0.9 * least) {
                least = sum;
                best = {window, degree};
            }
        }
    return best;
}

struct Smoothed {
    std::vector<double> values, slopes, residuals, foretold;
};
Smoothed smoothed(const Readings& of) {
    Smoothed all;
    const Smoother smoother = best_smoother(of);
    for (std::size_t i = 0; i < of.size(); ++i) {
        const Local local = local_polynomial(of, i, smoother);
        all.values.push_back(local.value);
        all.slopes.push_back(local.slope);
        all.residuals.push_back(local.residual);
        all.foretold.push_back(local.foretold);
    }
    return all;
}

/// The two kept readings on either side.
std::vector<std::size_t> neighbours(const Readings& of, std::size_t at) {
    std::vector<std::size_t> found;
    for (std::size_t i = at; i-- > 0 && found.size() < 2;)
        if (of.kept[i]) found.push_back(i);
    const std::size_t most = found.size() + 2;
    for (std::size_t i = at + 1; i < of.size() && found.size() < most; ++i)
        if (of.kept[i]) found.push_back(i);
    return found;
}

/// How badly the neighbours of a reading are foretold: the sum of squares.
double foretold_near(const Smoothed& all, const Readings& of, std::size_t at) {
    double sum = 0;
    for (const std::size_t i : neighbours(of, at)) sum += all.foretold[i] * all.foretold[i];
    return sum;
}

/// Leaves out the readings that stand out, where those beside them are foretold better without them.
void leave_out_standing(Readings& readings, Smoothed& now, std::size_t& may_go, double doubt) {
    std::vector<bool> asked(readings.size(), false);
    while (may_go > 0) {
        std::vector<std::size_t> out;
        for (const std::size_t i : standing_out(now.residuals, doubt)) {
            const auto larger = [&](std::size_t k) {
                return std::abs(now.residuals[k]) > std::abs(now.residuals[i]);
            };
            if (!asked[i] && out.size() < may_go && std::ranges::none_of(neighbours(readings, i), larger))
                out.push_back(i);
        }
        if (out.empty()) return;
        std::vector<double> before;
        before.reserve(out.size());
        for (const std::size_t i : out) before.push_back(foretold_near(now, readings, i));
        for (const std::size_t i : out) readings.kept[i] = false;
        now = smoothed(readings);
        bool some_stay = false;
        for (std::size_t k = 0; k < out.size(); ++k) {
            asked[out[k]] = true;
            // A bad reading spoils what is foretold of those beside it; the steep end of a run does not.
            const bool bad = foretold_near(now, readings, out[k]) < before[k] / 4;
            may_go -= bad ? 1 : 0;
            readings.kept[out[k]] = !bad;
            some_stay = some_stay || !bad;
        }
        if (some_stay) now = smoothed(readings);
    }
}

/// Leaves out the one reading without which the others foretell each other far better, if it lies far from
/// what they foretell. False when there is none.
bool leave_out_one(Readings& readings, Smoothed& now, double doubt) {
    constexpr double far_better = 0.15, far = 3;  // share of the sum of squares; root mean squares
    const auto sum_of_others = [](const Smoothed& all, std::size_t skip) {
        double sum = 0;
        for (std::size_t i = 0; i < all.foretold.size(); ++i)
            if (i != skip) sum += all.foretold[i] * all.foretold[i];
        return sum;
    };
    std::optional<std::size_t> bad;
    Smoothed best;
    double least = far_better;
    for (std::size_t i = 0; i < readings.size(); ++i) {
        if (!readings.kept[i]) continue;
        readings.kept[i] = false;
        Smoothed without = smoothed(readings);
        readings.kept[i] = true;
        const double sum = sum_of_others(without, i), share = sum / sum_of_others(now, i);
        const double off = std::abs(readings.y[i] - without.values[i]);
        if (!(share < least && off > doubt &&
              off > far * std::sqrt(sum / static_cast<double>(readings.size()))))
            continue;
        least = share;
        bad = i;
        best = std::move(without);
    }
    if (!bad) return false;
    readings.kept[*bad] = false;
    now = std::move(best);
    return true;
}

}  // namespace

std::vector<std::size_t> standing_out(std::span<const double> residuals, double doubt) {
    std::vector<double> sizes;
    sizes.reserve(residuals.size());
    for (const double residual : residuals) sizes.push_back(std::abs(residual));
    std::vector<double> sorted = sizes;
    const auto middle = sorted.begin() + std::ssize(sorted) / 2;
    std::ranges::nth_element(sorted, middle);
    const double limit = std::max(6 * *middle, doubt);
    std::vector<std::size_t> all;
    for (std::size_t i = 0; i < sizes.size(); ++i)
        if (sizes[i] > limit) all.push_back(i);
    std::ranges::sort(all, std::ranges::greater{}, [&](std::size_t i) { return sizes[i]; });
    return all;
}

std::vector<double> local_slopes(std::span<const double> x, std::span<const double> y, double doubt) {
    Readings readings{x, y, std::vector<bool>(x.size(), true)};
    Smoothed now = smoothed(readings);
    std::size_t may_go = x.size() < 6 ? 0 : (x.size() + 9) / 10;
    leave_out_standing(readings, now, may_go, doubt);
    // In a short run a bad reading bends everything and does not stand out; there each is tried.
    constexpr std::size_t short_run = 60;
    while (x.size() <= short_run && may_go-- > 0 && leave_out_one(readings, now, doubt)) continue;
    return now.slopes;
}

}  // namespace drysheet::numeric
