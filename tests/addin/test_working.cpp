// SPDX-License-Identifier: MPL-2.0
// Every line of every function's working worked out again by a small calculator of its own, as a student
// would.
#include <gtest/gtest.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <map>
#include <numbers>
#include <regex>
#include <set>
#include <sstream>

#include "addin/call/lookup.hpp"
#include "addin/call/working.hpp"
#include "addin/text/words.hpp"

namespace drysheet {
namespace {

constexpr double kDegree = std::numbers::pi / 180;

// A number and how far its shown digits leave it open.
struct Shown {
    double value = 0, open = 0;
};

std::vector<std::string> units() {
    std::set<std::string> all{"kg", "g", "mg", "lb"};
    for (const Function& function : functions()) {
        all.emplace(function.result_unit);
        for (const Parameter& param : function.params) all.emplace(param.shown_unit);
        {
            const std::string working(function.working);
            static const std::regex bracket(R"(\[([^\]]+)\] [=~])");
            for (std::sregex_iterator it(working.begin(), working.end(), bracket), end; it != end; ++it)
                all.insert((*it)[1]);
        }
    }
    std::vector<std::string> sorted;
    for (const std::string& unit : all)
        if (!unit.empty()) sorted.push_back(unit);
    std::ranges::sort(sorted, [](const std::string& a, const std::string& b) { return a.size() > b.size(); });
    return sorted;
}

// + − × ÷ ^, brackets and the functions of a pocket calculator; a unit behind a number is read over.
class Calculator {
  public:
    explicit Calculator(std::string_view text) : rest_(text) {}
    Shown whole() {
        const Shown x = sum();
        spaces();
        if (!rest_.empty()) fail();
        return x;
    }

  private:
    [[noreturn]] void fail() const {
        throw std::runtime_error("cannot be calculated at: " + std::string(rest_));
    }
    void spaces() {
        while (rest_.starts_with(' ')) rest_.remove_prefix(1);
    }
    bool take(std::string_view token) {
        spaces();
        if (!rest_.starts_with(token)) return false;
        rest_.remove_prefix(token.size());
        return true;
    }
    Shown sum() {
        Shown x = product();
        for (;;) {
            const bool plus = take("+");
            if (!plus && !take("−")) return x;
            const Shown y = product();
            x = {plus ? x.value + y.value : x.value - y.value,
                 x.open + y.open + 1e-15 * std::max(std::abs(x.value), std::abs(y.value))};
        }
    }
    Shown product() {
        Shown x = sign();
        for (;;) {
            const bool times = take("×");
            if (!times && !take("÷")) return x;
            const Shown y = sign();
            const double value = times ? x.value * y.value : x.value / y.value;
            const double open = times ? std::abs(x.value) * y.open + std::abs(y.value) * x.open
                                      : (x.open + std::abs(value) * y.open) / std::abs(y.value);
            x = {value, open};
        }
    }
    Shown sign() {
        if (take("−") || take("-")) {
            const Shown x = sign();
            return {-x.value, x.open};
        }
        const Shown base = atom();
        if (!take("^")) return base;
        const Shown power = sign();
        const double value = std::pow(base.value, power.value);
        double open = base.value == 0 ? 0 : std::abs(value * power.value / base.value) * base.open;
        if (base.value > 0) open += std::abs(value * std::log(base.value)) * power.open;
        return {value, open};
    }
    Shown atom() {
        spaces();
        if (take("(")) {
            const Shown x = sum();
            if (!take(")")) fail();
            return x;
        }
        if (take("π")) return {std::numbers::pi, 0};
        for (const std::string_view name :
             {"exp", "ln", "log10", "sqrt", "abs", "min", "max", "ceil", "floor", "sin", "cos", "atan2"})
            if (take(std::string(name) + "(")) return called(name);
        return number();
    }
    Shown called(std::string_view name) {
        std::vector<Shown> x{sum()};
        while (take(";")) x.push_back(sum());
        if (!take(")")) fail();
        const auto [v, open] = x.front();
        if (name == "exp") return {std::exp(v), std::exp(v) * open};
        if (name == "ln") return {std::log(v), open / std::abs(v)};
        if (name == "log10") return {std::log10(v), open / std::abs(v)};
        if (name == "sqrt") return {std::sqrt(v), v > 0 ? open / (2 * std::sqrt(v)) : 0};
        if (name == "abs") return {std::abs(v), open};
        if (name == "sin") return {std::sin(v * kDegree), open * kDegree};
        if (name == "cos") return {std::cos(v * kDegree), open * kDegree};
        if (name == "atan2") {
            const double a = x.at(1).value, square = v * v + a * a;
            return {std::atan2(v, a) / kDegree,
                    square > 0 ? (std::abs(a) * open + std::abs(v) * x[1].open) / square / kDegree : 0};
        }
        if (name == "ceil") return {std::ceil(v - 1e-9 * v), 0};
        if (name == "floor") return {std::floor(v + 1e-9 * v), 0};
        const auto by_value = [](const Shown& a, const Shown& b) { return a.value < b.value; };
        return name == "min" ? *std::ranges::min_element(x, by_value)
                             : *std::ranges::max_element(x, by_value);
    }
    Shown number() {
        Shown x;
        const auto* const end = std::from_chars(rest_.data(), rest_.data() + rest_.size(), x.value).ptr;
        const std::string_view digits = rest_.substr(0, static_cast<std::size_t>(end - rest_.data()));
        if (digits.empty()) fail();
        const auto significant =
            std::ranges::count_if(digits.substr(std::min(digits.find_first_not_of("0.-"), digits.size() - 1)),
                                  [](char c) { return c >= '0' && c <= '9'; });
        if (significant >= 5) x.open = 5e-6 * std::abs(x.value);  // a calculated number, to six digits
        rest_.remove_prefix(digits.size());
        static const std::vector<std::string> all = units();
        for (const std::string& unit : all)
            if (rest_.starts_with(" " + unit)) {
                const std::string_view behind = rest_.substr(unit.size() + 1);
                if (!behind.empty() &&
                    std::string_view(" );^").find(behind.front()) == std::string_view::npos)
                    continue;
                rest_ = behind;
                break;
            }
        return x;
    }

