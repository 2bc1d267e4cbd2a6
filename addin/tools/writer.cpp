// Writes everything that follows from the catalogue: the UNO interface, its registration, the glue, the
// checks for the sheet tests and the function reference. usage: drysheet_catalogue
// idl|xcu|glue|checks|reference
#include <algorithm>
#include <cmath>
#include <functional>
#include <iostream>
#include <map>
#include <sstream>

#include "addin/boundary/evaluate.hpp"
#include "addin/boundary/functions.hpp"
#include "addin/boundary/words.hpp"

namespace drysheet {
namespace {

// The interface language knows no underscore in a lower-case name, and "in" and "out" are words of its own.
std::string idl_name(std::string_view name) {
    if (name == "in" || name == "out") return std::string(name) + "Value";
    std::string camel;
    for (std::size_t i = 0; i < name.size(); ++i) {
        if (name[i] == '_' && i + 1 < name.size()) {
            const char next = name[++i];
            camel += next >= 'a' && next <= 'z' ? static_cast<char>(next - 'a' + 'A') : next;
        } else {
            camel += name[i];
        }
    }
    return camel;
}

// One parameter of a method. A repeated argument that may be a range stands there several times: in an array
// formula the office goes cell by cell through a range that falls on a sequence beyond its first place, and
// gives ranges whole only to parameters with a name.
struct Place {
    std::string name;
    const Parameter& param;
    bool sequence;
};
std::vector<Place> places(const Function& function) {
    constexpr int spread = 12;
    std::vector<Place> all;
    for (const Parameter& param : function.params) {
        const std::string name = idl_name(param.name);
        all.push_back({name, param, param.repeats && !(param.ranges || param.shape == Shape::anything)});
        if (!param.repeats || all.back().sequence) continue;
        for (int i = 2; i <= spread; ++i) all.push_back({name + std::to_string(i), param, false});
        all.push_back({name + "More", param, true});
    }
    return all;
}

std::string escaped_xml(std::string_view text) {
    std::string out;
    for (const char c : text) {
        if (c == '&')
            out += "&amp;";
        else if (c == '<')
            out += "&lt;";
        else if (c == '>')
            out += "&gt;";
        else if (c == '"')
            out += "&quot;";
        else
            out += c;
    }
    return out;
}

std::string escaped_json(std::string_view text) {
    std::string out = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\') out += '\\';
        out += c == '\n' ? ' ' : c;
    }
    return out + "\"";
}

// ---- the wizard's words
// --------------------------------------------------------------------------------------------

std::string bounds_in_words(const Parameter& param) {
    const Limits& range = param.range;
    const bool low = std::isfinite(range.low), high = std::isfinite(range.high);
    if (low && high)
        return (range.low_open ? "above " : "") + in_words(range.low) +
               (range.high_open ? " to below " : " to ") + in_words(range.high);
    if (low) return (range.low_open ? "above " : "at least ") + in_words(range.low);
    if (high) return (range.high_open ? "below " : "at most ") + in_words(range.high);
    return {};
}

std::string unit_in_words(const Function& function, const Parameter& param) {
    if (param.shape == Shape::choice) {
        std::string names;
        for (const auto choice : param.choices)
            names.append(names.empty() ? "" : ", ").append("\"").append(choice).append("\"");
        return names;
    }
    if (param.shape == Shape::names || param.shape == Shape::anything) return {};
    std::string unit(param.shown_unit);
    if (param.kind == Kind::mass)
        unit = function.mixes_mass ? "grams when a plain number" : "g, or any one mass unit throughout";
    if (param.kind == Kind::moisture_wet) unit = "fraction, wet basis";
    if (param.kind == Kind::moisture_dry) unit = "kg/kg, dry basis";
    if (param.kind == Kind::relative_humidity) unit = "fraction 0 to 1";
    if (param.kind == Kind::water_activity) unit = "0 to 1";
    if (param.kind == Kind::humidity_ratio) unit = "kg/kg dry air";
    return unit;
}

std::string described(const Function& function, const Parameter& param) {
    std::string text;
    const std::string unit = unit_in_words(function, param);
    if (function.mixes_mass && param.kind == Kind::mass) {
        text = "In grams when a plain number: " + std::string(param.text);
    } else {
        text = std::string(param.text) + (unit.empty() ? "" : " (" + unit + ")");
    }
    if (const std::string allowed = bounds_in_words(param); !allowed.empty()) text += "; " + allowed;
    if (param.otherwise)
        text += "; left out: " + in_words(*param.otherwise, param.shown_unit);
    else if (param.may_be_missing)
        text += "; may be left out";
    return text;
}

bool gives_a_table(const Function& function) {
    return !function.scalar && !function.checks.empty() &&
           std::holds_alternative<Table>(evaluate(function, function.checks.front().given, {}));
}

std::string described(const Function& function) {
    std::string text(function.summary);
    if (!function.result_unit.empty()) text += ", in " + std::string(function.result_unit);
    text += ".";
    if (gives_a_table(function))
        text += " A table: enter it over a range, or read one row of it with DRY.PICK.";
    if (!function.caution.empty()) text.append(" ").append(function.caution);
    return text;
}

// ---- what is written
// -----------------------------------------------------------------------------------------------

// The interface, in the order of the alphabet: a new function is one new line wherever its entry stands.
std::vector<const Function*> by_name() {
    std::vector<const Function*> sorted;
    for (const Function& function : functions()) sorted.push_back(&function);
    std::sort(sorted.begin(), sorted.end(), [](auto* a, auto* b) { return a->name < b->name; });
    return sorted;
}

void write_idl() {
    std::cout << "// The interface that workbooks rely on, written from the catalogue (target update-idl) "
                 "and held equal by a test.\n"
                 "// A changed or vanished line breaks existing workbooks; lines may be added.\n"
                 "module org { module drysheet {\n"
                 "interface XSheetFunctions : com::sun::star::uno::XInterface\n{\n";
    for (const Function* function : by_name()) {
        std::cout << "    any " << function->name << "(";
        const char* separator = "";
        for (const Place& place : places(*function)) {
            std::cout << separator << "[in] " << (place.sequence ? "sequence<any> " : "any ") << place.name;
            separator = ", ";
        }
        std::cout << ")\n        raises (com::sun::star::lang::IllegalArgumentException, "
                     "com::sun::star::sheet::NoConvergenceException);\n";
    }
    std::cout << "};\n}; };\n";
}

void write_xcu() {
    std::cout << R"(<?xml version="1.0" encoding="UTF-8"?>
<oor:component-data xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema" oor:name="CalcAddIns" oor:package="org.openoffice.Office">
<node oor:name="AddInInfo">
<node oor:name="dry" oor:op="replace">
<node oor:name="AddInFunctions">
)";
    const auto text = [](std::string_view name, std::string_view value) {
        std::cout << "<prop oor:name=\"" << name << "\"><value xml:lang=\"en\">" << escaped_xml(value)
                  << "</value></prop>\n";
    };
    for (const Function& function : functions()) {
        const std::string shown_name = "DRY." + std::string(function.name);
        std::cout << "<node oor:name=\"" << function.name << "\" oor:op=\"replace\">\n";
        text("DisplayName", shown_name);
        text("Description", described(function));
        std::cout << "<prop oor:name=\"Category\"><value>Add-In</value></prop>\n";
        text("CompatibilityName", shown_name);
        std::cout << "<node oor:name=\"Parameters\">\n";
        for (const Place& place : places(function)) {  // found by the interface's own parameter names
            std::cout << "<node oor:name=\"" << place.name << "\" oor:op=\"replace\">\n";
            text("DisplayName", place.param.name);
            text("Description", described(function, place.param));
            std::cout << "</node>\n";
        }
        std::cout << "</node>\n</node>\n";
    }
    std::cout << "</node>\n</node>\n</node>\n</oor:component-data>\n";
}

