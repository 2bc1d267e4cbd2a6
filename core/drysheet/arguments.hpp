// SPDX-License-Identifier: MPL-2.0
// The names of the arguments that the core refuses by, each said once for core and sheet.
#pragma once

#include <string_view>

namespace drysheet::arg {

inline constexpr std::string_view activities = "activities";
inline constexpr std::string_view activity = "activity";
inline constexpr std::string_view activity1 = "activity1";
inline constexpr std::string_view activity2 = "activity2";
inline constexpr std::string_view altitude = "altitude";
inline constexpr std::string_view area = "area";
inline constexpr std::string_view bulk = "bulk";
inline constexpr std::string_view capacity = "capacity";
inline constexpr std::string_view confidence = "confidence";
inline constexpr std::string_view content = "content";
inline constexpr std::string_view critical = "critical";
inline constexpr std::string_view critical_db = "critical_db";
inline constexpr std::string_view days = "days";
inline constexpr std::string_view dewpoint = "dewpoint";
inline constexpr std::string_view diffusivity = "diffusivity";
inline constexpr std::string_view dish_dry = "dish_dry";
inline constexpr std::string_view dish_wet = "dish_wet";
inline constexpr std::string_view dried = "dried";
inline constexpr std::string_view dryer_temp = "dryer_temp";
inline constexpr std::string_view drying_ratio = "drying_ratio";
inline constexpr std::string_view drying_time = "drying_time";
inline constexpr std::string_view end_db = "end_db";
inline constexpr std::string_view energy = "energy";
inline constexpr std::string_view equilibrium = "equilibrium";
inline constexpr std::string_view equilibrium_db = "equilibrium_db";
inline constexpr std::string_view exit_rh = "exit_rh";
inline constexpr std::string_view feed_temp = "feed_temp";
inline constexpr std::string_view final = "final";
inline constexpr std::string_view flow = "flow";
inline constexpr std::string_view flow1 = "flow1";
inline constexpr std::string_view flow2 = "flow2";
inline constexpr std::string_view food = "food";
inline constexpr std::string_view fourier = "fourier";
inline constexpr std::string_view fresh = "fresh";
inline constexpr std::string_view heated = "heated";
inline constexpr std::string_view hours_per_day = "hours_per_day";
inline constexpr std::string_view in = "in";
inline constexpr std::string_view k = "k";
inline constexpr std::string_view kept = "kept";
inline constexpr std::string_view L1 = "L1";
inline constexpr std::string_view L2 = "L2";
inline constexpr std::string_view left = "left";
inline constexpr std::string_view limit_db = "limit_db";
inline constexpr std::string_view load = "load";
inline constexpr std::string_view loss = "loss";
inline constexpr std::string_view mass = "mass";
inline constexpr std::string_view mass_after = "mass_after";
inline constexpr std::string_view masses = "masses";
inline constexpr std::string_view model = "model";
inline constexpr std::string_view moisture_b = "moisture_b";
inline constexpr std::string_view moisture_db = "moisture_db";
inline constexpr std::string_view moistures = "moistures";
inline constexpr std::string_view new_thickness = "new_thickness";
inline constexpr std::string_view openings = "openings";
inline constexpr std::string_view order = "order";
inline constexpr std::string_view out = "out";
inline constexpr std::string_view outs = "outs";
inline constexpr std::string_view parameters = "parameters";
inline constexpr std::string_view passing = "passing";
inline constexpr std::string_view per_batch = "per_batch";
inline constexpr std::string_view permeance = "permeance";
inline constexpr std::string_view pickup = "pickup";
inline constexpr std::string_view prepared = "prepared";
inline constexpr std::string_view pressure = "pressure";
inline constexpr std::string_view range = "range";
inline constexpr std::string_view rate = "rate";
inline constexpr std::string_view rate_temp = "rate_temp";
inline constexpr std::string_view ratio = "ratio";
inline constexpr std::string_view ratios = "ratios";
inline constexpr std::string_view raw = "raw";
inline constexpr std::string_view rehydrated = "rehydrated";
inline constexpr std::string_view rh = "rh";
inline constexpr std::string_view rh_in = "rh_in";
inline constexpr std::string_view shares = "shares";
inline constexpr std::string_view sides = "sides";
inline constexpr std::string_view solids = "solids";
inline constexpr std::string_view speed = "speed";
inline constexpr std::string_view start = "start";
inline constexpr std::string_view steps = "steps";
inline constexpr std::string_view store_temp = "store_temp";
inline constexpr std::string_view tapped = "tapped";
inline constexpr std::string_view target = "target";
inline constexpr std::string_view temp = "temp";
inline constexpr std::string_view temp2 = "temp2";
inline constexpr std::string_view temps = "temps";
inline constexpr std::string_view test_dried = "test_dried";
inline constexpr std::string_view test_fresh = "test_fresh";
inline constexpr std::string_view tg_carrier = "tg_carrier";
inline constexpr std::string_view tg_solids = "tg_solids";
inline constexpr std::string_view tg_water = "tg_water";
inline constexpr std::string_view thickness = "thickness";
inline constexpr std::string_view time = "time";
inline constexpr std::string_view times = "times";
inline constexpr std::string_view tray = "tray";
inline constexpr std::string_view tray_area = "tray_area";
inline constexpr std::string_view trays = "trays";
inline constexpr std::string_view turnaround = "turnaround";
inline constexpr std::string_view u_fresh = "u_fresh";
inline constexpr std::string_view u_in = "u_in";
inline constexpr std::string_view u_outs = "u_outs";
inline constexpr std::string_view values = "values";
inline constexpr std::string_view wanted = "wanted";
inline constexpr std::string_view water = "water";
inline constexpr std::string_view wetbulb = "wetbulb";
inline constexpr std::string_view what = "what";
inline constexpr std::string_view whole = "whole";
inline constexpr std::string_view yield = "yield";

// rows of a table argument
namespace row {
inline constexpr std::string_view drying_time = "drying time";
inline constexpr std::string_view energy_of_batch = "energy of a batch";
inline constexpr std::string_view exit_rh = "exit rh";
inline constexpr std::string_view fan_efficiency = "fan efficiency";
inline constexpr std::string_view final_moisture = "final moisture";
inline constexpr std::string_view hours_a_day = "hours a day";
inline constexpr std::string_view isotherm = "isotherm";
inline constexpr std::string_view isotherm_parameters = "isotherm parameters";
inline constexpr std::string_view keeping_time = "keeping time";
inline constexpr std::string_view limit_moisture = "limit moisture";
inline constexpr std::string_view new_temp = "new temp";
inline constexpr std::string_view new_thickness = "new thickness";
inline constexpr std::string_view pack_area = "pack area";
inline constexpr std::string_view pack_mass = "pack mass";
inline constexpr std::string_view room_rh = "room rh";
inline constexpr std::string_view room_temp = "room temp";
inline constexpr std::string_view start_moisture = "start moisture";
inline constexpr std::string_view store_rh = "store rh";
inline constexpr std::string_view store_temp = "store temp";
inline constexpr std::string_view target_moisture = "target moisture";
inline constexpr std::string_view test_temp = "test temp";
inline constexpr std::string_view tray_area = "tray area";
inline constexpr std::string_view tray_load = "tray load";
inline constexpr std::string_view tray_size = "tray size";
inline constexpr std::string_view trays_in_a_row = "trays in a row";
}  // namespace row

}  // namespace drysheet::arg
