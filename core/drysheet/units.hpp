// SPDX-License-Identifier: MPL-2.0
// The unit vocabulary: every unit name that may be typed, its exact factor, and the default unit of each
// kind.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "drysheet/kinds.hpp"

namespace drysheet {

/// Exponents of mass, length, time, temperature, amount of substance and money.
using Dimension = std::array<std::int8_t, 6>;

enum class Basis : std::uint8_t { unsaid, wet, dry };
/// A moisture on the other basis: X = w/(1 − w), w = X/(1 + X).
constexpr double other_basis(double x, Basis from) { return from == Basis::wet ? x / (1 - x) : x / (1 + x); }

/// A unit as read: value_si = value · numerator / denominator + offset.
struct Unit {
    double numerator = 1;
    double denominator = 1;
    double offset = 0;  ///< kelvin; only for a temperature on its own
    Dimension dimension{};
    RatioForm form = RatioForm::none;
    Basis basis = Basis::unsaid;
    bool humidity = false;  ///< "RH" was said
    bool dry_air = false;   ///< "dry air" was said

    constexpr double to_si(double x) const { return x * numerator / denominator + offset; }
    constexpr double from_si(double x) const { return (x - offset) * denominator / numerator; }
    /// A difference or an uncertainty: the offset does not count.
    constexpr double step_to_si(double x) const { return x * numerator / denominator; }
    constexpr double step_from_si(double x) const { return x * denominator / numerator; }
};

/// One name of the vocabulary, all its spellings (separated by spaces) and where the factor is printed.
struct NamedUnit {
    std::string_view spellings;
    double numerator;
    double denominator;
    Dimension dimension;
    std::string_view source;
    double offset = 0;
};
std::span<const NamedUnit> vocabulary();

/// Reads a unit: a name of the vocabulary or a product and quotient of them ("kg/m²", "g/(m²·day·kPa)",
/// "kJ/kg"), with "wb", "db", "RH" or "dry air" behind it. Empty text is no unit. Nothing when it is not a
/// unit, or when it is ambiguous (a product behind a solidus without brackets).
std::optional<Unit> read_unit(std::string_view text);

/// The default unit of a kind, read once.
const Unit& default_unit(Kind kind);

/// May a value of this kind be given in this unit? Dimension, and for ratios also the form and basis.
bool fits(const Unit& unit, Kind kind);

}  // namespace drysheet
