// SPDX-License-Identifier: MPL-2.0
// Writes everything that follows from the catalogue: the UNO interface, its registration, the glue, the menu,
// the checks for the sheet tests and the function reference. See the usage at the end.
#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <iostream>
#include <map>
#include <set>
#include <sstream>

#include "addin/call/lookup.hpp"
#include "addin/call/working.hpp"
#include "addin/generate/described.hpp"
#include "addin/generate/questions.hpp"
#include "addin/lesson/lesson_book.hpp"
#include "addin/text/quantity_text.hpp"
#include "addin/text/words.hpp"
#include "addin/workbook/formula_text.hpp"

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
    std::vector<Place> all;
    for (const Parameter& param : function.params) {
        const std::string name = idl_name(param.name);
        all.push_back({name, param, param.repeats && !(param.ranges || param.shape == Shape::anything)});
        if (!param.repeats || all.back().sequence) continue;
        // as many as the longest call that is named has; every place costs the office time
        const int spread = param.shape == Shape::anything ? 12 : 3;
        for (int i = 2; i <= spread; ++i) all.push_back({name + std::to_string(i), param, false});
        all.push_back({name + "More", param, true});
    }
    return all;
}

std::string escaped_json(std::string_view text) {
    std::string out = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\') out += '\\';
        out += c == '\n' ? ' ' : c;
    }
    return out + "\"";
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

// What the wizard shows of a function; an example of whole columns would fill it.
std::optional<std::string> with_example(const Function& function, const Texts& texts) {
    constexpr std::size_t longest = 80;
    auto text = described(function, texts);
    if (const std::string call = example(function, texts); text && call.size() <= longest)
        *text += " " + texts.word("Example: {}", {call});
    return text;
}

void write_xcu(const std::vector<Texts>& languages) {
    std::cout << R"(<?xml version="1.0" encoding="UTF-8"?>
<oor:component-data xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema" oor:name="CalcAddIns" oor:package="org.openoffice.Office">
<node oor:name="AddInInfo">
<node oor:name="dry" oor:op="replace">
<node oor:name="AddInFunctions">
)";
    const auto name = [](const char* property, std::string_view value) {
        std::cout << "<prop oor:name=\"" << property << "\"><value xml:lang=\"en\">" << value
                  << "</value></prop>\n";
    };
    for (const Function& function : functions()) {
        const std::string shown_name = "DRY." + std::string(function.name);
        std::cout << "<node oor:name=\"" << function.name << "\" oor:op=\"replace\">\n";
        name("DisplayName", shown_name);
        std::cout << property("Description", languages, [&](const Texts& texts) {
            return with_example(function, texts);
        }) << "<prop oor:name=\"Category\"><value>Add-In</value></prop>\n";
        name("CompatibilityName", shown_name);
        std::cout << "<node oor:name=\"Parameters\">\n";
        for (const Place& place : places(function)) {  // found by the interface's own parameter names
            std::cout << "<node oor:name=\"" << place.name << "\" oor:op=\"replace\">\n";
            name("DisplayName", place.param.name);
            std::cout << property("Description", languages, [&](const Texts& texts) {
                return described(function, place.param, texts);
            }) << "</node>\n";
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
                      << ",\"tolerance\":" << in_words(check.tolerance, 17) << ",\"column\":" << check.column
                      << ",\"part\":" << (check.part ? "true" : "false")
                      << ",\"at\":" << escaped_json(check.at) << ",\"origin\":" << escaped_json(check.origin)
                      << "}\n";
        }
        for (const RefusalCheck& refusal : function.refusals) {
            write_given(function, refusal.given);
            std::cout << ",\"kind\":\"refusal\",\"argument\":" << escaped_json(refusal.argument) << "}\n";
        }
    }
}

