#include "drysheet/scaleplan.hpp"

#include "addin/functions/air_words.hpp"
#include "addin/functions/curve_choice.hpp"
#include "addin/functions/isotherm_choice.hpp"
#include "addin/functions/topics.hpp"

namespace drysheet {

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
            field<&T::tray_size>({arg::row::tray_size, "area of one tray", positive}),
            field<&T::load>({arg::row::tray_load,
                             "prepared material per area; else the test's, in proportion to thickness",
                             positive}),
            field<&T::new_thickness>({arg::row::new_thickness, "of the slices; else the test's", positive}),
            field<&T::thickness_exponent>({.name = "thickness exponent",
                                           .text = "2 where diffusion limits, 1 where the air does",
                                           .range = within(0, 3),
                                           .otherwise = 2}),
            field<&T::new_temp>({"new temp", "air entering the dryer; else the test's"}),
            field<&T::activation_energy>(
                {"activation energy", "measured, by which drying follows the air's temperature"}),
            field<&T::target_moisture>({arg::row::target_moisture, "of the product; else the test's"}),
            field<&T::turnaround>(
                {arg::turnaround, "emptying, cleaning and filling between batches", at_least(0)}),
            field<&T::hours_a_day>(
                {arg::row::hours_a_day, "working hours, 24 for day and night", above_up_to(0, 24)}),
            field<&T::room_temp>({arg::row::room_temp, "air drawn in"}),
            field<&T::room_rh>({arg::row::room_rh, "relative humidity of that air"}),
            field<&T::exit_rh>({arg::row::exit_rh, "mean relative humidity of the air leaving; else 0.4"}),
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

constexpr std::string_view kMeasured = "measured in the test";
constexpr std::string_view kYours = "your figure";

struct PlanTable {
    Table table{.columns = 5};

