// SPDX-License-Identifier: MPL-2.0
#include "addin/workbook/about_cell.hpp"

#include <array>

#include "addin/call/lookup.hpp"
#include "addin/call/refusal.hpp"
#include "addin/call/working.hpp"
#include "addin/text/words.hpp"
#include "addin/workbook/compute.hpp"
#include "addin/workbook/formula.hpp"

namespace drysheet::workbook {
namespace {

constexpr std::size_t kMany = 12;  // of a list, before it is cut short

class Teller {
  public:
    Teller(const Reviewed& reviewed, const Place& place, const Texts& texts)
        : picture_(reviewed.picture()), about_(reviewed.about(place)), place_(place), texts_(texts) {}

    std::string told() {
        line(workbook::in_words(place_, picture_));
        const Cell* cell = picture_.at(place_);
        if (cell == nullptr)
            line(texts_.word("A blank cell."));
        else
            tell_contents(*cell);
        tell_cells("Typed values that it rests on: {}: {}", about_.inputs);
        tell_cells("Results that rest on it: {}: {}", about_.results);
        if (cell != nullptr && !cell->note.empty()) {
            gap();
            line(texts_.word("Note: {}", {cell->note}));
        }
        return text_;
    }

  private:
    void line(std::string_view words) { text_.append(words).append("\n"); }
    void gap() {
        if (!text_.ends_with("\n\n")) text_ += "\n";
    }

    void tell_contents(const Cell& cell) {
        if (cell.error == 0)
            line(with_unit(shown(picture_, place_).value, about_.meaning, about_.unit, reading_));
        if (!about_.evidence.empty())
            line(texts_.word("as it is {}", {about_.evidence}));
        else if (std::holds_alternative<double>(cell.value))
            line(texts_.word("No label, format or note says what this number is."));
        if (!about_.meaning.contradiction.empty()) line(about_.meaning.contradiction);
        if (!cell.formula_text.empty()) {
            gap();
            line(cell.formula_text);
        }
        for (const AboutCall& call : about_.calls) tell_call(call);
        tell_finding();
    }

    void tell_call(const AboutCall& call) {
        const Function& function = *call.function;
        gap();
        line("DRY." + std::string(function.name) + ": " +
             texts_.text(std::string(function.name), function.summary));
        for (const AboutArgument& argument : call.arguments) {
            if (argument.name.empty() || argument.written.empty()) continue;
            std::string words = "  " + argument.name + ": ";
            if (!argument.shown.starts_with(argument.written)) words += argument.written + " = ";
            words += argument.shown;
            if (!argument.label.empty()) words += " (" + argument.label + ")";
            line(words);
        }
        if (!call.refusal.empty()) line(call.refusal);
        const auto steps = working_lines(call, reading_);
        if (!steps.empty()) {
            gap();
            line(texts_.word("Working:"));
            for (const std::string& step : steps) line("  " + step);
            gap();
        }
        if (!function.source.empty()) line(texts_.word("Source: {}", {std::string(function.source)}));
        if (!function.caution.empty())
            line(texts_.text(std::string(function.name) + ".caution", function.caution));
    }

    void tell_finding() {
        if (!about_.finding) return;
        const Finding& finding = *about_.finding;
        gap();
        line(texts_.word("The review: {}", {in_words(finding.verdict)}) +
             (finding.why.empty() ? "" : ": " + finding.why));
        const std::string suggested = formula_in_words(finding.suggested, reading_);  // as it can be typed
        if (!suggested.empty())
            line(finding.cell == place_
                     ? texts_.word("Suggested: {}", {suggested})
                     : texts_.word("Suggested in {}: {}", {workbook::in_words(finding.cell), suggested}));
        if (!finding.evidence.empty()) line(finding.evidence);
    }

    void tell_cells(std::string_view sentence, const std::vector<Place>& cells) {
        if (cells.empty() || cells == std::vector{place_}) return;
        gap();
        std::string list;
        for (std::size_t i = 0; i < cells.size() && i < kMany; ++i) {
            if (i > 0) list += ", ";
            list += cells[i].sheet == place_.sheet ? workbook::in_words(cells[i])
                                                   : workbook::in_words(cells[i], picture_);
        }
        if (cells.size() > kMany) list += " …";
        line(texts_.word(sentence, {std::to_string(cells.size()), list}));
    }

    const Picture& picture_;
    const Reading reading_ = picture_.reading();
    const About about_;
    const Place place_;
    const Texts& texts_;
    std::string text_;
};

}  // namespace

const char* in_words(Verdict verdict) {
    constexpr std::array names{"wrong", "doubtful", "could be checked", "fine", "not judged"};
    static_assert(names.size() == kVerdicts);
    return names.at(static_cast<std::size_t>(verdict));
}

std::string about_cell(const Reviewed& reviewed, const Place& place, const Texts& texts) {
    return Teller(reviewed, place, texts).told();
}

const Formula* own_call(const Formula& formula) {
    const Formula* found = nullptr;
    for_each_part(formula, [&found](const Formula& part) {
        if (found == nullptr && part.what == Formula::What::call && part.text.starts_with("DRY.") &&
            find_function(part.text) != nullptr)
            found = &part;
    });
    return found;
}

std::vector<std::string> working_lines(const AboutCall& call, const Reading& reading) {
    if (call.function->raw || !call.refusal.empty()) return {};
    std::vector<Input> typed;
    for (const auto& given : call.given) {
        if (!given) return {};
        typed.push_back(*given);
    }
    try {
        return working(read(*call.function, typed, reading)).lines;
    } catch (const Refusal&) {  // it has none
        return {};
    }
}

}  // namespace drysheet::workbook
