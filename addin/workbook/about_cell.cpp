#include "addin/workbook/about_cell.hpp"

#include <algorithm>
#include <array>

#include "addin/call/evaluate.hpp"
#include "addin/call/functions.hpp"
#include "addin/text/words.hpp"
#include "addin/workbook/compute.hpp"
#include "addin/workbook/formula.hpp"

namespace drysheet::workbook {
namespace {

constexpr std::size_t kMany = 12;  // of a list, before it is cut short

/// Arguments as they arrive; nothing where one cannot be worked out, or is an error itself.
std::optional<std::vector<Input>> arguments_of(const Picture& picture, const Place& place,
                                               const Formula& call) {
    std::vector<Input> inputs;
    for (const Formula& part : call.parts) {
        if (part.what == Formula::What::blank) {
            inputs.emplace_back();
            continue;
        }
        const auto given = compute(part, place, picture);
        if (!given || given->fault) return std::nullopt;
        inputs.push_back(given->value);
    }
    return inputs;
}

/// What a function about functions says of a call. Throws Refusal.
Outcome asked(const char* about, const Function& function, std::vector<Input> arguments,
              const Reading& reading) {
    arguments.insert(arguments.begin(), std::string(function.name));
    return evaluate(*find_function(about), arguments, reading);
}

class Teller {
  public:
    Teller(const Known& known, const Place& place, const Reading& reading, const Texts& texts)
        : known_(known), place_(place), reading_(reading), texts_(texts) {}

