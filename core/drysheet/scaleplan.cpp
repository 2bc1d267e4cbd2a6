// SPDX-License-Identifier: MPL-2.0
#include "drysheet/scaleplan.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "drysheet/air.hpp"
#include "drysheet/energy.hpp"
#include "drysheet/moisture.hpp"
#include "drysheet/package.hpp"
#include "drysheet/renamed.hpp"
#include "drysheet/require.hpp"
#include "drysheet/scaleup.hpp"
#include "drysheet/trayrun.hpp"
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
        throw BadInput(target.target_moisture ? arg::row::target_moisture : arg::row::final_moisture,
                       "is not below the start moisture, {}: there is nothing to dry",
                       {amount(test.start_moisture)});
}

// ---- the test's curve, carried to the planned bed and air

std::string_view temp_row(const ScaleTarget& target) {
    return target.new_temp ? arg::row::new_temp : arg::temp;
}
std::string_view end_row(const ScaleTarget& target) {
    return target.target_moisture ? arg::row::target_moisture : arg::row::final_moisture;
}

void curve_of_test(ScalePlan& plan) {
    const BenchTest& test = plan.test;
    const MoistureWet equilibrium = test.equilibrium.value_or(MoistureWet(0));
    require_positive(test.drying_time, arg::row::drying_time);
    if (plan.target.target_moisture && !test.model)
        throw BadInput(arg::model, "is missing; another target moisture wants the fitted curve");
    renamed({{arg::start, arg::row::start_moisture}, {arg::target, end_row(plan.target)}}, [&] {
        plan.curve = test.model ? BenchCurve{*test.model, test.parameters}
                                : lewis_through(test.start_moisture, plan.final_moisture, equilibrium,
                                                test.drying_time);
        plan.curve_time = drying_time(test.start_moisture, plan.final_moisture, equilibrium, plan.curve.model,
                                      plan.curve.parameters);
    });
}

/// The load of a full tray, and how deep it lies.
void bed(ScalePlan& plan) {
    const BenchTest& test = plan.test;
    const ScaleTarget& target = plan.target;
    require_positive(test.thickness, arg::thickness);
    const Length thickness = target.new_thickness.value_or(test.thickness);
    require_positive(thickness, arg::row::new_thickness);
    const ArealLoad tested =
        renamed({{arg::area, arg::row::tray_area}}, [&] { return tray_load(test.prepared, test.tray_area); });
    const double thicker = thickness / test.thickness;
    plan.full_load = target.load.value_or(tested * thicker);
    require_positive(plan.full_load, arg::row::tray_load);
    plan.depth = std::max<double>(thicker, plan.full_load / tested);
}

double depression(Temperature temp, RelativeHumidity rh, Pressure pressure) {
    return temp.value() - wet_bulb(temp, rh, pressure).value();
}

void carry(ScalePlan& plan) {
    const BenchTest& test = plan.test;
    const ScaleTarget& target = plan.target;
    plan.temp = target.new_temp.value_or(test.temp);
    plan.rh = renamed(
        {{arg::temp, arg::row::room_temp}, {arg::rh, arg::row::room_rh}, {arg::heated, temp_row(target)}},
        [&] { return heated_rh(target.room_temp, target.room_rh, plan.temp, target.pressure); });
    const double now = depression(test.temp, test.rh, target.pressure);
    if (!(now > 0)) throw BadInput(arg::rh, "leaves the air nothing to take up");
    const double then = renamed({{arg::temp, temp_row(target)}},
                                [&] { return depression(plan.temp, plan.rh, target.pressure); });
    if (!(then > 0)) throw BadInput(arg::row::room_rh, "leaves the air nothing to take up");
    double outside = now / then, inside = std::max(1.0, outside);
    if (std::abs(plan.temp.value() - test.temp.value()) < 1e-9 &&
        std::abs(plan.rh.value() - test.rh.value()) < 1e-9) {
        outside = inside = 1;
    } else if (target.activation_energy) {
        plan.air_scaling = AirScaling::activation_energy;
        inside = std::exp(target.activation_energy->value() / kMolarGasConstant *
                          (1 / plan.temp.value() - 1 / test.temp.value()));
    } else {
        plan.air_scaling = AirScaling::wet_bulb_depression;
    }
    const double unsaid = target.activation_energy ? 0 : 0.5;
    const double share = target.thickness_exponent ? 2 - *target.thickness_exponent : unsaid;
    plan.carried = carried(plan.depth, outside, inside, share);
    plan.carried_time = plan.curve_time * plan.carried.likely.time();
}

// ---- full trays in a row, in the planned air

