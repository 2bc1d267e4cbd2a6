// SPDX-License-Identifier: MPL-2.0
#include "drysheet/scaleplan.hpp"

#include "addin/functions/air_words.hpp"
#include "addin/functions/curve_choice.hpp"
#include "addin/functions/isotherm_choice.hpp"
#include "addin/functions/topics.hpp"
#include "addin/text/sentence.hpp"
#include "addin/text/words.hpp"

namespace drysheet {

template <>
struct ChoiceOf<Known> {
    static std::vector<std::string_view> names() { return {"measured", "guessed", "typical"}; }
};

template <>
struct FieldsOf<BenchTest> {
    static std::vector<Field<BenchTest>> fields() {
        using T = BenchTest;
        return {
            field<&T::raw>({"raw", "material as bought", positive}),
            field<&T::prepared>({arg::prepared, "what went on the tray", positive}),
            field<&T::start_moisture>({arg::row::start_moisture, "of the prepared material"}),
            field<&T::dried>({arg::dried, "dried mass", positive}),
            field<&T::final_moisture>(
                {arg::row::final_moisture, "of the dried product, measured; else from the weights"}),
            field<&T::tray_area>({arg::row::tray_area, "on which it lay", positive}),
            field<&T::thickness>({arg::thickness, "of the slices", positive}),
            field<&T::temp>({arg::temp, "air entering the dryer"}),
            field<&T::rh>({arg::rh, "relative humidity of that air"}),
            field<&T::drying_time>({arg::row::drying_time, "measured", positive}),
            field<&T::model>({arg::model, "fitted drying curve, wanted for another target moisture"}),
            field<&T::parameters>(
                {arg::parameters, "of the curve, side by side in the order of DRY.CURVEMODELS"}),
            field<&T::equilibrium>(
                {.name = arg::equilibrium, .text = "moisture of the curve in the end; else 0", .zero = true}),
            field<&T::start_is>({"start moisture is", "measured, guessed or typical; else measured"}),
            field<&T::final_is>({"final moisture is", "the same of the final moisture"}),
            field<&T::time_is>({"drying time is", "the same of the drying time"}),
        };
    }
};

template <>
struct FieldsOf<ScaleTarget> {
    static std::vector<Field<ScaleTarget>> fields() {
        using T = ScaleTarget;
        return {
            field<&T::wanted>({arg::wanted, "dried product of the season", positive}),
            field<&T::days>({arg::days,
                             "working days of the season, from which the trays follow; or give trays",
                             positive}),
            field<&T::trays>(
                {arg::trays, "of the dryer, from which the days follow; or give days", positive}),
            field<&T::trays_in_a_row>({.name = arg::row::trays_in_a_row,
                                       .text = "that the air passes one after another",
                                       .range = within(1, 50),
                                       .otherwise = 1}),
            field<&T::tray_size>({arg::row::tray_size, "area of one tray", positive}),
            field<&T::load>(
                {arg::row::tray_load,
                 "prepared material per area; else the test's, in proportion to thickness; more makes a "
                 "deeper bed",
                 positive}),
            field<&T::new_thickness>({arg::row::new_thickness, "of the slices; else the test's", positive}),
            field<&T::thickness_exponent>(
                {"thickness exponent",
                 "1 where the air outside rules, 2 where diffusion inside does, between them both; else "
                 "half-way, or 2 beside an activation energy",
                 within(1, 2)}),
            field<&T::new_temp>({arg::row::new_temp, "air entering the dryer; else the test's"}),
            field<&T::activation_energy>(
                {"activation energy", "by which diffusion inside follows the air's temperature"}),
            field<&T::energy_is>({"activation energy is", "measured, guessed or typical; else measured"}),
            field<&T::target_moisture>({arg::row::target_moisture, "of the product; else the test's"}),
            field<&T::turnaround>(
                {arg::turnaround, "emptying, cleaning and filling between batches", at_least(0)}),
            field<&T::hours_a_day>(
                {arg::row::hours_a_day, "working hours, 24 for day and night", above_up_to(0, 24)}),
            field<&T::room_temp>({arg::row::room_temp, "air drawn in"}),
            field<&T::room_rh>({arg::row::room_rh, "relative humidity of that air"}),
            field<&T::exit_rh>({arg::row::exit_rh,
                                "relative humidity of the air leaving for which the fan is sized, did trays "
                                "dry as in plenty of air; else 0.4"}),
            field<&T::pressure>(
                {.name = arg::pressure, .text = "of the air", .otherwise = kUsualPressureKPa}),
            field<&T::pressure_drop>(
                {"pressure drop", "that the fan works against; else 0.25 kPa", positive}),
            field<&T::fan_efficiency>(
                {arg::row::fan_efficiency, "of fan and motor; else 0.5", above_up_to(0, 1)}),
            field<&T::raw_price>({"raw price", "of the material as bought", at_least(0)}),
            field<&T::tariff>({"tariff", "of electricity or heat", at_least(0)}),
            field<&T::wage>({"wage", "of an hour of work", at_least(0)}),
            field<&T::labour>({"labour", "hours of work a batch", at_least(0)}),
            field<&T::other_cost>({"other cost", "of a batch; else none", at_least(0)}),
            field<&T::pack_mass>(
                {arg::row::pack_mass, "product in a pack; the pack's rows all together or none", positive}),
            field<&T::pack_area>({arg::row::pack_area, "film around it, both sides", positive}),
            field<&T::keeping_time>(
                {.name = arg::row::keeping_time, .text = "in the store", .range = positive, .unit = "day"}),
            field<&T::limit_moisture>(
                {arg::row::limit_moisture, "the product may reach, from a measured water activity"}),
            field<&T::isotherm>({arg::row::isotherm, "of the product"}),
            field<&T::isotherm_parameters>(
                {arg::row::isotherm_parameters, "side by side in the order of DRY.SORPTIONMODELS"}),
            field<&T::store_temp>({arg::row::store_temp, "of the store"}),
            field<&T::store_rh>({arg::row::store_rh, "relative humidity of the store"}),
        };
    }
};

namespace {

static_assert(kUsualExitRh == 0.4 && kUsualPressureDrop == 250 && kUsualFanEfficiency == 0.5,
              "the words of the entry say so");

constexpr std::string_view kYours = "your figure";

Sentence::Part part(const Amount& amount) {
    const std::string_view unit = row_of(amount.kind).default_unit;
    return {shown(amount, unit), unit};
}
/// "energy: is below the latent heat 12 kWh of that water".
Sentence in_words(const NoResult& refusal) {
    std::vector<Sentence::Part> parts;
    for (const Amount& amount : refusal.amounts()) parts.push_back(part(amount));
    return {"{} {}", {refusal.argument(), Sentence(refusal.reason(), std::move(parts))}};
}

Sentence word(std::optional<Known> known) {
    return ChoiceOf<Known>::names().at(static_cast<std::size_t>(known.value_or(Known::measured)));
}
/// How that is known which rests on both.
Known weaker(std::optional<Known> a, std::optional<Known> b) {
    for (const Known known : {Known::guessed, Known::typical})
        if (a == known || b == known) return known;
    return Known::measured;
}
std::string_view said(bool given, std::string_view usual) { return given ? kYours : usual; }

/// What stands in a row: its figures as likely, fast and slow; nothing where one cannot be.
struct Figures {
    std::optional<Amount> likely, fast, slow;
};
template <PhysicalValue T>
Figures same(const T& x) {
    return {amount(x), amount(x), amount(x)};
}

class PlanTable {
  public:
    explicit PlanTable(const ScalePlan& plan) : plan_(plan) {}

