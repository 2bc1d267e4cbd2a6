// SPDX-License-Identifier: MPL-2.0
#include "drysheet/yield.hpp"

#include <stdexcept>

#include "addin/functions/cautions.hpp"
#include "addin/functions/topics.hpp"
#include "addin/text/words.hpp"
#include "drysheet/balance.hpp"
#include "drysheet/moisture.hpp"

namespace drysheet {
namespace {

constexpr std::string_view kSolids =
    "Balance of dry solids, in = out; Geankoplis (1993) Transport Processes and Unit Operations, 3rd ed., "
    "ex. 1.5-1.";
constexpr std::string_view kMass =
    "Mass balance: Geankoplis (1993) Transport Processes and Unit Operations, 3rd ed., sec. 1.5.";

Sentence verdict_of(const Closure& closure) {
    switch (closure.verdict) {
        case ClosureVerdict::closes:
            return "closes within its uncertainty (k = 2)";
        case ClosureVerdict::loss:
            return "loss: more is missing than the uncertainties explain (k = 2)";
        case ClosureVerdict::gain:
            return "gain: more came out than went in, beyond the uncertainties (k = 2); look for a tare or "
                   "water taken up";
        case ClosureVerdict::unjudged:
            return "not judged: no uncertainty was given";
    }
    throw std::logic_error("closure verdict");
}

using Shown = std::variant<Amount, Told>;
Shown number_or_none(const std::optional<double>& x) {
    return x ? Shown(amount(*x)) : Shown(Sentence("none"));
}
Cell cell_or_none(const std::optional<double>& x) { return x ? Cell(*x) : Cell(Told(Sentence("none"))); }

Outcome closure_table(const Closure& c) {
    return quantities({{"gap", amount(c.gap)},
                       {"gap share", Amount{c.gap_share, Kind::fraction}},
                       {"u", amount(c.u)},
                       {"gap/u", number_or_none(c.gap_over_u)},
                       {"verdict", verdict_of(c)}});
}

// The formula has no names; the sheet's table does.
Table stages_table(std::span<const std::string> names, std::span<const Mass> in, std::span<const Mass> out,
                   std::span<const Mass> kept) {
    Table table{.columns = 5, .cells = {"name", "loss", "loss share", "yield", "cumulative yield"}};
    const auto rows = stages(in, out, kept);
    for (std::size_t i = 0; i < rows.size(); ++i)
        for (const Cell& cell : {Cell(names[i]), Cell(shown(rows[i].loss)), Cell(rows[i].loss_share),
                                 Cell(rows[i].yield), Cell(rows[i].cumulative_yield)})
            table.cells.push_back(cell);
    return table;
}

Sentence::Part percent(double share) { return {100 * std::abs(share), "%", 2}; }

// In shares, not in grams: the masses are in whatever unit the sheet has.
Sentence verdict_of(const Reconciliation& r) {
    // By the balance the share is that of the fresh mass, too.
    if (r.verdict == ReconcileVerdict::agree)
        return {
            "the weights and moistures agree within their uncertainties; a weighing error of up to {}, fresh "
            "or dried, may not show",
            {percent(*r.dried.noticeable / r.dried.adjusted)}};
    const Sentence off{r.lost > Mass() ? "as if {} of the dried product were missing"
                                       : "as if the dried product weighed {} too much",
                       {percent(r.lost / (r.dried.given + r.lost))}};
    return {r.verdict == ReconcileVerdict::doubtful
                ? "doubtful (p below 5 %): {}; one balance cannot tell which of the four values is wrong"
                : "they do not agree (p below 1 %): {}; one balance cannot tell which of the four values is "
                  "wrong",
            {off}};
}

std::vector<WorkingRange> adjusted(Mass fresh, Mass u_fresh, MoistureWet start, Fraction u_start, Mass dried,
                                   Mass u_dried, MoistureWet final, Fraction u_final) {
    const Reconciliation r = reconcile(fresh, u_fresh, start, u_start, dried, u_dried, final, u_final);
    std::vector<double> corrections;
    for (const auto& c : {r.fresh.correction_over_u, r.start.correction_over_u, r.dried.correction_over_u,
                          r.final.correction_over_u})
        if (c) corrections.push_back(*c);
    return {{"fresh_adjusted", "fresh", to_si(r.fresh.adjusted)},
            {"start_adjusted", "start", to_si(r.start.adjusted)},
            {"dried_adjusted", "dried", to_si(r.dried.adjusted)},
            {"final_adjusted", "final", to_si(r.final.adjusted)},
            {"corrections", {}, corrections}};
}

Outcome reconcile_table(const Reconciliation& r) {
    Table table{.columns = 6,
                .cells = {"name", "given", "adjusted", "u adjusted", "correction/u", "noticeable"}};
    const auto row = [&table](std::string_view name, const auto& value) {
        for (const Cell& cell :
             {Cell(std::string(name)), Cell(shown(value.given)), Cell(shown(value.adjusted)),
              Cell(shown(value.u)), cell_or_none(value.correction_over_u),
              value.noticeable ? Cell(shown(*value.noticeable)) : Cell("none")})
            table.cells.push_back(cell);
    };
    row("fresh", r.fresh);
    row("start", r.start);
    row("dried", r.dried);
    row("final", r.final);
    const auto rest = [&table](const Cell& name, const Cell& given, const Cell& adjusted, const Cell& u) {
        for (const Cell& cell : {name, given, adjusted, u, Cell(""), Cell("")}) table.cells.push_back(cell);
    };
    rest("solids", shown(solids_mass(r.fresh.given, r.start.given)), shown(r.solids), shown(r.u_solids));
    rest("water", shown(r.fresh.given - r.dried.given), shown(r.water), shown(r.u_water));
    rest("chi2", r.chi2, "", "");
    rest("p", r.p, "", "");
    rest("product lost", shown(r.lost), "", shown(r.u_lost));
    rest("verdict", Told(verdict_of(r)), "", "");
    return table;
}

constexpr Param kFresh{arg::fresh, "mass of prepared material put in the dryer", positive};
constexpr Param kDried{arg::dried, "mass of dried product", positive};
constexpr Param kStart{arg::start, "moisture of the prepared material"};
constexpr Param kFinal{arg::final, "moisture of the dried product"};

}  // namespace

std::vector<Function> yield_entries() {
    constexpr std::string_view topic = "yield";
    return {
        function<trim_yield>(
            {.name = "TRIMYIELD",
             .topic = topic,
             .summary = "Usable share after peel, stone and core are off: give what was thrown away, not "
                        "what is left",
             .params = {{{arg::whole, "mass as bought", positive},
                         {.name = arg::loss,
                          .text = "each part thrown away",
                          .range = at_least(0),
                          .repeats = true}}},
             .result = "yield",
             .range = "Each mass behind the first is a part thrown away. From the mass that is left, "
                      "DRY.STEPYIELD gives the yield; typed here it would give 1 − yield.",
             .source = kMass,
             .working = "yield = (whole − sum(loss)) ÷ whole",
             .checks = {{{1000.0, 150.0, 50.0}, 0.8, 1e-12, "by hand: 800 ÷ 1000"}},
             .refusals = {{{100.0, 80.0, 30.0}, "loss"}, {{0.0, 1.0}, "whole"}, {{100.0}, "loss"}},
             .see_also = {"STEPYIELD", "STAGES", "CHAINYIELD", "RAWFOR"},
             .slips = {{"the share lost was given, not the yield", "sum(loss) ÷ whole"},
                       {"the losses were divided by what was left", "(whole − sum(loss)) ÷ sum(loss)"}}}),
        function<step_yield>(
            {.name = "STEPYIELD",
             .topic = topic,
             .summary = "Yield of one step from the mass that goes in and the mass that comes out",
             .params = {{{arg::in, "mass that goes in", positive},
                         {arg::out, "mass that comes out", positive},
                         {.name = arg::kept,
                          .text = "samples taken; they are not lost",
                          .range = at_least(0),
                          .repeats = true}}},
             .result = "step",
             .range =
                 "Over a dryer the water that it takes out counts as lost: the yield is dried over fresh "
                 "mass. Samples are left out of account, as in DRY.STAGES; what was thrown away goes into "
                 "DRY.TRIMYIELD.",
             .source = kMass,
             .working = "step = out ÷ (in − sum(kept))",
             .checks = {{{1000.0, 800.0}, 0.8, 1e-12, "by hand: 800 ÷ 1000"},
                        {{"1 kg", "720 g", "60 g", "40 g"}, 0.8, 1e-12, "by hand: 720 ÷ (1000 − 100)"},
                        {{30.3, 20.2, 10.1}, 1.0, 1e-12, "by hand: 20.2 ÷ 20.2, all that was left"}},
             .refusals = {{{800.0, 1000.0}, "out"},
                          {{1000.0, 950.0, 100.0}, "out"},
                          {{1000.0, 0.0}, "out"},
                          {{0.0, 1.0}, "in"},
                          {{100.0, 10.0, 60.0, 40.0}, "kept"}},
             .see_also = {"TRIMYIELD", "STAGES", "CHAINYIELD", "DRYINGRATIO"},
             .slips = {{"the share lost was given, not the yield", "1 − out ÷ (in − sum(kept))"},
                       {"the samples were taken for lost", "out ÷ in"},
                       {"what went in was divided by what came out", "(in − sum(kept)) ÷ out"}}}),
        function<water_removed>(
            {.name = "WATERREMOVED",
             .topic = topic,
             .summary = "Water that drying takes out of a fresh mass between two moistures",
             .params = {{kFresh, kStart, kFinal}},
             .result = "water",
             .source = kSolids,
             .working = "water = fresh × (start − final) ÷ (1 − final)",
             .checks = {{{"1000 kg", "92.92 %", "42 %"},
                         877900.0,
                         1e-4,
                         "Geankoplis (1993) ex. 1.5-1: 877.9 kg/h of water"},
                        {{100.0, 0.3, 0.155},
                         17.16,
                         1e-3,
                         "Coulson & Richardson (2002) vol. 2, ex. 16.4: 100 kg from 30 % to 15.5 %"}},
             .refusals = {{{100.0, 0.2, 0.8}, "final"}, {{100.0, 80.0, 0.2}, "start"}},
             .see_also = {"DRIEDMASS", "HEATDEMAND"},
             .slips = {{"the percentages were subtracted", "fresh × (start − final)"},
                       {"the water that stays was taken off too", "fresh × start"},
                       {"the dried mass was given", "fresh × (1 − start) ÷ (1 − final)"}}}),
        function<dried_mass>(
            {.name = "DRIEDMASS",
             .topic = topic,
             .summary = "Mass of dried product from a fresh mass and two moistures",
             .params = {{kFresh, kStart, kFinal}},
             .result = "dried",
             .source = kSolids,
             .working = "dried = fresh × (1 − start) ÷ (1 − final)",
             .checks = {{{100.0, 0.8, 0.2}, 25.0, 1e-12, "by hand: 100 × 0.20 ÷ 0.80"},
                        {{"1000 kg", "92.92 %", "42 %"},
                         122069.0,
                         1e-4,
                         "Geankoplis (1993) ex. 1.5-1: 122.07 kg/h of product"}},
             .refusals = {{{100.0, 80.0, 0.2}, "start"},
                          {{100.0, 0.2, 0.8}, "final"},
                          {{0.0, 0.8, 0.2}, "fresh"},
                          {{100.0, 0.0, 0.2}, "start"},
                          {{"60 min", 0.8, 0.2}, "fresh"}},
             .see_also = {"FRESHFOR", "DRYINGRATIO", "STOPMASS"},
             .slips = {{"the percentages were subtracted", "fresh × (1 − (start − final))"},
                       {"the mass was divided by the drying ratio the wrong way round",
                        "fresh × (1 − final) ÷ (1 − start)"},
                       {"the moistures were put in for the dry matter", "fresh × start ÷ final"},
                       {"the water to be removed was given", "fresh × (start − final) ÷ (1 − final)"}}}),
        function<fresh_for>(
            {.name = "FRESHFOR",
             .topic = topic,
             .summary = "Prepared fresh mass needed for an amount of dried product",
             .params = {{kDried, kStart, kFinal}},
             .result = "fresh",
             .source = kSolids,
             .working = "fresh = dried × (1 − final) ÷ (1 − start)",
             .checks = {{{25.0, 0.8, 0.2}, 100.0, 1e-12, "by hand: 25 × 0.80 ÷ 0.20"}},
             .refusals = {{{25.0, 0.2, 0.8}, "final"}},
             .see_also = {"DRIEDMASS", "RAWFOR"},
             .slips = {{"the percentages were subtracted", "dried ÷ (1 − (start − final))"},
                       {"the mass was multiplied the wrong way round", "dried × (1 − start) ÷ (1 − final)"},
                       {"the moistures were put in for the dry matter", "dried × start ÷ final"}}}),
        function<drying_ratio>({.name = "DRYINGRATIO",
                                .topic = topic,
                                .summary = "Drying ratio: grams of fresh material per gram dried",
                                .params = {{kStart, kFinal}},
                                .result = "ratio",
                                .source = kSolids,
                                .working = "ratio = (1 − final) ÷ (1 − start)",
                                .checks = {{{0.8, 0.2}, 4.0, 1e-12, "by hand: 0.80 ÷ 0.20"}},
                                .refusals = {{{0.2, 0.8}, "final"}},
                                .see_also = {"RAWFOR"},
                                .slips = {{"the percentages were subtracted", "1 ÷ (1 − (start − final))"},
                                          {"the moistures were divided", "start ÷ final"}}}),
        function<final_moisture>(
            {.name = "FINALMOISTURE",
             .topic = topic,
             .summary = "Moisture of the dried product from two weights and the start moisture",
             .params = {{kFresh, kStart, kDried}},
             .result = "final",
             .source = kSolids,
             .caution = kNoKeeping,
             .working = "final = 1 − fresh × (1 − start) ÷ dried",
             .checks = {{{100.0, 0.8, 25.0}, 0.2, 1e-12, "by hand: 1 − 20 ÷ 25"},
                        {{"250 kg", "20 %", "205 kg"},
                         0.0244,
                         2e-3,
                         "Narayanan & Lakshmikutty (2006) ex. 3.14: 5 kg of water in 205 kg"}},
             .refusals = {{{100.0, 0.8, 15.0}, "dried"}, {{100.0, 0.8, 120.0}, "dried"}},
             .see_also = {"STARTMOISTURE", "RECONCILE"},
             .slips =
                 {{"the loss of mass was taken off the start moisture", "start − (fresh − dried) ÷ fresh"},
                  {"the water left was divided by the fresh mass", "(dried − fresh × (1 − start)) ÷ fresh"},
                  {"the loss of mass was taken for the moisture", "(fresh − dried) ÷ fresh"}}}),
        function<start_moisture>(
            {.name = "STARTMOISTURE",
             .topic = topic,
             .summary =
                 "Moisture the fresh material had, from two weights and the moisture of the dried product",
             .params = {{kFresh, kDried, kFinal}},
             .result = "start",
             .source = kSolids,
             .working = "start = 1 − dried × (1 − final) ÷ fresh",
             .checks = {{{100.0, 25.0, 0.2}, 0.8, 1e-12, "by hand: 1 − 20 ÷ 100"}},
             .refusals = {{{100.0, 120.0, 0.2}, "dried"}},
             .see_also = {"FINALMOISTURE"},
             .slips = {{"the loss of mass was added to the final moisture",
                        "final + (fresh − dried) ÷ fresh"},
                       {"the loss of mass was taken for the moisture", "(fresh − dried) ÷ fresh"}}}),
        function<stop_mass>(
            {.name = "STOPMASS",
             .topic = topic,
             .summary = "The scale reading, tray included, at which to stop drying",
             .params = {{{"tare", "the empty tray", at_least(0)},
                         kFresh,
                         kStart,
                         {arg::target, "moisture to reach"}}},
             .result = "reading",
             .source = kSolids,
             .caution = kDryEnough,
             .working = "reading = tare + fresh × (1 − start) ÷ (1 − target)",
             .checks = {{{500.0, 100.0, 0.8, 0.2}, 525.0, 1e-12, "by hand: 500 + 25"}},
             .refusals = {{{500.0, 100.0, 0.2, 0.8}, "target"}, {{-1.0, 100.0, 0.8, 0.2}, "tare"}},
             .see_also = {"DRIEDMASS"},
             .slips = {{"the percentages were subtracted", "tare + fresh × (1 − (start − target))"},
                       {"the tray was dried with the food", "(tare + fresh) × (1 − start) ÷ (1 − target)"}}}),
        function<prorate>({.name = "PRORATE",
                           .topic = topic,
                           .summary = "Dried mass a larger batch should give, from a test",
                           .params = {{{arg::test_fresh, "fresh mass of the test", positive},
                                       {arg::test_dried, "dried mass of the test", positive},
                                       {"batch_fresh", "fresh mass of the batch", positive}}},
                           .result = "dried",
                           .source = "Proportion: same material, same end moisture.",
                           .working = "dried = test_dried × batch_fresh ÷ test_fresh",
                           .checks = {{{100.0, 25.0, 1200.0}, 300.0, 1e-12, "by hand: 25 × 12"}},
                           .refusals = {{{100.0, 120.0, 1200.0}, "test_dried"}},
                           .see_also = {"DRIEDMASS", "SCALEPLAN"},
                           .slips = {{"the batches were taken the wrong way round",
                                      "test_dried × test_fresh ÷ batch_fresh"}}}),
        function<chain_yield>({.name = "CHAINYIELD",
                               .topic = topic,
                               .summary = "Yield of a chain of stages: the product of theirs",
                               .params = {{{.name = arg::yield,
                                            .text = "yield of each stage, or ranges of them",
                                            .repeats = true,
                                            .ranges = true}}},
                               .result = "chain",
                               .source = kMass,
                               .working = "chain = product(yield)",
                               .checks = {{{0.8, 0.25, 0.5}, 0.1, 1e-12, "by hand: 0.8 × 0.25 × 0.5"},
                                          {{column(0.8, 0.5), 0.25}, 0.1, 1e-12, "by hand: the same"}},
                               .refusals = {{{1.2}, "yield"}, {{}, "yield"}},
                               .see_also = {"TRIMYIELD", "RAWFOR", "STAGES"},
                               .slips = {{"the yields were averaged", "mean(yield)"},
                                         {"the yields were added", "sum(yield)"},
                                         {"the losses were added up", "1 − (count(yield) − sum(yield))"}}}),
        function<raw_for>(
            {.name = "RAWFOR",
             .topic = topic,
             .summary = "Raw purchase for an amount of dried product",
             .params = {{{arg::dried, "dried product wanted", positive},
                         {arg::drying_ratio, "grams of prepared material per gram dried", at_least(1)},
                         {.name = arg::yield,
                          .text = "yield of each other stage: trimming, milling, packing",
                          .range = above_up_to(0, 1),
                          .repeats = true}}},
             .result = "raw",
             .source = kMass,
             .working = "raw = dried × drying_ratio ÷ product(yield)",
             .checks = {{{100.0, 4.0, 0.8, 0.5}, 1000.0, 1e-12, "by hand: 400 ÷ 0.4"}},
             .refusals = {{{100.0, 0.5, 0.8}, "drying_ratio"}, {{100.0, 4.0, 0.0}, "yield"}},
             .see_also = {"DRIEDFROM", "DRYINGRATIO", "CHAINYIELD"},
             .slips = {{"the yields were averaged", "dried × drying_ratio ÷ mean(yield)"},
                       {"the yields were multiplied in, not divided by",
                        "dried × drying_ratio × product(yield)"},
                       {"the losses were added on", "dried × drying_ratio × (1 + count(yield) − sum(yield))"},
                       {"the yields were left out", "dried × drying_ratio"},
                       {"the drying ratio was left out", "dried ÷ product(yield)"},
                       {"the drying ratio was divided by", "dried ÷ drying_ratio ÷ product(yield)"}}}),
        function<dried_from>(
            {.name = "DRIEDFROM",
             .topic = topic,
             .summary = "Dried product that a raw purchase gives",
             .params = {{{arg::raw, "raw material bought", positive},
                         {arg::drying_ratio, "grams of prepared material per gram dried", at_least(1)},
                         {.name = arg::yield,
                          .text = "yield of each other stage: trimming, milling, packing",
                          .range = above_up_to(0, 1),
                          .repeats = true}}},
             .result = "dried",
             .source = kMass,
             .working = "dried = raw × product(yield) ÷ drying_ratio",
             .checks = {{{1000.0, 4.0, 0.8, 0.5}, 100.0, 1e-12, "by hand: 1000 × 0.4 ÷ 4"},
                        {{"50 lb", 5.0, "80 %"}, 3628.73896, 1e-9, "by hand: 22679.6185 g × 0.8 ÷ 5"}},
             .refusals = {{{100.0, 0.5, 0.8}, "drying_ratio"}, {{100.0, 4.0, 0.0}, "yield"}},
             .see_also = {"RAWFOR", "DRYINGRATIO", "CHAINYIELD"},
             .slips = {{"the yields were averaged", "raw × mean(yield) ÷ drying_ratio"},
                       {"the yields were divided by, not multiplied in",
                        "raw ÷ product(yield) ÷ drying_ratio"},
                       {"the yields were left out", "raw ÷ drying_ratio"},
                       {"the drying ratio was left out", "raw × product(yield)"},
                       {"the drying ratio was multiplied by", "raw × product(yield) × drying_ratio"}}}),
        function<unaccounted>(
            {.name = "UNACCOUNTED",
             .topic = topic,
             .summary = "What stuck, spilled or blew away; below 0 when more came out than went in",
             .params = {{{arg::in, "mass that went in", at_least(0)},
                         {.name = arg::out,
                          .text = "each mass that came out, samples kept included",
                          .range = at_least(0),
                          .repeats = true}}},
             .result = "gap",
             .source = kMass,
             .working = "gap = in − sum(out)",
             .checks = {{{100.0, 60.0, 38.5}, 1.5, 1e-12, "by hand: 100 − 60 − 38.5"},
                        {{100.0, 60.0, 41.0}, -1.0, 1e-12, "by hand: 100 − 60 − 41"}},
             .refusals = {{{100.0, -5.0}, "out"}},
             .see_also = {"CLOSURE", "STAGES"},
             .slips = {{"the share was given, not the mass", "(in − sum(out)) ÷ in"}}}),
        function<closure>(
            {.name = "CLOSURE",
             .topic = topic,
             .summary = "Does a mass balance close within its uncertainty",
             .params = {{{arg::in, "mass that went in", positive},
                         {arg::u_in, "its standard uncertainty", at_least(0)},
                         {arg::outs, "masses that came out", at_least(0)},
                         {.name = arg::u_outs,
                          .text = "their standard uncertainties, or a single one for all",
                          .range = at_least(0),
                          .alone = true}}},
             .result = "closure",
             .source = "JCGM 100:2008 (GUM) 5.1.2, independent errors, k = 2.",
             .working = "gap [mass] = in − sum(outs)\n"
                        "if count(u_outs) ≥ count(outs): u [mass] = sqrt(u_in^2 + squares(u_outs; 0))\n"
                        "if count(u_outs) < count(outs): u [mass] = sqrt(u_in^2 + count(outs) × "
                        "squares(u_outs; 0))\n"
                        ": it closes when |gap| ≤ 2 u",
             .checks =
                 {{{100.0, 0.3, column(60.0, 38.5), column(0.4, 0.0)},
                   1.5,
                   1e-12,
                   "by hand: 100 − 60 − 38.5",
                   "gap"},
                  {{100.0, 0.3, column(60.0, 38.5), column(0.4, 0.0)},
                   0.5,
                   1e-12,
                   "by hand: √(0.09 + 0.16)",
                   "u"},
                  {{100.0, 0.3, column(60.0, 38.5), column(0.4, 0.0)},
                   3.0,
                   1e-12,
                   "by hand: 1.5 ÷ 0.5",
                   "gap/u"},
                  {{100.0, 0.3, column(60.0, 38.5), 0.4}, 0.640312, 1e-6, "by hand: √(0.09 + 2 × 0.16)", "u"},
                  {{100.0, 0.3, column(60.0, 38.5), column(0.4, 0.0)},
                   "loss: more is missing than the uncertainties explain (k = 2)",
                   0,
                   "by hand: 3 is above 2",
                   "verdict"}},
             .refusals = {{{100.0, 0.3, column(60.0, 38.5), column(0.4, 0.0, 0.1)}, "u_outs"},
                          {{100.0, -0.3, column(60.0), column(0.4)}, "u_in"}},
             .see_also = {"UNACCOUNTED", "RECONCILE"},
             .show = closure_table}),
        function<stages_table>(
            {.name = "STAGES",
             .topic = topic,
             .summary =
                 "Losses and yields stage by stage; samples kept back are left out of account, but the "
                 "water that a dryer takes out is a loss",
             .params = {{{"names", "name of each stage"},
                         {arg::in, "mass into each stage", positive},
                         {arg::out, "mass that goes on to the next stage", at_least(0)},
                         {.name = arg::kept,
                          .text = "samples kept back; a blank cell is none",
                          .range = at_least(0),
                          .blank = 0}}},
             .result = "stages",
             .range = "Over a dryer the water that it takes out counts as loss: the loss of product there is "
                      "that against DRY.DRIEDMASS. A single step is DRY.STEPYIELD.",
             .source = kMass,
             .working = "each loss [mass] = in − out − kept\n"
                        "each loss_share = loss ÷ (in − kept)\n"
                        "each yield = out ÷ (in − kept)\n"
                        ": before is the cumulative yield down to the stage before, 1 for the first\n"
                        "each cumulative_yield from 1 = before × yield",
             .checks =
                 {{{column("peel", "slice"), column(1000.0, 800.0), column(800.0, 780.0), column(0.0, 10.0)},
                   200.0,
                   1e-12,
                   "by hand: 1000 − 800",
                   "peel"},
                  {{column("peel", "slice"), column(1000.0, 800.0), column(800.0, 780.0), column("", 10.0)},
                   10.0,
                   1e-12,
                   "by hand: 800 − 780 − 10",
                   "slice"},
                  {{column("peel", "slice"), column(1000.0, 800.0), column(800.0, 780.0), column("", 10.0)},
                   780.0 / 790.0,
                   1e-12,
                   "by hand: 780 ÷ (800 − 10)",
                   "slice",
                   4},
                  {{column("peel", "slice"), column(1000.0, 800.0), column(800.0, 780.0), column("", 10.0)},
                   0.8 * 780.0 / 790.0,
                   1e-12,
                   "by hand: 0.8 × 780 ÷ 790",
                   "slice",
                   5}},
             .refusals = {{{column("peel", "slice"), column(1000.0, 800.0), column(800.0), column(0.0, 10.0)},
                           "out"},
                          {{column("peel"), column(1000.0), column(0.0), column(1000.0)}, "kept"}},
             .see_also = {"STEPYIELD", "TRIMYIELD", "CLOSURE", "CHAINYIELD", "DRYINGRATIO"}}),
        function<reconcile>(
            {.name = "RECONCILE",
             .topic = topic,
             .summary = "Do two weights and two moistures agree: the smallest corrections that close the "
                        "solids balance",
             .params = {{kFresh,
                         {arg::u_fresh, "its standard uncertainty", at_least(0)},
                         kStart,
                         {"u_start", "its standard uncertainty: 1 % is 0.01", within(0, 0.2)},
                         kDried,
                         {"u_dried", "its standard uncertainty", at_least(0)},
                         kFinal,
                         {"u_final", "its standard uncertainty: 1 % is 0.01", within(0, 0.2)}}},
             .result = "reconciled",
             .range = "The moistures' uncertainties are fractions of wet mass; 0 means exactly known. One "
                      "balance cannot tell which value is wrong. Noticeable is the smallest error in that "
                      "value alone that brings p below 5 % in 9 of 10 runs; product lost is the dried "
                      "product that would explain the gap by itself.",
             .source =
                 "Kuehn & Davidson (1961) Chem. Eng. Prog. 57(6):44; Mah & Tamhane (1982) AIChE J. 28:828; "
                 "Narasimhan & Jordache (2000) Data Reconciliation and Gross Error Detection, ch. 3 and 7.",
             .working =
                 ": the smallest sum of (correction ÷ u)² such that fresh × (1 − start) = dried × (1 − "
                 "final)\n"
                 "solids [mass] = fresh × (1 − start)\n"
                 "product_lost [mass] = solids ÷ (1 − final) − dried\n"
                 "fresh_adjusted [mass] ~ fresh_adjusted : found by search\n"
                 "start_adjusted ~ start_adjusted : found with it\n"
                 "dried_adjusted [mass] ~ dried_adjusted : found with it\n"
                 "final_adjusted ~ final_adjusted : found with it\n"
                 "holds fresh_adjusted × (1 − start_adjusted) = dried_adjusted × (1 − final_adjusted)\n"
                 "if u_fresh > 0: fresh_correction = (fresh_adjusted − fresh) ÷ u_fresh\n"
                 "if u_start > 0: start_correction = (start_adjusted − start) ÷ u_start\n"
                 "if u_dried > 0: dried_correction = (dried_adjusted − dried) ÷ u_dried\n"
                 "if u_final > 0: final_correction = (final_adjusted − final) ÷ u_final\n"
                 "chi2 = squares(corrections; 0)\n"
                 "p ~ erfc(sqrt(chi2 ÷ 2)) : chi² of one degree of freedom is above chi2 as often as this\n"
                 ": u of the balance, by the adjusted values\n"
                 "u_solids_in [mass] = sqrt(((1 − start_adjusted) × u_fresh)^2 + (fresh_adjusted × "
                 "u_start)^2)\n"
                 "u_solids_out [mass] = sqrt(((1 − final_adjusted) × u_dried)^2 + (dried_adjusted × "
                 "u_final)^2)\n"
                 "u_gap [mass] = sqrt(u_solids_in^2 + u_solids_out^2)\n"
                 ": an error that is 1.959964 + 1.281552 times as large would be noticed in 9 of 10 runs\n"
                 "fresh_noticeable [mass] = 3.241516 × u_gap ÷ (1 − start_adjusted)\n"
                 "start_noticeable = 3.241516 × u_gap ÷ fresh_adjusted\n"
                 "dried_noticeable [mass] = 3.241516 × u_gap ÷ (1 − final_adjusted)\n"
                 "final_noticeable = 3.241516 × u_gap ÷ dried_adjusted",
             .working_ranges = ranges_by<adjusted>,
             .checks =
                 {{{1000.0, 10.0, 0.8, 0.01, 250.0, 5.0, 0.2, 0.02},
                   "the weights and moistures agree within their uncertainties; a weighing error of up to 20 "
                   "%, fresh or dried, may not show",
                   0,
                   "by hand: 1000 × 0.2 = 250 × 0.8; u of the gap √145 g, 3.2415 of it ÷ 200 g of solids is "
                   "19.5 % (3.2415² = 10.507: noncentral chi² with power 0.9 at 5 %, scipy.stats.ncx2)",
                   "verdict"},
                  {{100.0, 0.1, 0.8, 0.001, 22.0, 0.1, 0.2, 0.002},
                   "they do not agree (p below 1 %): as if 12 % of the dried product were missing; one "
                   "balance cannot tell which of the four values is wrong",
                   0,
                   "by hand: 20 g of solids make 25 g, 3 g more than 22 g; gap 2.4 g, u 0.137 g",
                   "verdict"},
                  {{100.0, 0.1, 0.8, 0.001, 28.0, 0.1, 0.2, 0.002},
                   "they do not agree (p below 1 %): as if the dried product weighed 12 % too much; one "
                   "balance cannot tell which of the four values is wrong",
                   0,
                   "by hand: 20 g of solids make 25 g, 3 g less than 28 g",
                   "verdict"},
                  {{1000.0, 10.0, 0.8, 0.01, 250.0, 5.0, 0.2, 0.02},
                   195.165,
                   1e-5,
                   "by hand: 3.241516 × √145 ÷ 0.2",
                   "fresh",
                   6},
                  {{1000.0, 10.0, 0.8, 0.01, 250.0, 5.0, 0.2, 0.02},
                   0.1561322,
                   1e-5,
                   "by hand: 3.241516 × √145 ÷ 250",
                   "final",
                   6},
                  {{25.0, 3.0, 0.5, 0.0, 29.0, 2.0, 0.5, 0.0},
                   361.0 / 13,
                   1e-12,
                   "by hand: (25 ÷ 9 + 29 ÷ 4) ÷ (1 ÷ 9 + 1 ÷ 4)",
                   "fresh",
                   3},
                  {{25.0, 3.0, 0.5, 0.0, 29.0, 2.0, 0.5, 0.0},
                   1.6641006,
                   1e-7,
                   "by hand: 6 ÷ √13",
                   "dried",
                   4},
                  {{25.0, 3.0, 0.5, 0.0, 29.0, 2.0, 0.5, 0.0},
                   -8.0 / 13,
                   1e-12,
                   "by hand: (361 ÷ 13 − 29) ÷ 2",
                   "dried",
                   5},
                  {{100.0, 0.1, 0.8, 0.001, 22.0, 0.1, 0.2, 0.002},
                   3.0,
                   1e-12,
                   "by hand: 100 × 0.2 ÷ 0.8 − 22",
                   "product lost"},
                  {{25.0, 3.0, 0.5, 0.0, 29.0, 2.0, 0.5, 0.0},
                   16.0 / 13,
                   1e-12,
                   "two weighings of one thing, weighted mean: (29 − 25)² ÷ (3² + 2²)",
                   "chi2"},
                  {{25.0, 3.0, 0.5, 0.0, 29.0, 2.0, 0.5, 0.0},
                   0.26726,
                   1e-4,
                   "scipy.stats.chi2.sf(16 ÷ 13, 1)",
                   "p"}},
             .refusals = {{{100.0, -1.0, 0.8, 0.01, 25.0, 0.1, 0.2, 0.01}, "u_fresh"},
                          {{100.0, 1.0, 0.8, 1.0, 25.0, 0.1, 0.2, 0.01}, "u_start"}},
             .see_also = {"CLOSURE", "FINALMOISTURE", "UNCERTAINTY"},
             .show = reconcile_table}),
        function<blend_moisture>(
            {.name = "BLENDMOISTURE",
             .topic = topic,
             .summary = "Moisture of a blend",
             .params = {{{arg::masses, "mass of each part", at_least(0)},
                         {arg::moistures, "moisture of each part"}}},
             .result = "blend",
             .source = "Balance of the water: Geankoplis (1993) 3rd ed., sec. 1.5.",
             .working = "water [mass] = products(masses; moistures)\ntotal [mass] = sum(masses)\nblend = "
                        "water ÷ total",
             .checks = {{{column(100.0, 300.0), column(0.8, 0.2)}, 0.35, 1e-12, "by hand: 140 ÷ 400"}},
             .refusals = {{{column(100.0, 300.0), column(0.8)}, "moistures"}},
             .see_also = {"BLENDSHARE"},
             .slips = {{"the moistures were averaged without their masses", "mean(moistures)"}}}),
        function<blend_share>(
            {.name = "BLENDSHARE",
             .topic = topic,
             .summary = "Share of part a in a blend of two that gives a moisture (the Pearson square)",
             .params = {{{"moisture_a", "moisture of part a"},
                         {arg::moisture_b, "moisture of part b"},
                         {arg::target, "moisture of the blend"}}},
             .result = "share",
             .source = "Water balance; Earle (1983) Unit Operations in Food Processing, 2nd ed., ex. 2.7.",
             .working = "share = (target − moisture_b) ÷ (moisture_a − moisture_b)",
             .checks = {{{0.05, 0.23, 0.15},
                         4.0 / 9,
                         1e-12,
                         "by hand: 0.08 ÷ 0.18; the Pearson square of Earle (1983) ex. 2.7, fat for water"}},
             .refusals = {{{0.1, 0.2, 0.3}, "target"}, {{0.2, 0.2, 0.2}, "moisture_b"}},
             .see_also = {"BLENDMOISTURE"},
             .slips = {{"the target was divided by the moistures", "target ÷ (moisture_a + moisture_b)"}}}),
        function<rehydration>(
            {.name = "REHYDRATION",
             .topic = topic,
             .summary = "Rehydration ratio: mass soaked and drained over mass dried",
             .params = {{kDried, {arg::rehydrated, "mass after soaking and draining", positive}}},
             .result = "ratio",
             .source = "Definition; Lewicki (1998) J. Food Eng. 36:81-87.",
             .working = "ratio = rehydrated ÷ dried",
             .checks = {{{10.0, 45.0}, 4.5, 1e-12, "by hand: 45 ÷ 10"}},
             .refusals = {{{10.0, 5.0}, "rehydrated"}},
             .see_also = {"REHYDRATIONWATER"}}),
        function<rehydration_water>(
            {.name = "REHYDRATIONWATER",
             .topic = topic,
             .summary = "Water to add to a dried product to bring it to a moisture",
             .params = {{kDried, {"moisture", "moisture it has"}, {arg::target, "moisture wanted"}}},
             .result = "water",
             .source = kSolids,
             .working = "water = dried × (target − moisture) ÷ (1 − target)",
             .checks = {{{25.0, 0.2, 0.8}, 75.0, 1e-12, "by hand: 25 to 100"}},
             .refusals = {{{25.0, 0.8, 0.2}, "target"}},
             .see_also = {"REHYDRATION"},
             .slips = {{"the percentages were subtracted", "dried × (target − moisture)"},
                       {"the water still in the dried product was left out", "dried × target ÷ (1 − target)"},
                       {"the whole rehydrated mass was given", "dried × (1 − moisture) ÷ (1 − target)"}}}),
    };
}

}  // namespace drysheet
