// SPDX-License-Identifier: MPL-2.0
// How an argument is read: the rules of the argument table, one by one, and the sentences of refusals.
#include <gtest/gtest.h>

#include <cmath>

#include "addin/call/call.hpp"
#include "addin/call/each.hpp"
#include "addin/call/lookup.hpp"
#include "addin/call/named_call.hpp"
#include "addin/call/why.hpp"
#include "addin/call/working.hpp"

namespace drysheet {
namespace {

double value(std::string_view name, std::vector<Input> given, Reading reading = {}) {
    return std::get<double>(evaluate(*find_function(name), given, reading));
}
std::string why_of(std::string_view name, std::vector<Input> given, Reading reading = {}) {
    return why(*find_function(name), given, reading);
}
bool says(const std::string& sentence, std::string_view part) {
    return sentence.find(part) != std::string::npos;
}

TEST(Reading, NumbersAndTextsWithUnits) {
    EXPECT_DOUBLE_EQ(value("SOLIDSMASS", {412.5, 0.8}), value("SOLIDSMASS", {"412.5 g", "80 %"}));
    EXPECT_NEAR(value("SOLIDSMASS", {"1.2 lb", 0.5}), 1.2 * 453.59237 * 0.5, 1e-9);
    EXPECT_NEAR(value("SOLIDSMASS", {"1.2e0 kg", "0.5"}), 600, 1e-9);
    EXPECT_NEAR(value("SOLIDSMASS", {" 412.5\u00A0g ", 0.8}), 82.5, 1e-9);
    EXPECT_NEAR(value("SOLIDSMASS", {"412.5g", 0.8}), 82.5, 1e-9);
}

TEST(Reading, UncertaintiesAreIgnoredInValues) {
    for (const char* text :
         {"412.5 ± 0.1 g", "412.5 +/- 0.1 g", "(412.5 ± 0.1) g", "412.5 g ± 0.1 g", "412.5±0.1 g"})
        EXPECT_NEAR(value("SOLIDSMASS", {text, 0.8}), 82.5, 1e-9) << text;
    const Measured read = read_measured(find_function("SOLIDSMASS")->params[0], "0.4125 ± 0.0001 kg", {});
    EXPECT_NEAR(read.value, 412.5, 1e-9);
    EXPECT_NEAR(read.uncertainty, 0.1, 1e-12);
    const Measured db = read_measured(find_function("DRIEDMASS")->params[1], "4 ± 0.1 db", {});
    EXPECT_NEAR(db.value, 0.8, 1e-12);
    EXPECT_NEAR(db.uncertainty, 0.1 / 25, 1e-12);  // dw/dX = 1/(1 + X)²
    EXPECT_TRUE(says(why_of("SOLIDSMASS", {"412.5 ± g", 0.8}), "uncertainty"));
}

TEST(Reading, MoistureBases) {
    for (const Input& same :
         {Input(0.8), Input("80 %"), Input("80%"), Input("80 % wb"), Input("4 db"), Input("400 % db"),
          Input("4 kg/kg db"), Input("4000 g/kg db"), Input("0.8"), Input("0.8 wb")})
        EXPECT_NEAR(value("DRIEDMASS", {100.0, same, 0.2}), 25, 1e-9) << same.text;
    EXPECT_NEAR(value("WETBASIS", {"80 % wb"}), 0.8, 1e-12);
    EXPECT_NEAR(value("WETBASIS", {"400 %"}), 0.8, 1e-12);
    EXPECT_TRUE(says(why_of("DRIEDMASS", {"100 g wb", 0.8, 0.2}), "fresh"));
}

TEST(Reading, ZeroIsABlankCellForAMoisture) {
    EXPECT_TRUE(says(why_of("DRIEDMASS", {100.0, 0.8, 0.0}), "blank"));
    EXPECT_NEAR(value("DRIEDMASS", {100.0, 0.8, "0 %"}), 20, 1e-12);
    EXPECT_NEAR(value("MOISTURERATIO", {1.0, 4.0, 0.0}), 0.25, 1e-12);
}

TEST(Reading, BlankAndMissing) {
    EXPECT_TRUE(says(why_of("DRIEDMASS", {100.0, "", 0.2}), "start: is blank"));
    EXPECT_TRUE(says(why_of("DRIEDMASS", {100.0, "  ", 0.2}), "start: is blank"));
    EXPECT_TRUE(says(why_of("DRIEDMASS", {100.0, Input(), 0.2}), "start: is missing"));
    EXPECT_TRUE(says(why_of("DRIEDMASS", {100.0}), "start: is missing"));
    EXPECT_TRUE(says(why_of("DRIEDMASS", {100.0, 0.8, 0.2, 1.0}), "too many"));
}

TEST(Reading, RangesWhereOneValueIsWanted) {
    EXPECT_NEAR(value("DRIEDMASS", {column(100.0), column("80 %"), 0.2}), 25, 1e-12);
    EXPECT_TRUE(says(why_of("DRIEDMASS", {column(100.0, 90.0), 0.8, 0.2}), "a range of 2 × 1 cells"));
    EXPECT_TRUE(says(why_of("TRIMYIELD", {100.0, column(1.0, 2.0)}), "one value is wanted"));
    EXPECT_NEAR(value("CHAINYIELD", {Input({0.5, 0.5}, 2), "50 %"}), 0.125, 1e-12);
    EXPECT_TRUE(says(why_of("CHAINYIELD", {Input({0.5, 0.5, 0.5, 0.5}, 2)}), "one row or one column"));
}

TEST(Reading, PairedRangesSkipRowsBlankInAll) {
    EXPECT_NEAR(value("BLENDMOISTURE", {column(100.0, 300.0, ""), column(0.8, 0.2, "")}), 0.35, 1e-12);
    EXPECT_TRUE(
        says(why_of("BLENDMOISTURE", {column(100.0, 300.0), column(0.8, "")}), "cell 2 of the range"));
    EXPECT_TRUE(says(why_of("BLENDMOISTURE", {column(100.0, 300.0), column(0.8, 0.2, 0.3)}), "row by row"));
}

// A reading that was missed keeps its place, so that every result stands beside its own reading.
TEST(Reading, ResultsKeepTheirRow) {
    const auto table = [](std::string_view name, const std::vector<Input>& given) {
        return std::get<Table>(evaluate(*find_function(name), given, {}));
    };
    const Table ratios = table("RATIOS", {column(500.0, "", 300.0, ""), 100.0});
    ASSERT_EQ(ratios.rows(), 4U);
    EXPECT_EQ(std::get<std::string>(ratios.at(1, 0)), "");
    EXPECT_DOUBLE_EQ(std::get<double>(ratios.at(2, 0)), 0.5);
    EXPECT_EQ(std::get<std::string>(ratios.at(3, 0)), "");
    const Table lying = table("RATIOS", {Input({500.0, 300.0}, 2), 100.0});
    EXPECT_EQ(lying.rows(), 1U);
    EXPECT_DOUBLE_EQ(std::get<double>(lying.at(0, 1)), 0.5);
    const Table each_lying = table("EACH", {"SOLIDSMASS", Input({500.0, 300.0}, 2), 0.5});
    EXPECT_EQ(each_lying.rows(), 1U);
    EXPECT_DOUBLE_EQ(std::get<double>(each_lying.at(0, 1)), 150);
    const Input hours = column(0.0, "", 1.0, 2.0), masses = column(500.0, "", 450.0, 400.0);
    const Table rates = table("RATES", {hours, masses, 100.0});
    ASSERT_EQ(rates.rows(), 4U);
    EXPECT_EQ(std::get<std::string>(rates.at(1, 0)), "");
    EXPECT_NEAR(std::get<double>(rates.at(3, 0)), 0.5, 1e-12);
}

TEST(Reading, CommasAndThousands) {
    const Reading comma{.decimal_comma = true};
    EXPECT_TRUE(says(why_of("SOLIDSMASS", {"412,5 g", 0.8}), "ambiguous"));
    EXPECT_NEAR(value("SOLIDSMASS", {"412,5 g", "80 %"}, comma), 82.5, 1e-9);
    EXPECT_NEAR(value("SOLIDSMASS", {"412,5 ± 0,1 g", "0,8"}, comma), 82.5, 1e-9);
    EXPECT_NEAR(value("SOLIDSMASS", {"412.5 g", 0.8}, comma), 82.5, 1e-9);
    EXPECT_TRUE(says(why_of("SOLIDSMASS", {"1.200 g", 0.8}, comma), "thousands"));
    EXPECT_TRUE(says(why_of("SOLIDSMASS", {"1.200,5 g", 0.8}, comma), "thousands"));
    EXPECT_TRUE(says(why_of("SOLIDSMASS", {"1,200.5 g", 0.8}), "ambiguous"));
    EXPECT_NEAR(value("SOLIDSMASS", {"1.200 g", 0.5}), 0.6, 1e-12);
}

TEST(Reading, WrongUnitsAreRefusedByName) {
    EXPECT_TRUE(says(why_of("DRIEDMASS", {"60 min", 0.8, 0.2}), "is not a mass"));
    EXPECT_TRUE(says(why_of("DRIEDMASS", {"60 stone", 0.8, 0.2}), "\"stone\" is not a unit"));
    EXPECT_TRUE(says(why_of("DRIEDMASS", {100.0, "80 % RH", 0.2}), "moisture"));
    EXPECT_TRUE(says(why_of("DRIEDMASS", {"about 100 g", 0.8, 0.2}), "number"));
    EXPECT_TRUE(says(why_of("DRIEDMASS", {"1 20 g", 0.8, 0.2}), "not a unit"));
}

TEST(Reading, PartsOfOneQuantity) {
    EXPECT_NEAR(value("SOLIDSMASS", {"2 lb 3 oz", "0 %"}), 2 * 453.59237 + 3 * 28.349523125, 1e-9);
    EXPECT_NEAR(value("SOLIDSMASS", {"1 kg 250 g", "0 %"}), 1250, 1e-9);
    EXPECT_NEAR(value("RUNENERGY", {"1 kW", "10 h 30 min"}), 10.5, 1e-12);
    EXPECT_NEAR(value("RUNENERGY", {"1 kW", "1 day 2 h 15 min"}), 26.25, 1e-12);
    EXPECT_NEAR(value("HUMIDITYRATIO", {"20 °C", "50 %"}), value("HUMIDITYRATIO", {20.0, 0.5}), 1e-15);
    const Measured read = read_measured(find_function("SOLIDSMASS")->params[0], "2 lb 3 oz ± 0.5 oz", {});
    EXPECT_NEAR(read.uncertainty, 0.5 * 28.349523125, 1e-9);
    for (const char* text : {"3 oz 2 lb", "2 lb 3 min", "2 lb -3 oz", "2 lb 3"})
        EXPECT_FALSE(says(why_of("SOLIDSMASS", {text, 0.5}), "fine")) << text;
}

TEST(Reading, ClockTexts) {
    EXPECT_NEAR(value("RUNENERGY", {1.0, "10:30"}), 10.5, 1e-12);
    EXPECT_NEAR(value("RUNENERGY", {1.0, "7:05:30"}), 7 + 5.0 / 60 + 30.0 / 3600, 1e-12);
    EXPECT_NEAR(value("RUNENERGY", {1.0, "10:30 h"}), 10.5, 1e-12);
    EXPECT_TRUE(says(why_of("SOLIDSMASS", {"10:30", 0.5}), "is not a mass"));
    EXPECT_TRUE(says(why_of("RUNENERGY", {1.0, "10:75"}), "not a unit"));
    // past midnight once
    const Input masses = column(1000.0, 900.0, 850.0), hours = column(22.0, 25.0, 26.5);
    const auto rates = [&](const Input& times) {
        return std::get<Table>(
                   evaluate(*find_function("RATES"), std::vector<Input>{times, masses, 100.0}, {}))
            .cells;
    };
    EXPECT_EQ(rates(column("22:00", "1:00", "2:30")), rates(hours));
}

TEST(Reading, AUnitJoinedOnDoesNotCount) {
    EXPECT_NEAR(value("SOLIDSMASS", {"8.1 kg kg", "0 %"}), 8100, 1e-9);
    EXPECT_NEAR(value("SOLIDSMASS", {"8100 g kg", "0 %"}), 8100, 1e-9);
    EXPECT_NEAR(value("SOLIDSMASS", {"2 lb 3 oz kg", "0 %"}), 2 * 453.59237 + 3 * 28.349523125, 1e-9);
    EXPECT_NEAR(value("DRYBASIS", {"80 % %"}), 4, 1e-12);
    EXPECT_NEAR(value("WETBASIS", {"400 % db"}), 0.8, 1e-12);
    EXPECT_TRUE(says(why_of("SOLIDSMASS", {"8.1 kg min", "0 %"}), "is not a mass"));
}

TEST(Reading, UnitWordsOfFourLanguages) {
    for (const char* text :
         {"1.5 Stunden", "1.5 heures", "1.5 horas", "1.5 hours", "1.5 HOURS", "90 Minuten", "90 minutos"})
        EXPECT_NEAR(value("RUNENERGY", {1.0, text}), 1.5, 1e-12) << text;
    for (const char* text : {"500 Gramm", "500 grammes", "500 gramos", "0.5 kilogramos", "0.5 Kilogramm"})
        EXPECT_NEAR(value("SOLIDSMASS", {text, "0 %"}), 500, 1e-9) << text;
    EXPECT_NEAR(value("DRYBASIS", {"80 Prozent"}), 4, 1e-12);
    EXPECT_EQ(why_of("SOLIDSMASS", {"2 Pfund", 0.5}),
              "mass: \"Pfund\" has more than one value: 500 g, or 454 g: write g, or lb for the latter.");
    EXPECT_TRUE(says(why_of("SOLIDSMASS", {"2 livres", 0.5}), "500 g, or 454 g"));
    EXPECT_TRUE(says(why_of("SOLIDSMASS", {"2 libras", 0.5}), "454 g, or 460 g"));
}

TEST(Reading, SpacesBetweenThousands) {
    for (const char* text : {"1 200 g", "1\u00A0200 g", "1\u202F200 g", "1\u2009200 g", "1 200.0 g"})
        EXPECT_NEAR(value("SOLIDSMASS", {text, "0 %"}), 1200, 1e-9) << text;
    EXPECT_NEAR(value("SOLIDSMASS", {"12 345 678 g", "0 %"}), 12345678, 1e-6);
    EXPECT_NEAR(value("SOLIDSMASS", {"1 200,5 g", "0 %"}, {.decimal_comma = true}), 1200.5, 1e-9);
    for (const char* text : {"1 20 g", "1 2000 g", "1200 300 g"})
        EXPECT_FALSE(says(why_of("SOLIDSMASS", {text, 0.5}), "fine")) << text;
}

TEST(Reading, MassesOfOneCallAllPlainOrAllWithAUnit) {
    EXPECT_EQ(why_of("UNACCOUNTED", {"8.1 kg", 7.866}),
              "out: 7.866 has no unit, and in has one (\"8.1 kg\"): give all masses of a call with a unit, "
              "or none.");
    EXPECT_TRUE(says(why_of("STOPMASS", {0.495, "1.32 kg", 0.8, 0.12}), "tare: 0.495 has no unit"));
    EXPECT_NEAR(value("STOPMASS", {0.0, "1.32 kg", 0.8, 0.12}), 300, 1e-9);  // 0 goes with either
    EXPECT_NEAR(value("UNACCOUNTED", {8.1, 7.866}), 0.234, 1e-12);           // kg in, kg out
    EXPECT_EQ(why_of("UNACCOUNTED", {"8.1 kg", "7.9 kg", 0.0}),
              "fine: 200 g; out 2 is 0, as a blank cell would be");
    EXPECT_EQ(why_of("HEATDEMAND", {4.0, 0.8, 0.2, 20.0, 60.0}),
              "fresh: 4 is a mass without a unit, and the result would differ with it: join the unit, as in "
              "B5 & \" kg\", or write \"4 kg\".");
    const auto unit_of_gap = [](const std::vector<Input>& given) {
        return std::get<std::string>(
            std::get<Table>(evaluate(*find_function("CLOSURE"), given, {})).at(0, 2));
    };
    EXPECT_EQ(unit_of_gap({10.0, 0.1, column(9.0), column(0.1)}), "as given");
    EXPECT_EQ(unit_of_gap({"10 kg", "0.1 kg", column("9 kg"), column("0.1 kg")}), "g");
}

TEST(Reading, TimesThatLookLikeClocksOrDates) {
    const Input masses = column(1000.0, 900.0, 850.0);
    const auto asked = [&](const Input& times) { return why_of("RATES", {times, masses, 100.0}); };
    for (const Input& times : {column(0.354, 0.396, 0.438), column("0.354 h", "0.396 h", "0.438 h")})
        EXPECT_TRUE(says(asked(times), "looks like times of day")) << asked(times);
    EXPECT_TRUE(says(asked(column(45990.35, 45990.40, 45990.45)), "looks like dates with times"));
    for (const Input& times : {column(0.0, 0.3, 0.6), column(0.5, 0.9, 1.0),
                               column("20 min", "30 min", "50 min"), column("0:20", "0:30", "0:50")})
        EXPECT_TRUE(says(asked(times), "fine")) << asked(times);
}

TEST(Why, SaysWhatWasProbablyMeant) {
    EXPECT_EQ(why_of("DRIEDMASS", {100.0, 80.0, 0.2}),
              "start: 80 is above 1: a fraction is wanted; 80 % is 0.8.");
    EXPECT_TRUE(says(why_of("DRIEDMASS", {100.0, 4.0, 0.2}), "\"4 db\""));
    EXPECT_EQ(why_of("DRYBASIS", {"120 %"}),
              "moisture: \"120 %\" is above 1: a fraction is wanted; a dry basis is written \"120 % db\".");
    EXPECT_EQ(
        why_of("DRYBASIS", {1.05}),
        "moisture: 1.05 is above 1: a fraction is wanted; a dry basis of 1.05 kg/kg is written \"1.05 db\".");
    EXPECT_EQ(why_of("DRYBASIS", {20.0}),
              "moisture: 20 is above 1: a fraction is wanted; 20 % is 0.2; a dry basis of 20 kg/kg is "
              "written \"20 db\".");
    EXPECT_TRUE(says(why_of("DRYBASIS", {1.0}), "nothing but water has no solids to dry"));
    EXPECT_TRUE(says(why_of("DRYBASIS", {-0.1}), "minus sign"));
    EXPECT_EQ(why_of("CURVE", {"Pagee", 1.0, 0.5}),
              "model: \"Pagee\" is none of the names known here: Lewis, Page, Henderson-Pabis, logarithmic, "
              "two-term, Midilli, "
              "Weibull, Verma.");
    EXPECT_EQ(why_of("HUMIDITYRATIO", {24.0, 0.5, 121.0}),
              "pressure: 121 is outside the range; allowed is from 30 to 120 kPa.");
    EXPECT_EQ(why_of("HUMIDITYRATIO", {24.0, 0.5, 29.0}),
              "pressure: 29 is outside the range; allowed is from 30 to 120 kPa.");
    EXPECT_TRUE(says(why_of("DRYBASIS", {"abc"}), "write it like \"12.5 %\""));
    EXPECT_TRUE(says(why_of("SOLIDSMASS", {" kg", 0.5}), "a unit whose cell before it is blank"));
    EXPECT_TRUE(says(why_of("SOLIDSMASS", {"100 gr", 0.5}), "write g for a gram"));
    EXPECT_TRUE(says(why_of("DESICCANT", {100.0, 0.05, 1.2, 25.0, 0.8, 0.3, 20.0}), "20 % is 0.2"));
    EXPECT_TRUE(says(why_of("HUMIDITYRATIO", {24.0, 0.5, 1013.0}), "1013 hPa is 101.3"));
    EXPECT_TRUE(says(why_of("RELHUMIDITY", {24.0, 13.0}), "13 g/kg is 0.013"));
    EXPECT_TRUE(says(why_of("CURVEFIT", {"Lewis", column(0.0, 1.0, 2.0), column(900.0, 700.0, 600.0)}),
                     "weights become ratios by DRY.RATIOS"));
    EXPECT_TRUE(says(why_of("CURVETIME", {"Lewis", 2.5, 0.5}), "weights become ratios by DRY.RATIOS"));
    EXPECT_FALSE(says(why_of("CURVETIME", {"Lewis", 1.5, 0.5}), "weights become ratios by DRY.RATIOS"));
    EXPECT_TRUE(says(why_of("DRYBASIS", {"71"}), "71 % is 0.71"));
    EXPECT_TRUE(says(why_of("DRYBASIS", {"4.9 kg/kg"}), "\"4.9 kg/kg db\""));
    EXPECT_TRUE(says(why_of("RECONCILE", {100.0, 1.0, 0.8, 0.5, 25.0, 0.1, 0.2, 0.01}), "0.5 % is 0.005"));
    EXPECT_TRUE(
        says(why_of("CONSTRATETIME", {"1 kg", 3.0, 5.0, 1.0, 1.0}), "above the 3 kg/kg db at the start."));
    EXPECT_TRUE(says(why_of("CURVEFIT", {"Lewis", column(8.0, 9.0, 10.0), column(1.0, 0.7, 0.5)}),
                     "count the times from the start"));
    EXPECT_TRUE(
        says(why_of("RATES", {0.0, 500.0, 100.0}), "times: 0 has too few readings: 1, where 3 are needed"));
    EXPECT_TRUE(says(why_of("RUNENERGY", {"5 kg", 1.0}), "is not a power"));
    EXPECT_TRUE(says(why_of("DRYEREFFICIENCY", {1.0, "5 kg", 60.0}), "is not an energy"));
    EXPECT_EQ(why_of("OVENMOISTURE", {0.0, 30.0, 25.0}).substr(0, 5), "fine:");
    EXPECT_TRUE(says(why_of("OVENMOISTURE", {0.0, 30.0, 25.0}), "dish is 0, as a blank cell would be"));
    EXPECT_TRUE(says(why_of("DRIEDMASS", {-100.0, 0.8, 0.2}), "minus sign"));
    EXPECT_TRUE(says(why_of("DRIEDMASS", {0.0, 0.8, 0.2}), "blank cell"));
    EXPECT_EQ(why_of("FINALMOISTURE", {100.0, 0.8, 15.0}),
              "dried: 15 is below the 20 of dry solids that went in.");
    EXPECT_EQ(why_of("DRIEDMASS", {100.0, 0.8, 0.2}), "fine: 25 (as given)");
    EXPECT_EQ(why_of("IN", {"140 °F", "°C"}), "fine: 60 °C");
    EXPECT_EQ(why_of("IN", {"140 °F", column(" °C ")}), "fine: 60 °C");
    EXPECT_EQ(why_of("EACH", {"SOLIDSMASS", column(100.0, 200.0, -3.0), 0.5}).substr(0, 15),
              "row 3: mass: -3");
    EXPECT_EQ(why_of("EACH", {"SOLIDSMASS", column(100.0, 200.0), 0.5}), "fine: a table of 2 rows, 1 column");
    EXPECT_EQ(why_of("EACH", {column("SOLIDSMASS"), 100.0, 0.5}),
              "argument: no range was given to go through.");
    EXPECT_TRUE(says(why_of("CLOSURE", {100.0, 0.3, column(60.0), column(0.4)}), "fine: a table of 5 rows"));
}

TEST(Why, WritesNumbersAsTheLocaleReadsThem) {
    const Reading comma{.decimal_comma = true};
    EXPECT_EQ(why_of("SOLIDSMASS", {"412,5 g", "80 %"}, comma), "fine: 82,5 g");
    EXPECT_EQ(why_of("DRIEDMASS", {100.0, 72.5, 0.2}, comma),
              "start: 72,5 is above 1: a fraction is wanted; 72,5 % is 0,725.");
    EXPECT_EQ(why_of("SOLIDSMASS", {"412.5 g", "80 %"}), "fine: 82.5 g");
    const Table lines =
        std::get<Table>(evaluate(*find_function("WORKING"), std::vector<Input>{"SPECIFICHEAT", 0.85}, comma));
    bool seen = false;
    for (const Cell& line : lines.cells) seen |= std::get<std::string>(line) == "   = 0,837 + 3,349 × 0,85";
    EXPECT_TRUE(seen);
}

TEST(Outcome, IsNeverANumberThatIsNone) {
    const double none = std::nan("");
    EXPECT_THROW(value("PICK", {Input({"u", none}, 2), "u"}), Refusal);
    EXPECT_THROW(value("DRIEDMASS", {none, 0.8, 0.2}), Refusal);
    EXPECT_THROW(value("RAWFOR", {1e308, 1e300, 0.5}), Refusal);
}

TEST(Each, GoesThroughRangesAndKeepsErrorsInTheirRow) {
    const std::vector<Input> given{column(100.0, "", 200.0, "60 min"), 0.8, 0.2};
    const Rows rows = each(*find_function("DRIEDMASS"), given, {});
    ASSERT_TRUE(rows.refused);
    EXPECT_EQ(rows.refused->row, 4u);
    const Table& table = rows.table;
    ASSERT_EQ(table.rows(), 4u);
    EXPECT_DOUBLE_EQ(std::get<double>(table.at(0, 0)), 25);
    EXPECT_EQ(std::get<std::string>(table.at(1, 0)), "");
    EXPECT_DOUBLE_EQ(std::get<double>(table.at(2, 0)), 50);
    EXPECT_TRUE(std::isnan(std::get<double>(table.at(3, 0))));
}

TEST(Why, TellsWhatTheValueRestsOn) {
    EXPECT_EQ(
        why_of("TYPICAL", {"pineapple", "moisture"}),
        "fine: 0.8624; typical, not measured: USDA SR28: Pineapple, raw, all varieties; Pineapple, raw, "
        "extra sweet variety; Pineapple, raw, traditional varieties. IFCT 2017: Pineapple");
    EXPECT_TRUE(says(why_of("TYPICAL", {"prunes", "isotherm"}), "from memory, not looked up"));
    EXPECT_EQ(why_of("TYPICAL", {"prunes", "isotherm"}).find("Henderson"), std::string("fine: ").size());
    EXPECT_EQ(why_of("SOLIDSGLASSPOINT", {Input({"sucrose", 1.0}, 2)}),
              "fine: 62 °C; the parts' glass transitions and steps of the heat capacity are from memory, not "
              "looked up; of the sugars other laboratories print values up to 9 K away");
    EXPECT_TRUE(
        says(why_of("CARRIERSHARE", {20.0, 160.0, 25.0, 0.03}), "k by Roos' line, which is from memory"));
    EXPECT_FALSE(says(why_of("CARRIERSHARE", {20.0, 160.0, 25.0, 0.03, 10.0, 6.0}), "memory"));
}

TEST(Why, NamesTheNearestFunction) {
    const std::vector<Input> given{"DRY.DRIEDMAS", 1.0};
    try {
        named_call(given);
        FAIL();
    } catch (const Refusal& refusal) {
        EXPECT_TRUE(says(refusal.what(), "\"DRIEDMASS\"")) << refusal.what();
    }
    EXPECT_EQ(find_function("dry.driedmass"), find_function("DRIEDMASS"));
}

TEST(Functions, WhatWasProbablyMeantIsNear) {
    EXPECT_EQ(probably_meant("dry.driedmas"), "DRIEDMASS");
    EXPECT_EQ(probably_meant("DRYBASES"), "DRYBASIS");
    EXPECT_EQ(probably_meant("WHY"), "WHY");
    EXPECT_EQ(probably_meant("ZZZZ"), std::nullopt);
    EXPECT_EQ(probably_meant("DRY."), std::nullopt);
}

}  // namespace
}  // namespace drysheet
