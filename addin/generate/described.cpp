// SPDX-License-Identifier: MPL-2.0
#include "addin/generate/described.hpp"

#include <cmath>

#include "addin/call/call.hpp"
#include "addin/text/words.hpp"

namespace drysheet {
namespace {

Reading reading_in(const Texts& texts) { return {.decimal_comma = texts.decimal_comma()}; }

std::string bounds_in_words(const Parameter& param, const Texts& texts) {
    const Limits& range = param.range;
    const Reading reading = reading_in(texts);
    const std::string low = in_words(range.low, 6, reading), high = in_words(range.high, 6, reading);
    const bool has_low = std::isfinite(range.low), has_high = std::isfinite(range.high);
    if (has_low && has_high)
        return texts.word(range.low_open ? (range.high_open ? "above {} to below {}" : "above {} to {}")
                                         : (range.high_open ? "{} to below {}" : "{} to {}"),
                          {low, high});
    if (has_low) return texts.word(range.low_open ? "above {}" : "at least {}", {low});
    if (has_high) return texts.word(range.high_open ? "below {}" : "at most {}", {high});
    return {};
}

std::string unit_in_words(const Function& function, const Parameter& param, const Texts& texts) {
    if (param.shape == Shape::choice) {
        std::string names;
        for (const auto choice : param.choices)
            names.append(names.empty() ? "" : ", ").append("\"").append(choice).append("\"");
        return names;
    }
    if (param.shape == Shape::names || param.shape == Shape::text || param.shape == Shape::anything ||
        param.shape == Shape::table)
        return {};
    switch (param.kind) {
        case Kind::mass:
            return texts.word(function.mass_in_a_unit == kAlways
                                  ? "with its unit, as in \"1.2 kg\""
                                  : "any one unit, the same throughout the call");
        case Kind::moisture_wet:
            return texts.word("fraction, wet basis");
        case Kind::moisture_dry:
            return texts.word("kg/kg, dry basis");
        case Kind::relative_humidity:
            return texts.word("fraction 0 to 1");
        case Kind::water_activity:
            return texts.word("0 to 1");
        case Kind::humidity_ratio:
            return texts.word("kg/kg dry air");
        default:
            return std::string(param.shown_unit);
    }
}

bool gives_a_table(const Function& function) {
    return !function.scalar && !function.checks.empty() &&
           std::holds_alternative<Table>(evaluate(function, function.checks.front().given, {}));
}

// As the office reads it when typed in a language's locale: there the decimal sign rules what parts the
// columns of an array, and ; parts arguments and rows everywhere.
std::string as_argument(const Input& input, const Reading& reading) {
    switch (input.form) {
        case Input::Form::missing:
            return "";
        case Input::Form::number:
            return in_words(input.number, 10, reading);
        case Input::Form::text:
            return "\"" + formula_in_words(input.text, reading) + "\"";
        case Input::Form::grid:
            break;
    }
    std::string text = "{";
    for (std::size_t i = 0; i < input.cells.size(); ++i) {
        if (i > 0) text += i % input.columns == 0 ? ";" : reading.decimal_comma ? "." : ",";
        text += as_argument(input.cells[i], reading);
    }
    return text + "}";
}

}  // namespace

std::string example(const Function& function, const Texts& texts) {
    std::string call = "DRY." + std::string(function.name) + "(";
    if (!function.checks.empty())
        for (const Input& input : function.checks.front().given)
            call += (&input == &function.checks.front().given.front() ? "" : "; ") +
                    as_argument(input, reading_in(texts));
    return call + ")";
}

std::string key_of(const Function& function, const Parameter& param) {
    return std::string(function.name) + "." + std::string(param.name);
}

std::optional<std::string> described(const Function& function, const Parameter& param, const Texts& texts) {
    auto text = texts.of(key_of(function, param), param.text);
    if (!text) return {};
    const Reading reading = reading_in(texts);
    *text = formula_in_words(*text, reading);
    const std::string unit = unit_in_words(function, param, texts);
    if (!unit.empty()) *text += " (" + unit + ")";
    if (const std::string allowed = bounds_in_words(param, texts); !allowed.empty()) *text += "; " + allowed;
    if (param.otherwise)
        *text +=
            "; " + texts.word("left out: {}", {in_words(*param.otherwise, param.shown_unit, 6, reading)});
    else if (param.may_be_missing)
        *text += "; " + texts.word("may be left out");
    else  // said first, since the wizard calls every argument optional
        *text = texts.word("must be given: {}", {*text});
    return text;
}

std::optional<std::string> described(const Function& function, const Texts& texts) {
    auto text = texts.of(function.name, function.summary);
    if (!text) return {};
    if (!function.result_unit.empty()) *text += texts.word(", in {}", {function.result_unit});
    *text += ".";
    if (gives_a_table(function))
        *text += " " +
                 texts.word("A table: enter it over a range; where its rows have names, DRY.PICK reads one.");
    if (!function.caution.empty())
        *text += " " + texts.text(std::string(function.name) + ".caution", function.caution);
    return formula_in_words(*text, reading_in(texts));
}

std::string described(const Function& function) { return *described(function, Texts{}); }
std::string described(const Function& function, const Parameter& param) {
    return *described(function, param, Texts{});
}

}  // namespace drysheet
