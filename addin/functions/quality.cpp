// SPDX-License-Identifier: MPL-2.0
#include "drysheet/quality.hpp"

#include <algorithm>
#include <cmath>

#include "addin/functions/foods/foods.hpp"
#include "addin/functions/topics.hpp"
#include "addin/text/sentence.hpp"
#include "addin/text/words.hpp"
#include "drysheet/sorption.hpp"

namespace drysheet {
namespace {

Outcome soak_table(const OsmoticSoak& soak) {
    using Shown = std::variant<Amount, Told>;
    const auto share = [](double x) { return Amount{x, Kind::fraction}; };
    return quantities({{"water loss", share(soak.water_loss)},
                       {"solids gain", share(soak.solids_gain)},
                       {"weight reduction", share(soak.weight_reduction)},
                       {"ratio", soak.ratio ? Shown(amount(*soak.ratio)) : Shown(Sentence("none"))}});
}

std::vector<WorkingRange> losses(std::span<const Time> times, std::span<const Temperature> temps,
                                 DryingRate rate, Temperature rate_temp, MolarEnergy energy,
                                 double /*order*/) {
    return {{"loss", {}, quality_losses(times, temps, rate, rate_temp, energy)}};
}

constexpr std::string_view kArrhenius =
    "Arrhenius over the temperature; Labuza (1984) J. Chem. Educ. 61:348.";
constexpr std::string_view kQualityCaution =
    "It tells of a quality, not of how long a food may be kept: only a measured water activity and the local "
    "food "
    "authority decide that.";
constexpr Param kRate{
    .name = arg::rate,
    .text = "rate of loss at rate_temp, per hour; with order 0 the share of the initial lost per hour",
    .range = positive,
    .unit = "1/h"};
constexpr Param kRateTemp{arg::rate_temp, "temperature at which that rate was measured"};
constexpr Param kEnergy{arg::energy, "activation energy, as DRY.ACTIVATIONENERGY gives it", within(0, 500)};
constexpr Param kOrder{.name = arg::order, .text = "order of the loss: 1, or 0", .otherwise = 1};

constexpr std::string_view kNotListed = "not listed";

Sentence source_of(const FoundFoods& found) {
    std::string lines;
    for (std::string_view last; const Food* food : found.lines) {
        lines += food->source == last ? "; " : (last.empty() ? "" : ". ") + std::string(food->source) + ": ";
        lines += food->name;
        last = food->source;
    }
    if (!found.isotherm) return {"typical, not measured: {}", {lines}};
    return {"typical, not measured: {}. Isotherm: {}", {lines, found.isotherm->source}};
}

/// The rows of TYPICAL: name, value, unit.
Table typical_table(const FoundFoods& found) {
    const auto& lines = found.lines;
    const auto n = static_cast<double>(lines.size());
    Table table{.columns = 3};
    const auto row = [&table](std::string_view name, const Cell& value, std::string_view unit) {
        for (const Cell& cell : {Cell(std::string(name)), value, Cell(std::string(unit))})
            table.cells.push_back(cell);
    };
    const auto mean = [&](double Food::*part) {
        double sum = 0;
        for (const Food* food : lines) sum += food->*part;
        return sum / n;
    };
    const double moisture = mean(&Food::moisture);
    double squares = 0, sugars = 0, with_sugars = 0;
    for (const Food* food : lines) {
        squares += (food->moisture - moisture) * (food->moisture - moisture);
        if (!food->sugars) continue;
        sugars += *food->sugars;
        ++with_sugars;
    }
    const auto [driest, wettest] = std::ranges::minmax(lines, {}, &Food::moisture);
    row("moisture", moisture, "fraction wb");
    if (lines.size() > 1) {
        row("sd", std::sqrt(squares / (n - 1)), "fraction wb");
    } else {
        const auto& between = lines.front()->moisture_sd;
        row("sd", between ? Cell(*between) : Cell(Told(kNotListed)), "fraction wb");
    }
    row("low", driest->moisture, "fraction wb");
    row("high", wettest->moisture, "fraction wb");
    row("protein", mean(&Food::protein), "fraction");
    row("fat", mean(&Food::fat), "fraction");
    row("carbohydrate", mean(&Food::carbohydrate), "fraction");
    row("fibre", mean(&Food::fibre), "fraction");
    row("ash", mean(&Food::ash), "fraction");
    row("sugars", with_sugars > 0 ? Cell(sugars / with_sugars) : Cell(Told(kNotListed)), "fraction");
    if (const auto* isotherm = found.isotherm) {
        row("isotherm", std::string(isotherm->model), "");
        const auto models = isotherm_models();
        const auto model = std::ranges::find(models, isotherm->model, &IsothermModelInfo::name);
        for (std::size_t i = 0; i < isotherm->parameters.size(); ++i)
            row(model->parameters[i], isotherm->parameters[i], "");
        row("temp", isotherm->celsius, "°C");
    }
    row("foods", n, "");
    row("source", Told(source_of(found)), "");
    return table;
}

Outcome typical(const std::string& food, const std::optional<std::string>& what) {
    const FoundFoods found = find_foods(food);
    Table table = typical_table(found);
    if (!what) return table;
    const std::string wanted = lower(trimmed(*what));
    if (wanted == "parameters" && found.isotherm) {
        Table column;
        for (const double x : found.isotherm->parameters) column.cells.emplace_back(x);
        return column;
    }
    if (!found.isotherm && (wanted == "isotherm" || wanted == "parameters" || wanted == "temp"))
        throw NoResultInWords(arg::what,
                              {"is of no use here, as no isotherm of this food is at hand; there is one of: "
                               "{}; fit your own readings with DRY.SORPTIONFIT",
                               {foods_with_isotherm()}});
    for (std::size_t i = 0; i < table.rows(); ++i) {
        if (lower(std::get<std::string>(table.at(i, 0))) != wanted) continue;
        const Cell& value = table.at(i, 1);
        if (const auto* number = std::get_if<double>(&value)) return *number;
        if (const auto* name = std::get_if<std::string>(&value)) return *name;
        const Told& told = std::get<Told>(value);
        if (told.sentence.form != kNotListed) return told;
        throw BadInput(arg::what, "is not in the tables for this food");
    }
    throw BadInput(
        arg::what,
        "is no row of this food; rows are moisture, sd, low, high, protein, fat, carbohydrate, fibre, ash, "
        "sugars, foods and source, and where an isotherm is known isotherm, parameters and temp");
}

std::vector<WorkingRange> found_lines(const std::string& food, const std::optional<std::string>& /*what*/) {
    std::vector<std::string> line;
    std::vector<double> moistures;
    for (const Food* found : find_foods(food).lines) {
        line.emplace_back(found->name);
        moistures.push_back(found->moisture);
    }
    return {{"line", {}, line}, {"moistures", {}, moistures}};
}

}  // namespace

std::vector<Function> quality_entries() {
    constexpr std::string_view topic = "quality";
    return {
        function<typical>(
            {.name = "TYPICAL",
             .topic = topic,
             .summary = "Published composition of a food, fresh or dried: a guess to plan with, typical, not "
                        "measured; one "
                        "value where a row is asked for",
             .params = {{{.name = arg::food,
                          .text = "its name in English, German, French or Spanish; fresh unless it says "
                                  "dried, powder or the like"},
                         {.name = arg::what,
                          .text = "a row: moisture, sd, low, high, protein, fat, carbohydrate, fibre, ash, "
                                  "sugars, foods, source; "
                                  "isotherm, parameters and temp where one is known"}}},
             .result = "typical",
             .range =
                 "Typical, not measured: weigh and dry a sample of your own. Of several lines the mean, with "
                 "their "
                 "standard deviation, lowest and highest; of a single one the deviation between the regions "
                 "its source "
                 "sampled, if any. carbohydrate is without the fibre, as DRY.FOODHEAT takes it; where a "
                 "source gives no "
                 "fibre it is in there. How dry for an activity of 0.55: DRY.SORPTION(DRY.TYPICAL(\"onion\"; "
                 "\"isotherm\"); 0.55; DRY.TYPICAL(\"onion\"; \"parameters\"); DRY.TYPICAL(\"onion\"; "
                 "\"temp\")).",
             .source = "USDA National Nutrient Database for Standard Reference, Releases 28 (2015) and 26 "
                       "(2013), public "
                       "domain; Longvah et "
                       "al. (2017) Indian Food Composition Tables, National Institute of Nutrition; "
                       "isotherms: the row "
                       "source.",
             .caution = "How dry a food must be to keep, no table tells: only a measured water activity and "
                        "the local "
                        "food authority decide that.",
             .working =
                 "line ~ line : of the tables; the row source says of which\n"
                 "moistures ~ moistures : of each\n"
                 "moisture = mean(moistures)\n"
                 "if count(moistures) > 1: sd = sqrt(squares(moistures; moisture) ÷ (count(moistures) − 1))\n"
                 ": the other parts in the same way; a source's carbohydrate that holds the fibre is taken "
                 "without it, before averaging",
             .working_ranges = ranges_by<found_lines>,
             .checks =
                 {{{"pineapple", "moisture"},
                   0.8624,
                   1e-9,
                   "by hand: (86 + 85.66 + 87.24) % of USDA SR28 and 86.06 % of IFCT 2017, ÷ 4"},
                  {{"Pineapples"}, 0.0068954, 1e-4, "by hand: √(1.4264 ÷ 3) %", "sd"},
                  {{"ananas"}, 0.8566, 1e-9, "USDA SR28: extra sweet variety", "low"},
                  {{"piña"}, 0.8724, 1e-9, "USDA SR28: traditional varieties", "high"},
                  {{"dried apricots", "moisture"},
                   0.23785,
                   1e-9,
                   "by hand: (30.89 + 16.68) % ÷ 2, USDA SR26 and IFCT 2017"},
                  {{"prunes", "moisture"}, 0.3092, 1e-9, "USDA SR26: plums, dried (prunes), uncooked"},
                  {{"Ingwer", "moisture"},
                   0.8008,
                   1e-9,
                   "by hand: (81.27 + 78.89) % ÷ 2, IFCT 2017 and USDA SR28"},
                  {{"tomato powder", "carbohydrate"},
                   0.5818,
                   1e-9,
                   "by hand: 74.68 % less 16.5 % of fibre, USDA SR28"},
                  {{"tomato powder", "ash"}, 0.0891, 1e-9, "by hand: 100 − 3.06 − 12.91 − 0.44 − 74.68 %"},
                  {{"lentils", "isotherm"},
                   "modified Halsey",
                   0,
                   "Cenkowski et al. (2015) Can. Biosyst. Eng. 57"},
                  {{"wheat", "temp"}, 25.0, 0, "ASAE D245.5"},
                  {{"prune", "source"},
                   "from memory",
                   0,
                   "what was recalled says so; of the rest of the source only the words, hence a part",
                   {},
                   2,
                   true},
                  {{"tomato powder", "foods"}, 1.0, 0, "one line of USDA SR28"},
                  {{"tomato powder", "source"},
                   "typical, not measured: USDA SR28: Tomato powder",
                   0,
                   "the line that is meant"}},
             .refusals = {{{"xyzzy"}, "food"},
                          {{"pinaple"}, "food"},
                          {{"coriander"}, "food"},
                          {{"oregano"}, "food"},
                          {{"pineapple", "vitamins"}, "what"},
                          {{"tomato powder", "sugars"}, "what"},
                          {{"pineapple", "isotherm"}, "what"},
                          {{column("apple", "pear"), "moisture"}, "food"}},
             .see_also = {"FOODHEAT", "DRIEDMASS", "SORPTION", "CONTENTAFTER"},
             .rests_on =
                 [](std::span<const Value> given) {
                     return written(source_of(find_foods(given[0].names.front())));
                 }}),
        function<content_after>(
            {.name = "CONTENTAFTER",
             .topic = topic,
             .summary = "Content of a vitamin, sugar or acid per mass after drying, from that before",
             .params = {{{arg::content, "content per wet mass before drying, in any unit", at_least(0)},
                         {arg::start, "moisture before drying"},
                         {arg::final, "moisture after drying"},
                         {.name = arg::kept,
                          .text = "share of the substance that survives; 1 where nothing is destroyed",
                          .otherwise = 1}}},
             .result = "after",
             .range = "A plain number; the result is in the same unit.",
             .source =
                 "Balance of the substance over the solids balance; Geankoplis (1993) Transport Processes "
                 "and Unit Operations, 3rd ed., sec. 1.5.",
             .working = "ratio = DRYINGRATIO(start; final)\n"
                        "after = content × ratio × kept",
             .checks =
                 {{{20.0, 0.8, 0.2, 0.5}, 40.0, 1e-12, "by hand: 20 × 0.8 ÷ 0.2 × 0.5"},
                  {{2.5, "79.8 %", "2 %"},
                   12.3,
                   0.02,
                   "USDA SR28: protein of shallots, 2.5 % raw at 79.8 % water, 12.3 % freeze-dried at 2 %"},
                  {{16.8, 0.798, 0.02},
                   80.7,
                   0.02,
                   "USDA SR28: carbohydrate of the same shallots, 16.8 % raw, 80.7 % freeze-dried"}},
             .refusals = {{{10.0, 0.2, 0.8}, "final"},
                          {{-1.0, 0.8, 0.2}, "content"},
                          {{10.0, 80.0, 0.2}, "start"},
                          {{10.0, 0.8, 0.2, 1.2}, "kept"}},
             .see_also = {"DRYINGRATIO", "QUALITYLEFT", "TYPICAL"}}),
        function<quality_left>(
            {.name = "QUALITYLEFT",
             .topic = topic,
             .summary =
                 "Share of a quality (colour, vitamin, aroma) that is left after a temperature history",
             .params = {{{arg::times, "times of the history, rising"},
                         {arg::temps, "temperature at each; straight lines between"},
                         kRate,
                         kRateTemp,
                         kEnergy,
                         kOrder}},
             .result = "left",
             .range = "One reaction of one activation energy throughout: not across melting, caking or a "
                      "change of moisture. "
                      "Order 0 gives 0 once all is gone.",
             .source = kArrhenius,
             .caution = kQualityCaution,
             .working = "each k [1/h] = rate × exp(energy ÷ 0.008314462618 × (1 ÷ (rate_temp + 273.15) − 1 ÷ "
                        "(temps + 273.15)))\n"
                        "loss ~ loss : the integral of k over each section, the temperature on a straight "
                        "line: k × time where it stays, else by numerical integration\n"
                        "S = sum(loss)\n"
                        "if order > 0: left = exp(−S)\n"
                        "if order ≤ 0: left = max(1 − S; 0)",
             .working_ranges = ranges_by<losses>,
             .checks = {{{column(0.0, 10.0), column(60.0, 60.0), 0.05, 60.0, 90.0},
                         0.60653066,
                         1e-8,
                         "by hand: exp(−10 × 0.05)"},
                        {{column(0.0, 10.0), column(60.0, 60.0), 0.05, 60.0, 90.0, 0.0},
                         0.5,
                         1e-12,
                         "by hand: 1 − 10 × 0.05"},
                        {{column("0 day", "1 day"), column(45.0, 45.0), "0.33506 1/day", 35.0,
                          "124.1939 kJ/mol"},
                         0.214916,
                         1e-4,
                         "Labuza (1984) J. Chem. Educ. 61:348, browning: ln k = 47.38 − 29 680 ÷ (1.987 T), "
                         "so exp(−1.5375)"},
                        {{column(0.0, 6.0, 12.0), column(20.0, 60.0, 30.0), 0.02, 50.0, 80.0},
                         0.836358284701365,
                         1e-10,
                         "SciPy 1.10.1, quad over both straight lines"}},
             .refusals = {{{column(0.0, 10.0), column(60.0), 0.05, 60.0, 90.0}, "temps"},
                          {{column(10.0, 0.0), column(60.0, 60.0), 0.05, 60.0, 90.0}, "times"},
                          {{column(0.0), column(60.0), 0.05, 60.0, 90.0}, "times"},
                          {{column(0.0, 10.0), column(60.0, 60.0), 0.0, 60.0, 90.0}, "rate"},
                          {{column(0.0, 10.0), column(60.0, 60.0), 0.05, 60.0, 90000.0}, "energy"},
                          {{column(0.0, 10.0), column(60.0, 60.0), 0.05, 60.0, 90.0, 2.0}, "order"}},
             .see_also = {"QUALITYDAYS", "ACTIVATIONENERGY", "CONTENTAFTER"}}),
        function<quality_time>(
            {.name = "QUALITYDAYS",
             .topic = topic,
             .summary = "Days until a share of a quality is left, at one temperature",
             .params = {{{arg::left, "share that is left in the end", above_up_to(0, 1)},
                         {arg::temp, "temperature of the store"},
                         kRate,
                         kRateTemp,
                         kEnergy,
                         kOrder}},
             .result = "time",
             .unit = "day",
             .range =
                 "One reaction of one activation energy throughout; a constant temperature and moisture.",
             .source = kArrhenius,
             .caution = kQualityCaution,
             .working =
                 "k [1/h] = rate × exp(energy ÷ 0.008314462618 × (1 ÷ (rate_temp + 273.15) − 1 ÷ (temp + "
                 "273.15)))\n"
                 "if order > 0: time = ln(1 ÷ left) ÷ k ÷ 24\n"
                 "if order ≤ 0: time = (1 − left) ÷ k ÷ 24",
             .checks = {{{0.5, 60.0, 0.05, 60.0, 90.0}, 0.577623, 1e-6, "by hand: ln 2 ÷ 0.05 ÷ 24"},
                        {{0.5, 60.0, 0.05, 60.0, 90.0, 0.0}, 0.416667, 1e-5, "by hand: 0.5 ÷ 0.05 ÷ 24"},
                        {{"36.788 %", 45.0, "0.33506 1/day", 35.0, "124.1939 kJ/mol"},
                         0.650404,
                         1e-4,
                         "Labuza (1984) J. Chem. Educ. 61:348, browning: ln k = 47.38 − 29 680 ÷ (1.987 T), "
                         "so 1 ÷ 1.5375"}},
             .refusals = {{{0.0, 60.0, 0.05, 60.0, 90.0}, "left"},
                          {{50.0, 60.0, 0.05, 60.0, 90.0}, "left"},
                          {{0.5, 60.0, "0.05 kg", 60.0, 90.0}, "rate"},
                          {{0.5, 60.0, 0.05, 60.0, 90.0, 1.5}, "order"}},
             .see_also = {"QUALITYLEFT", "ACTIVATIONENERGY", "SHELFDAYS"}}),
        function<colour_difference>(
            {.name = "COLOURCHANGE",
             .topic = topic,
             .summary = "Colour difference CIEDE2000 of two colours in CIELAB",
             .params = {{{arg::L1, "lightness of the first colour", within(0, 100)},
                         {"a1", "its a*, red above green below 0"},
                         {"b1", "its b*, yellow above blue below 0"},
                         {arg::L2, "lightness of the second", within(0, 100)},
                         {"a2", "its a*"},
                         {"b2", "its b*"}}},
             .result = "difference",
             .range = "Parametric factors 1; made for differences below about 5.",
             .source = "CIE 142-2001; Sharma, Wu & Dalal (2005) Color Res. Appl. 30:21.",
             .working =
                 ": symbols as in the source, a prime as p, a mean as m; angles in degrees\n"
                 "Cm = (sqrt(a1^2 + b1^2) + sqrt(a2^2 + b2^2)) ÷ 2\n"
                 "G = 0.5 × (1 − sqrt(Cm^7 ÷ (Cm^7 + 25^7)))\n"
                 "ap1 = (1 + G) × a1\n"
                 "ap2 = (1 + G) × a2\n"
                 "Cp1 = sqrt(ap1^2 + b1^2)\n"
                 "Cp2 = sqrt(ap2^2 + b2^2)\n"
                 ": atan2 is the angle of b over a, from 0 to 360\n"
                 "if b1 ≥ 0: hp1 = atan2(b1; ap1)\n"
                 "if b1 < 0: hp1 = atan2(b1; ap1) + 360\n"
                 "if b2 ≥ 0: hp2 = atan2(b2; ap2)\n"
                 "if b2 < 0: hp2 = atan2(b2; ap2) + 360\n"
                 "dL = L2 − L1\n"
                 "dC = Cp2 − Cp1\n"
                 "if hp2 − hp1 > 180: dh = hp2 − hp1 − 360\n"
                 "if abs(hp2 − hp1) ≤ 180: dh = hp2 − hp1\n"
                 "if hp1 − hp2 > 180: dh = hp2 − hp1 + 360\n"
                 "dH = 2 × sqrt(Cp1 × Cp2) × sin(dh ÷ 2)\n"
                 "Lm = (L1 + L2) ÷ 2\n"
                 "Cpm = (Cp1 + Cp2) ÷ 2\n"
                 "if abs(hp2 − hp1) ≤ 180: hm = (hp1 + hp2) ÷ 2\n"
                 "if abs(hp2 − hp1) > 180: if hp1 + hp2 < 360: hm = (hp1 + hp2 + 360) ÷ 2\n"
                 "if abs(hp2 − hp1) > 180: if hp1 + hp2 ≥ 360: hm = (hp1 + hp2 − 360) ÷ 2\n"
                 "T = 1 − 0.17 × cos(hm − 30) + 0.24 × cos(2 × hm) + 0.32 × cos(3 × hm + 6) − 0.20 × cos(4 × "
                 "hm − 63)\n"
                 "SL = 1 + 0.015 × (Lm − 50)^2 ÷ sqrt(20 + (Lm − 50)^2)\n"
                 "SC = 1 + 0.045 × Cpm\n"
                 "SH = 1 + 0.015 × Cpm × T\n"
                 "dtheta = 30 × exp(−((hm − 275) ÷ 25)^2)\n"
                 "RC = 2 × sqrt(Cpm^7 ÷ (Cpm^7 + 25^7))\n"
                 "RT = −sin(2 × dtheta) × RC\n"
                 "difference = sqrt((dL ÷ SL)^2 + (dC ÷ SC)^2 + (dH ÷ SH)^2 + RT × (dC ÷ SC) × (dH ÷ SH))",
             .checks =
                 {{{50.0, 2.6772, -79.7751, 50.0, 0.0, -82.7485},
                   2.0425,
                   3e-5,
                   "Sharma et al. (2005) Table 1, pair 1"},
                  {{50.0, 0.0, 0.0, 50.0, -1.0, 2.0}, 2.3669, 3e-5, "Sharma et al. (2005) Table 1, pair 7"},
                  {{50.0, 2.49, -0.001, 50.0, -2.49, 0.0011},
                   7.2195,
                   1e-5,
                   "Sharma et al. (2005) Table 1, pair 11"},
                  {{22.7233, 20.0904, -46.694, 23.0331, 14.973, -42.5619},
                   2.0373,
                   3e-5,
                   "Sharma et al. (2005) Table 1, pair 29"},
                  {{2.0776, 0.0795, -1.135, 0.9033, -0.0636, -0.5514},
                   0.9082,
                   6e-5,
                   "Sharma et al. (2005) Table 1, pair 34"}},
             .refusals = {{{120.0, 0.0, 0.0, 50.0, 0.0, 0.0}, "L1"},
                          {{50.0, 0.0, 0.0, -1.0, 0.0, 0.0}, "L2"}},
             .see_also = {"QUALITYLEFT"}}),
        function<osmotic_soak>(
            {.name = "OSMOTIC",
             .topic = topic,
             .summary = "What a soak in sugar or salt did: water lost, solids gained, each per initial mass",
             .params = {{{arg::mass, "mass before the soak", positive},
                         {"moisture", "moisture before the soak"},
                         {arg::mass_after, "mass after it, drained and blotted", positive},
                         {"moisture_after", "moisture after it"}}},
             .result = "soak",
             .range = "Below 0 where water was taken up or solids were leached out; the ratio is then none.",
             .source = "Balances of water and solids: Lazarides, Katsanidis & Nickolaidis (1995) J. Food "
                       "Eng. 25:151.",
             .working = "water_loss = (mass × moisture − mass_after × moisture_after) ÷ mass\n"
                        "solids_gain = (mass_after × (1 − moisture_after) − mass × (1 − moisture)) ÷ mass\n"
                        "weight_reduction = (mass − mass_after) ÷ mass\n"
                        "if solids_gain > 1e-12: ratio = water_loss ÷ solids_gain",
             .checks =
                 {{{100.0, 0.8, 60.0, 0.6}, 0.44, 1e-12, "by hand: (80 − 36) ÷ 100", "water loss"},
                  {{100.0, 0.8, 60.0, 0.6}, 0.04, 1e-12, "by hand: (24 − 20) ÷ 100", "solids gain"},
                  {{100.0, 0.8, 60.0, 0.6}, 0.4, 1e-12, "by hand: 40 ÷ 100", "weight reduction"},
                  {{100.0, 0.8, 60.0, 0.6}, 11.0, 1e-12, "by hand: 0.44 ÷ 0.04", "ratio"},
                  {{100.0, 0.8, 40.0, 0.5}, "none", 0, "by hand: 20 g of solids before and after", "ratio"}},
             .refusals = {{{0.0, 0.8, 50.0, 0.6}, "mass"}, {{100.0, 0.8, 0.0, 0.6}, "mass_after"}},
             .see_also = {"WATERREMOVED", "BLENDMOISTURE", "CONTENTAFTER"},
             .show = soak_table}),
    };
}

}  // namespace drysheet
