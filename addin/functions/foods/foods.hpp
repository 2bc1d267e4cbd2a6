// SPDX-License-Identifier: MPL-2.0
// Published composition of foods, and printed isotherms, found by the name people give them.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

namespace drysheet {

/// A line of a composition table, as mass fractions of the edible part.
struct Food {
    std::string_view name, source;
    double moisture = 0, protein = 0, fat = 0, carbohydrate = 0, fibre = 0,
           ash = 0;  ///< carbohydrate without the fibre
    std::optional<double> sugars;
    std::optional<double> moisture_sd;  ///< between the regions sampled, where the source prints one
};

/// An isotherm as printed: the model's name, its parameters in order, and the temperature to use it at.
struct PrintedIsotherm {
    std::string_view model, source;
    std::vector<double> parameters;
    double celsius = 0;
};

struct FoundFoods {
    std::vector<const Food*> lines;  ///< one or more
    const PrintedIsotherm* isotherm = nullptr;
};

/// The lines that a name stands for: in English, German, French or Spanish, without case, plural or order of
/// the words. Fresh unless the name says dried, powder or the like in one of these languages; canned, salted,
/// sweetened and the like only where the name says so. Errors: NoResultInWords(arg::food), which lists what
/// is near or meant, for a name that stands for no line or for lines that are not one food. Source: the
/// tables of functions/foods, whose first lines say where they come from.
FoundFoods find_foods(std::string_view name);

/// The foods of which an isotherm is printed here, by commas.
std::string_view foods_with_isotherm();

}  // namespace drysheet