    void add(std::string_view name, const Figures& figures, std::string_view unit, std::string_view from,
             Sentence rests) {
        const auto cell = [unit](const std::optional<Amount>& x) -> Cell {
            return x ? Cell(shown(*x, unit)) : Cell(std::string());
        };
        std::string_view shown_unit = unit;
        if (unit.empty() && figures.likely) shown_unit = row_of(figures.likely->kind).default_unit;
        table.cells.emplace_back(std::string(name));
        table.cells.emplace_back(cell(figures.likely));
        table.cells.emplace_back(std::string(shown_unit));
        table.cells.emplace_back(from.empty() ? std::string() : "DRY." + std::string(from));
        table.cells.emplace_back(Told(std::move(rests)));
        table.cells.emplace_back(cell(figures.fast));
        table.cells.emplace_back(cell(figures.slow));
    }
    template <PhysicalValue T>
    void add(std::string_view name, const T& value, std::string_view unit, std::string_view from,
             Sentence rests) {
        add(name, same(value), unit, from, std::move(rests));
    }
    template <PhysicalValue T>
    void add(std::string_view name, T DryerPlan::*value, std::string_view unit, std::string_view from,
             Sentence rests) {
        const auto of = [value](const Attempt<DryerPlan>& dryer) {
            return dryer.value ? std::optional(amount(*dryer.value.*value)) : std::nullopt;
        };
        add(name, {amount(plan_.likely.*value), of(plan_.fast), of(plan_.slow)}, unit, from,
            std::move(rests));
    }
    /// A row without a figure says by which refusal.
    template <PhysicalValue T>
    void add(std::string_view name, Attempt<T> DryerPlan::*value, std::string_view unit,
             std::string_view from, Sentence rests) {
        const auto of = [value](const DryerPlan* dryer) {
            if (dryer == nullptr || !(dryer->*value).value) return std::optional<Amount>();
            return std::optional(amount(*(dryer->*value).value));
        };
        const auto there = [](const Attempt<DryerPlan>& x) { return x.value ? &*x.value : nullptr; };
        const auto& refusal = (plan_.likely.*value).refusal;
        add(name, {of(&plan_.likely), of(there(plan_.fast)), of(there(plan_.slow))}, unit, from,
            refusal ? Sentence("no figure: {}", {in_words(*refusal)}) : std::move(rests));
    }