    std::string_view rest_;
};

std::string_view unindented(std::string_view line) {
    return line.substr(std::min(line.find_first_not_of(' '), line.size()));
}

// "4 kg/kg db", "877.931 kg = 877931 g", "25 (as given)", "1.5 × 10^-5": the number.
Shown result(std::string_view line) {
    line = line.substr(0, line.find(" = "));
    line = line.substr(0, line.find(" (as given)"));
    const std::string_view given = line.substr(0, line.find(" as given"));
    return Calculator(given).whole();
}

// A line that shows what was typed, in whatever way.
bool typed(const std::string& line, const Check& check) {
    return std::ranges::any_of(check.given, [&](const Input& given) {
        return given.form == Input::Form::text && !given.text.empty() &&
               line.find(given.text) != std::string::npos;
    });
}

// Of every working of the catalogue: the equations that a result satisfies, and the lines worked out row by
// row.
struct Marks {
    std::set<std::string> equations, rows;
    Marks() {
        for (const Function& any : functions()) {
            std::vector<std::string_view> workings = any.workings;
            workings.push_back(any.working);
            for (const std::string_view working : workings) {
                std::istringstream lines{std::string(working)};
                for (std::string line; std::getline(lines, line);) {
                    const WorkingLine read = read_working_line(line);
                    if (read.form == WorkingLine::Form::holds) equations.emplace(read.expression);
                    if (read.form == WorkingLine::Form::each)
                        rows.insert(std::string(read.name) + " = " + std::string(read.expression));
                }
            }
        }
    }
};

void expect_same(const Shown& mine, const Shown& shown) {
    EXPECT_LE(std::abs(mine.value - shown.value),
              1.5 * (mine.open + shown.open) + 6e-6 * std::abs(shown.value))
        << mine.value << " for " << shown.value;
}

// The working of one call, followed by the calculator.
class Followed {
  public:
    Followed(const Function& function, const Check& check)
        : lines_(working(read(function, check.given, Reading{})).lines) {
        for (std::size_t i = 0; i < lines_.size(); ++i) {
            SCOPED_TRACE(std::string(function.name) + ": " + lines_[i]);
            static const std::regex exponent("[0-9]e[+-][0-9]");
            EXPECT_TRUE(typed(lines_[i], check) || !std::regex_search(lines_[i], exponent))
                << "a power of ten as a program writes it";
            EXPECT_EQ(lines_[i].find("left out: 0"), std::string::npos);
            names_only_what_is_worked_out(i, function);
            try {
                calculate(i);
            } catch (const std::exception& fault) {
                ADD_FAILURE() << fault.what();
            }
        }
    }

    int calculated() const { return calculated_; }
    /// What was worked out under a name.
    const std::map<std::string, Shown, std::less<>>& results() const { return results_; }

  private:
    // A sum of the catalogue stands worked out above the line that names it.
    void names_only_what_is_worked_out(std::size_t i, const Function& function) const {
        static const std::regex call(R"(([A-Z]{4,})\()");
        for (std::sregex_iterator it(lines_[i].begin(), lines_[i].end(), call), end; it != end; ++it) {
            const std::string name = (*it)[1].str() + "(";
            if (unindented(lines_[i]).starts_with(name)) continue;
            EXPECT_NE(name, std::string(function.name) + "(") << "defined by itself";
            EXPECT_TRUE(
                std::any_of(lines_.begin(), lines_.begin() + static_cast<std::ptrdiff_t>(i),
                            [&](const std::string& above) { return unindented(above).starts_with(name); }))
                << name << " is not worked out";
        }
    }

