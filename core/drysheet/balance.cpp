// SPDX-License-Identifier: MPL-2.0
#include "drysheet/balance.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "drysheet/numeric/nearest_balance.hpp"
#include "drysheet/require.hpp"
#include "drysheet/yield.hpp"

namespace drysheet {
namespace {

double squared(double x) { return x * x; }

/// An error this many times the gap's standard uncertainty brings p below 0.05 in 9 of 10 runs: the normal
/// quantiles of 0.975 and 0.9.
constexpr double kNoticed = 1.959964 + 1.281552;

void require_uncertainty(std::string_view argument, double u) {
    if (!(u >= 0)) throw BadInput(argument, "is below 0: a standard uncertainty cannot be");
}

}  // namespace

Closure closure(Mass in, Mass u_in, std::span<const Mass> outs, std::span<const Mass> u_outs) {
    require_positive(in, arg::in);
    if (outs.empty()) throw BadInput(arg::outs, "is wanted: at least one mass came out");
    if (u_outs.size() != outs.size() && u_outs.size() != 1)
        throw BadInput(arg::u_outs, "must have as many cells as outs, or one cell for all");
    require_uncertainty(arg::u_in, to_si(u_in));
    for (const Mass& u : u_outs) require_uncertainty(arg::u_outs, to_si(u));

    double u2 = squared(to_si(u_in));
    for (std::size_t i = 0; i < outs.size(); ++i) u2 += squared(to_si(u_outs[u_outs.size() == 1 ? 0 : i]));
    const Mass u = from_si<Mass>(std::sqrt(u2));
    const Mass gap = unaccounted(in, outs);
    Closure result{.gap = gap, .gap_share = gap / in, .u = u};
    if (u > Mass()) {
        result.gap_over_u = gap / u;
        result.verdict = std::abs(*result.gap_over_u) <= 2 ? ClosureVerdict::closes
                         : gap > Mass()                    ? ClosureVerdict::loss
                                                           : ClosureVerdict::gain;
    }
    return result;
}

std::vector<Stage> stages(std::span<const Mass> in, std::span<const Mass> out, std::span<const Mass> kept) {
    if (in.empty()) throw BadInput(arg::in, "is wanted for one stage or more");
    if (out.size() != in.size()) throw BadInput(arg::out, "must have as many cells as in");
    if (!kept.empty() && kept.size() != in.size()) throw BadInput(arg::kept, "must have as many cells as in");
    std::vector<Stage> result;
    double cumulative = 1;
    for (std::size_t i = 0; i < in.size(); ++i) {
        const Mass sample = kept.empty() ? Mass() : kept[i];
        if (!(in[i] > Mass())) throw BadInput(arg::in, "holds a mass that is not above 0");
        if (!(out[i] >= Mass())) throw BadInput(arg::out, "holds a mass below 0");
        if (!(sample >= Mass())) throw BadInput(arg::kept, "holds a mass below 0");
        const Mass left = unaccounted(in[i], std::array{sample});
        if (!(left > Mass()))
            throw BadInput(arg::kept, "is too much: {} of samples leave nothing of the {} that went in",
                           {amount(sample), amount(in[i])});
        const Mass loss = unaccounted(in[i], std::array{out[i], sample});
        const double share = loss / left;
        cumulative *= 1 - share;
        result.push_back(
            {.loss = loss, .loss_share = share, .yield = 1 - share, .cumulative_yield = cumulative});
    }
    return result;
}

Reconciliation reconcile(Mass fresh, Mass u_fresh, MoistureWet start, Fraction u_start, Mass dried,
                         Mass u_dried, MoistureWet final, Fraction u_final) {
    // In solids shares a = 1 - w0 and b = 1 - w1 the balance is F a = D b.
    using Four = std::array<double, 4>;  // fresh, start, dried, final
    const Four given{to_si(fresh), 1 - start.value(), to_si(dried), 1 - final.value()};
    const Four u{to_si(u_fresh), u_start.value(), to_si(u_dried), u_final.value()};
    constexpr std::array<std::string_view, 4> names{"fresh", "start", "dried", "final"};
    constexpr std::array<std::string_view, 4> u_names{"u_fresh", "u_start", "u_dried", "u_final"};
    require_positive(fresh, arg::fresh);
    require_positive(dried, arg::dried);
    for (std::size_t i = 0; i < 4; ++i) require_uncertainty(u_names[i], u[i]);
    if (u == Four{})
        throw BadInput(arg::u_fresh,
                       "is 0 and so are the others: with every value exactly known nothing may move");

    const auto [at, l] = numeric::nearest_balance(given, u);
    for (std::size_t i = 0; i < 4; ++i) {
        const bool share = i % 2 == 1;
        if (!(at[i] > 0) || (share && !(at[i] <= 1)))
            throw BadInput(names[i], "would have to become {} to close the balance, which cannot be",
                           {share ? Amount{1 - at[i], Kind::moisture_wet} : Amount{at[i], Kind::mass}});
    }
    const auto [F, a, D, b] = at;

    // Covariance after adjustment, first order: V - V A'(A V A')^-1 A V with A the gradient of F a - D b.
    const Four A{a, F, -b, -D};
    double S = 0;
    for (std::size_t i = 0; i < 4; ++i) S += squared(A[i] * u[i]);
    const auto u_of = [&](const Four& gradient) {
        double before = 0, along = 0;
        for (std::size_t i = 0; i < 4; ++i) {
            before += squared(gradient[i] * u[i]);
            along += gradient[i] * A[i] * squared(u[i]);
        }
        return std::sqrt(std::max(0.0, before - along * along / S));
    };
    // The same for one value, without the cancellation: u_i^2 (S - A_i^2 u_i^2) / S.
    const auto u_of_input = [&](std::size_t i) {
        double others = 0;
        for (std::size_t j = 0; j < 4; ++j)
            if (j != i) others += squared(A[j] * u[j]);
        return u[i] * std::sqrt(others / S);
    };
    const auto correction = [&, l = l](std::size_t i) {  // from the multiplier: no difference of near values
        const double sign = i % 2 == 1 ? 1 : -1;         // a moisture moves against its solids share
        return u[i] > 0 ? std::optional(sign * u[i] * l * A[i]) : std::nullopt;
    };
    const auto noticeable = [&](std::size_t i) { return kNoticed * std::sqrt(S) / std::abs(A[i]); };
    const auto noticeable_mass = [&](std::size_t i) { return from_si<Mass>(noticeable(i)); };
    const auto noticeable_moisture = [&,
                                      at = at](std::size_t i) {  // the moisture itself stays between 0 and 1
        const double error = noticeable(i);
        return error <= std::max(at[i], 1 - at[i]) ? std::optional(Fraction(error)) : std::nullopt;
    };

    Reconciliation r;
    r.fresh = {fresh, from_si<Mass>(F), from_si<Mass>(u_of_input(0)), correction(0), noticeable_mass(0)};
    r.start = {start, MoistureWet(1 - a), Fraction(u_of_input(1)), correction(1), noticeable_moisture(1)};
    r.dried = {dried, from_si<Mass>(D), from_si<Mass>(u_of_input(2)), correction(2), noticeable_mass(2)};
    r.final = {final, MoistureWet(1 - b), Fraction(u_of_input(3)), correction(3), noticeable_moisture(3)};
    r.solids = from_si<Mass>(F * a);
    r.u_solids = from_si<Mass>(u_of({a, F, 0, 0}));
    r.water = from_si<Mass>(F - D);
    r.u_water = from_si<Mass>(u_of({1, 0, -1, 0}));
    const double expected = given[0] * given[1] / given[3];  // dried product by the other three
    const Four by_each{expected / given[0], expected / given[1], 1, expected / given[3]};
    double u2_lost = 0;
    for (std::size_t i = 0; i < 4; ++i) u2_lost += squared(by_each[i] * u[i]);
    r.lost = unless_rounding(from_si<Mass>(expected) - dried, dried, 4);
    r.u_lost = from_si<Mass>(std::sqrt(u2_lost));

    for (const auto& c : {r.fresh.correction_over_u, r.start.correction_over_u, r.dried.correction_over_u,
                          r.final.correction_over_u})
        r.chi2 += squared(c.value_or(0));
    r.p = std::erfc(std::sqrt(r.chi2 / 2));  // chi2 with one degree of freedom is a squared normal deviate
    r.verdict = r.p >= 0.05   ? ReconcileVerdict::agree
                : r.p >= 0.01 ? ReconcileVerdict::doubtful
                              : ReconcileVerdict::disagree;
    return r;
}

}  // namespace drysheet
