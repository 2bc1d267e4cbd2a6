// SPDX-License-Identifier: MPL-2.0
#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <set>

#include "addin/call/lookup.hpp"
#include "addin/workbook/formula_text.hpp"
#include "addin/workbook/trial.hpp"

namespace drysheet {
namespace {

using Places = std::map<std::pair<std::size_t, std::size_t>, const PlannedCell*>;

Places by_place(const SheetPlan& plan) {
    Places places;
    for (const PlannedCell& cell : plan.cells) {
        const bool added = places.emplace(std::pair(cell.column, cell.row), &cell).second;
        EXPECT_TRUE(added) << address(cell.column, cell.row) << " is described twice";
    }
    return places;
}

CellArea named(const SheetPlan& plan, std::string_view name) {
    const auto found = std::ranges::find(plan.names, name, &PlannedName::name);
    EXPECT_NE(found, plan.names.end()) << name;
    return found == plan.names.end() ? CellArea{} : found->area;
}

TEST(Trial, EveryCellIsDescribedOnceAndRefersToDescribedOnes) {
    const SheetPlan plan = trial_plan(), report = trial_report("My trial");
    const Places places = by_place(plan), on_report = by_place(report);
    for (const auto* cells : {&plan.cells, &report.cells})
        for (const PlannedCell& cell : *cells)
            if (cell.content.starts_with("="))
                for (const CellText& used : cells_in(cell.content)) {
                    EXPECT_EQ(used.sheet, cells == &plan.cells ? "" : "My trial") << used.text;
                    // a heading above a column is where its maximum begins
                    EXPECT_TRUE(places.contains({used.column, used.row}) ||
                                used.row + 2 == named(plan, "run_time").row + 1)
                        << address(cell.column, cell.row) << " refers to " << used.text << ": "
                        << cell.content;
                }
}

TEST(Trial, EveryCallIsOfAFunctionThatTakesSoMuch) {
    for (const PlannedCell& cell : trial_plan().cells)
        for (const CallText& call : calls_in(cell.content)) {
            ASSERT_NE(call.function, nullptr) << call.whole;
            const auto& params = call.function->params;
            const auto required =
                std::ranges::count_if(params, [](const Parameter& p) { return !p.may_be_missing; });
            EXPECT_GE(call.arguments.size(), static_cast<std::size_t>(required)) << call.whole;
            EXPECT_TRUE(call.arguments.size() <= params.size() || (!params.empty() && params.back().repeats))
                << call.whole;
        }
}

// What other programs than Calc hold a formula to.
TEST(Trial, FormulasFitIntoAnyWorkbook) {
    const SheetPlan trial = trial_plan();
    for (const SheetPlan& plan :
         {trial, trial_report("A name of a sheet"),
          trials_side_by_side("Trials", {cells_of_plan("Trial", trial), cells_of_plan("It's new", trial),
                                         cells_of_plan("Trial 3", trial)})})
        for (const PlannedCell& cell : plan.cells) {
            EXPECT_LT(cell.content.size(), 8192U) << cell.content;
            int depth = 0, deepest = 0;
            for (const char c : cell.content) {
                depth += c == '(' ? 1 : c == ')' ? -1 : 0;
                deepest = std::max(deepest, depth);
            }
            EXPECT_EQ(depth, 0) << cell.content;
            EXPECT_LT(deepest, 64) << cell.content;
            EXPECT_EQ(cell.content.find("“"), std::string::npos) << cell.content;
            EXPECT_EQ(cell.content.find("{}"), std::string::npos) << cell.content;
        }
}

TEST(Trial, TheNamesArePromised) {
    const SheetPlan plan = trial_plan();
    const std::map<std::string_view, std::size_t> rows{
        {"parts_off", 6}, {"tray_tare", 12}, {"tray_gross", 12}, {"dried_gross", 12},
        {"run_time", 40}, {"run_gross", 40}, {"prices", 4}};
    std::set<std::string> all;
    for (const PlannedName& name : plan.names) EXPECT_TRUE(all.insert(name.name).second) << name.name;
    for (const std::string_view input :
         {"product",      "lot",        "date",           "operator",      "place",      "mass_unit",
          "whole",        "parts_off",  "prepared",       "fresh_samples", "tray_tare",  "tray_gross",
          "tray_area",    "dryer_temp", "room_temp",      "room_rh",       "altitude",   "start_moisture",
          "start_way",    "start_u",    "final_moisture", "final_way",     "final_u",    "target_moisture",
          "run_time",     "run_tare",   "run_gross",      "dried_gross",   "dried_tare", "milled",
          "kept_samples", "activity",   "prices",         "hours"}) {
        const CellArea area = named(plan, input);
        EXPECT_EQ(area.rows, rows.contains(input) ? rows.at(input) : 1U) << input;
        const Places places = by_place(plan);
        for (std::size_t row = area.row; row < area.row + area.rows; ++row)
            EXPECT_EQ(places.at({area.column, row})->look, Look::input) << input;
    }
    const Places places = by_place(plan);
    for (const std::string_view result : {"loaded",
                                          "yield_prepared",
                                          "expected_dried",
                                          "expected_dried_u",
                                          "dried",
                                          "yield_dried",
                                          "yield_overall",
                                          "lost_preparing",
                                          "lost_milling",
                                          "agree",
                                          "passed_by_readings",
                                          "passed_by_curve",
                                          "passed_fast",
                                          "passed_slow",
                                          "stop_reading",
                                          "stop_reading_u",
                                          "water",
                                          "heat",
                                          "air",
                                          "caking",
                                          "cost",
                                          "missing"}) {
        const CellArea area = named(plan, result);
        EXPECT_TRUE(places.at({area.column, area.row})->content.starts_with("=")) << result;
    }
}

TEST(Trial, WhatIsRefusedIsRefusedWithASentence) {
    std::size_t rules = 0;
    for (const PlannedCell& cell : trial_plan().cells) {
        EXPECT_EQ(cell.allowed.empty(), cell.refusal.empty()) << address(cell.column, cell.row);
        if (cell.allowed.empty()) continue;
        EXPECT_EQ(cell.look, Look::input);
        EXPECT_TRUE(cell.refusal.ends_with('.')) << cell.refusal;
        ++rules;
    }
    EXPECT_GT(rules, 100U);
}

TEST(Trial, NothingIsPromisedToKeep) {
    for (const std::string& words : trial_words()) {
        EXPECT_EQ(words.find("safe "), std::string::npos) << words;
        EXPECT_EQ(words.find('\t'), std::string::npos) << words;
    }
}

}  // namespace
}  // namespace drysheet