    Table table{.columns = 7};

  private:
    const ScalePlan& plan_;
};

void show_material(PlanTable& rows, const ScalePlan& plan) {
    const bool new_target = plan.target.target_moisture.has_value();
    const BenchTest& test = plan.test;
    const std::optional<Known> final_is = test.final_moisture ? test.final_is : test.start_is;
    const Sentence moistures = word(weaker(test.start_is, new_target ? std::nullopt : final_is));
    rows.add("raw", &DryerPlan::raw, "kg", "RAWFOR",
             "yield and drying ratio of the test, taken to be the same in the season");
    rows.add("prepared", &DryerPlan::prepared, "kg", "RAWFOR", "the same without the yield");
    rows.add("water", &DryerPlan::water, "kg", "WATERREMOVED",
             {"{} moistures and prepared mass", {moistures}});
    rows.add("dried", &DryerPlan::dried, "kg", "",
             plan.target.trays ? Sentence("whole batches × dried in a batch: what you want, or a little more")
                               : kYours);
    rows.add("yield", plan.yield, "", "TRIMYIELD", "measured: masses of the test");
    rows.add(
        "drying ratio", plan.drying_ratio, "", "",
        new_target
            ? Sentence("measured masses of the test, by {} moistures carried over to your target moisture",
                       {word(weaker(test.start_is, final_is))})
            : "measured: masses of the test, its handling losses included");
    rows.add("end moisture", plan.final_moisture, "",
             test.final_moisture || new_target ? "" : "FINALMOISTURE",
             new_target ? kYours
             : test.final_moisture
                 ? Sentence("{} in the test", {word(test.final_is)})
                 : Sentence("from masses and {} start moisture of the test: losses count as water",
                            {word(test.start_is)}));
    rows.add("solids recovered", plan.recovered, "", "DRIEDMASS",
             test.final_moisture
                 ? Sentence("check of the test: 1 when its masses and its {} moistures agree", {moistures})
                 : "1 because the end moisture was worked out from the masses; measure it");
}

/// Which resistance gives the likely factors.
Sentence likely_by(const ScalePlan& plan) {
    if (plan.target.thickness_exponent) return "likely: between them by your thickness exponent";
    return plan.target.activation_energy ? "likely: inside, where your activation energy holds"
                                         : "likely: half-way";
}

void show_time(PlanTable& rows, const ScalePlan& plan) {
    const BenchTest& test = plan.test;
    const Sentence time_is = word(test.time_is);
    rows.add("test time", plan.curve_time, "", test.model ? "DRYINGTIME" : "",
             test.model
                 ? Sentence("{} in the test: its fitted curve, to the end moisture; on the clock it took {}",
                            {time_is, part(amount(test.drying_time))})
                 : Sentence("{} in the test", {time_is}));
    const Carried& carried = plan.carried;
    const auto factor = [&](double Carry::*part) -> Figures {
        return {amount(carried.likely.*part), amount(carried.fast().*part), amount(carried.slow().*part)};
    };
    const Sentence::Part deep(plan.depth, {}, 4);
    rows.add(
        "thickness factor", factor(&Carry::thickness), "", plan.depth == 1 ? "" : "THICKNESSTIME",
        plan.depth == 1
            ? Sentence("same bed as in the test")
            : Sentence("guessed, until a test of this bed, {} times as deep: where the air outside rules {}, "
                       "where diffusion inside does {}²; {}",
                       {deep, deep, deep, likely_by(plan)}));
    Sentence air = "unchanged: the bench had the same air";
    if (plan.air_scaling == AirScaling::activation_energy)
        air = {
            "guessed where the air outside rules, wet-bulb depression of the test ÷ that here; where "
            "diffusion "
            "inside does, {} activation energy, exp(E ÷ R × (1/T new − 1/T test)); {}",
            {word(plan.target.energy_is), likely_by(plan)}};
    if (plan.air_scaling == AirScaling::wet_bulb_depression)
        air = {
            "guessed, until a test in this air: where the air outside rules, wet-bulb depression of the test "
            "÷ "
            "that here; where diffusion inside does, the same in slower air and 1 in faster; {}",
            {likely_by(plan)}};
    rows.add("air factor", factor(&Carry::air), "", plan.air_scaling == AirScaling::none ? "" : "WETBULB",
             air);
    rows.add("time in plenty of air",
             Figures{amount(plan.carried_time), amount(plan.curve_time * carried.fast().time()),
                     amount(plan.curve_time * carried.slow().time())},
             "", "",
             test.model
                 ? "test time × thickness factor × air factor, by the fitted curve, stretched"
                 : "test time × thickness factor × air factor, by a Lewis curve through start and end of "
                   "the test, guessed and stretched");
    Sentence run =
        "simulated run of the planned trays in the planned air, by that curve: the air cools and moistens "
        "over "
        "them";
    if (carried.inside.time() != carried.outside.time())
        run = {carried.fast().time() == carried.inside.time()
                   ? "{}; fast: diffusion inside rules, slow: the air outside"
                   : "{}; fast: the air outside rules, slow: diffusion inside",
               {std::move(run)}};
    rows.add("drying time", &DryerPlan::drying_time, "", "TRAYRUN", std::move(run));
    rows.add("dryer temp", plan.temp, "", "", said(plan.target.new_temp.has_value(), "as in the test"));
    rows.add("dryer rh", plan.rh, "", "HEATEDRH", "your room air, heated; none goes round again");
}

Sentence labour_words(const ScalePlan& plan) {
    const double share = plan.likely.labour / plan.target.hours_a_day;
    if (share <= 1) return "batches a day × your labour of a batch";
    return {"batches a day × your labour of a batch; MORE than the {} of the day: {} people at work at once",
            {part(amount(plan.target.hours_a_day)), std::ceil(share)}};
}

void show_dryer(PlanTable& rows, const ScalePlan& plan) {
    const bool by_days = plan.target.days.has_value();
    const bool deeper = plan.depth > plan.target.new_thickness.value_or(plan.test.thickness) /
                                         plan.test.thickness * (1 + 1e-9);
    rows.add(
        "load", &DryerPlan::load, "", plan.target.load ? "" : "TRAYLOAD",
        deeper ? "your figure; more than this thickness carried in the test: a deeper bed, and a longer "
                 "time; spread alike over whole trays"
        : plan.target.load ? "your figure, spread alike over whole trays"
        : plan.target.new_thickness
            ? "the test's, in proportion to thickness, spread alike over whole trays: the same packing is "
              "assumed"
            : "measured in the test, spread alike over whole trays");
    rows.add("batches a day", &DryerPlan::batches_a_day, "", "DAILYOUTPUT",
             plan.slow.value ? Sentence("drying time and your hours; whole batches")
                             : Sentence("drying time and your hours; whole batches; were it slow, none: {}",
                                        {in_words(*plan.slow.refusal)}));
    rows.add("batches", &DryerPlan::batches, "", by_days ? "" : "BATCHESFOR",
             by_days ? "days × batches a day" : "wanted ÷ dried in a batch, rounded up");
    rows.add("days", &DryerPlan::days, "", "", by_days ? kYours : "batches ÷ batches a day, rounded up");
    rows.add("trays", &DryerPlan::trays, "", by_days ? "TRAYSFOR" : "",
             by_days ? "prepared in a batch at that load, rounded up to whole rows" : kYours);
    rows.add("trays in a row", plan.target.trays_in_a_row, "", "",
             plan.target.trays_in_a_row > 1 ? "your figure: the air passes them one after another"
                                            : "each tray has fresh air, unless you say otherwise");
    rows.add("area", &DryerPlan::area, "", "", "trays × your tray size");
    rows.add("prepared in a batch", &DryerPlan::batch_prepared, "kg", by_days ? "RAWFOR" : "",
             by_days ? "dried in a batch × drying ratio" : "load × area");
    rows.add("dried in a batch", &DryerPlan::batch_dried, "kg", "",
             by_days ? "wanted ÷ batches" : "prepared in a batch ÷ drying ratio");
    rows.add("hours in use", &DryerPlan::day, "", "", "batches a day × (drying time + turnaround)");
    rows.add("labour a day", &DryerPlan::labour, "", "", labour_words(plan));
    rows.add("air flow", &DryerPlan::air_flow, "", "AIRNEEDED",
             plan.target.exit_rh
                 ? "at the dryer's inlet: water of a batch in the likely time in plenty of air, at your exit "
                   "humidity"
                 : "at the dryer's inlet: water of a batch in the likely time in plenty of air, at a typical "
                   "exit humidity of 0.4");
    rows.add("mean exit rh", &DryerPlan::exit_rh, "", "EXITAIR",
             "all the air of the simulated run, mixed; at its start it leaves damper");
    rows.add("room air", &DryerPlan::room_flow, "", "AIRVOLUME", "the same air, before the heater");
    rows.add("heater", &DryerPlan::heater, "", "HEATINGLOAD",
             "heats that air; no losses, add for walls and leaks");
    rows.add("fan", &DryerPlan::fan, "", "",
             plan.target.pressure_drop && plan.target.fan_efficiency
                 ? "air flow × your pressure drop ÷ your efficiency"
                 : "air flow × pressure drop ÷ efficiency; where you gave none, typical ones: 0.25 kPa, 0.5");
}

void show_money(PlanTable& rows, const ScalePlan& plan) {
    rows.add("energy of a batch", &DryerPlan::batch_energy, "", "RUNENERGY",
             "heater and fan on for the drying time");
    rows.add("energy of the season", &DryerPlan::season_energy, "", "", "batches × energy of a batch");
    rows.add("least heat", &DryerPlan::least_heat, "", "HEATDEMAND",
             "to warm and dry a batch; product at the dryer's temperature");
    rows.add("efficiency", &DryerPlan::efficiency, "", "DRYEREFFICIENCY", "latent heat ÷ energy of a batch");
    rows.add("energy per water", &DryerPlan::energy_per_water, "kWh/kg", "ENERGYPERWATER",
             "energy of a batch ÷ its water");
    rows.add("raw cost", &DryerPlan::raw_cost, "", "UNITCOST", "your price, yield and drying ratio above");
    rows.add("energy cost", &DryerPlan::energy_cost, "", "UNITCOST", "your tariff, the energy above");
    rows.add("labour cost", &DryerPlan::labour_cost, "", "UNITCOST", "your hours and wage");
    rows.add("other cost", &DryerPlan::other_cost, "", "UNITCOST",
             said(plan.target.other_cost.has_value(), "none given"));
    rows.add("cost per kilo", &DryerPlan::cost, "", "UNITCOST",
             "sum of the four rows above; dryer and building not counted");
    rows.add("cost of the season", &DryerPlan::season_cost, "", "", "cost per kilo × all whole batches");
}

constexpr std::string_view kPackCaution =
    "estimate from your isotherm and limit: only a measured water activity and the local food authority "
    "decide how long it may be kept";

Outcome show(const ScalePlan& plan) {
    PlanTable rows(plan);
    show_material(rows, plan);
    show_time(rows, plan);
    show_dryer(rows, plan);
    show_money(rows, plan);
    if (plan.barrier)
        rows.add("pack barrier", *plan.barrier, "", "BARRIERFOR", kPackCaution);
    else
        rows.add("pack barrier", Figures(), "", "BARRIERFOR",
                 "not asked for: the pack's rows are not filled in");
    return std::move(rows.table);
}

using Rows = std::vector<Input>;
Input table(Rows rows, const Rows& more = {}) {
    rows.insert(rows.end(), more.begin(), more.end());
    return {std::move(rows), 2};
}
Input without(Rows rows, std::size_t row) {
    rows.erase(rows.begin() + static_cast<std::ptrdiff_t>(2 * row),
               rows.begin() + static_cast<std::ptrdiff_t>(2 * row + 2));
    return {std::move(rows), 2};
}

}  // namespace

std::vector<Function> scaleplan_entries() {
    const Rows test{"raw",
                    "5 kg",
                    "prepared",
                    "4 kg",
                    "start moisture",
                    "80 %",
                    "dried",
                    "1 kg",
                    "final moisture",
                    "20 %",
                    "tray area",
                    1.0,
                    "thickness",
                    5.0,
                    "temp",
                    60.0,
                    "rh",
                    0.1,
                    "drying time",
                    6.0};
    // Hill air, cool and damp, as a co-operative at 1200 m has it.
    const Rows target{"wanted",      "100 kg", "days",      25.0, "tray size", 0.5, "turnaround",        2.0,
                      "hours a day", 16.0,     "room temp", 17.0, "room rh",   0.8, "raw price",         2.0,
                      "tariff",      0.2,      "wage",      4.0,  "labour",    3.0, "activation energy", 30.0,
                      "pressure",    87.7};
    const Rows pack{"pack mass", "100 g", "pack area",  0.04, "keeping time", 90.0, "limit moisture", "21 %",
                    "isotherm",  "Oswin", "store temp", 25.0, "store rh",     0.75};
    const Rows thin{"new thickness", "4 mm", "thickness exponent", 1.5, "tray load", 3.2};
    const Rows fan{"pressure drop", 0.36, "fan efficiency", 0.4, "other cost", 8.0};
    const std::string_view hand = "by hand from 4 kg prepared and 1 kg dried";
    const std::string_view cells = "tests/reference/make_trayrun_fv.py: a tray in cells, an ideal mixture";
    const Input day = table(target), bench = table(test), equipped = table(target, fan);
    return {function<scale_plan>(
        {.name = "SCALEPLAN",
         .topic = "scaleup",
         .summary = "The whole plan from one bench test and a wanted output: each row a name, value, unit, "
                    "the function it came from, what it rests on, and the value were drying fast or slow",
         .mass_in_a_unit = kAlways,
         .params =
             {{{"test",
                "the bench test: name and value in two columns, in any order; a third column may hold units"},
               {arg::target,
                "what is wanted, the place and the prices, in the same way; days or trays, and the pack's "
                "rows all together or not at all"}}},
         .result = "plan",
         .range = "Whole batches, each begun and ended within a working day; the bench test was in plenty of "
                  "air; trays alike; no losses through walls, no air used twice, no cost of dryer and "
                  "building. Fast and slow are the same dryer, were the other resistance to rule: the air "
                  "outside, or diffusion inside.",
         .source = "Put together from the functions named in its rows. Time by wet-bulb depression, a guess: "
                   "van Meel 1958, Chem. Eng. Sci. 9:36; by the square of thickness: Crank 1975, The "
                   "mathematics of diffusion, 2nd ed., sec. 4.3. Typical values (exit humidity 0.4, pressure "
                   "drop 0.25 kPa, fan efficiency 0.5): common practice, no source.",
         .caution = "The pack's barrier is an estimate: only a measured water activity and the local food "
                    "authority decide how long a product may be kept.",
         .working =
             ": drying ratio = prepared ÷ dried, by weight; raw = wanted × drying ratio ÷ yield\n"
             ": depth = the greater of new thickness ÷ thickness and tray load ÷ the test's load\n"
             ": where the air outside rules: time × depth × wet-bulb depression of the test ÷ that "
             "here\n"
             ": where diffusion inside does: time × depth² × exp(E ÷ R × (1/T new − 1/T test)); without "
             "an activation energy as outside, but never below 1\n"
             ": likely between them: a share of 2 − thickness exponent for the outside, a half when "
             "nothing is said\n"
             ": air flow: DRY.AIRNEEDED for the water of a batch, that time, the air here and the exit rh\n"
             ": drying time = last time of TRAYRUN for the planned trays in that air, by the curve so "
             "stretched\n"
             ": batches a day = hours ÷ (drying time + turnaround), rounded down; trays = prepared in "
             "a batch ÷ load ÷ tray size, rounded up\n"
             ": heater, fan, energy and cost: each row names its function",
         .checks =
             {{{bench, day}, 500.0, 1e-12, "by hand: 100 × 4 ÷ 1 ÷ (4 ÷ 5)", "raw"},
              {{bench, day}, 400.0, 1e-12, hand, "prepared"},
              {{bench, day}, 300.0, 1e-12, "by hand: 400 − 100", "water"},
              {{bench, day}, 1.0, 1e-12, "by hand: 4 × 0.2 ÷ 0.8 ÷ 1", "solids recovered"},
              {{bench, day}, 6.0, 1e-12, "the test's own bed and temperature", "time in plenty of air"},
              {{bench, day}, 8.1515, 0.015, cells, "drying time"},
              {{bench, table(target, {"trays in a row", 5.0})}, 8.4653, 0.015, cells, "drying time"},
              {{bench, day}, 1.0, 0, "by hand: 16 ÷ (8.15 + 2), rounded down", "batches a day"},
              {{bench, day}, 8.0, 0, "by hand: 100 ÷ 25 × 4 kg a batch, 4 kg/m², 0.5 m² a tray", "trays"},
              {{bench, day}, 3.0, 1e-12, "by hand: 1 batch × 3 h", "labour a day"},
              {{bench, day}, 10.0, 1e-12, "by hand: 500 kg × 2 ÷ 100 kg", "raw cost"},
              {{bench, day}, 3.0, 1e-12, "by hand: 3 h × 4 ÷ 4 kg", "labour cost"},
              {{bench, equipped}, 2.0, 1e-12, "by hand: 8 ÷ 4 kg", "other cost"},
              {{table(test), table(target, thin)},
               0.72,
               1e-12,
               "by hand: (0.8 + 0.8²) ÷ 2",
               "thickness factor"},
              {{bench, day},
               "not asked for: the pack's rows are not filled in",
               0,
               "no pack was given",
               "pack barrier",
               5},
              {{bench, day},
               "at the dryer's inlet: water of a batch in the likely time in plenty of air, at a typical "
               "exit humidity of 0.4",
               0,
               "no exit humidity was given",
               "air flow",
               5},
              {{bench, without(target, 11)},
               "guessed, until a test in this air: where the air outside rules, wet-bulb depression of the "
               "test ÷ that here; where diffusion inside does, the same in slower air and 1 in faster; "
               "likely: half-way",
               0,
               "the room's air is not the test's",
               "air factor",
               5},
              {{table(test, {"start moisture is", "typical"}), day},
               "typical moistures and prepared mass",
               0,
               "as the test's table says",
               "water",
               5}},
         .refusals = {{{without(test, 9), day}, "drying time"},
                      {{bench, without(target, 1)}, "days"},
                      {{bench, table(target, {"trays", 4.0})}, "days"},
                      {{bench, table(target, {"tray syze", 0.5})}, "target"},
                      {{bench, table(target, {"wanted", 0.5})}, "target"},
                      {{bench, table(target, {"target moisture", "10 %"})}, "model"},
                      {{bench, table(target, {"new temp", 10.0})}, "new temp"},
                      {{bench, table(target, {"trays in a row", 51.0})}, "trays in a row"},
                      {{bench, table(target, {"tray load", 12.0})}, "hours a day"},
                      {{bench, table(target, {"store rh", 0.7})}, "pack mass"},
                      {{bench, table(target, pack)}, "isotherm parameters"},
                      {{table(test, {"model", "Paige"}), day}, "model"},
                      {{bench, 5.0}, "target"}},
         .see_also = {"RAWFOR", "TRAYSFOR", "AIRNEEDED", "UNITCOST", "TRAYRUN"},
         .show = show})};
}

}  // namespace drysheet
