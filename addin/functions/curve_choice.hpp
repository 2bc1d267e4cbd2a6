// SPDX-License-Identifier: MPL-2.0
// The drying curves by name, for the topics that take one.
#pragma once

#include <vector>

#include "addin/functions/function.hpp"
#include "drysheet/kinetics.hpp"

namespace drysheet {

template <>
struct ChoiceOf<CurveModel> {
    static std::vector<std::string_view> names() {
        std::vector<std::string_view> all;
        for (const CurveModelInfo& model : curve_models()) all.push_back(model.name);
        return all;
    }
};

}  // namespace drysheet