void air_of_a_row(ScalePlan& plan) {
    const ScaleTarget& target = plan.target;
    if (!target.exit_rh && plan.rh.value() >= kUsualExitRh)
        throw BadInput(arg::row::exit_rh,
                       "is missing, and the {} assumed then is not above the {} of the air entering",
                       {amount(RelativeHumidity(kUsualExitRh)), amount(plan.rh)});
    require_positive(target.tray_size, arg::row::tray_size);
    plan.row_prepared = plan.full_load * target.tray_size * target.trays_in_a_row;
    const Mass water = water_removed(plan.row_prepared, plan.test.start_moisture, plan.final_moisture);
    plan.row_flow = renamed({{arg::exit_rh, arg::row::exit_rh}}, [&] {
        return air_needed(water, plan.carried_time, plan.temp, plan.rh,
                          target.exit_rh.value_or(RelativeHumidity(kUsualExitRh)), target.pressure);
    });
}

TrayRun run_of_a_row(const ScalePlan& plan, const Carry& carry) {
    const BenchCurve curve = stretched(plan.curve, carry.time());
    const double trays = plan.target.trays_in_a_row;
    const TrayOptions options{.target = plan.final_moisture,
                              .model = static_cast<TrayModel>(curve.model),
                              .parameters = curve.parameters,
                              .equilibrium = plan.test.equilibrium.value_or(MoistureWet(0)),
                              .pressure = plan.target.pressure,
                              .trays = trays,
                              .steps = 1};
    return renamed({{arg::target, end_row(plan.target)},
                    {arg::rh, arg::row::room_rh},
                    {arg::temp, temp_row(plan.target)},
                    {arg::trays, arg::row::trays_in_a_row}},
                   [&] {
                       return tray_run(plan.row_prepared / trays, plan.test.start_moisture,
                                       plan.target.tray_size, plan.temp, plan.rh, plan.row_flow, options);
                   });
}

// ---- trays, batches, days

void require_whole(double x, std::string_view name) {
    if (!(x >= 1) || x != std::floor(x)) throw BadInput(name, "must be a whole number from 1");
}

void batches(const ScalePlan& plan, DryerPlan& dryer) {
    const ScaleTarget& target = plan.target;
    const double in_a_row = target.trays_in_a_row;
    const MassFlow daily = renamed(
        {{arg::drying_time, arg::row::drying_time}, {arg::hours_per_day, arg::row::hours_a_day}}, [&] {
            return daily_output(Mass::from_value(1), dryer.drying_time, target.turnaround,
                                target.hours_a_day);
        });
    dryer.batches_a_day = std::round(daily.value() * 86400);  // whole by definition
    if (target.trays) {
        dryer.trays = *target.trays;
        dryer.batch_prepared = plan.row_prepared * (dryer.trays / in_a_row);
        dryer.batch_dried = dryer.batch_prepared / plan.drying_ratio;
        dryer.batches = batches_for(target.wanted, dryer.batch_dried);
        dryer.days = std::ceil(dryer.batches / dryer.batches_a_day);
    } else {
        dryer.days = *target.days;
        dryer.batches = dryer.days * dryer.batches_a_day;
        dryer.batch_dried = target.wanted / dryer.batches;
        dryer.batch_prepared = dryer.batch_dried * plan.drying_ratio;
        dryer.trays = in_a_row * trays_for(dryer.batch_prepared, plan.full_load, in_a_row * target.tray_size);
    }
    dryer.day = dryer.batches_a_day * (dryer.drying_time + target.turnaround);
    dryer.labour = dryer.batches_a_day * target.labour;
    dryer.area = dryer.trays * target.tray_size;
    dryer.load = dryer.batch_prepared / dryer.area;
    dryer.batch_water = water_removed(dryer.batch_prepared, plan.test.start_moisture, plan.final_moisture);
    dryer.dried = dryer.batches * dryer.batch_dried;
    dryer.prepared = raw_for(dryer.dried, plan.drying_ratio, {});
    dryer.raw = raw_for(dryer.dried, plan.drying_ratio, std::array{plan.yield});
    dryer.water = dryer.batches * dryer.batch_water;
}

// ---- air, heat and money

template <class Figure>
auto attempt(Figure figure) -> Attempt<decltype(figure())> {
    try {
        return {.value = figure(), .refusal = {}};
    } catch (const NoResult& refusal) {
        return {.value = {}, .refusal = refusal};
    }
}

