// Foods by name, in four languages, against lines of the printed tables.
#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
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
        EXPECT_EQ(lines_of(name), Names{"Apricot, dried"}) << name;
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
    // Onion at 22 °C, Heldman & Lund (2007): 14.85 % × (0.55/0.45)^0.7496 = 17.26 % dry basis.
    EXPECT_NEAR(std::get<double>(call("SORPTION", {text("onion", "isotherm"), 0.55,
                                                   text("onion", "parameters"), text("onion", "temp")})),
                0.1726, 1e-4);
    // Maize at 25 °C and 70 %: ASAE D245.5 as tabulated for shelled corn, 16.5 % dry basis.
    EXPECT_NEAR(std::get<double>(call("SORPTION", {text("maize", "isotherm"), 0.70,
                                                   text("maize", "parameters"), text("maize", "temp")})),
                0.165, 1e-3);
    for (const char* food : {"potato", "onion", "maize", "wheat", "barley", "linseed", "soybean", "lentil",
                             "pinto bean", "black bean", "white bean"})
        EXPECT_NO_THROW(
            call("SORPTION", {text(food, "isotherm"), 0.55, text(food, "parameters"), text(food, "temp")}))
            << food;
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
