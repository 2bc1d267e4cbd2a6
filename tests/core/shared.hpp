// SPDX-License-Identifier: MPL-2.0
// What the tests of the core share.
#pragma once

#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "drysheet/quantity.hpp"

namespace drysheet::test {

inline Mass kg(double x) { return from_si<Mass>(x); }
inline Mass grams(double x) { return from_si<Mass>(x / 1000); }
inline MoistureWet wb(double x) { return MoistureWet(x); }
inline Time hours(double x) { return from_si<Time>(3600 * x); }
inline double in_hours(Time t) { return t.value() / 3600; }
inline Area m2(double x) { return from_si<Area>(x); }
inline Length mm(double x) { return from_si<Length>(x / 1000); }
inline Temperature celsius(double t) { return from_si<Temperature>(t + 273.15); }
inline double in_celsius(Temperature T) { return T.value() - 273.15; }
inline Pressure kpa(double p) { return from_si<Pressure>(p * 1000); }
inline MoistureDry db(double x) { return MoistureDry(x); }

/// |got - wanted| <= tolerance · |wanted|, or tolerance itself where 0 is wanted. NaN fails.
inline testing::AssertionResult near(double got, double wanted, double tolerance) {
    const double allowed = wanted == 0 ? tolerance : tolerance * std::abs(wanted);
    if (std::abs(got - wanted) <= allowed) return testing::AssertionSuccess();
    std::ostringstream text;
    text.precision(17);
    text << "got " << got << ", wanted " << wanted << ", off by " << got - wanted << ", allowed " << allowed;
    return testing::AssertionFailure() << text.str();
}
template <PhysicalValue T>
requires(!std::same_as<T, double>) testing::AssertionResult
    near(const T& got, double wanted_si, double tolerance) {
    return near(to_si(got), wanted_si, tolerance);
}

/// |got - wanted| <= tolerance, in the unit of the numbers. NaN fails.
inline testing::AssertionResult within(double got, double wanted, double tolerance) {
    if (std::abs(got - wanted) <= tolerance) return testing::AssertionSuccess();
    return testing::AssertionFailure() << "got " << got << ", wanted " << wanted << ", allowed " << tolerance;
}

/// The argument that a refusal of this type names; "not refused" or "other exception" otherwise.
template <class Exception, class Call>
std::string refused(Call call) {
    try {
        static_cast<void>(call());
    } catch (const Exception& refusal) {
        return std::string(refusal.argument());
    } catch (const std::exception&) {
        return "other exception";
    }
    return "not refused";
}
template <class Call>
std::string bad_input(Call call) {
    return refused<BadInput>(call);
}

/// A call that must be refused, whatever the type of the refusal, and the argument that must be named.
void expect_refused(const auto& call, std::string_view argument) {
    EXPECT_EQ(refused<NoResult>(call), argument);
}

/// The rows of a reference file, split at the separator; lines starting with # are left out.
inline std::vector<std::vector<std::string>> reference(const std::string& name, char separator) {
    std::ifstream file(std::string(DRYSHEET_REFERENCE) + "/" + name);
    EXPECT_TRUE(file.is_open()) << name;
    std::vector<std::vector<std::string>> rows;
    for (std::string line; std::getline(file, line);) {
        if (line.empty() || line.front() == '#') continue;
        std::vector<std::string> cells;
        std::istringstream cut(line);
        for (std::string cell; std::getline(cut, cell, separator);) cells.push_back(cell);
        rows.push_back(cells);
    }
    return rows;
}

/// The rows of a .csv of reference data behind its header row.
inline std::vector<std::vector<std::string>> read_csv(const std::string& name) {
    auto rows = reference(name, ',');
    if (!rows.empty()) rows.erase(rows.begin());
    return rows;
}

}  // namespace drysheet::test

#define EXPECT_REFUSED(argument, ...) drysheet::test::expect_refused([&] { __VA_ARGS__; }, argument)
