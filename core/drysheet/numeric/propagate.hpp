// Propagation of uncertainties: first order, and a Monte Carlo check of it.
#pragma once

#include <functional>
#include <optional>
#include <span>
#include <vector>

namespace drysheet::numeric {

struct Uncertain {
    double value = 0;
    double u = 0;  ///< standard uncertainty, 0 or more
};

/// The function of the inputs; nothing where it has no value.
using Model = std::function<std::optional<double>(std::span<const double>)>;

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
};
/// u^2 = sum (df/dx_i u_i)^2, inputs independent.
/// Throws NoConvergence("") when the model has no value at `inputs`, or none on either side of one of them.
/// Source: JCGM 100:2008 (GUM) 5.1.2.
Propagated propagate(const Model& model, std::span<const Uncertain> inputs);

struct Sampled {
    double mean = 0;
    double u = 0;
    double low = 0, high = 0;  ///< hold the middle 95 %
    double without_value =
        0;  ///< share of draws for which the model has no value; the rest is left out for it
};
/// The same by drawing every input from its normal distribution: 2000 draws, each input in 2000 equal slices
/// (a Latin hypercube), always the same ones. Nothing when fewer than half of the draws have a value. Source:
/// JCGM 101:2008 (GUM Supplement 1); McKay, Beckman & Conover (1979) Technometrics 21(2):239-245.
std::optional<Sampled> sample(const Model& model, std::span<const Uncertain> inputs);

}  // namespace drysheet::numeric