void write_glue() {
    std::cout << "// Written from the catalogue. Included inside the component's class.\n";
    for (const Function* function : by_name()) {
        std::cout << "Any SAL_CALL " << function->name << "(";
        std::string all;
        std::size_t number = 0;
        for (const Place& place : places(*function)) {
            const std::string argument = "a" + std::to_string(number);
            std::cout << (number++ == 0 ? "" : ", ")
                      << (place.sequence ? "const Sequence<Any>& " : "const Any& ") << argument;
            all.append(", ").append(argument);
        }
        const auto index = function - functions().data();
        std::cout << ") override { return call(" << index << all << "); }\n";
    }
}

void write_input(std::ostream& out, const Input& input) {
    switch (input.form) {
        case Input::Form::missing:
            out << "null";
            return;
        case Input::Form::number:
            out << in_words(input.number, 17);
            return;
        case Input::Form::text:
            out << escaped_json(input.text);
            return;
        case Input::Form::grid:
            break;
    }
    out << "[";
    for (std::size_t row = 0; row < input.rows(); ++row) {
        out << (row == 0 ? "[" : ",[");
        for (std::size_t i = 0; i < input.columns; ++i) {
            if (i > 0) out << ",";
            write_input(out, input.cells[row * input.columns + i]);
        }
        out << "]";
    }
    out << "]";
}

void write_given(const Function& function, const std::vector<Input>& given) {
    std::cout << "{\"function\":\"" << function.name << "\",\"topic\":\"" << function.topic
              << "\",\"given\":[";
    for (std::size_t i = 0; i < given.size(); ++i) {
        if (i > 0) std::cout << ",";
        write_input(std::cout, given[i]);
    }
    std::cout << "]";
}

