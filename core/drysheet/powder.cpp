// SPDX-License-Identifier: MPL-2.0
#include "drysheet/powder.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "drysheet/require.hpp"
#include "drysheet/runs.hpp"

namespace drysheet {
namespace {

double kelvin(Temperature t) { return to_si(t); }

void check_gordon_taylor(Temperature tg_solids, double k, Temperature tg_water) {
    require_positive(k, arg::k);
    if (!(kelvin(tg_water) < kelvin(tg_solids)))
        throw BadInput(arg::tg_water, "is not below tg_solids ({})", {amount(tg_solids)});
}

void check_densities(Density bulk, Density tapped) {
    require_positive(bulk, arg::bulk);
    if (!(tapped >= bulk)) throw BadInput(arg::tapped, "is below the bulk density {}", {amount(bulk)});
}

struct Sieve {
    double opening;
    double mass;
};

/// Largest opening first, the pan last.
std::vector<Sieve> sieves(std::span<const Length> openings, std::span<const Mass> masses) {
    check_length(arg::masses, masses.size(), openings.size());
    std::vector<Sieve> stack;
    stack.reserve(openings.size());
    for (std::size_t i = 0; i < openings.size(); ++i) {
        if (!(to_si(openings[i]) >= 0))
            throw BadInput(arg::openings, "holds {}, below 0", {amount(openings[i])});
        if (!(to_si(masses[i]) >= 0)) throw BadInput(arg::masses, "holds {}, below 0", {amount(masses[i])});
        stack.push_back({to_si(openings[i]), to_si(masses[i])});
    }
    std::ranges::sort(stack, std::ranges::greater{}, &Sieve::opening);
    const auto twice = std::ranges::adjacent_find(stack, std::ranges::equal_to{}, &Sieve::opening);
    if (twice != stack.end())
        throw BadInput(arg::openings, "holds {} twice", {amount(from_si<Length>(twice->opening))});
    if (stack.empty() || stack.front().opening == 0)
        throw BadInput(arg::openings, "holds no sieve, only 0 for the pan");
    return stack;
}

double total(std::span<const Sieve> stack) {
    double sum = 0;
    for (const Sieve& sieve : stack) sum += sieve.mass;
    if (!(sum > 0)) throw BadInput(arg::masses, "holds only 0: nothing was retained");
    return sum;
}

}  // namespace

Temperature glass_point(MoistureWet moisture, Temperature tg_solids, double k, Temperature tg_water) {
    check_gordon_taylor(tg_solids, k, tg_water);
    const double w2 = moisture.value(), w1 = 1 - w2;
    return from_si<Temperature>((w1 * kelvin(tg_solids) + k * w2 * kelvin(tg_water)) / (w1 + k * w2));
}

MoistureWet caking_moisture(Temperature store_temp, Temperature tg_solids, double k,
                            TemperatureDifference margin, Temperature tg_water) {
    check_gordon_taylor(tg_solids, k, tg_water);
    const double T = kelvin(store_temp) + to_si(margin), Tg1 = kelvin(tg_solids), Tg2 = kelvin(tg_water);
    if (!(T <= Tg1))
        throw BadInput(arg::store_temp, "with the margin is above tg_solids ({}): sticky even when bone dry",
                       {amount(tg_solids)});
    if (!(T > Tg2))
        throw BadInput(arg::store_temp,
                       "with the margin is not above tg_water ({}): no moisture is sticky there",
                       {amount(tg_water)});
    return MoistureWet((Tg1 - T) / ((Tg1 - T) + k * (T - Tg2)));
}

namespace {
using Parts = DrySolids;
// From memory of the sources, not looked up. Sugars and sorbitol: Roos (1993) Carbohydr. Res. 238:39; citric
// acid: Lu & Zografi (1997) J. Pharm. Sci. 86:1374; maltodextrins: Roos & Karel (1991) J. Food Sci. 56:1676,
// their steps that of sucrose by the ratio of the Gordon–Taylor constants with water, 5.42 to 6.0, 6.5, 7.0
// and 7.7; starch: Orford et al. (1989) Int. J. Biol. Macromol. 11:91.
constexpr GlassFormer kGlassFormers[] = {
    {&Parts::fructose, 5, 0.75},
    {&Parts::glucose, 31, 0.63},
    {&Parts::sucrose, 62, 0.60},
    {&Parts::maltose, 87, 0.61},
    {&Parts::trehalose, 100, 0.55},
    {&Parts::sorbitol, -9, 0.96},
    {&Parts::citric_acid, 11, 0.82},
    {&Parts::maltodextrin_de36, 100, 0.542},
    {&Parts::maltodextrin_de20, 141, 0.50},
    {&Parts::maltodextrin_de10, 160, 0.465},
    {&Parts::maltodextrin_de5, 188, 0.422},
    {&Parts::starch, 243, 0.47},
};
}  // namespace

std::span<const GlassFormer> glass_formers() { return kGlassFormers; }

Temperature solids_glass_point(const DrySolids& shares) {
    double total = 0, weight = 0, sum = 0;
    for (const GlassFormer& part : kGlassFormers) {
        const double w = (shares.*part.share).value_or(Fraction(0)).value();
        total += w;
        weight += w * part.step;
        sum += w * part.step * std::log(part.celsius + 273.15);
    }
    if (!(std::abs(total - 1) <= 0.01 + 1e-12))
        throw BadInput(arg::shares, "sum to {}, not to 1", {amount(total)});
    return from_si<Temperature>(std::exp(sum / weight));
}

Fraction carrier_share(Temperature tg_solids, Temperature tg_carrier, Temperature store_temp,
                       MoistureWet moisture, TemperatureDifference margin, std::optional<double> k) {
    if (k) require_positive(*k, arg::k);
    const double T = kelvin(store_temp) + to_si(margin), w2 = moisture.value(), w1 = 1 - w2;
    const double D = w2 * (T - kelvin(kGlassTransitionOfWater));
    // without k it is linear in Tg: w1 (Tg - T) = (slope (Tg - 273.15) + 3.61) D
    const double slope = k ? 0 : 0.0293, at0 = k ? *k : 3.61;
    const double left = w1 - slope * D;
    const double needed = 273.15 + (w1 * (T - 273.15) + at0 * D) / left;
    if (left > 0 && needed <= kelvin(tg_solids)) return Fraction(0);
    if (!(left > 0 && needed <= kelvin(tg_carrier)))
        throw BadInput(arg::tg_carrier,
                       left > 0 ? "is below the {} that the dry solids would need: no share of it helps"
                                : "cannot help: no dry solids are dry-flowing at that moisture",
                       {amount(from_si<Temperature>(needed))});
    return Fraction((1 / kelvin(tg_solids) - 1 / needed) / (1 / kelvin(tg_solids) - 1 / kelvin(tg_carrier)));
}

double hausner_ratio(Density bulk, Density tapped) {
    check_densities(bulk, tapped);
    return tapped / bulk;
}

Fraction carr_index(Density bulk, Density tapped) {
    check_densities(bulk, tapped);
    return Fraction((tapped - bulk) / tapped);
}

namespace {
constexpr FlowClassInfo kFlowClasses[] = {{"excellent", 10},       {"good", 15}, {"fair", 20},
                                          {"passable", 25},        {"poor", 31}, {"very poor", 37},
                                          {"very, very poor", 100}};
}

std::span<const FlowClassInfo> flow_classes() { return kFlowClasses; }
const FlowClassInfo& info(FlowClass flow) { return kFlowClasses[static_cast<std::size_t>(flow)]; }

FlowClass flow_class(Fraction carr) {
    // An index of 1 − 0.45/0.5 is 10 % and an ulp: it must not fall into the next class.
    const double percent = 100 * carr.value() - 1e-9;
    const auto found = std::ranges::lower_bound(kFlowClasses, percent, {}, &FlowClassInfo::up_to);
    return static_cast<FlowClass>(found - std::begin(kFlowClasses));
}

SieveMean sieve_mean(std::span<const Length> openings, std::span<const Mass> masses) {
    const std::vector<Sieve> stack = sieves(openings, masses);
    const double W = total(stack);
    const auto undivided = [W](double mass, std::string_view refusal) {
        const Fraction share(mass / W);
        if (share.value() > kMostUndivided)
            throw OutOfRange(arg::masses, refusal, {amount(share), amount(Fraction(kMostUndivided))});
        return share;
    };
    const Fraction in_pan =
        undivided(stack.back().opening == 0 ? stack.back().mass : 0,
                  "leave {} in the pan: above {} a mean and a deviation would be invented; a finer sieve is "
                  "wanted");
    const Fraction on_top =
        undivided(stack.front().mass,
                  "leave {} on the largest sieve: above {} a mean and a deviation would be invented; a "
                  "coarser sieve is wanted, empty or nearly so");
    std::vector<double> log_d;
    log_d.reserve(stack.size());
    double above = stack.front().opening * std::numbers::sqrt2, mean = 0;
    for (const Sieve& sieve : stack) {
        const double opening = sieve.opening > 0 ? sieve.opening : above / std::numbers::sqrt2;
        log_d.push_back(0.5 * (std::log(opening) + std::log(above)));
        mean += sieve.mass * log_d.back() / W;
        above = opening;
    }
    double variance = 0;
    for (std::size_t i = 0; i < stack.size(); ++i)
        variance += stack[i].mass * (log_d[i] - mean) * (log_d[i] - mean) / W;
    return {from_si<Length>(std::exp(mean)), std::exp(std::sqrt(variance)), in_pan, on_top};
}

SieveInterval sieve_interval(std::span<const Length> openings, std::span<const Mass> masses,
                             Fraction passing) {
    const std::vector<Sieve> stack = sieves(openings, masses);
    constexpr double kRounding = 1e-12;
    const double W = total(stack), wanted = passing.value();
    const auto size = [](double metres) { return from_si<Length>(metres); };
    double above = 0, above_passes = 1;  // the sieve above and the fraction that passes it
    double kept = 0;
    for (const Sieve& sieve : stack) {
        if (sieve.opening == 0) break;
        kept += sieve.mass;
        const double passes = 1 - kept / W;
        if (wanted > passes + kRounding) {
            if (above == 0)
                throw OutOfRange(arg::passing, "is above {}, the fraction that passes the largest sieve",
                                 {amount(Fraction(std::clamp(passes, 0.0, 1.0)))});
            return {size(sieve.opening), size(above), passes, above_passes};
        }
        above = sieve.opening;
        above_passes = passes;
    }
    if (wanted >= above_passes - kRounding) return {size(above), size(above), above_passes, above_passes};
    throw OutOfRange(arg::passing, "is below {}, the fraction that passes the finest sieve",
                     {amount(Fraction(std::clamp(above_passes, 0.0, 1.0)))});
}

Length sieve_size(std::span<const Length> openings, std::span<const Mass> masses, Fraction passing) {
    const auto [finer, coarser, finer_passes, coarser_passes] = sieve_interval(openings, masses, passing);
    if (!(coarser > finer)) return finer;
    const double share = std::fmin((passing.value() - finer_passes) / (coarser_passes - finer_passes), 1);
    const double step = coarser / finer;
    return finer * std::pow(step, share);
}

}  // namespace drysheet