// "#drydriedmass", as a heading of the reference is linked.
std::string link_to(std::string_view function) {
    std::string anchor = "#dry" + std::string(function);
    std::ranges::transform(anchor, anchor.begin(),
                           [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    return anchor;
}

// The first function that a call of the questions names is the one to read on at.
void write_questions(std::ostream& out) {
    out << "\n## Questions\n\nIn this order stand the arguments; put your own cells or values in their "
           "place.\n\n";
    for (const Question& asked : kQuestions) {
        std::string links;
        for (const CallText& call : calls_in(asked.call)) {
            if (call.function == nullptr)
                throw std::runtime_error("no such function: " + std::string(asked.call));
            links += (links.empty() ? "[" : ", [") + std::string(call.function->name) + "](" +
                     link_to(call.function->name) + ")";
        }
        out << "- " << asked.question << " `=" << asked.call << "` " << links << "\n";
    }
}

void write_reference(std::ostream& out) {
    out << "# Function reference\n\nWritten from the catalogue; a test holds it equal. Arguments in [ ] may "
           "be left out; … repeats.\n"
           "A plain number is read in the unit named; a text such as \"1.2 kg\" is converted.\n";
    write_questions(out);
    out << "\n## Contents\n\n";
    std::string_view topic;
    for (const Function& function : functions()) {
        if (function.topic != topic) out << "\n**" << (topic = function.topic) << "** ";
        out << "[" << function.name << "](" << link_to(function.name) << ") ";
    }
    out << "\n";
    topic = {};
    for (const Function& function : functions()) {
        if (function.topic != topic) out << "\n## " << (topic = function.topic) << "\n";
        out << "\n### DRY." << function.name << "\n\n"
            << described(function) << "\n\n`" << usage(function) << "`\n";
        if (!function.params.empty()) out << "\n";
        for (const Parameter& param : function.params) {
            out << "- `" << param.name << "`: " << described(function, param) << "\n";
            for (const Parameter& row : param.rows)
                out << "  - " << row.name << ": " << described(function, row) << "\n";
        }
        const auto worked = [&out](std::string_view working) {
            std::istringstream lines{std::string(working)};
            for (std::string text; std::getline(lines, text);) {
                const WorkingLine line = read_working_line(text);
                out << "    ";
                if (!line.condition.empty()) out << "if " << line.condition << ": ";
                using enum WorkingLine::Form;
                if (line.form == step || line.form == each)
                    out << (line.form == each ? "each " : "") << line.name << " = " << line.expression;
                else if (line.form == cells)
                    out << line.name << " ← " << line.expression;
                else if (line.form == holds)
                    out << line.expression;
                else
                    out << line.name << (line.name.empty() ? "" : ": ") << line.words;
                out << "\n";
            }
        };
        if (!function.working.empty() || !function.workings.empty()) out << "\n";
        worked(function.working);
        for (std::size_t i = 0; i < function.workings.size(); ++i) {
            const auto model = std::ranges::find(function.params, Shape::choice, &Parameter::shape);
            out << (i == 0 ? "" : "\n") << "    " << model->choices.at(i) << ":\n";
            worked(function.workings[i]);
        }
        if (!function.range.empty()) out << "\nRange: " << function.range << "\n";
        out << "\nSource: " << function.source << "\n";
        if (!function.checks.empty()) {
            const Check& check = function.checks.front();
            out << "\nExample: `=" << example(function) << "`";
            if (const auto* number = std::get_if<double>(&check.expected)) {
                out << " gives " << in_words(*number, check.at.empty() ? function.result_unit : "");
                if (!check.at.empty()) out << " in the row \"" << check.at << "\"";
            } else {
                out << " says \"… " << std::get<std::string>(check.expected) << " …\"";
            }
            out << " (" << check.origin << ").\n";
        }
        if (!function.see_also.empty()) {
            out << "\nSee also:";
            for (const auto other : function.see_also) out << " DRY." << other;
            out << "\n";
        }
    }
}

// Whether a text of an example is more than a number, a unit, or a name of the catalogue.
bool has_words(const std::string& text) {
    static const std::set<std::string_view> names = [] {
        std::set<std::string_view> all;
        for (const Function& function : functions()) {
            for (const Parameter& param : function.params)
                all.insert(param.choices.begin(), param.choices.end());
            for (const Check& check : function.checks) all.insert(check.at);
        }
        return all;
    }();
    const auto letter = [](char c) { return c >= 'a' && c <= 'z'; };
    const bool word = std::ranges::adjacent_find(
                          text, [&](char a, char b) { return letter(a) && letter(b); }) != text.end();
    return word && !names.contains(text) && read_quantity(text, {}).fault != TextFault::none &&
           read_quantity("1 " + text, {}).fault != TextFault::none;
}

// Holds a translator's files against the catalogue: false when a key is none, or a text of an example has no
// line. Says what is missing.
bool check_texts(const std::vector<Texts>& languages, const std::vector<std::string>& examples,
                 const std::vector<std::string>& sources) {
    std::map<std::string, std::string> known;  // the English of each key
    for (const auto word : words()) known.emplace(word, word);
    for (auto& entry : menu_keys(examples)) known.insert(entry);
    for (const Function& function : functions()) {
        known.emplace(function.name, function.summary);
        if (!function.caution.empty())
            known.emplace(std::string(function.name) + ".caution", function.caution);
        for (const Parameter& param : function.params) known.emplace(key_of(function, param), param.text);
    }
    const auto places = [](std::string_view text) {
        int count = 0;
        for (auto at = text.find("{}"); at != std::string_view::npos; at = text.find("{}", at + 1)) ++count;
        return count;
    };
    for (const Function& function : functions()) {
        for (const ToldSlip& slip : function.slips) known.emplace(slip.sentence, slip.sentence);
        std::vector<std::string_view> workings = function.workings;
        workings.push_back(function.working);
        for (const std::string_view working : workings) {
            std::istringstream lines{std::string(working)};
            for (std::string line; std::getline(lines, line);)
                if (const std::string words(read_working_line(line).words); !words.empty())
                    known.emplace(words, words);
        }
    }
    std::set<std::string> english;
    for (const std::string& source : sources)
        for (const Literal& literal : literals_of(source)) {
            english.insert(literal.text);
            if (literal.form) known.emplace(literal.text, literal.text);
        }
    std::map<std::string, std::string> shown;  // by the examples, which are opened in the language
    for (const std::string& example : examples) {
        if (example.ends_with("lessons.fods")) continue;  // written from what says its words itself
        (void)in_language(example, {}, [&](const std::string& key, const std::string& text) {
            english.insert(key);
            english.insert(text);
            if (has_words(text)) shown.emplace(key, text);
        });
    }
    for (const ExerciseRow& row : exercise_rows())
        for (const std::string& text : {row.lesson, row.text, row.hints, story_of(row.lesson, {})})
            shown.emplace(text, text);
    known.insert(shown.begin(), shown.end());
    for (const auto& [key, text] : known) english.insert(text);
    std::map<std::string, std::string> wanted = known;
    for (const Texts& texts : languages)  // what one language has the others want too
        for (const auto& [key, text] : texts.lines()) wanted.emplace(key, key);
    bool good = true;
    const auto wrong = [&good](const Texts& texts, const std::string& what) {
        std::cout << texts.language() << ": " << what << "\n";
        good = false;
    };
    for (const Texts& texts : languages) {
        if (texts.language() == "en") continue;
        for (const auto& [key, text] : texts.lines()) {
            const auto at_key = known.find(key);
            if (at_key == known.end() && !english.contains(key))
                wrong(texts, key + " is neither a key nor an English text; one of them was changed");
            else if (places(text) != places(at_key == known.end() ? key : at_key->second))
                wrong(texts, key + ": each {} must be kept");
        }
        for (const auto& [key, text] : shown)
            if (!texts.of(key, text)) wrong(texts, key + ": an example shows it in English");
        std::set<std::string> missing;
        for (const auto& [key, text] : wanted)
            if (!texts.of(key, text)) missing.insert(text);
        std::cout << texts.language() << ": missing " << missing.size() << " of " << wanted.size()
                  << " texts\n";
        for (const std::string& text : missing) std::cout << "  " << text << "\n";
    }
    return good;
}

}  // namespace
}  // namespace drysheet

