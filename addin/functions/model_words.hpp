// SPDX-License-Identifier: MPL-2.0
// Workings and printed formulas of curves and isotherms, out of the texts that each model has in the core.
#pragma once

#include <initializer_list>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace drysheet {

/// "Xm, C, K"
inline std::string joined(std::span<const std::string_view> names) {
    std::string all;
    for (const auto name : names) all.append(all.empty() ? "" : ", ").append(name);
    return all;
}

/// The lines of a working behind the cells of `parameters` under the model's names for them.
inline std::string with_parameters(std::span<const std::string_view> names, std::string_view lines) {
    return joined(names) + " ← parameters\n" + std::string(lines);
}

/// A formula as it is printed: the lines of a working side by side, arguments by their symbols, factors
/// without a sign: "a × exp(−k × time)" is "a exp(−k t)".
inline std::string printed(std::string_view lines,
                           std::initializer_list<std::pair<std::string_view, std::string_view>> symbols) {
    std::string text(lines);
    const auto replace = [&text](std::string_view from, std::string_view to) {
        for (auto at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size()))
            text.replace(at, from.size(), to);
    };
    for (const auto& [from, to] : symbols) replace(from, to);
    replace("\n", "; ");
    replace(" × ", " ");
    replace(" ÷ ", "/");
    return text;
}

/// Texts that live as long as the entries that look at them: one a model, made by `text`.
template <class Models, class Text>
const std::vector<std::string>& for_each_model(const Models& models, Text text) {
    static const std::vector<std::string> all = [&] {
        std::vector<std::string> made;
        for (const auto& model : models) made.push_back(text(model));
        return made;
    }();
    return all;
}

}  // namespace drysheet
