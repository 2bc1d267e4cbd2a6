// SPDX-License-Identifier: MPL-2.0
// Dried powders: stickiness by the glass transition, flow by bulk and tapped density, size by sieving.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

#include "drysheet/quantity.hpp"

namespace drysheet {

/// Glass transition of amorphous water: the usual constant of Gordon–Taylor fits to sugars and dried fruit.
inline const Temperature kGlassTransitionOfWater = from_si<Temperature>(273.15 - 135);

/// Glass transition temperature of moist solids.
/// Tg = (w1 Tg1 + k w2 Tg2) / (w1 + k w2), w1 solids, w2 water as mass fractions
/// moisture: wet basis; tg_solids: Tg of the dry solids; k: Gordon–Taylor constant; tg_water: Tg of water.
/// Range: k above 0, tg_water below tg_solids.
/// Throws BadInput: k not above 0, tg_water not below tg_solids.
/// Source: Gordon & Taylor (1952) J. Appl. Chem. 2:493; for sugars Roos (1993) Carbohydr. Res. 238:39.
Temperature glass_point(MoistureWet moisture, Temperature tg_solids, double k,
                        Temperature tg_water = kGlassTransitionOfWater);

/// Moisture at which the glass transition lies `margin` above the store: the inverse of glass_point.
/// w2 = (Tg1 − T) / ((Tg1 − T) + k (T − Tg2)), T = store_temp + margin
/// store_temp: of the store; margin: how far Tg must stay above it (a sticky point so many kelvin above Tg
/// is a negative margin); the rest as in glass_point.
/// Range and source: as glass_point.
/// Throws BadInput: as glass_point, and a store where even the dry solids would be sticky, or so cold that
/// no moisture is.
MoistureWet caking_moisture(Temperature store_temp, Temperature tg_solids, double k,
                            TemperatureDifference margin = {},
                            Temperature tg_water = kGlassTransitionOfWater);

/// Dry solids by their glass-forming parts, as mass shares; what is not given is not there.
struct DrySolids {
    std::optional<Fraction> fructose, glucose, sucrose, maltose, trehalose, sorbitol, citric_acid,
        maltodextrin_de36, maltodextrin_de20, maltodextrin_de10, maltodextrin_de5, starch;
};

/// Glass transition and step of the heat capacity there of a part, as published.
struct GlassFormer {
    std::optional<Fraction> DrySolids::*share;
    double celsius;
    double step;  ///< J/(g K)
};
std::span<const GlassFormer> glass_formers();

/// Glass transition temperature of dry solids from their parts.
/// ln Tg = Σ w ΔCp ln Tg_i / Σ w ΔCp, in kelvin
/// shares: mass shares of the parts, summing to 1 within 0.01.
/// Errors: BadInput(arg::shares) with another sum.
/// Source: Couchman & Karasz (1978) Macromolecules 11:117, eq. for ln Tg; parts: see glass_formers().
Temperature solids_glass_point(const DrySolids& shares);

/// Share of a carrier, of all dry solids, that keeps a powder `margin` below its glass transition in the
/// store. the dry mixture must have Tg = T + k w2/w1 (T − Tg_water), T = store_temp + margin, by
/// Gordon–Taylor, and has 1/Tg = (1 − c)/Tg_solids + c/Tg_carrier; c is 0 where it needs none tg_solids,
/// tg_carrier: of both when dry; store_temp; moisture: of the powder, wet basis; margin; k: Gordon–Taylor
/// constant of the mixture with water; left out, 0.0293 Tg/°C + 3.61.
/// Errors: BadInput(arg::k) unless above 0; BadInput(arg::tg_carrier) where no share helps.
/// Source: Gordon & Taylor (1952); k by Roos (1993) Carbohydr. Res. 238:39; mixture: Fox (1956) Bull. Am.
/// Phys. Soc. 1:123.
Fraction carrier_share(Temperature tg_solids, Temperature tg_carrier, Temperature store_temp,
                       MoistureWet moisture, TemperatureDifference margin, std::optional<double> k = {});

/// Hausner ratio. tapped / bulk
/// bulk: untapped bulk density; tapped: tapped density.
/// Throws BadInput: bulk of 0, tapped below bulk.
/// Source: Hausner (1967) Int. J. Powder Metall. 3:7; USP <1174>.
double hausner_ratio(Density bulk, Density tapped);

/// Compressibility index of Carr. (tapped − bulk) / tapped
/// Parameters and errors as hausner_ratio.
/// Source: Carr (1965) Chem. Eng. 72:163; USP <1174>.
Fraction carr_index(Density bulk, Density tapped);

/// The pharmacopoeia's scale of flowability.
enum class FlowClass : std::uint8_t { excellent, good, fair, passable, poor, very_poor, very_very_poor };
struct FlowClassInfo {
    std::string_view name;
    double up_to;  ///< highest compressibility index of the class, %
};
std::span<const FlowClassInfo> flow_classes();
const FlowClassInfo& info(FlowClass flow);

/// Flow class of a compressibility index. The scale is printed in whole percent ("≤ 10", "11–15", …); here a
/// class reaches up to and including its printed upper limit, and what lies in a gap (10.5 %) belongs to the
/// worse class.
/// carr: compressibility index.
/// Range: 0 to 1. Errors: none.
/// Source: USP <1174> Powder Flow, Table 2.
FlowClass flow_class(Fraction carr);

struct SieveMean {
    Length mean;       ///< geometric mean diameter by mass, dgw
    double deviation;  ///< geometric standard deviation, the factor 10^Slog; not the standard's Sgw, a length
    Fraction in_pan, on_top;  ///< shares of the mass that no sieve divides
};

/// The most that may lie in the pan, and on the largest sieve, for a mean and a deviation: measures of a
/// sieving begin at its 5th and end at its 95th percentile.
/// Source: Folk & Ward (1957) J. Sediment. Petrol. 27:3-26, inclusive measures; S319 itself sets no limit.
inline constexpr double kMostUndivided = 0.05;

/// Sieve statistics of ground feed. log dgw = Σ W log d / Σ W; Slog = √(Σ W (log d − log dgw)² / Σ W), d =
/// √(opening · next larger opening) openings: of the sieves in any order, 0 for the pan; masses: retained on
/// each. The class on the largest sieve has no upper end and the pan no lower end: both are taken as one step
/// of √2, the step of the standard's own sieve set, and neither may hold more than kMostUndivided. Range: at
/// least one sieve besides the pan, all openings different. Errors: BadInput: lengths differ, a negative or
/// repeated opening, no sieve, nothing retained. OutOfRange(arg::masses): more than kMostUndivided in the pan
/// or on the largest sieve. Source: ANSI/ASAE S319, Method of Determining and Expressing Fineness of Feed
/// Materials by Sieving.
SieveMean sieve_mean(std::span<const Length> openings, std::span<const Mass> masses);

/// Size below which a fraction of the mass lies, linear in the logarithm of the size between two sieves.
/// openings, masses: as sieve_mean; passing: the fraction wanted. Of several sieves that pass just that, the
/// smallest.
/// Range: between the fractions that pass the finest and the largest sieve.
/// Errors: BadInput: as sieve_mean; OutOfRange: passing is outside what the sieves tell.
/// Source: cumulative curve on a logarithmic size axis, common practice.
Length sieve_size(std::span<const Length> openings, std::span<const Mass> masses, Fraction passing);

/// The two sieves between which sieve_size lies, and what passes them; twice the same sieve where that is it.
struct SieveInterval {
    Length finer, coarser;
    double finer_passes, coarser_passes;
};
/// Arguments, range and errors: as sieve_size.
SieveInterval sieve_interval(std::span<const Length> openings, std::span<const Mass> masses,
                             Fraction passing);

}  // namespace drysheet