int main(int count, char** given) try {
    using namespace drysheet;
    const std::string_view task = count > 1 ? given[1] : "";
    std::vector<Texts> languages{Texts{}};
    std::vector<std::string> examples, sources;
    for (int i = 2; i < count; ++i) {
        const std::string file = given[i];
        if (file.ends_with(".tsv"))
            languages.emplace_back(file);
        else if (file.ends_with(".fods"))
            examples.push_back(file);
        else
            sources.push_back(file);
    }
    bool good = true;
    const std::map<std::string_view, std::function<void()>> tasks{
        {"idl", write_idl},
        {"xcu", [&] { write_xcu(languages); }},
        {"menu", [&] { std::cout << menu_xcu(languages, examples); }},
        {"glue", write_glue},
        {"checks", write_checks},
        {"reference", [] { write_reference(std::cout); }},
        {"page",
         [] {
             std::ostringstream markdown;
             write_reference(markdown);
             std::cout << html_page(markdown.str());
         }},
        {"lessons",
         [&] {
             constexpr std::array<std::string_view, 3> names{"Asha Rawat", "Dorje Lepcha", "Meera Thapa"};
             std::cout << class_book(exercise_rows(), names, languages.back());
         }},
        {"example", [&] { std::cout << in_language(examples.at(0), languages.back()); }},
        {"texts", [&] { good = check_texts(languages, examples, sources); }}};
    const auto found = tasks.find(task);
    if (found == tasks.end()) {
        std::cerr << "usage: drysheet_catalogue idl|glue|checks|reference|page\n"
                     "       drysheet_catalogue xcu [LANGUAGE.tsv …]\n"
                     "       drysheet_catalogue menu [LANGUAGE.tsv …] [EXAMPLE.fods …]\n"
                     "       drysheet_catalogue lessons [LANGUAGE.tsv]\n"
                     "       drysheet_catalogue example LANGUAGE.tsv EXAMPLE.fods\n"
                     "       drysheet_catalogue texts [LANGUAGE.tsv …] [EXAMPLE.fods …] [SOURCE.cpp …]\n";
        return 2;
    }
    found->second();
    return good ? 0 : 1;
} catch (const std::exception& fault) {
    std::cerr << fault.what() << "\n";
    return 1;
}
