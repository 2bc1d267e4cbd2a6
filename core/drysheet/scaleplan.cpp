#include "drysheet/scaleplan.hpp"

#include <array>
#include <cmath>

#include "drysheet/air.hpp"
#include "drysheet/energy.hpp"
#include "drysheet/moisture.hpp"
#include "drysheet/package.hpp"
#include "drysheet/renamed.hpp"
#include "drysheet/require.hpp"
#include "drysheet/scaleup.hpp"
#include "drysheet/yield.hpp"

namespace drysheet {
namespace {

// ---- what the material is

void material(ScalePlan& plan) {
    const BenchTest& test = plan.test;
    const ScaleTarget& target = plan.target;
    require_positive(test.prepared, arg::prepared);
    require_positive(test.dried, arg::dried);
    require_positive(target.wanted, arg::wanted);
    if (test.prepared > test.raw)
        throw BadInput(arg::prepared, "is above the {} of raw material", {amount(test.raw)});
    plan.yield = trim_yield(test.raw, std::array{test.raw - test.prepared});

    const MoistureWet from_weights =
        renamed({{arg::fresh, arg::prepared}, {arg::start, arg::row::start_moisture}}, [&] {
            return test.final_moisture ? *test.final_moisture
                                       : final_moisture(test.prepared, test.start_moisture, test.dried);
        });
    const Mass expected =
        renamed({{arg::start, arg::row::start_moisture}, {arg::final, arg::row::final_moisture}},
                [&] { return dried_mass(test.prepared, test.start_moisture, from_weights); });
    plan.recovered = test.dried / expected;
    if (plan.recovered > 1.05)
        throw BadInput(
            arg::dried,
            "is more than 5 % above the {} that its solids would give: a weight or a moisture is wrong",
            {amount(expected)});
    plan.final_moisture = target.target_moisture.value_or(from_weights);
    plan.drying_ratio =
        renamed({{arg::start, arg::row::start_moisture}, {arg::final, arg::row::target_moisture}}, [&] {
            return test.prepared / test.dried *
                   (dried_mass(test.prepared, test.start_moisture, from_weights) /
                    dried_mass(test.prepared, test.start_moisture, plan.final_moisture));
        });
    if (!(plan.final_moisture < test.start_moisture))
        throw BadInput(target.target_moisture ? arg::row::target_moisture : "final moisture",
                       "is not below the start moisture, {}: there is nothing to dry",
                       {amount(test.start_moisture)});
}

// ---- the time of a batch

double depression(Temperature temp, RelativeHumidity rh, Pressure pressure) {
    return temp.value() - wet_bulb(temp, rh, pressure).value();
}

void drying_time(ScalePlan& plan) {
    const BenchTest& test = plan.test;
    const ScaleTarget& target = plan.target;
    plan.curve_time = test.drying_time;
    require_positive(test.drying_time, arg::row::drying_time);
    if (target.target_moisture) {
        if (!test.model)
            throw BadInput(arg::model, "is missing; another target moisture wants the fitted curve");
        plan.curve_time =
            renamed({{arg::start, arg::row::start_moisture}, {arg::target, arg::row::target_moisture}}, [&] {
                return drying_time(test.start_moisture, *target.target_moisture,
                                   test.equilibrium.value_or(MoistureWet(0)), *test.model, test.parameters);
            });
    }
    Time time = plan.curve_time;
    if (target.new_thickness) {
        time = renamed({{arg::new_thickness, arg::row::new_thickness}}, [&] {
            return thickness_time(time, test.thickness, *target.new_thickness, target.thickness_exponent);
        });
        plan.thickness_factor = time / plan.curve_time;
    }
    plan.temp = target.new_temp.value_or(test.temp);
    plan.rh =
        renamed({{arg::temp, arg::row::room_temp}, {"heated", target.new_temp ? "new temp" : "temp"}},
                [&] { return heated_rh(target.room_temp, target.room_rh, plan.temp, target.pressure); });
    if (target.activation_energy) {
        plan.air_scaling = AirScaling::activation_energy;
        plan.air_factor = std::exp(target.activation_energy->value() / kMolarGasConstant *
                                   (1 / plan.temp.value() - 1 / test.temp.value()));
    } else if (std::abs(plan.temp.value() - test.temp.value()) > 1e-9 ||
               std::abs(plan.rh.value() - test.rh.value()) > 1e-9) {
        plan.air_scaling = AirScaling::wet_bulb_depression;
        const double now = depression(test.temp, test.rh, target.pressure);
        if (!(now > 0)) throw BadInput(arg::rh, "leaves the air nothing to take up");
        const double then = renamed({{"temp", target.new_temp ? "new temp" : "temp"}},
                                    [&] { return depression(plan.temp, plan.rh, target.pressure); });
        if (!(then > 0)) throw BadInput(arg::row::room_rh, "leaves the air nothing to take up");
        plan.air_factor = now / then;
    }
    plan.drying_time = time * plan.air_factor;
}

// ---- trays, batches, days

void batches(ScalePlan& plan) {
    const BenchTest& test = plan.test;
    const ScaleTarget& target = plan.target;
    if (target.days && target.trays)
        throw BadInput(arg::days, "is given beside trays; the other follows from one of them");
    if (!target.days && !target.trays) throw BadInput(arg::days, "is missing; give the days or the trays");
    const auto whole = [](double x, std::string_view name) {
        if (!(x >= 1) || x != std::floor(x)) throw BadInput(name, "must be a whole number from 1");
    };
    double packing = 1;
    if (target.new_thickness) packing = *target.new_thickness / test.thickness;
    plan.load = target.load.value_or(renamed({{arg::area, arg::row::tray_area}},
                                             [&] { return tray_load(test.prepared, test.tray_area); }) *
                                     packing);
    const Mass unit = Mass::from_value(1);
    const MassFlow daily =
        renamed({{arg::drying_time, arg::row::drying_time}, {arg::hours_per_day, arg::row::hours_a_day}},
                [&] { return daily_output(unit, plan.drying_time, target.turnaround, target.hours_a_day); });
    plan.batches_a_day = std::round(daily.value() * 86400);  // whole by definition
    plan.day = plan.batches_a_day * (plan.drying_time + target.turnaround);
    const std::initializer_list<Rename> names{{arg::tray_area, arg::row::tray_size},
                                              {arg::load, arg::row::tray_load}};
    if (target.trays) {
        whole(*target.trays, "trays");
        plan.trays = *target.trays;
        plan.batch_prepared = plan.load * target.tray_size * plan.trays;
        plan.batch_dried = plan.batch_prepared / plan.drying_ratio;
        plan.batches = renamed({{arg::per_batch, arg::row::tray_size}},
                               [&] { return batches_for(target.wanted, plan.batch_dried); });
        plan.days = std::ceil(plan.batches / plan.batches_a_day);
    } else {
        whole(*target.days, "days");
        plan.days = *target.days;
        plan.batches = plan.days * plan.batches_a_day;
        plan.batch_dried = target.wanted / plan.batches;
        plan.batch_prepared = plan.batch_dried * plan.drying_ratio;
        plan.trays =
            renamed(names, [&] { return trays_for(plan.batch_prepared, plan.load, target.tray_size); });
    }
    plan.area = plan.trays * target.tray_size;
    plan.batch_water = water_removed(plan.batch_prepared, test.start_moisture, plan.final_moisture);
    plan.dried = plan.batches * plan.batch_dried;
    plan.prepared = raw_for(plan.dried, plan.drying_ratio, {});
    plan.raw = raw_for(plan.dried, plan.drying_ratio, std::array{plan.yield});
    plan.water = plan.batches * plan.batch_water;
}

// ---- air, heat and money

void air_and_heat(ScalePlan& plan) {
    const ScaleTarget& target = plan.target;
    const Pressure p = target.pressure;
    if (!target.exit_rh && plan.rh.value() >= kUsualExitRh)
        throw BadInput(arg::row::exit_rh,
                       "is missing, and the {} assumed then is not above the {} of the air entering",
                       {amount(RelativeHumidity(kUsualExitRh)), amount(plan.rh)});
    plan.air_flow = renamed({{arg::exit_rh, arg::row::exit_rh}}, [&] {
        return air_needed(plan.batch_water, plan.drying_time, plan.temp, plan.rh,
                          target.exit_rh.value_or(RelativeHumidity(kUsualExitRh)), p);
    });
    plan.room_flow =
        plan.air_flow * (air_volume(target.room_temp, target.room_rh, p) / air_volume(plan.temp, plan.rh, p));
    plan.heater = heating_load(plan.room_flow, target.room_temp, target.room_rh, plan.temp, p);
    const Fraction fan = target.fan_efficiency.value_or(Fraction(kUsualFanEfficiency));
    require_positive(fan, arg::row::fan_efficiency);
    plan.fan =
        Power(plan.air_flow * target.pressure_drop.value_or(Pressure::from_value(kUsualPressureDrop))) /
        fan.value();
    plan.batch_energy = run_energy(plan.heater + plan.fan, plan.drying_time);
    plan.season_energy = plan.batches * plan.batch_energy;
    const auto where_it_can_be = [](auto figure) -> std::optional<decltype(figure())> {
        try {
            return figure();
        } catch (const Refused&) {
            return std::nullopt;
        }
    };
    plan.least_heat = where_it_can_be([&] {
        return heat_demand(plan.batch_prepared, plan.test.start_moisture, plan.final_moisture,
                           target.room_temp, plan.temp);
    });
    plan.efficiency =
        where_it_can_be([&] { return dryer_efficiency(plan.batch_water, plan.batch_energy, plan.temp); });
    plan.energy_per_water = energy_per_water(plan.batch_energy, plan.batch_water);
}

void money(ScalePlan& plan) {
    const ScaleTarget& target = plan.target;
    const Mass batch_raw = raw_for(plan.batch_dried, plan.drying_ratio, std::array{plan.yield});
    const Money raw = batch_raw * target.raw_price, other = target.other_cost.value_or(Money());
    const auto cost = [&](Money material, Energy energy, Time hours, Money rest) {
        return unit_cost(plan.batch_dried, material, energy, target.tariff, hours, target.wage, rest);
    };
    plan.raw_cost = cost(raw, {}, {}, {});
    plan.energy_cost = cost({}, plan.batch_energy, {}, {});
    plan.labour_cost = cost({}, {}, target.labour, {});
    plan.other_cost = cost({}, {}, {}, other);
    plan.cost = cost(raw, plan.batch_energy, target.labour, other);
    plan.season_cost = plan.cost * plan.dried;
}

// ---- the pack

template <class T>
T wanted(const std::optional<T>& value, std::string_view name) {
    if (!value) throw BadInput(name, "is missing; a pack wants all its rows, or none");
    return *value;
}

void pack(ScalePlan& plan) {
    const ScaleTarget& t = plan.target;
    if (!t.pack_mass && !t.pack_area && !t.keeping_time && !t.limit_moisture && !t.isotherm &&
        !t.store_temp && !t.store_rh && t.isotherm_parameters.empty())
        return;
    const Mass solids = solids_mass(wanted(t.pack_mass, "pack mass"), plan.final_moisture);
    const MoistureDry limit = dry_basis(wanted(t.limit_moisture, "limit moisture"));
    const Area area = wanted(t.pack_area, "pack area");
    const Time days = wanted(t.keeping_time, "keeping time");
    const IsothermModel model = wanted(t.isotherm, "isotherm");
    const Temperature temp = wanted(t.store_temp, "store temp");
    const RelativeHumidity rh = wanted(t.store_rh, "store rh");
    plan.barrier = renamed({{arg::solids, arg::row::pack_mass},
                            {"start_db", t.target_moisture ? "target moisture" : "final moisture"},
                            {arg::limit_db, arg::row::limit_moisture},
                            {arg::area, arg::row::pack_area},
                            {arg::days, arg::row::keeping_time},
                            {arg::parameters, arg::row::isotherm_parameters},
                            {arg::model, arg::row::isotherm},
                            {arg::temp, arg::row::store_temp},
                            {arg::rh, arg::row::store_rh}},
                           [&] {
                               return barrier_for(days, solids, dry_basis(plan.final_moisture), limit, model,
                                                  t.isotherm_parameters, area, temp, rh);
                           });
}

}  // namespace

ScalePlan scale_plan(const BenchTest& test, const ScaleTarget& target) {
    ScalePlan plan{.test = test, .target = target};
    material(plan);
    drying_time(plan);
    batches(plan);
    air_and_heat(plan);
    money(plan);
    pack(plan);
    return plan;
}

}  // namespace drysheet
