// SPDX-License-Identifier: MPL-2.0
// Every entry against its own check values and refusals, its working against its value, and its words for
// completeness.
#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <set>
#include <sstream>

#include "addin/call/call.hpp"
#include "addin/call/lookup.hpp"
#include "addin/call/trust.hpp"
#include "addin/call/working.hpp"
#include "addin/text/words.hpp"

namespace drysheet {

void PrintTo(const Function* function, std::ostream* out) {
    *out << (function != nullptr ? function->name : "none");
}

namespace {

const Reading kPoint{};

std::string text_of(const Cell& cell) {
    if (const auto* text = std::get_if<std::string>(&cell)) return *text;
    if (const auto* number = std::get_if<double>(&cell)) return std::to_string(*number);
    return {};
}

bool says(const Cell& cell, const Check& check) {
    const std::string& wanted = std::get<std::string>(check.expected);
    return check.part ? text_of(cell).find(wanted) != std::string::npos : text_of(cell) == wanted;
}

// The cell that a check speaks of: the value itself, or that of a row and column of the table; of a text
// without a row the first cell that says it.
Cell found(const Outcome& outcome, const Check& check) {
    if (const auto* number = std::get_if<double>(&outcome)) return *number;
    if (const auto* text = std::get_if<std::string>(&outcome)) return *text;
    const Table& table = std::get<Table>(outcome);
    if (check.at.empty() && std::holds_alternative<std::string>(check.expected)) {
        for (const Cell& cell : table.cells)
            if (says(cell, check)) return cell;
        return std::monostate{};
    }
    const std::size_t column = table.columns == 1 ? 1 : check.column;
    EXPECT_LE(column, table.columns);
    for (std::size_t row = 0; row < table.rows(); ++row)
        if (check.at.empty() || text_of(table.at(row, 0)) == check.at) return table.at(row, column - 1);
    return std::monostate{};
}

class EveryFunction : public testing::TestWithParam<const Function*> {};

TEST_P(EveryFunction, GivesItsCheckValues) {
    const Function& function = *GetParam();
    EXPECT_FALSE(function.checks.empty()) << "no check value";
    for (const Check& check : function.checks) {
        SCOPED_TRACE(std::string(check.origin) + " " + std::string(check.at));
        EXPECT_FALSE(check.origin.empty()) << "a check value without an origin";
        Outcome outcome;
        try {
            outcome = evaluate(function, check.given, kPoint);
        } catch (const Refusal& refusal) {
            ADD_FAILURE() << refusal.what();
            continue;
        }
        const Cell cell = found(outcome, check);
        if (const auto* expected = std::get_if<double>(&check.expected)) {
            ASSERT_TRUE(std::holds_alternative<double>(cell)) << text_of(cell);
            const double scale = *expected == 0 ? 1 : std::abs(*expected);
            EXPECT_LE(std::abs(std::get<double>(cell) - *expected), check.tolerance * scale)
                << std::get<double>(cell) << " against " << *expected;
        } else {
            EXPECT_TRUE(says(cell, check)) << text_of(cell);
        }
    }
}

TEST_P(EveryFunction, RefusesAndNamesTheArgument) {
    const Function& function = *GetParam();
    for (const RefusalCheck& refusal : function.refusals) {
        try {
            evaluate(function, refusal.given, kPoint);
            ADD_FAILURE() << "not refused: " << refusal.argument;
        } catch (const Refusal& thrown) {
            EXPECT_EQ(thrown.argument(), refusal.argument) << thrown.what();
            EXPECT_TRUE(std::string_view(thrown.what()).ends_with(".")) << thrown.what();
            EXPECT_EQ(std::string_view(thrown.what()).find("{}"), std::string_view::npos) << thrown.what();
        }
    }
}

TEST_P(EveryFunction, ShowsAWorkingThatGivesItsValue) {
    const Function& function = *GetParam();
    if (function.raw) return;
    EXPECT_FALSE(function.working.empty() && function.workings.empty()) << "no working";
    for (const Check& check : function.checks) {
        const Working made = working(read(function, check.given, kPoint));
        ASSERT_GE(made.lines.size(), 1u);
        const Outcome outcome = evaluate(function, check.given, kPoint);
        if (const auto* number = std::get_if<double>(&outcome);
            number != nullptr && in_words(*number).find('e') == std::string::npos) {
            EXPECT_NE(
                made.lines.back().find(written(in_a_sentence(read(function, check.given, kPoint), outcome))),
                std::string::npos)
                << made.lines.back();
        }
        for (const std::string& line : made.lines) EXPECT_EQ(line.find("inf"), std::string::npos) << line;
        if (made.as_written) {
            EXPECT_LE(std::abs(*made.as_written - made.value), 1e-9 * std::max(1e-3, std::abs(made.value)))
                << made.lines.back() << " against " << *made.as_written;
        }
    }
}

TEST_P(EveryFunction, IsWorded) {
    const Function& function = *GetParam();
    EXPECT_FALSE(function.result.empty());
    EXPECT_FALSE(function.source.empty());
    std::string all, spoken(function.summary);
    for (const Parameter& param : function.params) spoken.append(" ").append(param.text);
    for (const std::string_view text : {function.range, function.source, function.caution, function.working})
        all.append(" ").append(text);
    for (const std::string_view text : function.workings) all.append(" ").append(text);
    EXPECT_EQ(lower(spoken + all).find("safe"), std::string::npos) << "nothing ever says that";
    // Where a store is spoken of, so is who decides.
    if (spoken.find("store") != std::string::npos || spoken.find("keep") != std::string::npos) {
        EXPECT_NE(function.caution.find("authority"), std::string_view::npos);
    }
    std::set<std::string_view> names;
    for (const Parameter& param : function.params) {
        EXPECT_TRUE(names.insert(param.name).second) << param.name;
        EXPECT_NE(param.name, function.result) << "the working needs two names";
    }
    for (const auto other : function.see_also) EXPECT_NE(find_function(other), nullptr) << other;
}

TEST_P(EveryFunction, RefusesNothingAtAllInsteadOfGuessing) {
    const Function& function = *GetParam();
    const bool needs = !function.params.empty() && !function.params.front().may_be_missing;
    if (needs) {
        EXPECT_THROW(evaluate(function, {}, kPoint), Refusal);
    }
    const std::vector<Input> too_many(function.params.size() + 1, Input(0.5));
    const bool repeats = !function.params.empty() && function.params.back().repeats;
    if (!repeats && !function.raw) {
        EXPECT_THROW(evaluate(function, too_many, kPoint), Refusal);
    }
}

std::vector<const Function*> all() {
    std::vector<const Function*> pointers;
    for (const Function& function : functions()) pointers.push_back(&function);
    return pointers;
}
INSTANTIATE_TEST_SUITE_P(Catalogue, EveryFunction, testing::ValuesIn(all()),
                         [](const auto& one) { return std::string(one.param->name); });

TEST(Catalogue, NamesAreUniqueAndPlain) {
    std::set<std::string_view> names;
    for (const Function& function : functions()) {
        EXPECT_TRUE(names.insert(function.name).second) << function.name;
        for (const char c : function.name)
            EXPECT_TRUE((c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9')) << function.name;
    }
}

TEST(Catalogue, EveryUnitShownCanBeReadBack) {
    for (std::size_t i = 0; i < kKinds.size(); ++i) {
        const KindRow& words = row_of(static_cast<Kind>(i));
        ASSERT_EQ(words.kind, static_cast<Kind>(i));
        const auto unit = read_unit(words.default_unit);
        ASSERT_TRUE(unit) << words.default_unit;
        EXPECT_TRUE(fits(*unit, words.kind)) << words.name;
    }
}

}  // namespace
}  // namespace drysheet
