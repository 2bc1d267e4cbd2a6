// SPDX-License-Identifier: MPL-2.0
// Moisture through a pack: what the film may pass, and how long the food stays below its limit.
#pragma once

#include <span>

#include "drysheet/quantity.hpp"
#include "drysheet/sorption.hpp"

namespace drysheet {

/// Permeance of a film from its rated transmission, measured with dry air behind it. wvtr / (rh · ps(temp))
/// wvtr: mass per area and time; temp, rh: the climate of the rating.
/// Range: rh above 0.
/// Throws BadInput: rh of 0; OutOfRange: temp outside saturation_pressure.
/// Source: ASTM E96 (permeance = transmission over vapour pressure difference).
Permeance film_permeance(MassFlux wvtr, Temperature temp, RelativeHumidity rh);

/// Time for packed food to take up moisture from start to limit through its film.
/// t = ms / (P A ps) ∫ dX / (rh − aw(X)) from start to limit; food and air in the pack at equilibrium, the
/// film the only resistance.
/// solids: dry solids in the pack; start_db, limit_db: moistures; model, parameters: isotherm; area: of the
/// film; permeance: of the film; temp, rh: of the store.
/// Range: as the isotherm; aw(limit_db) below rh.
/// Throws BadInput: limit not above start, a limit that is never reached at rh, no area or permeance; and
/// what the isotherm refuses.
/// Source: Labuza, Mizrahi & Karel (1972) Trans. ASAE 15:150, integrated along the isotherm instead of a
/// straight line.
Time shelf_time(Mass solids, MoistureDry start_db, MoistureDry limit_db, IsothermModel model,
                std::span<const double> parameters, Area area, Permeance permeance, Temperature temp,
                RelativeHumidity rh);

/// The most a film may pass for a shelf life: the inverse of shelf_time in permeance.
/// days: the time to reach limit_db; the rest, errors and source as shelf_time.
Permeance barrier_for(Time days, Mass solids, MoistureDry start_db, MoistureDry limit_db, IsothermModel model,
                      std::span<const double> parameters, Area area, Temperature temp, RelativeHumidity rh);

/// Desiccant that takes up all vapour passing the film. P A ps (rh_out − rh_in) days / capacity
/// days: time to last; area, permeance: of the film; temp, rh_out: of the store; rh_in: kept in the pack;
/// capacity: water taken up per dry mass at rh_in.
/// Range: rh_in below rh_out.
/// Throws BadInput: rh_in not below rh_out, capacity of 0; OutOfRange: temp outside saturation_pressure.
/// Source: permeance × area × vapour pressure difference × time (ASTM E96 definition of permeance).
Mass desiccant_mass(Time days, Area area, Permeance permeance, Temperature temp, RelativeHumidity rh_out,
                    RelativeHumidity rh_in, MoistureDry capacity);

}  // namespace drysheet