    std::string told() {
        line(workbook::in_words(place_, known_.picture));
        const Cell* cell = known_.picture.at(place_);
        if (cell == nullptr) {
            line(texts_.word("A blank cell."));
            tell_results();
            return text_;
        }
        tell_value(*cell);
        if (!cell->formula_text.empty()) {
            gap();
            line(cell->formula_text);
        }
        if (cell->formula) for_each_part(*cell->formula, [this](const Formula& part) { tell_call(part); });
        tell_findings();
        tell_results();
        if (!cell->note.empty()) {
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

    std::string shown_with_unit(const Place& at) const {
        const Given given = shown(known_.picture, at);
        const Meaning& meaning = known_.labels.at(at);
        const Cell* cell = known_.picture.at(at);
        if (cell != nullptr && cell->error != 0) return texts_.word("an error");
        std::string words = drysheet::in_words(given.value);
        if (given.value.form == Input::Form::number && meaning.percent_format)
            words = drysheet::in_words(100 * given.value.number, "%");
        else if (given.value.form == Input::Form::number && meaning.unit)
            words += " " + meaning.unit_text;
        return words;
    }

    void tell_value(const Cell& cell) {
        const Meaning& meaning = known_.labels.at(place_);
        if (cell.error == 0) line(shown_with_unit(place_));
        if (!meaning.evidence.empty())
            line(texts_.word("as it is {}", {meaning.evidence}));
        else if (std::holds_alternative<double>(cell.value))
            line(texts_.word("No label, format or note says what this number is."));
        if (!meaning.contradiction.empty()) line(meaning.contradiction);
    }

    void tell_arguments(const Function& function, const Formula& call) {
        for (std::size_t i = 0; i < call.parts.size(); ++i) {
            const Formula& part = call.parts[i];
            if (part.what == Formula::What::blank || function.params.empty()) continue;
            std::string words = "  " + std::string(parameter_at(function, i).name) + ": " +
                                written(part, place_, known_.picture);
            if (part.what == Formula::What::cell && !part.from.gone && part.from.file.empty()) {
                words += " = " + shown_with_unit(part.from.cell);
                const Meaning& meaning = known_.labels.at(part.from.cell);
                if (!meaning.evidence.empty()) words += ", " + meaning.evidence;
            }
            line(words);
        }
    }

    void tell_call(const Formula& part) {
        if (part.what != Formula::What::call || !part.text.starts_with("DRY.")) return;
        const Function* function = find_function(part.text);
        gap();
        if (function == nullptr) {
            const auto meant = probably_meant(part.text);
            line(meant ? texts_.word("There is no function {}; perhaps {}.",
                                     {part.text, "DRY." + std::string(*meant)})
                       : texts_.word("There is no function {}.", {part.text}));
            return;
        }
        line(part.text + ": " + texts_.text(std::string(function->name), function->summary));
        tell_arguments(*function, part);
        const auto arguments = arguments_of(known_.picture, place_, part);
        try {
            if (!arguments) {
                line(texts_.word("One of its arguments is an error, or cannot be worked out here."));
            } else if (!function->raw) {
                const Outcome why = asked("WHY", *function, *arguments, reading_);
                line(std::get<std::string>(why));
                if (std::get<std::string>(why).starts_with("fine")) tell_working(part);
            }
            if (!function->source.empty()) line(texts_.word("Source: {}", {std::string(function->source)}));
        } catch (const Refusal& refusal) {
            line(refusal.what());
        }
        if (!function->caution.empty())
            line(texts_.text(std::string(function->name) + ".caution", function->caution));
    }

    void tell_working(const Formula& call) {
        const auto lines = working_lines(known_.picture, place_, call);
        if (lines.empty()) return;
        gap();
        line(texts_.word("Working:"));
        for (const std::string& step : lines) line("  " + step);
        gap();
    }

    void tell_findings() {
        if (known_.review == nullptr) return;
        for (const Finding& finding : known_.review->findings) {
            if (finding.cell != place_ && std::ranges::find(finding.cells, place_) == finding.cells.end())
                continue;
            gap();
            line(texts_.word("The review: {}", {in_words(finding.verdict)}) +
                 (finding.why.empty() ? "" : ". " + finding.why));
            if (!finding.suggested.empty())
                line(finding.cell == place_
                         ? texts_.word("Suggested: {}", {finding.suggested})
                         : texts_.word("Suggested in {}: {}",
                                       {workbook::in_words(finding.cell), finding.suggested}));
            if (!finding.evidence.empty()) line(finding.evidence);
        }
        if (known_.outdated) line(texts_.word("The workbook has changed since."));
    }

    void tell_results() {
        const auto results = known_.graph.results_of(place_);
        if (results.empty() || results == std::vector{place_}) return;
        gap();
        std::string list;
        for (std::size_t i = 0; i < results.size() && i < kMany; ++i) {
            if (i > 0) list += ", ";
            list += results[i].sheet == place_.sheet ? workbook::in_words(results[i])
                                                     : workbook::in_words(results[i], known_.picture);
        }
        if (results.size() > kMany) list += " …";
        line(texts_.word("Results that rest on it: {}: {}", {std::to_string(results.size()), list}));
    }

    const Known& known_;
    const Place place_;
    const Reading& reading_;
    const Texts& texts_;
    std::string text_;
};

}  // namespace

const char* in_words(Verdict verdict) {
    constexpr std::array names{"wrong", "doubtful", "could be checked", "fine", "not judged"};
    static_assert(names.size() == kVerdicts);
    return names.at(static_cast<std::size_t>(verdict));
}

std::string about_cell(const Known& known, const Place& place, const Reading& reading, const Texts& texts) {
    const WrittenAs locale(reading);
    return Teller(known, place, reading, texts).told();
}

std::vector<std::string> working_lines(const Picture& picture, const Place& place, const Formula& call) {
    const Function* function = find_function(call.text);
    const auto arguments = arguments_of(picture, place, call);
    if (function == nullptr || function->raw || !arguments) return {};
    std::vector<std::string> lines;
    try {
        const Outcome steps =
            asked("WORKING", *function, *arguments, {.decimal_comma = picture.decimal_comma});
        if (const auto* table = std::get_if<Table>(&steps))
            for (const auto& cell : table->cells)
                if (const auto* text = std::get_if<std::string>(&cell)) lines.push_back(*text);
    } catch (const Refusal&) {  // the call is refused, or has no working
    }
    return lines;
}

const Formula* own_call(const Picture& picture, const Place& place) {
    const Cell* cell = picture.at(place);
    const Formula* found = nullptr;
    if (cell != nullptr && cell->formula)
        for_each_part(*cell->formula, [&found](const Formula& part) {
            if (found == nullptr && part.what == Formula::What::call && part.text.starts_with("DRY.") &&
                find_function(part.text) != nullptr)
                found = &part;
        });
    return found;
}

}  // namespace drysheet::workbook
