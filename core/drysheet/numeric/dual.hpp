// SPDX-License-Identifier: MPL-2.0
// A number with its derivatives: forward-mode differentiation, so that no derivative is written by hand.
#pragma once

#include <array>
#include <cmath>
#include <cstddef>

namespace drysheet::numeric {

/// A value and its derivatives by N parameters.
template <std::size_t N>
struct Dual {
    double value = 0;
    std::array<double, N> slope{};

    constexpr Dual() = default;
    constexpr Dual(double constant) : value(constant) {}  // NOLINT: a constant is a number without slope
    /// The i-th parameter itself.
    static constexpr Dual parameter(double value, std::size_t i) {
        Dual result(value);
        result.slope[i] = 1;
        return result;
    }
    /// g(a) and g(a, b) by the chain rule.
    static constexpr Dual chain(double g, double by_a, const Dual& a) {
        Dual result(g);
        for (std::size_t i = 0; i < N; ++i) result.slope[i] = by_a * a.slope[i];
        return result;
    }
    static constexpr Dual chain(double g, double by_a, const Dual& a, double by_b, const Dual& b) {
        Dual result(g);
        for (std::size_t i = 0; i < N; ++i) result.slope[i] = by_a * a.slope[i] + by_b * b.slope[i];
        return result;
    }

    // A number has no slope: fewer multiplications than by the chain rule for two.
    friend constexpr Dual operator+(const Dual& a, double b) { return chain(a.value + b, 1, a); }
    friend constexpr Dual operator+(double a, const Dual& b) { return b + a; }
    friend constexpr Dual operator-(const Dual& a, double b) { return chain(a.value - b, 1, a); }
    friend constexpr Dual operator-(double a, const Dual& b) { return chain(a - b.value, -1, b); }
    friend constexpr Dual operator*(const Dual& a, double b) { return chain(a.value * b, b, a); }
    friend constexpr Dual operator*(double a, const Dual& b) { return b * a; }
    friend constexpr Dual operator/(const Dual& a, double b) { return chain(a.value / b, 1 / b, a); }

    friend constexpr Dual operator-(const Dual& a) { return chain(-a.value, -1, a); }
    friend constexpr Dual operator+(const Dual& a, const Dual& b) {
        return chain(a.value + b.value, 1, a, 1, b);
    }
    friend constexpr Dual operator-(const Dual& a, const Dual& b) {
        return chain(a.value - b.value, 1, a, -1, b);
    }
    friend constexpr Dual operator*(const Dual& a, const Dual& b) {
        return chain(a.value * b.value, b.value, a, a.value, b);
    }
    friend constexpr Dual operator/(const Dual& a, const Dual& b) {
        return chain(a.value / b.value, 1 / b.value, a, -a.value / (b.value * b.value), b);
    }
    friend Dual exp(const Dual& a) {
        const double e = std::exp(a.value);
        return chain(e, e, a);
    }
    friend Dual log(const Dual& a) { return chain(std::log(a.value), 1 / a.value, a); }
    friend Dual log1p(const Dual& a) { return chain(std::log1p(a.value), 1 / (1 + a.value), a); }
    /// a^b for a > 0, and 0^b = 0 for b > 0 (its slopes are 0 there).
    friend Dual pow(const Dual& a, const Dual& b) {
        if (a.value == 0) return Dual(std::pow(0.0, b.value));
        const double p = std::pow(a.value, b.value);
        return chain(p, b.value * p / a.value, a, p * std::log(a.value), b);
    }
    friend Dual pow(const Dual& a, double b) {
        if (a.value == 0) return Dual(std::pow(0.0, b));
        const double p = std::pow(a.value, b);
        return chain(p, b * p / a.value, a);
    }
    friend constexpr bool operator>(const Dual& a, double b) { return a.value > b; }
};

}  // namespace drysheet::numeric
