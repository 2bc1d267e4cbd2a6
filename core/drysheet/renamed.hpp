// SPDX-License-Identifier: MPL-2.0
// A refusal under the caller's own name for the argument.
#pragma once

#include <algorithm>
#include <initializer_list>
#include <string_view>

#include "drysheet/error.hpp"

namespace drysheet {

struct Rename {
    std::string_view from, to;
};

/// Calls `call`; what it refuses of the arguments in `names` is refused under their new names.
template <class Call>
auto renamed(std::initializer_list<Rename> names, Call call) {
    try {
        return call();
    } catch (NoResult& refusal) {
        const auto* rename = std::ranges::find(names, refusal.argument(), &Rename::from);
        if (rename != names.end()) refusal.rename(rename->to);
        throw;
    }
}

}  // namespace drysheet