void write_checks() {
    for (const Function& function : functions()) {
        for (const Check& check : function.checks) {
            write_given(function, check.given);
            const auto* number = std::get_if<double>(&check.expected);
            std::cout << ",\"kind\":\"" << (number != nullptr ? "value" : "text") << "\",\"expected\":"
                      << (number != nullptr ? in_words(*number, 17)
                                            : escaped_json(std::get<std::string>(check.expected)))
                      << ",\"tolerance\":" << in_words(check.tolerance, 17)
                      << ",\"at\":" << escaped_json(check.at) << ",\"origin\":" << escaped_json(check.origin)
                      << "}\n";
        }
        for (const Refuses& refusal : function.refusals) {
            write_given(function, refusal.given);
            std::cout << ",\"kind\":\"refusal\",\"argument\":" << escaped_json(refusal.argument) << "}\n";
        }
    }
}

std::string as_argument(const Input& input) {
    switch (input.form) {
        case Input::Form::missing:
            return "";
        case Input::Form::number:
            return in_words(input.number, 10);
        case Input::Form::text:
            return "\"" + input.text + "\"";
        case Input::Form::grid:
            break;
    }
    std::string text = "{";
    for (std::size_t i = 0; i < input.cells.size(); ++i) {
        if (i > 0) text += i % input.columns == 0 ? "|" : ";";
        text += as_argument(input.cells[i]);
    }
    return text + "}";
}

void write_reference() {
    std::cout << "# Function reference\n\nWritten from the catalogue; a test holds it equal. Arguments in [ "
                 "] may be left out; … repeats.\n"
                 "A plain number is read in the unit named; a text such as \"1.2 kg\" is converted.\n\n## "
                 "Contents\n\n";
    std::string_view topic;
    for (const Function& function : functions()) {
        if (function.topic != topic) std::cout << "\n**" << (topic = function.topic) << "** ";
        std::string anchor = "dry" + std::string(function.name);
        std::transform(anchor.begin(), anchor.end(), anchor.begin(),
                       [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
        std::cout << "[" << function.name << "](#" << anchor << ") ";
    }
    std::cout << "\n";
    topic = {};
    for (const Function& function : functions()) {
        if (function.topic != topic) std::cout << "\n## " << (topic = function.topic) << "\n";
        std::cout << "\n### DRY." << function.name << "\n\n"
                  << described(function) << "\n\n`" << usage(function) << "`\n";
        if (!function.params.empty()) std::cout << "\n";
        for (const Parameter& param : function.params)
            std::cout << "- `" << param.name << "`: " << described(function, param) << "\n";
        if (!function.working.empty()) {
            std::cout << "\n";
            std::istringstream lines{std::string(function.working)};
            for (std::string line; std::getline(lines, line);)
                std::cout << "    " << (line.starts_with(":") ? line.substr(1) : line) << "\n";
        }
        if (!function.range.empty()) std::cout << "\nRange: " << function.range << "\n";
        std::cout << "\nSource: " << function.source << "\n";
        if (!function.checks.empty()) {
            const Check& check = function.checks.front();
            std::cout << "\nExample: `=DRY." << function.name << "(";
            for (std::size_t i = 0; i < check.given.size(); ++i)
                std::cout << (i == 0 ? "" : "; ") << as_argument(check.given[i]);
            std::cout << ")`";
            if (const auto* number = std::get_if<double>(&check.expected)) {
                std::cout << " gives " << in_words(*number, check.at.empty() ? function.result_unit : "");
                if (!check.at.empty()) std::cout << " in the row \"" << check.at << "\"";
            } else {
                std::cout << " says \"… " << std::get<std::string>(check.expected) << " …\"";
            }
            std::cout << " (" << check.origin << ").\n";
        }
        if (!function.see_also.empty()) {
            std::cout << "\nSee also:";
            for (const auto other : function.see_also) std::cout << " DRY." << other;
            std::cout << "\n";
        }
    }
}

}  // namespace
}  // namespace drysheet

int main(int count, char** words) {
    const std::map<std::string_view, std::function<void()>> tasks{{"idl", drysheet::write_idl},
                                                                  {"xcu", drysheet::write_xcu},
                                                                  {"glue", drysheet::write_glue},
                                                                  {"checks", drysheet::write_checks},
                                                                  {"reference", drysheet::write_reference}};
    const auto task = tasks.find(count == 2 ? words[1] : "");
    if (task == tasks.end()) {
        std::cerr << "usage: drysheet_catalogue idl|xcu|glue|checks|reference\n";
        return 2;
    }
    task->second();
    return 0;
}
