// SPDX-License-Identifier: MPL-2.0
#include "drysheet/powder.hpp"

#include <algorithm>
#include <numbers>
#include <numeric>

#include "addin/functions/cautions.hpp"
#include "addin/functions/topics.hpp"

namespace drysheet {

template <>
struct FieldsOf<DrySolids> {
    static std::vector<Field<DrySolids>> fields() {
        using S = DrySolids;
        return {
            field<&S::fructose>({"fructose", "its share"}),
            field<&S::glucose>({"glucose", "its share"}),
            field<&S::sucrose>({"sucrose", "its share"}),
            field<&S::maltose>({"maltose", "its share"}),
            field<&S::trehalose>({"trehalose", "its share"}),
            field<&S::sorbitol>({"sorbitol", "its share"}),
            field<&S::citric_acid>({"citric acid", "its share"}),
            field<&S::maltodextrin_de36>({"maltodextrin de 36", "its share"}),
            field<&S::maltodextrin_de20>({"maltodextrin de 20", "its share"}),
            field<&S::maltodextrin_de10>({"maltodextrin de 10", "its share"}),
            field<&S::maltodextrin_de5>({"maltodextrin de 5", "its share"}),
            field<&S::starch>({"starch", "its share"}),
        };
    }
};

namespace {

constexpr std::string_view kGordonTaylor =
    "Gordon & Taylor (1952) J. Appl. Chem. 2:493; constants of sugars in Roos (1993) Carbohydr. Res. 238:39.";
constexpr std::string_view kUsp = "USP <1174> Powder Flow.";

constexpr Param kTgSolids{
    "tg_solids", "glass transition of the dry solids (published values differ: 52 to 70 for sucrose)"};
constexpr Param kK{arg::k, "Gordon-Taylor constant of the solids with water", positive};
constexpr Param kTgWater{.name = arg::tg_water, .text = "glass transition of water", .otherwise = -135};
constexpr Param kBulk{arg::bulk, "bulk density, poured", positive};
constexpr Param kTapped{arg::tapped, "tapped density", positive};
constexpr Param kOpenings{arg::openings, "openings of the sieves in any order, 0 for the pan", at_least(0)};
constexpr Param kMasses{arg::masses, "mass retained on each", at_least(0)};

Outcome mean_table(const SieveMean& x) {
    return quantities({{"mean", amount(x.mean)},
                       {"deviation", amount(x.deviation)},
                       {"in pan", amount(x.in_pan)},
                       {"on top", amount(x.on_top)}});
}
// From the largest sieve down; what no sieve divides is one step of √2 wide.
std::vector<WorkingRange> classes(std::span<const Length> openings, std::span<const Mass> masses) {
    std::vector<std::size_t> order(openings.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::ranges::sort(order, std::ranges::greater{}, [&](std::size_t i) { return to_si(openings[i]); });
    const double largest = to_si(openings[order.front()]);
    std::vector<double> opening, larger, mass;
    for (const std::size_t i : order) {
        larger.push_back(opening.empty() ? largest * std::numbers::sqrt2 : opening.back());
        opening.push_back(to_si(openings[i]) > 0 ? to_si(openings[i]) : larger.back() / std::numbers::sqrt2);
        mass.push_back(to_si(masses[i]));
    }
    const double pan = to_si(openings[order.back()]) > 0 ? 0 : mass.back(), top = mass.front();
    return {{"opening", "openings", opening},
            {"larger", "openings", larger},
            {"mass", "masses", mass},
            {"pan", "masses", pan},
            {"top", "masses", top}};
}

std::vector<WorkingRange> around(std::span<const Length> openings, std::span<const Mass> masses,
                                 Fraction passing) {
    const SieveInterval interval = sieve_interval(openings, masses, passing);
    const auto below = [&](Length sieve) {
        std::vector<double> finer;
        for (std::size_t i = 0; i < openings.size(); ++i)
            if (openings[i] < sieve) finer.push_back(to_si(masses[i]));
        return finer;
    };
    return {{"finer", "openings", to_si(interval.finer)},
            {"coarser", "openings", to_si(interval.coarser)},
            {"below_finer", "masses", below(interval.finer)},
            {"below_coarser", "masses", below(interval.coarser)}};
}

std::vector<WorkingRange> given_parts(const DrySolids& shares) {
    const auto rows = FieldsOf<DrySolids>::fields();
    const auto formers = glass_formers();
    std::vector<std::string> part;
    std::vector<double> share, step, glass;
    for (std::size_t i = 0; i < formers.size(); ++i) {
        const auto& given = shares.*formers[i].share;
        if (!given) continue;
        part.emplace_back(rows.at(i).parameter.name);
        share.push_back(given->value());
        step.push_back(formers[i].step);
        glass.push_back(formers[i].celsius);
    }
    return {{"part", {}, part}, {"share", {}, share}, {"step", {}, step}, {"glass", {}, glass}};
}

Input parts(std::vector<Input> cells) { return {std::move(cells), 2}; }
Outcome class_text(const FlowClass& flow) { return Sentence(info(flow).name); }

}  // namespace

std::vector<Function> powder_entries() {
    constexpr std::string_view topic = "powder";
    const Input openings = column(2.0, 1.0, 0.5, 0.0);
    return {
        function<glass_point>(
            {.name = "GLASSPOINT",
             .topic = topic,
             .summary = "Glass transition temperature of a moist powder",
             .params = {{{"moisture", "moisture of the powder"}, kTgSolids, kK, kTgWater}},
             .result = "point",
             .source = kGordonTaylor,
             .working = "point = ((1 − moisture) × tg_solids + k × moisture × tg_water) ÷ (1 − moisture + k "
                        "× moisture)",
             .checks = {{{0.05, 62.0, 5.42},
                         18.276,
                         1e-4,
                         "by hand, sucrose of Roos (1993): (0.95·62 − 5.42·0.05·135) ÷ 1.221"},
                        {{0.03, 62.0, 5.42}, 33.717, 1e-4, "by hand: (0.97·62 − 5.42·0.03·135) ÷ 1.1326"},
                        {{"0 %", 62.0, 5.42}, 62.0, 1e-12, "limit: the dry solids"}},
             .refusals = {{{0.05, -140.0, 5.42}, "tg_water"},
                          {{0.05, 62.0, 0.0}, "k"},
                          {{5.0, 62.0, 5.42}, "moisture"}},
             .see_also = {"CAKINGMOISTURE", "SOLIDSGLASSPOINT"},
             .slips = {{"the constant k was left out", "(1 − moisture) × tg_solids + moisture × tg_water"},
                       {"the share of the solids was taken for the moisture",
                        "(moisture × tg_solids + k × (1 − moisture) × tg_water) ÷ (moisture + k × (1 − "
                        "moisture))"}}}),
        function<caking_moisture>(
            {.name = "CAKINGMOISTURE",
             .topic = topic,
             .summary = "Moisture at which a powder turns sticky at the temperature of its store",
             .params = {{{arg::store_temp, "warmest temperature of the store"},
                         kTgSolids,
                         kK,
                         {.name = "margin",
                          .text = "how far the glass transition must stay above the store; a sticky point 10 "
                                  "K above the glass transition is a margin of −10",
                          .otherwise = 0},
                         kTgWater}},
             .result = "limit",
             .source = kGordonTaylor,
             .caution = "It says when a powder cakes, not whether it keeps: only a measured water activity "
                        "and the local food authority decide that.",
             .working = "t [°C] = store_temp + margin\n"
                        "limit = (tg_solids − t) ÷ (tg_solids − t + k × (t − tg_water))",
             .checks = {{{30.0, 62.0, 5.42}, 0.034546, 1e-5, "by hand: 32 ÷ (32 + 5.42 × 165)"},
                        {{20.0, 62.0, 5.42, 10.0},
                         0.034546,
                         1e-5,
                         "by hand: the same, 10 K cooler with a margin of 10 K"}},
             .refusals = {{{70.0, 62.0, 5.42}, "store_temp"},
                          {{55.0, 62.0, 5.42, 10.0}, "store_temp"},
                          {{-140.0, 62.0, 5.42}, "store_temp"}},
             .see_also = {"GLASSPOINT", "CARRIERSHARE", "SORPTION"},
             .slips = {{"the constant k was left out",
                        "(tg_solids − store_temp − margin) ÷ (tg_solids − tg_water)"}}}),
        function<solids_glass_point>(
            {.name = "SOLIDSGLASSPOINT",
             .topic = topic,
             .summary = "Glass transition temperature of dry solids from the parts they are made of",
             .params = {{{arg::shares,
                          "two columns, the name of a part and its share of the dry solids, in any order: "
                          "fructose, glucose, "
                          "sucrose, maltose, trehalose, sorbitol, citric acid, maltodextrin DE 36, DE 20, DE "
                          "10, DE 5, starch"}}},
             .result = "point",
             .range =
                 "The shares sum to 1 within 0.01: of a fruit, its sugars and acids without fibre and "
                 "protein. Published "
                 "glass transitions differ by 10 K and more between laboratories. Those used here, and the "
                 "steps of the heat capacity, are from memory of the sources below.",
             .source = "Couchman & Karasz (1978) Macromolecules 11:117. Glass transitions and steps of the "
                       "heat capacity: "
                       "sugars Roos (1993) Carbohydr. Res. 238:39; maltodextrins Roos & Karel (1991) J. Food "
                       "Sci. 56:1676, "
                       "their steps from their Gordon-Taylor constants; citric acid Lu & Zografi (1997) J. "
                       "Pharm. Sci. "
                       "86:1374; starch Orford et al. (1989) Int. J. Biol. Macromol. 11:91.",
             .working = ": ln point = Σ share × step × ln(glass transition) ÷ Σ share × step, in kelvin\n"
                        "part ~ part : of the dry solids\n"
                        "share ~ share : of each part\n"
                        "step [J/(g·K)] ~ step : of its heat capacity at the glass transition\n"
                        "glass [°C] ~ glass : its glass transition\n"
                        "each weight = share × step\n"
                        "each log = ln(glass + 273.15)\n"
                        "total = sum(weight)\n"
                        "log_point = products(weight; log) ÷ total\n"
                        "point = exp(log_point) − 273.15",
             .working_ranges = ranges_by<given_parts>,
             .checks = {{{parts({"sucrose", 1.0})}, 62.0, 1e-9, "Roos (1993) (from memory): sucrose alone"},
                        {{parts({"fructose", 0.5, "sucrose", "50 %"})},
                         29.0269667,
                         1e-6,
                         "by hand: exp((0.30 × ln 335.15 + 0.375 × ln 278.15) ÷ 0.675) − 273.15"},
                        {{parts({"glucose", 0.3, "maltodextrin DE 10", 0.4, "fructose", 0.3})},
                         55.04744175,
                         1e-6,
                         "by hand: (0.225 × ln 278.15 + 0.189 × ln 304.15 + 0.186 × ln 433.15) ÷ 0.6"}},
             .refusals = {{{parts({"sucrose", 0.5})}, "shares"},
                          {{parts({"sucrose", 0.5, "salt", 0.5})}, "shares"},
                          {{"sucrose"}, "shares"}},
             .see_also = {"GLASSPOINT", "CARRIERSHARE", "CAKINGMOISTURE"},
             .rests_on =
                 [](std::span<const Value>) {
                     return std::string(
                         "the parts' glass transitions and steps of the heat capacity are from "
                         "memory, not looked up; of the sugars other laboratories print values "
                         "up to 9 K away");
                 }}),
        function<carrier_share>(
            {.name = "CARRIERSHARE",
             .topic = topic,
             .summary = "Share of a carrier such as maltodextrin, of all dry solids, that keeps a powder "
                        "from caking in the "
                        "store",
             .params = {{{arg::tg_solids,
                          "glass transition of the dry solids without it, as DRY.SOLIDSGLASSPOINT gives it"},
                         {arg::tg_carrier,
                          "glass transition of the dry carrier: about 160 for maltodextrin of DE 10"},
                         {arg::store_temp, "warmest temperature of the store"},
                         {"moisture", "moisture of the powder"},
                         {.name = "margin",
                          .text = "how far the glass transition must stay above the store",
                          .otherwise = 10},
                         {arg::k,
                          "Gordon-Taylor constant with water; left out, that of Roos' line over the glass "
                          "transition",
                          positive}}},
             .result = "carrier",
             .range = "0 where none is needed. Refused where even the carrier alone would cake.",
             .source = "Gordon & Taylor (1952) J. Appl. Chem. 2:493; k by Roos (1993) Carbohydr. Res. "
                       "238:39; mixture of solids "
                       "and carrier: Fox (1956) Bull. Am. Phys. Soc. 1:123.",
             .caution = "It says when a powder cakes, not whether it keeps: only a measured water activity "
                        "and the local food "
                        "authority decide that.",
             .working =
                 "t [°C] = store_temp + margin\n"
                 ": needed is the glass transition that the dry mixture must have\n"
                 "if k given: needed [°C] = t + k × moisture ÷ (1 − moisture) × (t + 135)\n"
                 "if k left out: : the same with k = 0.0293 × needed + 3.61, solved for needed\n"
                 "if k left out: needed [°C] = ((1 − moisture) × t + 3.61 × moisture × (t + 135)) ÷ (1 − "
                 "moisture − 0.0293 × moisture × (t + 135))\n"
                 "if needed ≤ tg_solids: : the dry solids have it already\n"
                 "if needed ≤ tg_solids: carrier = 0\n"
                 "if needed > tg_solids: carrier = (1 ÷ (tg_solids + 273.15) − 1 ÷ (needed + 273.15)) ÷ (1 "
                 "÷ (tg_solids + 273.15) − 1 ÷ (tg_carrier + 273.15))",
             .checks = {{{20.0, 160.0, 25.0, 0.03, 10.0, 6.0},
                         0.4239409509,
                         1e-7,
                         "by hand: needed 35 + 6 × 0.03 ÷ 0.97 × 170 = 66.546 °C"},
                        {{20.0, 160.0, 25.0, 0.03},
                         0.4022626295,
                         1e-7,
                         "by hand: needed (0.97 × 35 + 3.61 × 5.1) ÷ (0.97 − 0.0293 × 5.1) = 63.811 °C"},
                        {{100.0, 160.0, 20.0, 0.02},
                         0.0,
                         1e-12,
                         "by hand: needed 30 + 3.5 × … = 44 °C, below 100"}},
             .refusals = {{{20.0, 160.0, 25.0, 0.15}, "tg_carrier"},
                          {{20.0, 50.0, 25.0, 0.03}, "tg_carrier"},
                          {{20.0, 160.0, 25.0, 0.9}, "tg_carrier"},
                          {{20.0, 160.0, 25.0, 0.03, 10.0, 0.0}, "k"}},
             .see_also = {"SOLIDSGLASSPOINT", "GLASSPOINT", "CAKINGMOISTURE"},
             .rests_on =
                 [](std::span<const Value> given) {
                     return std::string(
                         given.back().given ? "" : "k by Roos' line, which is from memory, not looked up");
                 }}),
        function<hausner_ratio>(
            {.name = "HAUSNER",
             .topic = topic,
             .summary = "Hausner ratio of a powder",
             .params = {{kBulk, kTapped}},
             .result = "ratio",
             .source = kUsp,
             .caution = kDust,
             .working = "ratio = tapped ÷ bulk",
             .checks = {{{"0.45 g/mL", "0.55 g/mL"}, 11.0 / 9, 1e-12, "by hand: 55 ÷ 45"}},
             .refusals = {{{550.0, 450.0}, "tapped"}, {{0.0, 450.0}, "bulk"}},
             .see_also = {"CARRINDEX", "FLOWCLASS"},
             .slips = {{"Carr's index was given", "(tapped − bulk) ÷ tapped"}}}),
        function<carr_index>(
            {.name = "CARRINDEX",
             .topic = topic,
             .summary = "Compressibility index (Carr) of a powder",
             .params = {{kBulk, kTapped}},
             .result = "index",
             .source = kUsp,
             .working = "index = (tapped − bulk) ÷ tapped",
             .checks = {{{450.0, 550.0}, 2.0 / 11, 1e-12, "by hand: 100 ÷ 550"}},
             .refusals = {{{550.0, 450.0}, "tapped"}},
             .see_also = {"FLOWCLASS", "HAUSNER"},
             .slips = {{"the difference was divided by the bulk density", "(tapped − bulk) ÷ bulk"},
                       {"the Hausner ratio was given", "tapped ÷ bulk"}}}),
        function<flow_class>(
            {.name = "FLOWCLASS",
             .topic = topic,
             .summary = "Flow of a powder on the pharmacopoeia's scale",
             .params = {{{"carr", "compressibility index, as DRY.CARRINDEX gives it"}}},
             .result = "flow",
             .range = "The scale is printed in whole percent; a class reaches up to its printed upper limit, "
                      "and what lies between two classes belongs to the worse one.",
             .source = "USP <1174> Powder Flow, scale of flowability.",
             .working = ": up to 10 % excellent, 15 % good, 20 % fair, 25 % passable, 31 % poor, 37 % very "
                        "poor, then very, very poor",
             .checks = {{{0.10}, "excellent", 0, "USP <1174>: up to 10 %"},
                        {{0.15}, "good", 0, "USP <1174>: 11 to 15 %"},
                        {{0.16}, "fair", 0, "USP <1174>: 16 to 20 %"},
                        {{0.21}, "passable", 0, "USP <1174>: 21 to 25 %"},
                        {{0.31}, "poor", 0, "USP <1174>: 26 to 31 %"},
                        {{"32 %"}, "very poor", 0, "USP <1174>: 32 to 37 %"},
                        {{0.39}, "very, very poor", 0, "USP <1174>: above 38 %"}},
             .refusals = {{{18.0}, "carr"}, {{-0.1}, "carr"}},
             .see_also = {"CARRINDEX"},
             .show = class_text}),
        function<sieve_mean>(
            {.name = "SIEVEMEAN",
             .topic = topic,
             .summary = "Geometric mean diameter of a ground product and its deviation, from a sieving",
             .params = {{kOpenings, kMasses}},
             .result = "size",
             .range =
                 "Deviation is the factor 10^S_log: two thirds of a log-normal powder lie between mean ÷ "
                 "deviation and mean × deviation; the standard's S_gw is a length. What stays on the "
                 "largest sieve and what falls into the pan is taken as one sieve step of √2 wide, and "
                 "neither may be above 5 %: DRY.SIEVESIZE still gives the median.",
             .source = "ANSI/ASAE S319, Method of Determining and Expressing Fineness of Feed Materials by "
                       "Sieving. The 5 %: inclusive measures reach from the 5th to the 95th percentile, Folk "
                       "& Ward (1957) J. Sediment. Petrol. 27:3.",
             .caution = kDust,
             .working = "opening [mm] ~ opening : from the largest sieve down; of the pan, larger ÷ √2\n"
                        "larger [mm] ~ larger : the next larger opening; of the largest sieve, √2 × its own\n"
                        "mass [mass] ~ mass : on each\n"
                        "total [mass] = sum(mass)\n"
                        "each size [mm] = sqrt(opening × larger)\n"
                        "each log_size = log10(size)\n"
                        "log_mean = products(mass; log_size) ÷ total\n"
                        "mean [mm] = 10^log_mean\n"
                        "each spread = mass × (log_size − log_mean)^2\n"
                        "log_deviation = sqrt(sum(spread) ÷ total)\n"
                        "deviation = 10^log_deviation\n"
                        "in_pan = pan ÷ total\n"
                        "on_top = top ÷ total",
             .working_ranges = ranges_by<classes>,
             .checks =
                 {{{openings, column(0.0, 50.0, 50.0, 0.0)}, 1.0, 1e-12, "by hand: √(√2 × √0.5)", "mean"},
                  {{openings, column(0.0, 50.0, 50.0, 0.0)}, 1.4142136, 1e-7, "by hand: √2", "deviation"},
                  {{openings, column(0.0, 50.0, 0.0, 0.0)},
                   1.4142136,
                   1e-7,
                   "by hand: one class, √(2 × 1)",
                   "mean"},
                  {{column(0.0, 0.5, 2.0, 1.0), column(0.0, 50.0, 0.0, 50.0)},
                   1.0,
                   1e-12,
                   "the same in another order",
                   "mean"},
                  {{openings, column(1.0, 50.0, 45.0, 4.0)}, 0.04, 1e-12, "by hand: 4 of 100", "in pan"},
                  {{openings, column(1.0, 50.0, 45.0, 4.0)}, 0.01, 1e-12, "by hand: 1 of 100", "on top"}},
             .refusals = {{{openings, column(1.0, 2.0)}, "masses"},
                          {{openings, column(0.0, 50.0, 44.0, 6.0)}, "masses"},
                          {{openings, column(6.0, 50.0, 44.0, 0.0)}, "masses"},
                          {{column(2.0, 1.0, 1.0), column(1.0, 2.0, 3.0)}, "openings"},
                          {{column(2.0, -1.0), column(1.0, 2.0)}, "openings"},
                          {{column(2.0, 0.0), column(0.0, 0.0)}, "masses"}},
             .see_also = {"SIEVESIZE"},
             .show = mean_table}),
        function<sieve_size>(
            {.name = "SIEVESIZE",
             .topic = topic,
             .summary = "Size below which a fraction of the mass lies, from a sieving",
             .params = {{kOpenings,
                         kMasses,
                         {.name = arg::passing, .text = "the fraction, 0.5 for the median", .alone = true}}},
             .result = "size",
             .range = "From what passes the finest sieve to what passes the largest one.",
             .source =
                 "Cumulative curve, straight between sieves over the logarithm of the size: common practice.",
             .caution = kDust,
             .working = ": log size on a straight line over the share that passes, between two sieves\n"
                        "finer [mm] ~ finer : the sieve at or below the size\n"
                        "total [mass] = sum(masses)\n"
                        "passes_finer = sum(below_finer) ÷ total\n"
                        "if coarser > finer: coarser [mm] ~ coarser : the sieve at or above it\n"
                        "if coarser > finer: passes_coarser = sum(below_coarser) ÷ total\n"
                        "if coarser > finer: share = (passing − passes_finer) ÷ (passes_coarser − "
                        "passes_finer)\n"
                        "if coarser > finer: size = finer × (coarser ÷ finer)^share\n"
                        "if coarser ≤ finer: size = finer",
             .working_ranges = ranges_by<around>,
             .checks = {{{openings, column(10.0, 40.0, 30.0, 20.0), 0.5},
                         1.0,
                         1e-12,
                         "by hand: 50 of 100 g pass 1 mm"},
                        {{openings, column(10.0, 40.0, 30.0, 20.0), 0.7},
                         1.4142136,
                         1e-7,
                         "by hand: halfway from 0.5 to 0.9, √(1 × 2)"}},
             .refusals = {{{openings, column(10.0, 40.0, 30.0, 20.0), 0.95}, "passing"},
                          {{openings, column(10.0, 40.0, 30.0, 20.0), 0.1}, "passing"}},
             .see_also = {"SIEVEMEAN"}}),
    };
}

}  // namespace drysheet
