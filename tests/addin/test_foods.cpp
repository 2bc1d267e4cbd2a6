// SPDX-License-Identifier: MPL-2.0
// Foods by name, in four languages, against lines of the printed tables.
#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <string>

#include "addin/call/call.hpp"
#include "addin/call/lookup.hpp"
#include "addin/call/refusal.hpp"
#include "addin/functions/foods/foods.hpp"
#include "addin/functions/function.hpp"

namespace drysheet {
namespace {

std::vector<std::string> lines_of(std::string_view name) {
    std::vector<std::string> names;
    for (const Food* food : find_foods(name).lines) names.emplace_back(food->name);
    return names;
}
using Names = std::vector<std::string>;

TEST(Foods, a_name_without_case_plural_or_order) {
    const Names pineapple{"Pineapple, raw, all varieties", "Pineapple, raw, extra sweet variety",
                          "Pineapple, raw, traditional varieties", "Pineapple"};
    for (const char* name : {"pineapple", "Pineapples", "PINEAPPLE", "Pineapple, raw", "raw pineapple",
                             "Ananas", "ananas frais", "piña", "Piñas", "frische Ananas"})
        EXPECT_EQ(lines_of(name), pineapple) << name;
    EXPECT_EQ(lines_of("extra sweet pineapple"), Names{"Pineapple, raw, extra sweet variety"});
    for (const char* name : {"dried apricots", "Apricot, dried", "apricots dried", "Getrocknete Aprikosen",
                             "Trockenaprikosen", "abricots secs", "albaricoques secos"})
        EXPECT_EQ(lines_of(name), (Names{"Apricots, dried, sulfured, uncooked", "Apricot, dried"})) << name;
    for (const char* name : {"prunes", "dried plums", "Backpflaume", "pruneaux", "ciruelas pasas"})
        EXPECT_EQ(lines_of(name), Names{"Plums, dried (prunes), uncooked"}) << name;
    for (const char* name : {"dried apple", "getrocknete Äpfel", "pommes séchées", "manzanas secas"})
        EXPECT_EQ(lines_of(name), Names{"Apples, dried, sulfured, uncooked"}) << name;
    EXPECT_EQ(lines_of("dehydrated apples, low moisture"),
              Names{"Apples, dehydrated, low moisture, sulfured, uncooked"});
    EXPECT_EQ(lines_of("dried pears"), Names{"Pears, dried, sulfured, uncooked"});
    EXPECT_EQ(lines_of("dried peaches"), Names{"Peaches, dried, sulfured, uncooked"});
    EXPECT_EQ(lines_of("dates").size(), 5u);
    for (const char* name :
         {"ginger powder", "ground ginger", "Ingwerpulver", "gingembre en poudre", "jengibre molido"})
        EXPECT_EQ(lines_of(name), Names{"Spices, ginger, ground"}) << name;
    for (const char* name : {"Kartoffeln", "pommes de terre", "patatas", "potatoes"})
        EXPECT_EQ(lines_of(name).size(), 8u) << name;
}

TEST(Foods, fresh_unless_dried_is_said_and_nothing_made_of_it) {
    EXPECT_EQ(lines_of("apricot"), Names{"Apricots, raw"});             // nor "Apricot, processed"
    EXPECT_EQ(lines_of("tomato dried"), Names{"Tomatoes, sun-dried"});  // nor those in oil
    EXPECT_EQ(lines_of("parsley dried"), Names{"Spices, parsley, dried"});
    EXPECT_EQ(lines_of("parsley freeze-dried"), Names{"Parsley, freeze-dried"});
    EXPECT_EQ(lines_of("coconut dried"),
              (Names{"Nuts, coconut meat, dried (desiccated), not sweetened", "Coconut, kernal, dry"}));
    EXPECT_EQ(lines_of("pinto beans"),
              Names{"Beans, pinto, mature seeds, raw"});  // pulses are dry by themselves
    for (const Food* food : find_foods("potato").lines) EXPECT_GT(food->moisture, 0.7) << food->name;
    for (const Food* food : find_foods("sweet potato").lines)
        EXPECT_NE(food->name.find("weet potato"), std::string_view::npos);
}

std::string refusal(const char* name) {
    try {
        static_cast<void>(evaluate(*find_function("TYPICAL"), std::vector<Input>{name}, Reading{}));
    } catch (const Refusal& refusal) {
        EXPECT_EQ(refusal.argument(), "food");
        return refusal.what();
    }
    return "not refused";
}

TEST(Foods, an_unknown_name_lists_near_ones) {
    EXPECT_EQ(refusal("pinaple"), "food: \"pinaple\" is no food of the tables; near it: pineapple; piña.");
    EXPECT_EQ(refusal("oregano"),
              "food: \"oregano\" is not in the tables as it stands; there is: Spices, oregano, dried.");
    EXPECT_EQ(
        refusal("coriander"),
        "food: \"coriander\" is more than one food, from 8.72 % to 92.2 % moisture; say which: Coriander "
        "(cilantro) leaves, raw; Spices, coriander seed; Coriander leaves; Coriander seeds.");
    EXPECT_EQ(refusal("xyzzy"), "food: \"xyzzy\" is no food of the tables.");
}

TEST(Foods, lines_are_whole) {
    // FOODHEAT wants fractions that sum to 1 within 0.005.
    for (const char* name :
         {"pineapple", "ginger", "ginger powder", "apricot dried", "raisins", "onion", "tomato powder",
          "lentils", "potato", "mango", "banana", "carrot", "garlic", "apple", "cod", "spinach"}) {
        const auto lines = find_foods(name).lines;
        for (const Food* food : lines) {
            const double sum =
                food->moisture + food->protein + food->fat + food->carbohydrate + food->fibre + food->ash;
            EXPECT_NEAR(sum, 1, 0.003) << food->name;
            EXPECT_GE(food->carbohydrate, 0) << food->name;
        }
    }
    // IFCT 2017, E053 pineapple, and USDA SR28, 09266: carbohydrate 13.12 holds fibre of 1.4.
    const Food& usda = *find_foods("pineapple").lines[0];
    EXPECT_NEAR(usda.carbohydrate, 0.1172, 1e-12);
    EXPECT_NEAR(usda.ash, 1 - 0.86 - 0.0054 - 0.0012 - 0.1312, 1e-12);
    EXPECT_FALSE(usda.sugars);
    EXPECT_TRUE(find_foods("pineapple").lines[3]->sugars);
    EXPECT_NEAR(find_foods("pineapple").lines[3]->moisture_sd.value(), 0.0119, 1e-12);
}

TEST(Foods, sugars_are_the_mean_of_the_lines_that_tell_them) {
    double sum = 0, lines = 0;
    for (const Food* food : find_foods("mango").lines)
        if (food->sugars) sum += *food->sugars, ++lines;
    ASSERT_GT(lines, 1);
    EXPECT_NEAR(
        std::get<double>(evaluate(*find_function("TYPICAL"), std::vector<Input>{"mango", "sugars"}, {})),
        sum / lines, 1e-12);
}

TEST(Foods, how_dry_for_an_activity) {
    const auto call = [](const char* function, std::vector<Input> given) {
        return evaluate(*find_function(function), given, Reading{});
    };
    const auto text = [&](const char* food, const char* what) {
        const Outcome outcome = call("TYPICAL", {food, what});
        if (const auto* number = std::get_if<double>(&outcome)) return Input(*number);
        if (const auto* one = std::get_if<std::string>(&outcome)) return Input(*one);
        std::vector<Input> cells;
        for (const Cell& cell : std::get<Table>(outcome).cells) cells.emplace_back(std::get<double>(cell));
        return Input(cells);
    };
    const auto at = [&](const char* food, double activity) {
        return std::get<double>(call(
            "SORPTION", {text(food, "isotherm"), activity, text(food, "parameters"), text(food, "temp")}));
    };
    // Onion at 22 °C, Heldman & Lund (2007): 14.85 % × (0.55/0.45)^0.7496 = 17.26 % dry basis.
    EXPECT_NEAR(at("onion", 0.55), 0.1726, 1e-4);
    // Maize at 25 °C and 70 %: ASAE D245.5 as tabulated for shelled corn, 16.5 % dry basis.
    EXPECT_NEAR(at("maize", 0.70), 0.165, 1e-3);
    // Raisin: 1 − aw = exp(−1.283e-4 T M^1.02) with T in K and M in % dry basis, at 298.15 K.
    EXPECT_NEAR(at("raisins", 0.55), std::pow(-std::log(0.45) / (1.283e-4 * 298.15), 1 / 1.02) / 100, 1e-5);
    // Second sources. Apple: Mbarek & Mihoubi (2019) as quoted by others, 25 °C: 0.10 to 0.15 at 0.5 and 0.22
    // to 0.28 at 0.7. Raisin: Elbaz et al. (2025) find monolayers of 0.119 to 0.147 kg/kg for raisins and
    // dates at 25 °C; a BET isotherm lies above its monolayer at 0.6 and never above 1/(1 − 0.6) of it.
    // Prune: of the same table, from memory; no second source was found, so it is held to the raisin's
    // bounds.
    EXPECT_GT(at("apple", 0.5), 0.10);
    EXPECT_LT(at("apple", 0.5), 0.15);
    EXPECT_GT(at("apple", 0.7), 0.22);
    EXPECT_LT(at("apple", 0.7), 0.28);
    EXPECT_GT(at("raisin", 0.6), 0.147);
    EXPECT_LT(at("raisin", 0.6), 0.119 / 0.4);
    EXPECT_GT(at("prune", 0.6), 0.147);
    EXPECT_LT(at("prune", 0.6), 0.119 / 0.4);
    for (const char* food : {"potato", "onion", "apple", "raisin", "prune", "maize", "wheat", "barley",
                             "linseed", "soybean", "lentil", "pinto bean", "black bean", "white bean"}) {
        EXPECT_GT(at(food, 0.55), 0.05) << food;  // common practice: dried foods are moister than 5 % there
        EXPECT_LT(at(food, 0.55), 0.25) << food;
    }
}

TEST(Foods, no_isotherm_says_which_foods_have_one) {
    try {
        static_cast<void>(
            evaluate(*find_function("TYPICAL"), std::vector<Input>{"mango", "isotherm"}, Reading{}));
        FAIL() << "not refused";
    } catch (const Refusal& refusal) {
        EXPECT_EQ(
            std::string(refusal.what()),
            "what: \"isotherm\" is of no use here, as no isotherm of this food is at hand; there is one "
            "of: potato, onion, apple, raisin, prune, corn, wheat, barley, linseed, soybean, lentil, pinto "
            "bean, black bean, white bean; fit your own readings with DRY.SORPTIONFIT.");
    }
}

TEST(Foods, below_100_microseconds) {
    using Clock = std::chrono::steady_clock;
    const Function& typical = *find_function("TYPICAL");
    const std::vector<Input> given{"dried apricots", "moisture"};
    static_cast<void>(evaluate(typical, given, Reading{}));
    auto best = Clock::duration::max();
    for (int run = 0; run < 20; ++run) {  // the best: other work may have the machine
        const auto from = Clock::now();
        for (int i = 0; i < 10; ++i) static_cast<void>(evaluate(typical, given, Reading{}));
        best = std::min(best, (Clock::now() - from) / 10);
    }
    RecordProperty("microseconds", std::to_string(std::chrono::duration<double, std::micro>(best).count()));
#if defined(__OPTIMIZE__) && !defined(__SANITIZE_ADDRESS__)
    EXPECT_LT(best, std::chrono::microseconds(100));
#endif
}

}  // namespace
}  // namespace drysheet
