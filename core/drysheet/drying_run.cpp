// SPDX-License-Identifier: MPL-2.0
#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <optional>
#include <utility>

#include "drysheet/kinetics.hpp"
#include "drysheet/numeric/slips.hpp"
#include "drysheet/numeric/smooth.hpp"
#include "drysheet/require.hpp"
#include "drysheet/runs.hpp"
#include "drysheet/yield.hpp"

namespace drysheet {
namespace {

constexpr double kDoubtedShare = 0.005;  // of the whole loss: less is never called a bad reading

/// A weighed run, checked: hours since the first reading, moistures on the dry basis.
struct Run {
    std::vector<double> hours;
    std::vector<double> moistures;
    double range() const {
        const auto [low, high] = std::ranges::minmax(moistures);
        return high - low;
    }
};

std::vector<double> moistures_of(std::span<const Mass> masses, Mass solids) {
    require_positive(solids, arg::solids);
    std::vector<double> moistures;
    moistures.reserve(masses.size());
    for (const Mass& mass : masses) {
        const Mass water = unless_rounding(mass - solids, masses.front());
        if (water < Mass())
            throw BadInput(arg::masses, "holds {}, which is below the {} of dry solids",
                           {amount(mass), amount(solids)});
        moistures.push_back(water / solids);
    }
    return moistures;
}

Run checked_run(std::span<const Time> times, std::span<const Mass> masses, Mass solids, std::size_t least) {
    check_length(arg::masses, masses.size(), times.size());
    if (times.size() < least) {
        throw BadInput(arg::times, "has too few readings: {}, where {} are needed",
                       {count(times.size()), count(least)});
    }
    Run run{{}, moistures_of(masses, solids)};
    require_rising(times);
    run.hours.reserve(times.size());
    for (const Time& time : times) run.hours.push_back(hours(time - times[0]));
    return run;
}

std::vector<numeric::Slip> slips(const Run& run) {
    return numeric::find_slips(run.hours, run.moistures, kDoubtedShare * run.range());
}

std::vector<double> rates_per_hour(const Run& run) {
    const auto [moistures, kept] = numeric::mended(run.moistures, slips(run));
    auto rates = numeric::local_slopes(run.hours, moistures, kept);
    for (double& rate : rates) rate = -rate;
    return rates;
}

/// The run without its slips.
Run put_right(const Run& run, std::span<const numeric::Slip> slips) {
    const auto [moistures, kept] = numeric::mended(run.moistures, slips);
    Run rest;
    for (std::size_t i = 0; i < kept.size(); ++i) {
        if (!kept[i]) continue;
        rest.hours.push_back(run.hours[i]);
        rest.moistures.push_back(moistures[i]);
    }
    return rest;
}

// ---- slips

/// The places of the most readings whose times rise, one after another.
std::vector<std::size_t> rising(std::span<const Time> times) {
    struct Chain {
        std::size_t length = 1;
        std::optional<std::size_t> before{};
    };
    std::vector<Chain> chains(times.size());
    std::optional<std::size_t> end;
    for (std::size_t i = 0; i < times.size(); ++i) {
        for (std::size_t j = 0; j < i; ++j)
            if (times[j] < times[i] && chains[j].length >= chains[i].length)
                chains[i] = {chains[j].length + 1, j};
        if (!end || chains[i].length > chains[*end].length) end = i;
    }
    std::vector<std::size_t> places;
    for (; end; end = chains[*end].before) places.push_back(*end);
    std::ranges::reverse(places);
    return places;
}

ReadingSlip named(const numeric::Slip& slip, std::span<const double> y) {
    const bool heavier = slip.at > 0 && y[slip.at] > y[slip.at - 1];
    switch (slip.kind) {
        case numeric::SlipKind::swapped:
            return ReadingSlip::swapped_with_next;
        case numeric::SlipKind::step:
            return heavier ? ReadingSlip::heavier_with_all_after : ReadingSlip::out_of_line_with_all_after;
        case numeric::SlipKind::out_of_line:
            break;
    }
    return heavier ? ReadingSlip::heavier_than_before : ReadingSlip::out_of_line;
}

/// Places behind an interval that is far longer than those around it, with some drying in it.
std::vector<std::size_t> gaps(std::span<const double> x, std::span<const double> y) {
    constexpr double kTimes = 4, kShareOfLoss = 0.05;
    const double whole = std::abs(y.front() - y.back());
    std::vector<std::size_t> places;
    for (std::size_t i = 1; i < x.size(); ++i) {
        double longest = 0;
        for (std::size_t j = i > 2 ? i - 2 : 1; j < std::min(i + 3, x.size()); ++j)
            if (j != i) longest = std::max(longest, x[j] - x[j - 1]);
        if (x[i] - x[i - 1] > kTimes * longest && std::abs(y[i - 1] - y[i]) > kShareOfLoss * whole)
            places.push_back(i);
    }
    return places;
}

// ---- the critical point: shapes of X(t), fitted to the moistures

/// What is fitted: a formula of N parameters, where the search starts and what bounds it.
template <std::size_t N, class Formula>
std::optional<numeric::Fit> fitted(const Run& run, const Formula& formula,
                                   std::vector<std::vector<double>> starts, std::vector<double> low,
                                   std::vector<double> high) {
    if (run.moistures.size() <= N + 2 || starts.empty()) return std::nullopt;  // no AICc
    try {
        return numeric::fit({.argument = arg::masses,
                             .data = run.moistures,
                             .model = numeric::differentiated<N>(
                                 [&](std::size_t i, const auto& p) { return formula(run.hours[i], p); }),
                             .starts = std::move(starts),
                             .low = std::move(low),
                             .high = std::move(high),
                             .most_iterations = 200});
    } catch (const NoConvergence&) {
        return std::nullopt;
    }
}

constexpr double kInfinity = std::numeric_limits<double>::infinity();

// After the bend, over s = (t − tc)/τ: the share of Xc − Xe = R τ that is left.
constexpr auto linear_fall = [](const auto& s) { return exp(-s); };
/// Rate in proportion to a power q of the free moisture: (1 − (1 − q) s)^(1/(1 − q)).
constexpr auto power_fall = [](const auto& s, const auto& q) {
    using T = std::remove_cvref_t<decltype(s)>;
    const T e = 1.0 - q, z = e * s;
    if (std::abs(z.value) < 1e-3) return T(exp(-(s * (1.0 + z * (0.5 + z / 3.0)))));
    if (z.value >= 1) return T(0.0);
    return T(exp(log(1.0 - z) / e));
};

// Parameters of all bends: Xc, R, tc, τ, …
constexpr auto bend_then_linear = [](double t, const auto& p) {
    using T = std::remove_cvref_t<decltype(p[0])>;
    return t <= p[2].value ? T(p[0] + p[1] * (p[2] - t))
                           : T(p[0] - p[1] * p[3] * (1.0 - linear_fall((t - p[2]) / p[3])));
};
constexpr auto bend_then_power = [](double t, const auto& p) {
    using T = std::remove_cvref_t<decltype(p[0])>;
    return t <= p[2].value ? T(p[0] + p[1] * (p[2] - t))
                           : T(p[0] - p[1] * p[3] * (1.0 - power_fall(T((t - p[2]) / p[3]), p[4])));
};
/// Two straight pieces of rate over moisture; the second with time constant p[4], from p[5] after the bend.
constexpr auto bend_then_two_lines = [](double t, const auto& p) {
    using T = std::remove_cvref_t<decltype(p[0])>;
    if (t <= p[2].value) return T(p[0] + p[1] * (p[2] - t));
    const T since = t - p[2];
    if (since.value <= p[5].value) return T(p[0] - p[1] * p[3] * (1.0 - linear_fall(T(since / p[3]))));
    const T left = linear_fall(T(p[5] / p[3]));
    return T(p[0] - p[1] * p[3] * (1.0 - left) -
             p[1] * left * p[4] * (1.0 - linear_fall(T((since - p[5]) / p[4]))));
};
constexpr auto constant_only = [](double t, const auto& p) { return p[0] - p[1] * t; };
/// Xe + A exp(−(t/θ)^n)
constexpr auto page_curve = [](double t, const auto& p) {
    using T = std::remove_cvref_t<decltype(p[0])>;
    return t == 0 ? T(p[0] + p[1]) : T(p[0] + p[1] * exp(-exp(p[3] * log(t / p[2]))));
};
/// A rate R tanh((X − Xe)/a), integrated: sinh((X − Xe)/a) = sinh(A/a) exp(−R t/a).
constexpr auto tanh_curve = [](double t, const auto& p) {
    using T = std::remove_cvref_t<decltype(p[0])>;
    const T z = p[1] / p[2];
    const T y = 0.5 * (exp(z - p[3] * t / p[2]) - exp(-z - p[3] * t / p[2]));
    return T(p[0] + p[2] * log(y + pow(T(y * y + 1.0), 0.5)));
};

/// The bends that the readings determine, and the least AICc without one.
struct Shapes {
    std::vector<numeric::Fit> bends;
    double constant = kInfinity, smooth = kInfinity;
};
Shapes fit_shapes(const Run& run) {
    const double end = run.hours.back(), X0 = run.moistures.front(), range = run.range();
    Shapes shapes;
    std::vector<std::vector<double>> linear, power, lines;
    for (const double share : {0.15, 0.3, 0.5, 0.7}) {
        const double tc = share * end;
        const auto after =
            static_cast<std::size_t>(std::ranges::lower_bound(run.hours, tc) - run.hours.begin());
        const double Xc = run.moistures[after], R = (X0 - Xc) / run.hours[after];
        if (!(R > 0)) continue;
        const double tau = std::max((Xc - run.moistures.back()) / R, 0.05 * end);
        linear.push_back({Xc, R, tc, tau});
        for (const double q : {0.6, 1.5}) power.push_back({Xc, R, tc, tau, q});
        lines.push_back({Xc, R, tc, tau, tau, 0.4 * (end - tc)});
        lines.push_back({Xc, R, tc, tau, 2 * tau, 0.2 * (end - tc)});
    }
    const auto bend = [&](std::optional<numeric::Fit> fit) {
        if (fit) shapes.bends.push_back(std::move(*fit));
    };
    bend(fitted<4>(run, bend_then_linear, linear, {-kInfinity, 0, 0, 0},
                   {kInfinity, kInfinity, end, kInfinity}));
    bend(fitted<5>(run, bend_then_power, power, {-kInfinity, 0, 0, 0, 0.2},
                   {kInfinity, kInfinity, end, kInfinity, 5}));
    bend(fitted<6>(run, bend_then_two_lines, lines, {-kInfinity, 0, 0, 0, 0, 0},
                   {kInfinity, kInfinity, end, kInfinity, kInfinity, end}));
    if (const auto fit = fitted<2>(run, constant_only, {{X0, range / end}}, {}, {}))
        shapes.constant = fit->aicc;
    const auto smooth = [&](const std::optional<numeric::Fit>& fit) {
        if (fit) shapes.smooth = std::min(shapes.smooth, fit->aicc);
    };
    std::vector<std::vector<double>> page, tanh;
    for (const double share : {0.2, 0.5}) {
        for (const double n : {0.8, 1.3}) page.push_back({X0 - range, range, share * end, n});
        tanh.push_back({X0 - range, range, share * range, 1.5 * range / end});
    }
    smooth(fitted<4>(run, page_curve, page, {-kInfinity, 0, 0, 0.1}, {kInfinity, kInfinity, 10 * end, 5}));
    smooth(fitted<4>(run, tanh_curve, tanh, {-kInfinity, 0, 0.02 * range, 0},
                     {kInfinity, kInfinity, 10 * range, kInfinity}));
    return shapes;
}

/// A parameter of the bends, averaged by their Akaike weights, and its standard uncertainty.
struct Averaged {
    double value = 0, u = 0;
};
Averaged averaged(const std::vector<numeric::Fit>& bends, std::size_t k) {
    constexpr double kSupported = 10;  // AIC
    const auto aic = [](const numeric::Fit& fit) {
        return static_cast<double>(fit.points) * std::log(fit.residual_sum) +
               2 * static_cast<double>(fit.parameters.size());
    };
    double least = kInfinity, sum = 0;
    for (const auto& fit : bends) least = std::min(least, aic(fit));
    const auto weight = [&](const numeric::Fit& fit) { return std::exp(-(aic(fit) - least) / 2); };
    Averaged mean;
    for (const auto& fit : bends) {
        sum += weight(fit);
        mean.value += weight(fit) * fit.parameters[k];
    }
    mean.value /= sum;
    double furthest = 0;
    for (const auto& fit : bends) {
        const double off = fit.parameters[k] - mean.value;
        mean.u += weight(fit) / sum * std::hypot(fit.robust_errors[k], off);
        if (aic(fit) - least < kSupported) furthest = std::max(furthest, std::abs(off));
    }
    mean.u = std::hypot(mean.u, furthest / std::sqrt(3));  // anywhere between: a rectangle
    return mean;
}

}  // namespace

std::vector<MoistureRatio> moisture_ratios(std::span<const Mass> masses, Mass solids,
                                           MoistureDry equilibrium_db) {
    if (masses.empty()) throw BadInput(arg::masses, "holds no reading");
    std::vector<MoistureRatio> ratios;
    ratios.reserve(masses.size());
    const auto moistures = moistures_of(masses, solids);
    const double X0 = moistures.front(), Xe = equilibrium_db.value();
    if (!(Xe < X0)) {
        throw BadInput(arg::equilibrium_db, "is not below the first moisture, {}", {amount(MoistureDry(X0))});
    }
    for (double X : moistures) ratios.emplace_back((X - Xe) / (X0 - Xe));
    return ratios;
}

std::size_t reading_past(std::span<const Time> times, std::span<const Mass> masses, Mass solids,
                         MoistureWet target) {
    const Run run = checked_run(times, masses, solids, 2);
    constexpr double rounding = 1e-12;  // a target typed as what a reading holds
    const double wanted = target.value() / (1 - target.value());
    const auto wet = [](double X) { return amount(MoistureWet(X / (1 + X))); };
    const auto& X = run.moistures;
    if (wanted > X.front() * (1 + rounding))
        throw BadInput(arg::target, "is wetter than the first reading: the run began at {}",
                       {wet(X.front())});
    const double least = *std::ranges::min_element(X);
    if (wanted < least * (1 - rounding))
        throw BadInput(arg::target, "was not reached: the run came down to {}", {wet(least)});
    const auto passed = [&](double x) { return x * (1 - rounding) <= wanted; };
    for (std::size_t i = X.size() - 1; i > 0; --i)
        if (passed(X[i]) && !passed(X[i - 1])) return i;
    return 0;
}

Time time_at(std::span<const Time> times, std::span<const Mass> masses, Mass solids, MoistureWet target) {
    const std::size_t i = reading_past(times, masses, solids, target);
    if (i == 0) return times[0];
    const Mass wanted = solids / (1 - target.value());
    return times[i - 1] +
           (times[i] - times[i - 1]) * ((masses[i - 1] - wanted) / (masses[i - 1] - masses[i]));
}

std::vector<DoubtfulReading> run_check(std::span<const Time> times, std::span<const Mass> masses) {
    constexpr std::size_t least = 6;
    check_length(arg::masses, masses.size(), times.size());
    if (times.size() < least)
        throw BadInput(arg::times, "has too few readings: {}, where {} are needed",
                       {count(times.size()), count(least)});
    std::vector<DoubtfulReading> found;
    const auto doubt = [&](std::size_t i, ReadingSlip what, std::optional<Mass> expected = {}) {
        found.push_back({i + 1, times[i], masses[i], expected, what});
    };
    const auto order = rising(times);
    std::vector<double> x, y;
    for (std::size_t i = 0; i < times.size(); ++i) {
        if (std::ranges::binary_search(order, i)) {
            x.push_back(hours(times[i]));
            y.push_back(masses[i].value());
        } else {
            const bool twice = std::ranges::count(times, times[i]) > 1;
            doubt(i, twice ? ReadingSlip::same_twice : ReadingSlip::time_goes_back);
        }
    }
    if (x.size() < 2) return found;
    const auto [low, high] = std::ranges::minmax(y);
    for (const std::size_t i : gaps(x, y)) doubt(order[i], ReadingSlip::gap);
    for (const auto& slip : numeric::find_slips(x, y, kDoubtedShare * (high - low)))
        doubt(order[slip.at], named(slip, y), Mass::from_value(slip.expected));
    std::ranges::stable_sort(found, {}, &DoubtfulReading::reading);
    return found;
}

std::vector<DryingRate> drying_rates(std::span<const Time> times, std::span<const Mass> masses, Mass solids) {
    std::vector<DryingRate> rates;
    rates.reserve(times.size());
    for (double rate : rates_per_hour(checked_run(times, masses, solids, 3))) {
        rates.push_back(DryingRate::from_value(rate / kHour));
    }
    return rates;
}

std::vector<MassFlux> drying_fluxes(std::span<const Time> times, std::span<const Mass> masses, Mass solids,
                                    Area area) {
    require_positive(area, arg::area);
    std::vector<MassFlux> fluxes;
    fluxes.reserve(times.size());
    for (const DryingRate& rate : drying_rates(times, masses, solids))
        fluxes.emplace_back(rate * solids / area);
    return fluxes;
}

CriticalPoint critical_point(std::span<const Time> times, std::span<const Mass> masses, Mass solids) {
    constexpr double kFound =
        10;  // AICc: beyond it a rival has "essentially no support" (Burnham and Anderson)
    // With fewer the intervals did not hold where the fall is no straight line (tests/simulation/FIGURES.md).
    constexpr std::size_t kAll = 15;
    constexpr std::ptrdiff_t kBefore = 5, kAfter = 7;
    constexpr std::size_t least = 8;
    const Run whole = checked_run(times, masses, solids, least);
    const auto found_slips = slips(whole);
    const Run run = put_right(whole, found_slips);
    if (!(run.moistures.back() < run.moistures.front()))
        throw NoConvergence(arg::masses, "holds masses that do not fall");
    const Shapes shapes = fit_shapes(run);
    double bend = kInfinity;
    for (const auto& fit : shapes.bends) bend = std::min(bend, fit.aicc);
    if (!(bend < shapes.constant)) throw NoConvergence(arg::masses, "shows no falling-rate period");
    if (!(bend < shapes.smooth))
        throw NoConvergence(arg::masses,
                            "shows no constant-rate period: a curve without one follows it as well");

    const Averaged Xc = averaged(shapes.bends, 0), R = averaged(shapes.bends, 1),
                   tc = averaged(shapes.bends, 2);
    const auto before = std::ranges::count_if(run.hours, [&](double t) { return t <= tc.value; });
    CriticalPoint point{.rate = DryingRate::from_value(R.value / kHour),
                        .moisture = MoistureDry(Xc.value),
                        .time = times[0] + from_hours(tc.value),
                        .u_rate = DryingRate::from_value(R.u / kHour),
                        .u_moisture = MoistureDry(Xc.u),
                        .u_time = from_hours(tc.u),
                        .evidence = std::min(shapes.constant, shapes.smooth) - bend,
                        .readings = run.hours.size(),
                        .finding = BendFinding::found};
    const auto step = [](const numeric::Slip& slip) { return slip.kind == numeric::SlipKind::step; };
    if (std::ranges::any_of(found_slips, step))
        point.finding = BendFinding::step;
    else if (run.hours.size() < kAll || before < kBefore || std::ssize(run.hours) - before < kAfter)
        point.finding = BendFinding::few_readings;
    else if (point.evidence < kFound)
        point.finding = BendFinding::little_evidence;
    return point;
}

}  // namespace drysheet