    void calculate(std::size_t i) {
        static const Marks marks;
        const std::string_view line = unindented(lines_[i]);
        const auto equals = line.find(" = ");
        if (!lines_[i].starts_with(' '))
            name_ = line.find(' ') == equals ? std::string(line.substr(0, equals)) : std::string();
        if (line.starts_with("= ")) {
            // the last line of a step is its result
            if (i + 1 < lines_.size() && unindented(lines_[i + 1]).starts_with("= ")) {
                const Shown mine = Calculator(line.substr(2)).whole(),
                            shown = result(unindented(lines_[i + 1]).substr(2));
                if (!std::isfinite(shown.value)) return;
                expect_same(mine, shown);
                ++calculated_;
            } else {
                results_[name_] = result(line.substr(2));
            }
        } else if (i > 0 && marks.equations.contains(std::string(unindented(lines_[i - 1])))) {
            const Shown left = Calculator(line.substr(0, equals)).whole(),
                        right = Calculator(line.substr(equals + 3)).whole();
            EXPECT_LE(std::abs(left.value - right.value),
                      2 * (left.open + right.open) + 1e-6 * std::abs(left.value));
            ++calculated_;
        } else if (marks.rows.contains(std::string(line))) {
            row_by_row_ = true;
            return;
        } else if (const auto colon = line.find(": ");
                   row_by_row_ && lines_[i].starts_with("   ") && colon < equals) {
            expect_same(Calculator(line.substr(colon + 2, equals - colon - 2)).whole(),
                        result(line.substr(equals + 3)));
            ++calculated_;
            return;
        }
        row_by_row_ = false;
    }

