// SPDX-License-Identifier: MPL-2.0
// Every function of the sheet: the topics and the functions about functions, joined.
#include <algorithm>
#include <string>
#include <unordered_map>

#include "addin/call/lookup.hpp"
#include "addin/call/trust.hpp"
#include "addin/functions/topics.hpp"
#include "addin/text/words.hpp"

namespace drysheet {
namespace {

std::string bare_upper(std::string_view name) {
    std::string upper(name);
    std::transform(upper.begin(), upper.end(), upper.begin(),
                   [](char c) { return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c; });
    return upper.starts_with("DRY.") ? upper.substr(4) : upper;
}

}  // namespace

const std::vector<Function>& functions() {
    static const std::vector<Function> all = [] {
        std::vector<Function> joined;
        // clang-format off
        for (auto* topic : {
                 &moisture_entries,
                 &yield_entries,
                 &air_entries,
                 &dryer_air_entries,
                 &sorption_entries,
                 &curve_entries,
                 &kinetics_entries,
                 &trayrun_entries,
                 &powder_entries,
                 &package_entries,
                 &quality_entries,
                 &energy_entries,
                 &scaleup_entries,
                 &scaleplan_entries,
                 &trust_entries,
             })  // clang-format on
            for (Function& entry : topic()) joined.push_back(std::move(entry));
        return joined;
    }();
    return all;
}

const Function* find_function(std::string_view name) {
    static const std::unordered_map<std::string_view, const Function*> by_name = [] {
        std::unordered_map<std::string_view, const Function*> map;
        for (const Function& function : functions()) map.emplace(function.name, &function);
        return map;
    }();
    const auto found = by_name.find(bare_upper(name));
    return found == by_name.end() ? nullptr : found->second;
}

std::optional<std::string_view> probably_meant(std::string_view name) {
    const std::string wanted = bare_upper(name);
    const auto distance = [&](const Function& function) { return edits(wanted, function.name); };
    const Function& nearest = *std::ranges::min_element(functions(), {}, distance);
    if (2 * distance(nearest) >= wanted.size()) return std::nullopt;
    return nearest.name;
}

std::string usage(const Function& function) {
    std::string text = "DRY." + std::string(function.name) + "(";
    for (std::size_t i = 0; i < function.params.size(); ++i) {
        const Parameter& param = function.params[i];
        if (i > 0) text += "; ";
        if (param.may_be_missing) text += "[";
        text += param.name;
        if (param.shape == Shape::column || param.shape == Shape::names)
            text += param.repeats ? "" : " range";
        if (param.shape == Shape::table) text += " table";
        if (param.repeats) text += "; …";
        if (param.may_be_missing) text += "]";
    }
    return text + ")";
}

}  // namespace drysheet