void air_and_heat(const ScalePlan& plan, DryerPlan& dryer, const TrayRun& row) {
    const ScaleTarget& target = plan.target;
    const Pressure p = target.pressure;
    // Trays that are not quite full are given as much air for their load as full ones: the run is the same.
    dryer.air_flow = plan.row_flow * (dryer.batch_prepared / plan.row_prepared);
    dryer.room_flow = dryer.air_flow *
                      (air_volume(target.room_temp, target.room_rh, p) / air_volume(plan.temp, plan.rh, p));
    const Mass dry_air = plan.row_flow * dryer.drying_time / air_volume(plan.temp, plan.rh, p);
    dryer.exit_rh = exit_air(plan.temp, plan.rh, HumidityRatio(row.water_taken / dry_air), p).rh;
    dryer.heater = heating_load(dryer.room_flow, target.room_temp, target.room_rh, plan.temp, p);
    const Fraction fan = target.fan_efficiency.value_or(Fraction(kUsualFanEfficiency));
    require_positive(fan, arg::row::fan_efficiency);
    dryer.fan =
        Power(dryer.air_flow * target.pressure_drop.value_or(Pressure::from_value(kUsualPressureDrop))) /
        fan.value();
    dryer.batch_energy = run_energy(dryer.heater + dryer.fan, dryer.drying_time);
    dryer.season_energy = dryer.batches * dryer.batch_energy;
    const auto side_row = [&](auto figure) {
        return attempt([&] {
            return renamed({{arg::feed_temp, arg::row::room_temp},
                            {arg::dryer_temp, temp_row(target)},
                            {arg::temp, temp_row(target)},
                            {arg::energy, arg::row::energy_of_batch}},
                           figure);
        });
    };
    dryer.least_heat = side_row([&] {
        return heat_demand(dryer.batch_prepared, plan.test.start_moisture, plan.final_moisture,
                           target.room_temp, plan.temp);
    });
    dryer.efficiency =
        side_row([&] { return dryer_efficiency(dryer.batch_water, dryer.batch_energy, plan.temp); });
    dryer.energy_per_water = energy_per_water(dryer.batch_energy, dryer.batch_water);
}

void money(const ScalePlan& plan, DryerPlan& dryer) {
    const ScaleTarget& target = plan.target;
    const Mass batch_raw = raw_for(dryer.batch_dried, plan.drying_ratio, std::array{plan.yield});
    const Money raw = batch_raw * target.raw_price, other = target.other_cost.value_or(Money());
    const auto cost = [&](Money material, Energy energy, Time hours, Money rest) {
        return unit_cost(dryer.batch_dried, material, energy, target.tariff, hours, target.wage, rest);
    };
    dryer.raw_cost = cost(raw, {}, {}, {});
    dryer.energy_cost = cost({}, dryer.batch_energy, {}, {});
    dryer.labour_cost = cost({}, {}, target.labour, {});
    dryer.other_cost = cost({}, {}, {}, other);
    dryer.cost = cost(raw, dryer.batch_energy, target.labour, other);
    dryer.season_cost = dryer.cost * dryer.dried;
}

DryerPlan dryer_plan(const ScalePlan& plan, const Carry& carry) {
    const TrayRun row = run_of_a_row(plan, carry);
    DryerPlan dryer{.drying_time = row.rows.back().time};
    batches(plan, dryer);
    air_and_heat(plan, dryer, row);
    money(plan, dryer);
    return dryer;
}

void check_counts(const ScaleTarget& target) {
    if (target.days && target.trays)
        throw BadInput(arg::days, "is given beside trays; the other follows from one of them");
    if (!target.days && !target.trays) throw BadInput(arg::days, "is missing; give the days or the trays");
    if (target.days) require_whole(*target.days, arg::days);
    require_whole(target.trays_in_a_row, arg::row::trays_in_a_row);
    if (!target.trays) return;
    require_whole(*target.trays, arg::trays);
    if (std::fmod(*target.trays, target.trays_in_a_row) != 0)
        throw BadInput(arg::trays, "are not whole rows of {}", {amount(target.trays_in_a_row)});
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
                            {"start_db", end_row(t)},
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
    check_counts(target);
    material(plan);
    curve_of_test(plan);
    bed(plan);
    carry(plan);
    air_of_a_row(plan);
    plan.likely = dryer_plan(plan, plan.carried.likely);
    const auto were_it = [&plan](const Carry& carry) {
        const bool same = carry.time() == plan.carried.likely.time();
        return attempt([&] { return same ? plan.likely : dryer_plan(plan, carry); });
    };
    plan.fast = were_it(plan.carried.fast());
    plan.slow = were_it(plan.carried.slow());
    pack(plan);
    return plan;
}

}  // namespace drysheet
