// SPDX-License-Identifier: MPL-2.0
// Propagation of uncertainties: first order, whether that will do, and Monte Carlo where it will not.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <span>
#include <vector>

namespace drysheet::numeric {

/// How a quantity is spread about its value.
enum class Spread : unsigned char { normal, rectangular };

struct Uncertain {
    double value = 0;
    double u = 0;  ///< standard uncertainty, 0 or more
    Spread spread = Spread::normal;
};

/// The function of the inputs; nothing where it has no value.
using Model = std::function<std::optional<double>(std::span<const double>)>;
/// Several results of the same inputs, always as many.
using Models = std::function<std::vector<std::optional<double>>(std::span<const double>)>;

/// Rows of the tableau at most: what a derivative may cost.
inline constexpr std::size_t kTableau = 10;

/// Partial derivative with respect to input i: differences extrapolated to step 0 (Ridders' tableau), the
/// entry with the smallest error taken. Central where both sides have a value, one-sided at the edge of the
/// range. reach: the first step tried; it is shortened until the function has a value there. Nothing when
/// neither side has one. Source: Ridders (1982) Accurate computation of F'(x) and F'(x)F''(x), Adv. Eng.
/// Software 4(2):75-76.
std::optional<double> derivative(const Model& model, std::span<const double> at, std::size_t i, double reach);

struct Propagated {
    double value = 0;
    double u = 0;
    std::vector<double> contributions;  ///< |df/dx_i| u_i of each input
    /// By how much each input alone, moved up and down by its u, shifts the middle of the result: half the
    /// second difference. 0 where one side has no value.
    std::vector<double> bends;
};
/// u^2 = sum (df/dx_i u_i)^2, inputs independent.
/// Throws NoConvergence("") when the model has no value at `inputs`, or none on either side of one of them.
/// Source: JCGM 100:2008 (GUM) 5.1.2.
Propagated propagate(const Model& model, std::span<const Uncertain> inputs);
/// The same of several results, nothing for one that it throws for. rows: of each tableau, 1 or more.
std::vector<std::optional<Propagated>> propagate(const Models& models, std::span<const Uncertain> inputs,
                                                 std::size_t rows = kTableau);

struct Sampled {
    double mean = 0;
    double u = 0;
    double low = 0, high = 0;  ///< hold the middle 95 %
    double without_value =
        0;  ///< share of draws for which the model has no value; the rest is left out for it
    std::size_t draws = 0;
    bool settled = true;  ///< of an adaptive run: its tolerance was reached
};
/// The same by drawing every input from its distribution: 2000 draws, each input in 2000 equal slices
/// (a Latin hypercube), always the same ones. Nothing when fewer than half of the draws have a value. Source:
/// JCGM 101:2008 (GUM Supplement 1); McKay, Beckman & Conover (1979) Technometrics 21(2):239-245.
std::optional<Sampled> sample(const Model& model, std::span<const Uncertain> inputs);
std::vector<std::optional<Sampled>> sample(const Models& models, std::span<const Uncertain> inputs);

/// Whether draws say something else than first order does: another u or mean, other ends of the interval, or
/// a bend that shifts the middle.
bool misleads(const Propagated& first, const Sampled& drawn);

/// Blocks of 10 000 draws until twice the standard deviations of mean, u and both ends of the 95 % interval
/// over the blocks are below half a unit of u's last digit, of `digits` (1 or 2), for every result that has
/// half of its draws; or until `go_on`, asked after each block, says no (then not settled). Fewer than two
/// blocks settle nothing. Source: JCGM 101:2008, 7.9.2 (tolerance) and 7.9.4 (adaptive procedure).
std::vector<std::optional<Sampled>> sample_adaptively(const Models& models, std::span<const Uncertain> inputs,
                                                      int digits, const std::function<bool()>& go_on);

/// The inputs that must be known better for a result's u to be half as large: as few as will do, the largest
/// contributions first, all of them by one factor. Empty where nothing contributes.
struct Better {
    std::vector<std::size_t> inputs;
    double factor = 0;  ///< of their standard uncertainties
};
Better for_half(std::span<const double> contributions);

}  // namespace drysheet::numeric
