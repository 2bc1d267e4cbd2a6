// SPDX-License-Identifier: MPL-2.0
#include "drysheet/yield.hpp"

#include <algorithm>
#include <boost/units/cmath.hpp>
#include <functional>
#include <limits>
#include <numeric>

#include "drysheet/require.hpp"

namespace drysheet {
namespace {

Mass sum(std::span<const Mass> masses) { return std::accumulate(masses.begin(), masses.end(), Mass()); }

void require_drier(std::string_view argument, MoistureWet final, MoistureWet start) {
    if (!(final <= start))
        throw BadInput(argument, "is above the start moisture, {}: drying takes water out", {amount(start)});
}

double solids_of(MoistureWet moisture) { return 1 - moisture.value(); }

}  // namespace

Fraction trim_yield(Mass whole, std::span<const Mass> losses) {
    require_positive(whole, arg::whole);
    const Mass left = unaccounted(whole, losses);
    if (!(left >= Mass()))
        throw BadInput(arg::loss, "is too much: the losses, {} together, are more than the whole, {}",
                       {amount(sum(losses)), amount(whole)});
    return Fraction(left / whole);
}

Mass water_removed(Mass fresh, MoistureWet start, MoistureWet final) {
    require_drier(arg::final, final, start);
    return fresh * ((start.value() - final.value()) / solids_of(final));
}

Mass dried_mass(Mass fresh, MoistureWet start, MoistureWet final) {
    require_drier(arg::final, final, start);
    return fresh * solids_of(start) / solids_of(final);
}

Mass fresh_for(Mass dried, MoistureWet start, MoistureWet final) {
    require_drier(arg::final, final, start);
    return dried * solids_of(final) / solids_of(start);
}

double drying_ratio(MoistureWet start, MoistureWet final) {
    require_drier(arg::final, final, start);
    return solids_of(final) / solids_of(start);
}

MoistureWet final_moisture(Mass fresh, MoistureWet start, Mass dried) {
    const Mass solids = fresh * solids_of(start);
    require_positive(dried, arg::dried);
    const Mass water = unless_rounding(dried - solids, fresh);
    if (!(water >= Mass()))
        throw BadInput(arg::dried, "is below the {} of dry solids that went in", {amount(solids)});
    if (!(dried <= fresh)) throw BadInput(arg::dried, "is above the fresh mass, {}", {amount(fresh)});
    return MoistureWet(water / dried);
}

MoistureWet start_moisture(Mass fresh, Mass dried, MoistureWet final) {
    require_positive(fresh, arg::fresh);
    require_positive(dried, arg::dried);
    if (!(dried <= fresh)) throw BadInput(arg::dried, "is above the fresh mass, {}", {amount(fresh)});
    return MoistureWet((fresh - dried * solids_of(final)) / fresh);
}

Mass stop_mass(Mass tare, Mass fresh, MoistureWet start, MoistureWet target) {
    require_drier(arg::target, target, start);
    return tare + dried_mass(fresh, start, target);
}

Mass prorate(Mass test_fresh, Mass test_dried, Mass batch_fresh) {
    require_positive(test_fresh, arg::test_fresh);
    if (!(test_dried <= test_fresh))
        throw BadInput(arg::test_dried, "is above the test's fresh mass, {}", {amount(test_fresh)});
    return test_dried * (batch_fresh / test_fresh);
}

Fraction chain_yield(std::span<const Fraction> yields) {
    if (yields.empty()) throw BadInput(arg::yield, "is wanted for one stage or more");
    return Fraction(std::transform_reduce(yields.begin(), yields.end(), 1.0, std::multiplies<>(),
                                          [](Fraction y) { return y.value(); }));
}

Fraction step_yield(Mass in, Mass out, std::optional<std::span<const Mass>> kept) {
    require_positive(in, arg::in);
    require_positive(out, arg::out);
    const auto samples = kept.value_or(std::span<const Mass>());
    const Mass left = unaccounted(in, samples);
    if (!(left > Mass()))
        throw BadInput(arg::kept, "is too much: {} of samples leave nothing of the {} that went in",
                       {amount(sum(samples)), amount(in)});
    const Mass lost = unless_rounding(left - out, in, samples.size() + 1);
    if (!(lost >= Mass()))
        throw BadInput(arg::out, "is above the {} that went in without the samples", {amount(left)});
    return lost == Mass() ? Fraction(1) : Fraction(out / left);
}

namespace {
/// Raw mass over dried mass of a chain.
double raw_per_dried(double drying_ratio, std::span<const Fraction> yields) {
    if (!(drying_ratio >= 1))
        throw BadInput(arg::drying_ratio, "is below 1: it is fresh mass over dried mass");
    double y = 1;
    for (const Fraction stage : yields) {
        if (!(stage.value() > 0))
            throw BadInput(arg::yield, "is 0: no amount of raw material gives a product");
        y *= stage.value();
    }
    return drying_ratio / y;
}
}  // namespace

Mass raw_for(Mass dried, double drying_ratio, std::span<const Fraction> yields) {
    return dried * raw_per_dried(drying_ratio, yields);
}

Mass dried_from(Mass raw, double drying_ratio, std::span<const Fraction> yields) {
    return raw / raw_per_dried(drying_ratio, yields);
}

Mass unless_rounding(Mass difference, Mass largest, std::size_t terms) {
    const double rounding = static_cast<double>(terms + 1) * std::numeric_limits<double>::epsilon();
    return abs(difference) <= rounding * largest ? Mass() : difference;
}

Mass unaccounted(Mass in, std::span<const Mass> outs) {
    return unless_rounding(in - sum(outs), in, outs.size() + 1);
}

MoistureWet blend_moisture(std::span<const Mass> masses, std::span<const MoistureWet> moistures) {
    if (moistures.size() != masses.size())
        throw BadInput(arg::moistures, "must have as many cells as masses");
    const Mass total = sum(masses);
    if (!(total > Mass())) throw BadInput(arg::masses, "adds up to nothing");
    const Mass water =
        std::transform_reduce(masses.begin(), masses.end(), moistures.begin(), Mass(), std::plus<>(),
                              [](Mass m, MoistureWet w) { return m * w.value(); });
    return MoistureWet(water / total);
}

Fraction blend_share(MoistureWet moisture_a, MoistureWet moisture_b, MoistureWet target) {
    if (moisture_a == moisture_b)
        throw BadInput(arg::moisture_b, "is the moisture of a as well: any blend has it");
    const auto [low, high] = std::minmax(moisture_a, moisture_b);
    if (!(target >= low && target <= high))
        throw BadInput(arg::target, "is not between the two moistures, {} and {}: no blend has it",
                       {amount(low), amount(high)});
    return Fraction((target.value() - moisture_b.value()) / (moisture_a.value() - moisture_b.value()));
}

double rehydration(Mass dried, Mass rehydrated) {
    require_positive(dried, arg::dried);
    if (!(rehydrated >= dried))
        throw BadInput(arg::rehydrated, "is below the dried mass, {}: soaking adds water", {amount(dried)});
    return rehydrated / dried;
}

Mass rehydration_water(Mass dried, MoistureWet moisture, MoistureWet target) {
    if (!(target >= moisture))
        throw BadInput(arg::target, "is below the product's moisture, {}: adding water cannot dry it",
                       {amount(moisture)});
    return dried * ((target.value() - moisture.value()) / solids_of(target));
}

}  // namespace drysheet
