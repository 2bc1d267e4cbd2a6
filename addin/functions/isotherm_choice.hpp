// SPDX-License-Identifier: MPL-2.0
// The isotherms by name, for the topics that take one.
#pragma once

#include <vector>

#include "addin/functions/function.hpp"
#include "drysheet/sorption.hpp"

namespace drysheet {

template <>
struct ChoiceOf<IsothermModel> {
    static std::vector<std::string_view> names() {
        std::vector<std::string_view> all;
        for (const IsothermModelInfo& model : isotherm_models()) all.push_back(model.name);
        return all;
    }
};

}  // namespace drysheet
