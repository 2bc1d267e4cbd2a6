// SPDX-License-Identifier: MPL-2.0
#include "drysheet/package.hpp"

#include "addin/functions/isotherm_choice.hpp"
#include "addin/functions/topics.hpp"

namespace drysheet {
namespace {

constexpr std::string_view kUptake =
    "Labuza, Mizrahi & Karel (1972) Trans. ASAE 15:150, uptake through the film integrated along the "
    "isotherm; film the only resistance, food and air in the pack at equilibrium, constant store.";
constexpr std::string_view kPermeance =
    "ASTM E96: permeance is transmission over the difference of vapour pressure.";
constexpr std::string_view kCaution =
    "A calculated estimate for planning: seals, pinholes, folds and a warmer store shorten it. Only a "
    "storage test with measured water activity and the local food authority decide how long a product may be "
    "kept.";

constexpr Param kSolids{arg::solids, "dry solids in the pack", positive};
constexpr Param kStart{.name = "start_db", .text = "moisture at packing, dry basis"};
constexpr Param kLimit{arg::limit_db, "highest moisture allowed, dry basis, from a measured water activity"};
constexpr Param kModel{arg::model, "name of the isotherm; DRY.SORPTIONMODELS lists them"};
constexpr Param kParameters{
    .name = arg::parameters, .text = "its parameters in the order of DRY.SORPTIONMODELS", .alone = true};
constexpr Param kArea{arg::area, "area of the film, both sides of a pouch", positive};
constexpr Param kFilm{arg::permeance, "permeance of the film, as DRY.PERMEANCE gives it", positive};
constexpr Param kTemp{arg::temp, "temperature of the store"};
constexpr Param kRh{arg::rh, "relative humidity of the store"};

}  // namespace

std::vector<Function> package_entries() {
    constexpr std::string_view topic = "package";
    // Straight isotherm X = 0.1 aw, as a Peleg pair of exponents 1.
    const Input straight = column(0.04, 1.0, 0.06, 1.0), gab = column(0.1, 10.0, 0.8);
    return {
        function<film_permeance>(
            {.name = "PERMEANCE",
             .topic = topic,
             .summary = "Permeance of a film from its rated water vapour transmission",
             .params = {{{.name = "wvtr",
                          .text = "rated transmission, dry air behind the film",
                          .range = at_least(0),
                          .unit = "g/(m²·day)"},
                         {arg::temp, "temperature of the rating"},
                         {arg::rh, "relative humidity of the rating", above_up_to(0, 1)}}},
             .result = "film",
             .source = kPermeance,
             .working = "ps [kPa] = SATPRESSURE(temp)\n"
                        "film = wvtr ÷ (rh × ps)",
             .checks =
                 {{{5.0, 38.0, 0.9}, 0.83766, 5e-4, "by hand: 5 ÷ (0.9 × 6.632 kPa of the steam tables)"},
                  {{"5 g/(m²·day)", 20.0, 1.0}, 2.1374, 2e-4, "by hand: 5 ÷ 2.3393 kPa of the steam tables"}},
             .refusals = {{{5.0, 38.0, 0.0}, "rh"}, {{5.0, 38.0, 90.0}, "rh"}, {{"5 g", 38.0, 0.9}, "wvtr"}},
             .see_also = {"SHELFDAYS", "BARRIERFOR"},
             .slips = {{"the humidity of the test was left out", "wvtr ÷ SATPRESSURE(temp)"},
                       {"the saturation pressure was left out", "wvtr ÷ rh"}}}),
        function<shelf_time>(
            {.name = "SHELFDAYS",
             .topic = topic,
             .summary = "Days until packed food has taken up moisture to a limit",
             .mass_in_a_unit = kAlways,
             .params = {{kSolids, kStart, kLimit, kModel, kParameters, kArea, kFilm, kTemp, kRh}},
             .result = "time",
             .unit = "day",
             .range = "The water activity at the limit must lie below the humidity of the store.",
             .source = kUptake,
             .caution = kCaution,
             .working = "ps [kPa] = SATPRESSURE(temp)\n"
                        "uptake ~ itself × permeance × area × ps ÷ (1000 × solids) : ∫ dX ÷ (rh − aw(X)), X "
                        "from start_db "
                        "to limit_db, aw(X) the isotherm, taken numerically\n"
                        "time [day] = 1000 × solids × uptake ÷ (permeance × area × ps)",
             .checks = {{{"100 g", 0.02, 0.05, "Peleg", straight, 0.05, 1.2, 25.0, 0.8},
                         36.45,
                         5e-4,
                         "by hand: ln 2 × 100 × 0.1 ÷ (1.2 × 0.05 × 3.1698 kPa), closed form of Labuza et "
                         "al. (1972)"},
                        {{"95 g", 0.05, 0.12, "GAB", gab, 0.06, 1.5, 25.0, 0.75},
                         46.7738501,
                         1e-4,
                         "SciPy 1.10.1: the uptake integrated over time, with iapws 1.5.2"}},
             .refusals = {{{"100 g", 0.05, 0.02, "GAB", gab, 0.05, 1.2, 25.0, 0.8}, "limit_db"},
                          {{"100 g", 0.05, 0.12, "GAB", gab, 0.05, 1.2, 25.0, 0.35}, "limit_db"},
                          {{"100 g", 0.05, 2.0, "GAB", gab, 0.05, 1.2, 25.0, 0.8}, "limit_db"},
                          {{"100 g", 0.05, 0.12, "GAB", gab, 0.0, 1.2, 25.0, 0.8}, "area"},
                          {{"100 g", 0.05, 0.12, "GAB", gab, 0.05, 0.0, 25.0, 0.8}, "permeance"}},
             .see_also = {"BARRIERFOR", "PERMEANCE", "SORPTIONFIT"}}),
        function<barrier_for>(
            {.name = "BARRIERFOR",
             .topic = topic,
             .summary = "The most a film may pass so that packed food stays below a limit for so many days",
             .mass_in_a_unit = kAlways,
             .params = {{{.name = arg::days, .text = "days to last", .range = positive, .unit = "day"},
                         kSolids,
                         kStart,
                         kLimit,
                         kModel,
                         kParameters,
                         kArea,
                         kTemp,
                         kRh}},
             .result = "most",
             .range = "The water activity at the limit must lie below the humidity of the store.",
             .source = kUptake,
             .caution = kCaution,
             .working = "ps [kPa] = SATPRESSURE(temp)\n"
                        "uptake ~ itself × days × area × ps ÷ (1000 × solids) : ∫ dX ÷ (rh − aw(X)), X from "
                        "start_db to "
                        "limit_db, aw(X) the isotherm, taken numerically\n"
                        "most [g/(m²·day·kPa)] = 1000 × solids × uptake ÷ (days × area × ps)",
             .checks = {{{36.45, "100 g", 0.02, 0.05, "Peleg", straight, 0.05, 25.0, 0.8},
                         1.2,
                         5e-4,
                         "by hand: ln 2 × 100 × 0.1 ÷ (36.45 × 0.05 × 3.1698 kPa)"}},
             .refusals = {{{0.0, "100 g", 0.02, 0.05, "GAB", gab, 0.05, 25.0, 0.8}, "days"},
                          {{30.0, "100 g", 0.05, 0.12, "GAB", gab, 0.05, 25.0, 0.35}, "limit_db"}},
             .see_also = {"SHELFDAYS", "PERMEANCE"}}),
        function<desiccant_mass>(
            {.name = "DESICCANT",
             .topic = topic,
             .summary = "Desiccant that takes up all moisture passing a film",
             .params = {{{.name = arg::days, .text = "days to last", .range = at_least(0), .unit = "day"},
                         kArea,
                         kFilm,
                         kTemp,
                         {"rh_out", "relative humidity of the store"},
                         {arg::rh_in, "relative humidity to be kept in the pack"},
                         {.name = arg::capacity,
                          .text = "water the desiccant takes up at rh_in, g per g of dry desiccant",
                          .range = above_up_to(0, 2),
                          .zero = true}}},
             .result = "desiccant",
             .source = kPermeance,
             .caution =
                 "A calculated estimate: only a storage test with measured water activity and the local food "
                 "authority decide how long a product may be kept. A drying agent is no food: take sachets "
                 "made to be packed with it, and read its data sheet.",
             .working = "ps [kPa] = SATPRESSURE(temp)\n"
                        "desiccant = permeance × area × ps × (rh_out − rh_in) × days ÷ capacity",
             .checks = {{{1.0, 24.0, "2.86e-9 kg/(m²·s·Pa)", 20.0, 0.6, "0", 1.0},
                         8323.6,
                         1e-4,
                         "Çengel & Ghajar, Heat and Mass Transfer, 5th ed., ch. 14 review problem: 2.86e-9 "
                         "× 24 × 0.6 × 2339.2 Pa × 86400 s by hand"},
                        {{100.0, 0.05, 1.2, 25.0, 0.8, 0.3, 0.2},
                         47.547,
                         1e-4,
                         "by hand: 1.2·0.05·3.1698·0.5·100 ÷ 0.2"}},
             .refusals = {{{100.0, 0.05, 1.2, 25.0, 0.3, 0.8, 0.2}, "rh_in"},
                          {{100.0, 0.05, 1.2, 25.0, 0.8, 0.3, 0.0}, "capacity"}},
             .see_also = {"PERMEANCE", "SHELFDAYS"},
             .slips = {{"the humidity inside was left out",
                        "permeance × area × SATPRESSURE(temp) × rh_out × days ÷ capacity"},
                       {"the saturation pressure was left out",
                        "permeance × area × (rh_out − rh_in) × days ÷ capacity"},
                       {"the capacity was multiplied in, not divided by",
                        "permeance × area × SATPRESSURE(temp) × (rh_out − rh_in) × days × capacity"},
                       {"the capacity was left out",
                        "permeance × area × SATPRESSURE(temp) × (rh_out − rh_in) × days"}}}),
    };
}

}  // namespace drysheet
