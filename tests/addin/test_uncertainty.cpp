// SPDX-License-Identifier: MPL-2.0
// DRY.UNCERTAINTY against an independent program, at edges, and its warning.
#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <sstream>

#include "addin/call/call.hpp"
#include "addin/call/lookup.hpp"
#include "addin/call/uncertainty.hpp"

namespace drysheet {
namespace {

Table table_of(std::string_view name, const std::vector<Input>& given) {
    return uncertainty(read(*find_function(name), given, {}));
}
std::size_t row_of(const Table& table, std::string_view name) {
    for (std::size_t row = 0; row < table.rows(); ++row)
        if (std::get<std::string>(table.at(row, 0)) == name) return row;
    ADD_FAILURE() << "no row " << name;
    return 0;
}
double number(const Table& table, std::string_view name, std::size_t column = 1) {
    return std::get<double>(table.at(row_of(table, name), column));
}
std::string warning(const Table& table) {
    return std::get<std::string>(table.at(row_of(table, "warning"), 1));
}
bool near(double got, double wanted, double tolerance) {
    return std::abs(got - wanted) <= tolerance * std::abs(wanted);
}

std::string exact(double x) {
    std::ostringstream text;
    text.precision(17);
    text << x;
    return text.str();
}

// tests/reference/make_uncertainties.py: exact derivatives of formulas written anew.
TEST(Uncertainty, AgreesWithPythonUncertainties) {
    std::ifstream file(std::string(DRYSHEET_REFERENCE) + "/uncertainties.csv");
    int rows = 0;
    for (std::string line; std::getline(file, line);) {
        if (line.starts_with("#")) continue;
        ++rows;
        std::istringstream cut(line);
        std::string name, inputs, value, u, parts;
        std::getline(cut, name, ';'), std::getline(cut, inputs, ';'), std::getline(cut, value, ';');
        std::getline(cut, u, ';'), std::getline(cut, parts, ';');
        std::vector<Input> given;
        std::istringstream pairs(inputs);
        for (double x = 0, ux = 0; pairs >> x >> ux;) given.emplace_back(exact(x) + " ± " + exact(ux));
        const Table table = table_of(name, given);
        EXPECT_TRUE(near(number(table, "value"), std::stod(value), 1e-12)) << name;
        EXPECT_TRUE(near(number(table, "u"), std::stod(u), 1e-8)) << name;
        EXPECT_TRUE(near(number(table, "expanded"), 2 * std::stod(u), 1e-8)) << name;
        std::istringstream each(parts);
        double share = 0;
        for (std::size_t row = 4; row + 1 < table.rows(); ++row) {
            double part = 0;
            ASSERT_TRUE(each >> part) << name;
            EXPECT_TRUE(near(std::get<double>(table.at(row, 1)), part, 1e-7)) << name << " row " << row;
            share += std::get<double>(table.at(row, 3));
        }
        EXPECT_TRUE(near(share, 1, 1e-12)) << name;
        EXPECT_EQ(warning(table), "none") << name;
    }
    EXPECT_EQ(rows, 14);
}

TEST(Uncertainty, CellsOfARangeAreInputsOfTheirOwn) {
    const Table table = table_of("BLENDMOISTURE", {column("100 ± 1 g", "300 g"), column(0.8, "20 ± 1 %")});
    // By hand: dw/dm1 = (w1 - w)/M = (0.8 - 0.35)/400; dw/dw2 = m2/M = 0.75.
    EXPECT_TRUE(near(number(table, "masses 1"), 0.45 / 400, 1e-7));
    EXPECT_EQ(number(table, "masses 2"), 0);
    EXPECT_TRUE(near(number(table, "moistures 2"), 0.0075, 1e-7));
    EXPECT_TRUE(near(number(table, "u"), std::hypot(0.45 / 400, 0.0075), 1e-7));
    const Table trim = table_of("TRIMYIELD", {"1000 ± 2 g", "120 ± 1 g", "80 g"});
    EXPECT_TRUE(near(number(trim, "loss 1"), 0.001, 1e-7));
    EXPECT_TRUE(near(number(trim, "whole"), 0.2 / 1000 * 2, 1e-7));
}

TEST(Uncertainty, UnitsAndBasesOfTheUncertainty) {
    EXPECT_TRUE(near(number(table_of("SOLIDSMASS", {"1 ± 0.01 lb", "0.5"}), "u"), 0.005 * 453.59237, 1e-8));
    EXPECT_TRUE(near(number(table_of("SOLIDSMASS", {100.0, "4 ± 0.1 db"}), "u"), 100 * 0.1 / 25, 1e-8));
    // There and back: a wet-basis moisture where the dry basis is wanted, X = w/(1 - w), dX = dw/(1 - w)².
    const Table wet = table_of("WETBASIS", {"80 ± 1 % wb"});
    EXPECT_TRUE(near(number(wet, "value"), 0.8, 1e-12));
    EXPECT_TRUE(near(number(wet, "u"), 0.01, 1e-6));
}

TEST(Uncertainty, AtTheEdgeOfTheRange) {
    // Bone dry: no moisture below 0. dD/dw1 = F (1 - w0)/(1 - w1)² = 20 g at w1 = 0.
    const Table dry = table_of("DRIEDMASS", {100.0, 0.8, "0 ± 0.5 %"});
    EXPECT_TRUE(near(number(dry, "u"), 20 * 0.005, 1e-6));
    EXPECT_NE(warning(dry).find("refused"), std::string::npos) << warning(dry);
    // Nothing dried at all: start may only rise, final only fall.
    EXPECT_TRUE(near(number(table_of("DRIEDMASS", {100.0, "80 ± 1 %", 0.8}), "u"), 5, 1e-6));
    EXPECT_TRUE(near(number(table_of("DRIEDMASS", {100.0, 0.8, "80 ± 1 %"}), "u"), 5, 1e-6));
}

// An argument that lies at the end of its range: half of the draws are outside, and are lost, whatever the
// formula would make of them.
TEST(Uncertainty, DrawsStayWithinTheRangeOfAnArgument) {
    int asked = 0;
    for (const Function& function : functions()) {
        if (!function.scalar || function.raw) continue;
        for (std::size_t i = 0; i < function.params.size(); ++i) {
            const Parameter& param = function.params[i];
            if (param.shape != Shape::scalar || param.repeats) continue;
            const Limits& limits = row_of(param.kind).limits;
            std::vector<Input> given = function.checks.front().given;
            if (i >= given.size()) continue;
            for (const double end : {param.range.low, param.range.high, param.read_in.from_si(limits.low),
                                     param.read_in.from_si(limits.high)}) {
                if (!std::isfinite(end)) continue;
                try {
                    given[i] = Input(exact(end));
                    (void)evaluate(function, given, {});
                    given[i] = Input(exact(end) + " ± 0.001");
                    EXPECT_NE(warning(table_of(function.name, given)), "none") << function.name << " " << end;
                    ++asked;
                } catch (const Refusal&) {
                    continue;  // the end itself is not allowed
                }
            }
        }
    }
    EXPECT_GE(asked, 50);
}

TEST(Uncertainty, WarnsWhereFirstOrderMisleads) {
    // 97 % wet basis give or take 1 %: the dry basis runs off to one side.
    const std::string said = warning(table_of("DRYBASIS", {"97 ± 1 %"}));
    EXPECT_NE(said.find("first order misleads"), std::string::npos) << said;
    EXPECT_EQ(warning(table_of("DRYBASIS", {"50 ± 1 %"})), "none");
}

TEST(Uncertainty, EveryScalarFunctionCanBeAsked) {
    for (const Function& function : functions()) {
        if (!function.scalar || function.raw) continue;
        const Check& check = function.checks.front();
        std::vector<Input> given = check.given;
        std::size_t position = 0;
        const auto no_number = [](Shape shape) { return shape == Shape::choice || shape == Shape::table; };
        while (position < given.size() && no_number(parameter_at(function, position).shape)) ++position;
        if (position == given.size()) continue;
        Input& first =
            given[position].form == Input::Form::grid ? given[position].cells.front() : given[position];
        const Parameter& param = parameter_at(function, position);
        const Measured read = read_measured(param, first, {});
        const double step = read.value == 0 ? 1e-4 : std::abs(read.value) * 1e-4;
        // beside plain masses a plain one
        const std::string unit(param.kind == Kind::mass && !read.unit ? "" : param.shown_unit);
        first = Input(exact(read.value) + " ± " + exact(step) + " " + unit);
        try {
            const Table table = table_of(function.name, given);
            EXPECT_TRUE(std::isfinite(number(table, "u"))) << function.name;
            EXPECT_FALSE(warning(table).empty());
        } catch (const Refusal& refusal) {
            ADD_FAILURE() << function.name << ": " << refusal.what();
        }
    }
}

}  // namespace
}  // namespace drysheet
