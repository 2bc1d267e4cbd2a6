// Comparisons that fail on NaN, and refusals that must name their argument.
#pragma once

#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "core/error.hpp"

namespace drysheet::testing {

/// |got − expected| ≤ relative · |expected|
inline ::testing::AssertionResult near(double got, double expected, double relative) {
    if (std::abs(got - expected) <= relative * std::abs(expected)) return ::testing::AssertionSuccess();
    return ::testing::AssertionFailure() << got << " is not " << expected << " within " << relative << " relative";
}
/// |got − expected| ≤ absolute
inline ::testing::AssertionResult within(double got, double expected, double absolute) {
    if (std::abs(got - expected) <= absolute) return ::testing::AssertionSuccess();
    return ::testing::AssertionFailure() << got << " is not " << expected << " within " << absolute;
}
/// The call is refused with E, naming the argument.
template <class E, class F>
::testing::AssertionResult refuses(F call, std::string_view argument) {
    try {
        (void)call();
    } catch (const E& refused) {
        if (refused.argument() == argument) return ::testing::AssertionSuccess();
        return ::testing::AssertionFailure() << "names " << refused.argument() << ", not " << argument;
    } catch (const std::exception& other) {
        return ::testing::AssertionFailure() << "refused otherwise: " << other.what();
    }
    return ::testing::AssertionFailure() << "was not refused";
}

/// The rows of a reference file without its `#` lines, cells as text; an empty last cell is kept.
inline std::vector<std::vector<std::string>> reference_rows(const std::string& name) {
    std::ifstream file(std::string(DRYSHEET_REFERENCE) + "/" + name);
    EXPECT_TRUE(file.is_open()) << name;
    std::vector<std::vector<std::string>> rows;
    for (std::string line; std::getline(file, line);) {
        if (line.empty() || line.front() == '#') continue;
        std::vector<std::string> cells;
        std::stringstream in(line);
        for (std::string cell; std::getline(in, cell, ',');) cells.push_back(cell);
        rows.push_back(cells);
    }
    EXPECT_GT(rows.size(), 1U) << name;
    return rows;
}

}  // namespace drysheet::testing
