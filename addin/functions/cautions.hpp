// SPDX-License-Identifier: MPL-2.0
// What is said beside a result that people act on: the same words wherever they belong.
#pragma once

#include <string_view>

namespace drysheet {

/// Where drying is stopped or its end is worked out.
inline constexpr std::string_view kDryEnough =
    "Dry enough means here: down to the moisture that you set. Slow or cool drying lets things grow, and "
    "drying kills "
    "nothing: only a measured water activity and the local food authority decide whether a food may be kept.";

/// Where a moisture is all that is known.
inline constexpr std::string_view kNoKeeping =
    "A moisture says nothing of keeping: only a measured water activity and the local food authority decide "
    "that.";

/// Where heat and air of a dryer are laid out.
inline constexpr std::string_view kHeater =
    "Heaters, fans and their wiring are for licensed people under the local code; air, trays and walls near "
    "them burn.";

/// Where a dry powder is handled.
inline constexpr std::string_view kDust =
    "Dust of dry food burns, and a cloud of it can explode: mill, sieve and fill with little dust, without "
    "sparks, and "
    "away from heaters.";

}  // namespace drysheet