    std::vector<std::string> lines_;
    std::map<std::string, Shown, std::less<>> results_;
    std::string name_;
    int calculated_ = 0;
    bool row_by_row_ = false;
};

class EveryWorking : public testing::TestWithParam<const Function*> {};

TEST_P(EveryWorking, CanBeFollowedLineByLine) {
    // What has no closed formula to put numbers in, and why.
    static const std::map<std::string_view, std::string_view> without{
        {"ACTIVITYBAND", "a band of a printed table"},
        {"CRITICALPOINT", "fits, averaged"},
        {"CURVEFIT", "a fit"},
        {"CURVEMODELS", "a list of formulas"},
        {"CURVERANK", "fits, in order"},
        {"DIFFUSIVITY", "a fit"},
        {"FLOWCLASS", "a class of a printed table"},
        {"LATENTHEAT", "the formulation of steam and water by IAPWS"},
        {"RATES", "local fits"},
        {"RUNCHECK", "a search among the readings"},
        {"RUNFIT", "a fit"},
        {"SCALEPLAN", "each row names its function, whose working shows it"},
        {"SORPTIONFIT", "a fit"},
        {"SORPTIONMODELS", "a list of formulas"},
        {"TRAYRUN", "an integration over trays and time"},
    };
    const Function& function = *GetParam();
    const bool may_be_without = without.contains(function.name);
    for (const Check& check : function.checks) {
        const Followed followed(function, check);
        EXPECT_EQ(followed.calculated() == 0, may_be_without)
            << (may_be_without ? without.at(function.name) : "a working without a number");
        // a table's rows have the values that are worked out under their names
        const Outcome outcome = evaluate(function, check.given, Reading{});
        const auto* table = std::get_if<Table>(&outcome);
        if (table == nullptr || table->columns != 3) continue;
        for (std::size_t row = 0; row < table->rows(); ++row) {
            std::string name = std::get<std::string>(table->at(row, 0));
            std::ranges::replace(name, ' ', '_');
            const auto* value = std::get_if<double>(&table->at(row, 1));
            const auto found = followed.results().find(name);
            if (value == nullptr || found == followed.results().end()) continue;
            SCOPED_TRACE(name);
            expect_same(found->second, {*value, 0});
        }
    }
}

std::vector<const Function*> worked() {
    std::vector<const Function*> all;
    for (const Function& function : functions())
        if (!function.raw) all.push_back(&function);
    return all;
}
INSTANTIATE_TEST_SUITE_P(Catalogue, EveryWorking, testing::ValuesIn(worked()),
                         [](const auto& tested) { return std::string(tested.param->name); });

std::vector<std::string> lines_of(const char* function, const std::vector<Input>& given) {
    return working(read(*find_function(function), given, Reading{})).lines;
}

TEST(Working, AStudentsOwnUnitsAreKept) {
    EXPECT_EQ(lines_of("WATERREMOVED", {"1000 kg", "92.92 %", "42 %"}),
              (std::vector<std::string>{
                  "fresh = 1000 kg", "start = 92.92 % = 0.9292 fraction wb",
                  "final = 42 % = 0.42 fraction wb", "water = fresh × (start − final) ÷ (1 − final)",
                  "   = 1000 kg × (0.9292 − 0.42) ÷ (1 − 0.42)", "   = 877.931 kg = 877931 g"}));
    const auto mixed = lines_of("STOPMASS", {"495 g", "1.32 kg", 0.8, 0.2});
    EXPECT_EQ(mixed[0], "tare = 495 g");
    EXPECT_EQ(mixed[1], "fresh = 1.32 kg = 1320 g");
    EXPECT_EQ(lines_of("DRIEDMASS", {100.0, 0.8, 0.2}).back(), "   = 25 (as given)");
    EXPECT_EQ(lines_of("TRAYLOAD", {"3000 g", 0.6}),
              (std::vector<std::string>{"mass = 3000 g = 3 kg", "area = 0.6 m²", "load = mass ÷ area",
                                        "   = 3 kg ÷ 0.6 m²", "   = 5 kg/m²"}));
}

TEST(Working, WhatWasLeftOutIsNotShownAsGiven) {
    const auto lines = lines_of("STEPYIELD", {1000.0, 800.0});
    EXPECT_EQ(lines, (std::vector<std::string>{"in = 1000", "out = 800", "step = out ÷ (in − sum(kept))",
                                               "   = 800 ÷ (1000 − 0)", "   = 0.8 fraction"}));
}

TEST(Working, ASearchIsShownByItsEquationAndTheValueThatSatisfiesIt) {
    const auto lines = lines_of("DEWPOINT", {55.0, 0.296, 101.33});
    EXPECT_NE(std::ranges::find(lines, "saturated air holds this ratio at the dew point"), lines.end());
    EXPECT_NE(std::ranges::find(lines, "   dewpoint = 31.668 °C, found by trial, since with it"),
              lines.end());
    EXPECT_NE(std::ranges::find(lines, "HUMIDITYRATIO(dewpoint; 1; pressure) = ratio"), lines.end());
    EXPECT_EQ(lines.back(), "dewpoint = 31.668 °C");
}

TEST(Working, TablesAreWorkedOutRowByRow) {
    const auto lines = lines_of("STAGES", {column("peel", "slice"), column("1 kg", "0.8 kg"),
                                           column("0.8 kg", "0.78 kg"), column("", "0.01 kg")});
    for (const char* line : {"loss = in − out − kept", "   peel: 1000 g − 800 g − 0 g = 200 g",
                             "   slice: 800 g − 780 g − 10 g = 10 g", "   slice: 0.8 × 0.987342 = 0.789873"})
        EXPECT_NE(std::ranges::find(lines, line), lines.end()) << line;
}

TEST(Working, OneUncertaintyForAllMassesCountsForEach) {
    const auto lines = lines_of("CLOSURE", {100.0, 0.3, column(60.0, 38.5), 0.4});
    EXPECT_NE(std::ranges::find(lines, "   = sqrt(0.3^2 + 2 × 0.4^2)"), lines.end());
}

TEST(Working, SaysWhatHoldsForTheCall) {
    // hue differences of 180° and more, either way round: Sharma et al. (2005) Table 1, pairs 9 to 16
    for (const double b2 : {0.0009, 0.0010, 0.0011, 0.0012})
        for (const bool other_way : {false, true}) {
            const double a = other_way ? -2.49 : 2.49, b = other_way ? 0.001 : -0.001;
            const Working made =
                working(read(*find_function("COLOURCHANGE"),
                             std::vector<Input>{50.0, a, b, 50.0, -a, other_way ? -b2 : b2}, Reading{}));
            EXPECT_NEAR(made.as_written.value(), made.value, 1e-9);
        }
    const Working opposite = working(read(
        *find_function("COLOURCHANGE"),
        std::vector<Input>{50.0, -19.76320542, 20.09760221, 50.0, 19.76320542, -20.09760221}, Reading{}));
    EXPECT_NEAR(opposite.as_written.value(), opposite.value, 1e-9);
    const auto none = lines_of("CARRIERSHARE", {100.0, 160.0, 20.0, 0.02});
    EXPECT_NE(std::ranges::find(none, "the dry solids have it already"), none.end());
    EXPECT_EQ(none.back(), "   = 0 fraction");
}

TEST(Working, SumsOverARangeAreWrittenOut) {
    const auto lines = lines_of("BLENDMOISTURE", {column(100.0, 300.0), column(0.8, 0.2)});
    EXPECT_NE(std::ranges::find(lines, "   = (100 × 0.8 + 300 × 0.2)"), lines.end());
    EXPECT_NE(std::ranges::find(lines, "   = 140 ÷ 400"), lines.end());
}

}  // namespace
}  // namespace drysheet