    void add(std::string_view name, const Amount& value, std::string_view unit, std::string_view from,
             std::string_view rests) {
        table.cells.emplace_back(std::string(name));
        table.cells.emplace_back(shown(value, unit));
        table.cells.emplace_back(std::string(unit.empty() ? row_of(value.kind).default_unit : unit));
        table.cells.emplace_back(from.empty() ? std::string() : "DRY." + std::string(from));
        table.cells.emplace_back(std::string(rests));
    }
    template <PhysicalValue T>
    void add(std::string_view name, const T& value, std::string_view unit, std::string_view from,
             std::string_view rests) {
        add(name, amount(value), unit, from, rests);
    }
    /// A row without a figure says why instead.
    template <PhysicalValue T>
    void add(std::string_view name, const std::optional<T>& value, std::string_view from,
             std::string_view rests, std::string_view why_not) {
        if (value) return add(name, *value, "", from, rests);
        for (const std::string& cell : {std::string(name), std::string(), std::string(),
                                        "DRY." + std::string(from), std::string(why_not)})
            table.cells.emplace_back(cell);
    }
};

std::string_view said(bool given, std::string_view usual) { return given ? kYours : usual; }

void show_material(PlanTable& rows, const ScalePlan& plan) {
    const bool new_target = plan.target.target_moisture.has_value();
    rows.add("raw", plan.raw, "kg", "RAWFOR",
             "measured yield and drying ratio, taken to be the same in the season");
    rows.add("prepared", plan.prepared, "kg", "RAWFOR", "the same without the yield");
    rows.add("water", plan.water, "kg", "WATERREMOVED", "prepared mass and measured moistures");
    rows.add(
        "dried", plan.dried, "kg", "",
        plan.target.trays ? "whole batches × dried in a batch: what you want, or a little more" : kYours);
    rows.add("yield", plan.yield, "", "TRIMYIELD", kMeasured);
    rows.add("drying ratio", plan.drying_ratio, "", "",
             new_target ? "weights of the test, by moistures carried over to your target moisture"
                        : "weights of the test, its handling losses included");
    rows.add("end moisture", plan.final_moisture, "",
             plan.test.final_moisture || new_target ? "" : "FINALMOISTURE",
             new_target                 ? kYours
             : plan.test.final_moisture ? kMeasured
                                        : "from the test's weights: losses count as water");
    rows.add("solids recovered", plan.recovered, "", "DRIEDMASS",
             plan.test.final_moisture
                 ? "check of the test: 1 when its weights and moistures agree"
                 : "1 because the end moisture was worked out from the weights; measure it");
}

void show_time(PlanTable& rows, const ScalePlan& plan) {
    const bool guess = plan.air_scaling == AirScaling::wet_bulb_depression;
    rows.add("test time", plan.curve_time, "", plan.target.target_moisture ? "DRYINGTIME" : "",
             plan.target.target_moisture ? "fitted curve of the test, to your target moisture" : kMeasured);
    rows.add("thickness factor", plan.thickness_factor, "", plan.target.new_thickness ? "THICKNESSTIME" : "",
             !plan.target.new_thickness ? "same thickness as in the test"
             : plan.target.thickness_exponent == 2
                 ? "scaled by the square of thickness: holds where diffusion inside limits; a guess until a "
                   "test at this thickness"
                 : "scaled by your exponent of thickness; a guess until a test at this thickness");
    rows.add("air factor", plan.air_factor, "", guess ? "WETBULB" : "",
             guess ? "GUESS: time against the wet-bulb depression; holds where the air limits, promises too "
                     "much late in drying; a test in this air decides"
             : plan.air_scaling == AirScaling::none
                 ? "same air as in the test"
                 : "exp(E ÷ R × (1/T new − 1/T test)) with your activation energy; humidity is not scaled");
    rows.add("drying time", plan.drying_time, "", "", "test time × thickness factor × air factor");
    rows.add("dryer temp", plan.temp, "", "", plan.target.new_temp ? kYours : kMeasured);
    rows.add("dryer rh", plan.rh, "", "HEATEDRH", "your room air, heated; none goes round again");
}

void show_dryer(PlanTable& rows, const ScalePlan& plan) {
    const bool by_days = plan.target.days.has_value();
    rows.add("load", plan.load, "", plan.target.load ? "" : "TRAYLOAD",
             plan.target.load            ? kYours
             : plan.target.new_thickness ? "measured, in proportion to thickness: the same packing is assumed"
                                         : kMeasured);
    rows.add("batches a day", plan.batches_a_day, "", "DAILYOUTPUT",
             "drying time and your hours; whole batches");
    rows.add("batches", plan.batches, "", by_days ? "" : "BATCHESFOR",
             by_days ? "days × batches a day" : "wanted ÷ dried in a batch, rounded up");
    rows.add("days", plan.days, "", "", by_days ? kYours : "batches ÷ batches a day, rounded up");
    rows.add("trays", plan.trays, "", by_days ? "TRAYSFOR" : "",
             by_days ? "prepared in a batch at that load, rounded up" : kYours);
    rows.add("area", plan.area, "", "", "trays × your tray size");
    rows.add("prepared in a batch", plan.batch_prepared, "kg", by_days ? "RAWFOR" : "",
             by_days ? "dried in a batch × drying ratio" : "load × area");
    rows.add("dried in a batch", plan.batch_dried, "kg", "",
             by_days ? "wanted ÷ batches" : "prepared in a batch ÷ drying ratio");
    rows.add("hours in use", plan.day, "", "", "batches a day × (drying time + turnaround)");
    const bool exit = plan.target.exit_rh.has_value();
    rows.add("air flow", plan.air_flow, "", "AIRNEEDED",
             exit ? "at the dryer's inlet; your exit humidity; mean of a batch: more water goes at its "
                    "start, see DRY.TRAYRUN"
                  : "at the dryer's inlet; exit humidity 0.4 ASSUMED by the add-in; mean of a batch, more "
                    "water goes at its start");
    rows.add("room air", plan.room_flow, "", "AIRVOLUME", "the same air, before the heater");
    rows.add("heater", plan.heater, "", "HEATINGLOAD", "heats that air; no losses, add for walls and leaks");
    rows.add("fan", plan.fan, "", "",
             plan.target.pressure_drop && plan.target.fan_efficiency
                 ? "air flow × your pressure drop ÷ your efficiency"
                 : "air flow × pressure drop ÷ efficiency; 0.25 kPa or 0.5 ASSUMED by the add-in where you "
                   "gave none");
}

void show_money(PlanTable& rows, const ScalePlan& plan) {
    rows.add("energy of a batch", plan.batch_energy, "", "RUNENERGY",
             "heater and fan on for the drying time");
    rows.add("energy of the season", plan.season_energy, "", "", "batches × energy of a batch");
    rows.add("least heat", plan.least_heat, "HEATDEMAND",
             "to warm and dry a batch; product at the dryer's temperature",
             "no figure: it is worked out from 0 °C of the room up, to 150 °C in the dryer");
    rows.add("efficiency", plan.efficiency, "DRYEREFFICIENCY", "latent heat ÷ energy of a batch",
             "no figure: the room's own warmth does more of the drying than the heater, or the air is above "
             "150 °C");
    rows.add("energy per water", plan.energy_per_water, "kWh/kg", "ENERGYPERWATER",
             "energy of a batch ÷ its water");
    rows.add("raw cost", plan.raw_cost, "", "UNITCOST", "your price, measured yields");
    rows.add("energy cost", plan.energy_cost, "", "UNITCOST", "your tariff, the energy above");
    rows.add("labour cost", plan.labour_cost, "", "UNITCOST", "your hours and wage");
    rows.add("other cost", plan.other_cost, "", "UNITCOST",
             said(plan.target.other_cost.has_value(), "none given"));
    rows.add("cost per kilo", plan.cost, "", "UNITCOST",
             "sum of the four rows above; dryer and building not counted");
    rows.add("cost of the season", plan.season_cost, "", "", "cost per kilo × all whole batches");
}

constexpr std::string_view kPackCaution =
    "estimate from your isotherm and limit: only a measured water activity and the local food authority "
    "decide how long it may be kept";

Outcome show(const ScalePlan& plan) {
    PlanTable rows;
    show_material(rows, plan);
    show_time(rows, plan);
    show_dryer(rows, plan);
    show_money(rows, plan);
    rows.add("pack barrier", plan.barrier, "BARRIERFOR", kPackCaution,
             "not asked for: the pack's rows are not filled in");
    return rows.table;
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
    const Rows target{
        "wanted",      "100 kg", "days",      25.0, "tray size", 0.5, "turnaround",        2.0,
        "hours a day", 16.0,     "room temp", 25.0, "room rh",   0.6, "raw price",         2.0,
        "tariff",      0.2,      "wage",      4.0,  "labour",    3.0, "activation energy", 30.0};
    const Rows pack{"pack mass", "100 g", "pack area",  0.04, "keeping time", 90.0, "limit moisture", "21 %",
                    "isotherm",  "Oswin", "store temp", 25.0, "store rh",     0.75};
    const Rows wide{"new thickness", "10 mm", "thickness exponent", 1.0, "new temp", 60.0};
    const std::string_view hand = "by hand from 4 kg prepared and 1 kg dried";
    const Input day = table(target), bench = table(test);
    return {function<scale_plan>(
        {.name = "SCALEPLAN",
         .topic = "scaleup",
         .summary = "The whole plan from one bench test and a wanted output: each row a name, value, unit, "
                    "the function it came from and what it rests on",
         .mass_in_a_unit = kAlways,
         .params =
             {{{"test",
                "the bench test: name and value in two columns, in any order; a third column may hold units"},
               {arg::target,
                "what is wanted, the place and the prices, in the same way; days or trays, and the pack's "
                "rows all together or not at all"}}},
         .result = "plan",
         .range = "Whole batches, each begun and ended within a working day; the air flow is the mean of a "
                  "batch; no losses through walls, no air used twice, no cost of dryer and building.",
         .source = "Put together from the functions named in its rows. Time by wet-bulb depression, a guess: "
                   "van Meel 1958, Chem. Eng. Sci. 9:36. Usual values (exit humidity 0.4, pressure drop 0.25 "
                   "kPa, fan efficiency 0.5): common practice, no source.",
         .caution = "The pack's barrier is an estimate: only a measured water activity and the local food "
                    "authority decide how long a product may be kept.",
         .working = ": drying ratio = prepared ÷ dried, by weight; raw = wanted × drying ratio ÷ yield\n"
                    ": drying time = test time × (new thickness ÷ thickness)^exponent × air factor\n"
                    ": air factor = wet-bulb depression in the test ÷ that in the new air, unless an "
                    "activation energy is given\n"
                    ": batches a day = hours ÷ (drying time + turnaround), rounded down; trays = prepared in "
                    "a batch ÷ load ÷ tray size, rounded up\n"
                    ": air flow, heater, fan, energy and cost: each row names its function",
         .checks =
             {{{bench, day}, 500.0, 1e-12, "by hand: 100 × 4 ÷ 1 ÷ (4 ÷ 5)", "raw"},
              {{bench, day}, 400.0, 1e-12, hand, "prepared"},
              {{bench, day}, 300.0, 1e-12, "by hand: 400 − 100", "water"},
              {{bench, day}, 1.0, 1e-12, "by hand: 4 × 0.2 ÷ 0.8 ÷ 1", "solids recovered"},
              {{bench, day}, 6.0, 1e-12, "same thickness and temperature as the test", "drying time"},
              {{bench, day}, 2.0, 0, "by hand: 16 ÷ (6 + 2)", "batches a day"},
              {{bench, day}, 4.0, 0, "by hand: 100 ÷ 50 × 4 kg a batch, 4 kg/m², 0.5 m² a tray", "trays"},
              {{bench, day}, 10.0, 1e-12, "by hand: 500 kg × 2 ÷ 100 kg", "raw cost"},
              {{bench, day}, 6.0, 1e-12, "by hand: 3 h × 4 ÷ 2 kg", "labour cost"},
              {{table(test), table(target, wide)}, 12.0, 1e-12, "by hand: 6 h × 10 ÷ 5", "drying time"},
              {{bench, day}, "not asked for", 0, "no pack was given", "", 2, true},
              {{bench, day}, "ASSUMED", 0, "no exit humidity was given", "", 2, true},
              {{bench, without(target, 11)}, "GUESS", 0, "the room's air is not the test's", "", 2, true}},
         .refusals = {{{without(test, 9), day}, "drying time"},
                      {{bench, without(target, 1)}, "days"},
                      {{bench, table(target, {"trays", 4.0})}, "days"},
                      {{bench, table(target, {"tray syze", 0.5})}, "target"},
                      {{bench, table(target, {"wanted", 0.5})}, "target"},
                      {{bench, table(target, {"target moisture", "10 %"})}, "model"},
                      {{bench, table(target, {"new temp", 20.0})}, "new temp"},
                      {{bench, table(target, {"store rh", 0.7})}, "pack mass"},
                      {{bench, table(target, pack)}, "isotherm parameters"},
                      {{table(test, {"model", "Paige"}), day}, "model"},
                      {{bench, 5.0}, "target"}},
         .see_also = {"RAWFOR", "TRAYSFOR", "AIRNEEDED", "UNITCOST", "TRAYRUN"},
         .show = show})};
}

}  // namespace drysheet
