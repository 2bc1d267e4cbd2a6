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
constexpr double kBetterBy = 4;          // AICc by which a bend must be better than none

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
    for (std::size_t i = 0; i < times.size(); ++i) {
        if (i > 0 && !(times[i] > times[i - 1])) {
            throw BadInput(arg::times, "holds {} after {}: times must rise from reading to reading",
                           {amount(times[i]), amount(times[i - 1])});
        }
        run.hours.push_back(hours(times[i] - times[0]));
    }
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
Run put_right(const Run& run) {
    const auto [moistures, kept] = numeric::mended(run.moistures, slips(run));
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

// ---- the critical point: parameters Xc, R, tc, τ

constexpr auto two_periods = [](double t, const auto& p) {
    const auto& [Xc, R, tc, tau] = p;
    using T = std::remove_cvref_t<decltype(Xc)>;
    return t <= tc.value ? T(Xc + R * (tc - t)) : T(Xc - R * tau * (1 - exp(-(t - tc) / tau)));
};
constexpr auto constant_only = [](double t, const auto& p) { return p[0] - p[1] * t; };
constexpr auto falling_only = [](double t, const auto& p) { return p[0] - p[1] * (1 - exp(-t / p[2])); };

std::vector<std::vector<double>> bend_starts(const Run& run) {
    const double end = run.hours.back();
    std::vector<std::vector<double>> starts;
    for (double share : {0.15, 0.3, 0.5, 0.7}) {
        const double tc = share * end;
        const auto after =
            static_cast<std::size_t>(std::ranges::lower_bound(run.hours, tc) - run.hours.begin());
        const double Xc = run.moistures[after];
        const double R = (run.moistures.front() - Xc) / run.hours[after];
        if (!(R > 0)) continue;
        starts.push_back({Xc, R, tc, std::max((Xc - run.moistures.back()) / R, 0.05 * end)});
    }
    return starts;
}

numeric::Fit fit_bend(const Run& run) {
    const auto starts = bend_starts(run);
    if (starts.empty()) throw NoConvergence(arg::masses, "holds a mass that does not fall");
    const double inf = std::numeric_limits<double>::infinity();
    try {
        return numeric::fit({.argument = "masses",
                             .data = run.moistures,
                             .model = numeric::differentiated<4>(
                                 [&](std::size_t i, const auto& p) { return two_periods(run.hours[i], p); }),
                             .starts = starts,
                             .low = {-inf, 0, 0, 0},
                             .high = {inf, inf, run.hours.back(), inf}});
    } catch (const NoConvergence&) {
        throw NoConvergence(arg::masses, "shows no bend from a constant-rate to a falling-rate period");
    }
}

/// AICc of the same run with one period only; infinite where that cannot be fitted.
template <std::size_t N>
double aicc_of(const Run& run, const auto& formula, std::vector<double> start) {
    try {
        return numeric::fit({.argument = "masses",
                             .data = run.moistures,
                             .model = numeric::differentiated<N>(
                                 [&](std::size_t i, const auto& p) { return formula(run.hours[i], p); }),
                             .starts = {std::move(start)}})
            .aicc;
    } catch (const NoConvergence&) {
        return std::numeric_limits<double>::infinity();
    }
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

Time time_at(std::span<const Time> times, std::span<const Mass> masses, Mass solids, MoistureWet target) {
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
        if (passed(X[i]) && !passed(X[i - 1]))
            return times[i - 1] + (times[i] - times[i - 1]) * ((X[i - 1] - wanted) / (X[i - 1] - X[i]));
    return times[0];
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
    const Run run = put_right(checked_run(times, masses, solids, 7));
    const numeric::Fit fit = fit_bend(run);
    const double tc = fit.parameters[2];
    const auto before = std::ranges::count_if(run.hours, [&](double t) { return t <= tc; });
    const auto after = std::ssize(run.hours) - before;
    const double X0 = run.moistures.front(), end = run.hours.back();
    if (before < 3 || fit.aicc > aicc_of<3>(run, falling_only, {X0, run.range(), end / 3}) - kBetterBy) {
        throw NoConvergence(arg::masses, "shows no constant-rate period");
    }
    if (after < 3 || fit.aicc > aicc_of<2>(run, constant_only, {X0, run.range() / end}) - kBetterBy) {
        throw NoConvergence(arg::masses, "shows no falling-rate period");
    }
    const auto& u = fit.standard_errors;
    return {.rate = DryingRate::from_value(fit.parameters[1] / kHour),
            .moisture = MoistureDry(fit.parameters[0]),
            .time = times[0] + from_hours(tc),
            .u_rate = DryingRate::from_value(u[1] / kHour),
            .u_moisture = MoistureDry(u[0]),
            .u_time = from_hours(u[2]),
            .points = fit.points};
}

}  // namespace drysheet
