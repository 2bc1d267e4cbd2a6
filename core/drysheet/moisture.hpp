// SPDX-License-Identifier: MPL-2.0
// Moisture on the wet and the dry basis, and what an oven test says.
#pragma once

#include "drysheet/quantity.hpp"

namespace drysheet {

/// Moisture on the dry basis from the wet basis.
///   X = w / (1 - w)
/// moisture: w, kg water per kg wet material, 0 to below 1.
/// Source: definition; Geankoplis, Transport Processes and Unit Operations, 3rd ed. (1993), sec. 9.4.
MoistureDry dry_basis(MoistureWet moisture);

/// Moisture on the wet basis from the dry basis.
///   w = X / (1 + X)
/// moisture_db: X, kg water per kg dry solids, 0 or more.
/// Errors: OutOfRange(arg::moisture_db) where so little solids are left that w is 1 in a double (X above
/// 9e15). Source: as dry_basis.
MoistureWet wet_basis(MoistureDry moisture_db);

/// Moisture on the wet basis from an oven test: what the dish lost over what was put in it.
///   w = (m_wet - m_dry) / (m_wet - m_dish)
/// dish: the empty dish. dish_wet: dish and sample before the oven. dish_dry: dish and sample at constant
/// mass. Errors: BadInput(arg::dish_dry) unless dish < dish_dry <= dish_wet; BadInput(arg::dish_wet) unless
/// it is above dish. Source: definition of moisture by loss on drying.
MoistureWet oven_moisture(Mass dish, Mass dish_wet, Mass dish_dry);

/// Dry solids in a mass of material.
///   S = m (1 - w)
/// mass: m, wet material. moisture: w, its moisture on the wet basis.
/// Source: definition of the wet basis.
Mass solids_mass(Mass mass, MoistureWet moisture);

/// Water in a mass of material.
///   W = m w
/// mass: m, wet material. moisture: w, its moisture on the wet basis.
/// Source: definition of the wet basis.
Mass water_mass(Mass mass, MoistureWet moisture);

/// How much of the removable moisture is still there: 1 at the start, 0 at equilibrium.
///   MR = (X - Xe) / (X0 - Xe)
/// moisture_db: X, now. start_db: X0, at time 0. equilibrium_db: Xe, which the air would dry it to; 0 is a
/// common assumption. MR above 1 or below 0 is returned: weighing noise and take-up of water do that. Errors:
/// BadInput(arg::equilibrium_db) unless it is below start_db. Source: definition; Crank, The Mathematics of
/// Diffusion, 2nd ed. (1975), sec. 4.3 (there 1 - MR).
MoistureRatio moisture_ratio(MoistureDry moisture_db, MoistureDry start_db, MoistureDry equilibrium_db);

}  // namespace drysheet
