// SPDX-License-Identifier: MPL-2.0
// From one tray to many: loads, counts and the output of a day.
#pragma once

#include "drysheet/quantity.hpp"

namespace drysheet {

/// Mass on a tray per area. mass / area
/// Throws BadInput: area of 0.
/// Source: definition.
ArealLoad tray_load(Mass mass, Area area);

/// Number of trays, rounded up. ⌈mass / (load · tray_area)⌉
/// mass: of prepared material; load: mass per area, as tray_load gives; tray_area: of one tray.
/// Throws BadInput: load or tray_area of 0.
/// Source: definition.
double trays_for(Mass mass, ArealLoad load, Area tray_area);

/// Number of batches, rounded up. ⌈target / per_batch⌉
/// Throws BadInput: per_batch of 0.
/// Source: definition.
double batches_for(Mass target, Mass per_batch);

/// Output of a working day in whole batches. ⌊hours_per_day / (drying_time + turnaround)⌋ · per_batch
/// per_batch: dried mass of one batch; drying_time: in the dryer; turnaround: emptying, cleaning, filling;
/// hours_per_day: working hours of a day.
/// Range: at most 24 h a day.
/// Throws BadInput: no drying time, more than 24 h a day, a day shorter than one batch.
/// Source: definition.
MassFlow daily_output(Mass per_batch, Time drying_time, Time turnaround, Time hours_per_day);

}  // namespace drysheet
