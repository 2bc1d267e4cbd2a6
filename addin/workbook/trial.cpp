// SPDX-License-Identifier: MPL-2.0
#include "addin/workbook/trial.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <stdexcept>

#include "addin/text/words.hpp"
#include "addin/workbook/formula_text.hpp"
#include "addin/workbook/trial_description.hpp"

namespace drysheet {
namespace {

using namespace trial;

// ---- from the description to cells

constexpr std::size_t kShownAt = 7, kValueAt = 8, kUAt = 9, kRemarkAt = 10, kQuestionAt = 4, kResultAt = 6,
                      kDigitsAt = 18, kWorkingAt = 19;
constexpr std::size_t kFirstRow = 5;
constexpr std::size_t kCurvePoints = 25;
constexpr double kLine = 5;  // mm

struct Place {
    CellArea raw;
    std::optional<CellArea> read{}, shown{}, u{};
    bool grams = false;  ///< a result in the unit of mass, which a formula takes in g
    What what = What::none;
    std::string_view said{};
};

bool is_range(const CellArea& area) { return area.rows * area.columns > 1; }

std::vector<std::string_view> split(std::string_view text, char mark) {
    std::vector<std::string_view> parts;
    int depth = 0;
    bool quoted = false;
    std::size_t from = 0;
    for (std::size_t i = 0; i <= text.size(); ++i) {
        if (i == text.size() || (text[i] == mark && depth == 0 && !quoted)) {
            if (i > from) parts.push_back(trimmed(text.substr(from, i - from)));
            from = i + 1;
        } else if (text[i] == '"') {
            quoted = !quoted;
        } else if (!quoted) {
            depth += text[i] == '(' ? 1 : text[i] == ')' ? -1 : 0;
        }
    }
    return parts;
}

// Where everything stands, and formulas as the sheet writes them.
class Maker {
  public:
    explicit Maker(const Texts& texts, std::string sheet = {}, std::vector<std::string>* heard = nullptr)
        : texts_(texts), sheet_(std::move(sheet)), heard_(heard) {
        place_inputs();
        place_results();
        place_workings();
    }

    std::string say(std::string_view english) const {
        if (heard_ != nullptr && std::ranges::find(*heard_, english) == heard_->end())
            heard_->emplace_back(english);
        return texts_.text(english);
    }

    /// “typical” alone, in the reader's language.
    std::string in_words(std::string_view quoted) const { return say(quoted.substr(3, quoted.size() - 6)); }

    /// A formula's template as the sheet writes it.
    std::string expand(std::string_view text, std::size_t row = 0, const Place* own = nullptr) const {
        constexpr std::string_view open = "“", close = "”";
        std::string made;
        while (!text.empty()) {
            if (text.starts_with(open)) {
                const auto end = text.find(close);
                const auto words = text.substr(open.size(), end - open.size());
                text.remove_prefix(end + close.size());
                std::vector<std::string> values;
                if (words.find("{}") != std::string_view::npos) {
                    const auto length = in_brackets(text);
                    for (const auto part : split(text.substr(1, length - 2), ';'))
                        values.push_back(expand(part, row, own));
                    text.remove_prefix(length);
                }
                made += joined(say(words), values);
            } else if (const auto end = end_of_reference(text); end > 0) {
                const auto behind = text.substr(end);
                const bool asked = behind.starts_with("=\"\"") || behind.starts_with("<>\"\"");
                made += reference(text.substr(0, end), row, own, asked);
                text.remove_prefix(end);
            } else {
                made += text.front();
                text.remove_prefix(1);
            }
        }
        return made;
    }

    const Place& at(std::string_view name) const {
        const auto found = places_.find(name);
        if (found == places_.end()) throw std::logic_error("nothing is named " + std::string(name));
        return found->second;
    }
    std::string words_of(std::string_view name) const {
        const auto* const other =
            std::ranges::find(kSaid, name, &std::pair<std::string_view, std::string_view>::first);
        return say(other != std::end(kSaid) ? other->second : at(name).said);
    }

    /// Whether nothing is there yet, as a condition.
    std::string blank(std::string_view name, bool typed = false) const {
        const Place& place = at(name);
        const std::string read = (typed ? "<" : "[") + std::string(name) + (typed ? ">" : "]");
        if (!is_range(place.raw)) return expand(read + "=\"\"");
        return expand(typed ? "COUNTA(" + read + ")=0" : "SUMPRODUCT((" + read + "<>\"\")*1)=0");
    }
    std::string any_blank(std::string_view needs) const {
        std::string made;
        for (const auto name : split(needs, ' ')) made += (made.empty() ? "" : ";") + blank(name);
        return "OR(" + made + ")";
    }
    /// The words of those that are blank, each behind "; ".
    std::string blanks_in_words(std::string_view needs) const {
        std::string made;
        for (const auto name : split(needs, ' '))
            made += std::string(made.empty() ? "" : "&") + "IF(" + blank(name, true) + ";" +
                    in_quotes("; " + words_of(name)) + ";\"\")";
        return made;
    }

    /// "DRY.F([a];[b])" → the first-order ± of its value.
    std::string first_order(std::string_view call) const {
        const auto open = call.find('(');
        std::string made = "DRY.PICK(DRY.UNCERTAINTY(" + in_quotes(call.substr(4, open - 4));
        for (const auto argument : split(call.substr(open + 1, call.size() - open - 2), ';')) {
            const auto end = end_of_reference(argument);
            made.append(";").append(argument.substr(0, end));
            const auto behind = argument.substr(end);  // nothing, or the unit that follows the value
            if (argument.starts_with('[') && (behind.empty() || behind.starts_with('&')))
                made += u_of(argument.substr(1, end - 2));
            made += behind;
        }
        return made + ");\"u\")";
    }

    const std::string& sheet() const { return sheet_; }
    std::size_t inputs_end() const { return inputs_end_; }
    std::size_t results_end() const { return results_end_; }
    const auto& places() const { return places_; }

  private:
    void place_inputs() {
        std::size_t row = kFirstRow;
        for (const InputLine& line : kInputs) {
            if (line.section && row > kFirstRow) ++row;
            std::size_t column = 1;
            for (const InputCell* field : {&line.b, &line.c, &line.d}) {
                if (field->what != What::none)
                    add_input(*field, {column, row, 1, static_cast<std::size_t>(line.times)}, line.label);
                ++column;
            }
            row += static_cast<std::size_t>(line.times);
        }
        inputs_end_ = row;
        const CellArea prices = at("prices").raw;
        constexpr std::string_view parts[] = {"price_raw", "price_energy", "price_hour", "price_other"};
        for (std::size_t i = 0; i < std::size(parts); ++i) {
            Place part = at("prices");
            part.raw = {prices.column, prices.row + i};
            part.read = CellArea{kReadAt, prices.row + i};
            part.said = price_labels_.at(i);
            places_.emplace(parts[i], part);
        }
    }

    void add_input(const InputCell& field, const CellArea& area, std::string_view label) {
        const auto known = places_.find(field.name);
        const bool reads = field.what >= What::mass;
        const CellArea read{area.column - 1 + kReadAt, area.row, 1, area.rows};
        if (field.name == "prices") price_labels_.push_back(label);
        if (known == places_.end()) {
            places_.emplace(field.name, Place{.raw = area,
                                              .read = reads ? std::optional(read) : std::nullopt,
                                              .what = field.what,
                                              .said = label});
            return;
        }
        for (CellArea* grown : {&known->second.raw, &*known->second.read}) {  // several cells of one name
            grown->columns = std::max(grown->columns, area.column + 1 - known->second.raw.column);
            grown->rows = std::max(grown->rows, area.row + 1 - grown->row);
        }
    }

    void place_results() {
        std::size_t row = kFirstRow;
        for (const Result& result : kResults) {
            if (result.section && row > kFirstRow) ++row;
            if (!result.section) {
                Place place{.raw = {kValueAt, row}, .shown = CellArea{kShownAt, row}, .said = result.label};
                if (!result.u.empty()) place.u = CellArea{kUAt, row};
                place.grams = result.shows == Shows::mass;
                places_.emplace(result.name, place);
            }
            ++row;
        }
        results_end_ = row;
    }

    void place_workings() {
        std::size_t row = kFirstRow + 1;
        const auto add = [&](const Working& working) {
            places_.emplace(working.name, Place{.raw = {kWorkingAt + 1, row++}, .said = working.label});
        };
        for (const Working& working : kWorkings) add(working);
        for (const Working& working : kSentences) add(working);
        for (const Result& result : kResults)
            if (result.shows == Shows::text) places_.find(result.name)->second.raw = {kWorkingAt + 1, row++};
        for (const RowWorking& working : kRowWorkings) {
            const CellArea beside = at(working.beside).raw;
            places_.emplace(working.name, Place{.raw = {working.column, beside.row, 1, beside.rows},
                                                .said = working.heading});
        }
        for (const char* of : {"fit", "dry", "wet"}) {
            CellArea pair = at(std::string(of) + "_k").raw;
            pair.rows = 2;
            places_.emplace(of == std::string_view("fit")   ? "fit_parameters"
                            : of == std::string_view("dry") ? "dry_parameters"
                                                            : "wet_parameters",
                            Place{.raw = pair});
        }
        places_.emplace("curve_h", Place{.raw = {kWorkingAt + 1, row + 2, 1, kCurvePoints}});
        places_.emplace("curve_moisture", Place{.raw = {kWorkingAt + 2, row + 2, 1, kCurvePoints}});
        places_.emplace("target_line", Place{.raw = {kWorkingAt + 3, row + 2, 1, kCurvePoints}});
    }

    std::string u_of(std::string_view name) const {
        const std::string other = name == "start_moisture"   ? "start_u"
                                  : name == "final_moisture" ? "final_u"
                                                             : std::string(name) + "_u";
        if (places_.contains(other)) return "&\" ± \"&[" + other + "]";
        const Place& place = at(name);
        if (place.u) return "&\" ± \"&[" + other + "]";
        return place.what == What::mass ? "&\" ± \"&[u1]" : "";
    }

    static std::string joined(std::string_view words, const std::vector<std::string>& values) {
        std::string made;
        std::size_t from = 0;
        for (const std::string& value : values) {
            const auto place = words.find("{}", from);
            if (place == std::string_view::npos)
                throw std::logic_error("no place for a value in: " + std::string(words));
            if (place > from) made += (made.empty() ? "" : "&") + in_quotes(words.substr(from, place - from));
            made += (made.empty() ? "" : "&") + value;
            from = place + 2;
        }
        if (from < words.size()) made += (made.empty() ? "" : "&") + in_quotes(words.substr(from));
        return values.empty() ? made : "(" + made + ")";
    }

    static std::size_t in_brackets(std::string_view text) {
        int depth = 0;
        bool quoted = false;
        for (std::size_t i = 0; i < text.size(); ++i) {
            if (text[i] == '"') quoted = !quoted;
            if (quoted) continue;
            if (text[i] == '(') ++depth;
            if (text[i] == ')' && --depth == 0) return i + 1;
        }
        throw std::logic_error("no values for words in a formula");
    }

    static std::size_t end_of_reference(std::string_view text) {
        const auto name_from = [&](std::size_t from, char close) -> std::size_t {
            const auto end = text.find_first_not_of("abcdefghijklmnopqrstuvwxyz_0123456789.", from);
            return end != std::string_view::npos && end > from && text[end] == close ? end + 1 : 0;
        };
        if (text.starts_with("{[")) {
            const auto end = name_from(2, ']');
            return end > 0 && text.substr(end).starts_with('}') ? end + 1 : 0;
        }
        switch (text.front()) {
            case '<':
                return name_from(1, '>');
            case '[':
                return name_from(1, ']');
            case '{':
                return name_from(1, '}');
            default:
                return 0;
        }
    }

    // `asked`: only whether it is blank; a blank text times the unit's grams would be an error.
    std::string reference(std::string_view text, std::size_t row, const Place* own, bool asked) const {
        const auto inside = text.substr(1, text.size() - 2);
        if (text.front() == '<')
            return inside.ends_with('.') ? absolute(*at(inside.substr(0, inside.size() - 1)).shown, sheet_)
                                         : absolute(at(inside).raw, sheet_);
        if (text.front() == '[') return read(inside, !asked);
        if (inside == "value") return absolute(own->raw, sheet_);
        if (inside == "u") return absolute(*own->u, sheet_);
        const bool as_read = inside.starts_with('[');
        const Place& place = at(as_read ? inside.substr(1, inside.size() - 2) : inside);
        return "$" + address(as_read && place.read ? place.read->column : place.raw.column, row);
    }

    std::string read(std::string_view name, bool grams) const {
        if (const auto found = places_.find(name); found != places_.end()) {
            const Place& place = found->second;
            return in_grams(absolute(place.read.value_or(place.raw), sheet_), grams && place.grams);
        }
        if (!name.ends_with("_u")) at(name);
        const Place& place = at(name.substr(0, name.size() - 2));
        return in_grams(absolute(*place.u, sheet_), grams && place.grams);
    }
    std::string in_grams(const std::string& cell, bool needed) const {
        return needed ? "(" + cell + "*" + absolute(at("factor").raw, sheet_) + ")" : cell;
    }

    const Texts& texts_;
    std::string sheet_;
    std::vector<std::string>* heard_;
    std::map<std::string, Place, std::less<>> places_;
    std::vector<std::string_view> price_labels_;
    std::size_t inputs_end_ = 0, results_end_ = 0;
};

// Each {} that stands alone replaced; those inside “words” are left.
std::string with_cell(std::string_view form, const std::string& cell) {
    std::string made;
    bool words = false;
    for (std::size_t i = 0; i < form.size(); ++i) {
        if (form.substr(i).starts_with("“")) words = true;
        if (form.substr(i).starts_with("”")) words = false;
        if (!words && form.substr(i).starts_with("{}")) {
            made += cell;
            ++i;
        } else {
            made += form[i];
        }
    }
    return made;
}

// The cells of both sheets.
class Writer {
  public:
    explicit Writer(const Maker& maker) : make(maker) {}

    SheetPlan take() { return std::move(plan); }

    SheetPlan plan;

    PlannedCell& put(std::size_t column, std::size_t row, Look look, std::string content) {
        return plan.cells.emplace_back(
            PlannedCell{.column = column, .row = row, .content = std::move(content), .look = look});
    }
    void name(std::string_view what, const CellArea& area) {
        plan.names.push_back({std::string(what), area});
    }
    std::string formula(std::string_view text, std::size_t row = 0) const {
        return "=" + make.expand(text, row);
    }

    void top() {
        title();
        const std::string list = make.blanks_in_words(kWanted), wanting = make.say("Still missing: {}.");
        const auto place = wanting.find("{}");
        const std::size_t rows = make.inputs_end() - kFirstRow;
        const std::string unread = "SUMPRODUCT(ISERROR(" + absolute({kReadAt, kFirstRow, 3, rows}) + ")*1)";
        std::string rows_unread;
        for (const std::size_t column : {kReadAt, kReadAt + 1, kReadAt + 2})
            rows_unread += (rows_unread.empty() ? "ISERROR(" : "+ISERROR(") +
                           absolute({column, kFirstRow, 1, rows}) + ")";
        const std::string first = "INDEX(" + absolute({kQuestionAt, kFirstRow, 1, rows}) +
                                  ";MATCH(TRUE();INDEX(" + rows_unread + ">0;0);0))";
        put(0, 1, Look::sentence,
            "=IF(" + absent() + ";" + make.expand(kNotHere) + ";IF(LEN(" + list + ")>0;" +
                in_quotes(wanting.substr(0, place)) + "&MID(" + list + ";3;500)&" +
                in_quotes(wanting.substr(place + 2)) + ";" +
                in_quotes(make.say("Nothing that the yields need is missing.")) + ")&IF(" + unread +
                ">0;\" \"&" +
                make.expand("“Cells that are not understood: {}. The first: {}”(" + unread + ";" + first +
                            ")") +
                ";\"\"))")
            .columns = kRemarkAt + 1;
        name("missing", {0, 1});
        put(0, 2, Look::sentence,
            formula("TRIM(IFERROR([sentence_1];\"\")&\" \"&IFERROR([sentence_2];\"\")&\" "
                    "\"&IFERROR([sentence_3];\"\"))"))
            .columns = kRemarkAt + 1;
        put(0, 3, Look::remark,
            make.say("Type into the shaded cells, from top to bottom; the rest follows. A ± is a standard "
                     "uncertainty: two values of three lie within it."))
            .columns = kRemarkAt + 1;
    }

    void title() {
        put(0, 0, Look::title, formula("IF(<product>=\"\";“Drying trial”;“Drying trial: {}”(<product>))"));
    }

    void inputs() {
        std::size_t row = kFirstRow;
        for (const InputLine& line : kInputs) {
            if (line.section) {
                if (row > kFirstRow) ++row;
                put(0, row, Look::section, make.say(line.label));
                for (std::size_t i = 0; i < 4; ++i)
                    put(i + 1, row, Look::section,
                        i == 3 || line.headings.at(i).empty() ? "" : make.say(line.headings.at(i)));
                ++row;
                continue;
            }
            for (int i = 0; i < line.times; ++i) input(line, i, row++);
        }
        for (const auto& [known, place] : make.places()) {
            if (place.what == What::none || known.starts_with("price_")) continue;
            name(known, place.raw);
            if (place.what == What::mass && known != "scale_u") name(known + "_u", make.at("weighing").raw);
        }
    }

    void results() {
        std::size_t row = kFirstRow;
        for (const Result& result : kResults) {
            if (result.section) {
                if (row > kFirstRow) ++row;
                const std::string headings[] = {make.say(result.label), "", make.say("Number"), "±", ""};
                for (std::size_t i = 0; i < std::size(headings); ++i)
                    put(kResultAt + i, row, Look::section, headings[i]);
            } else if (result.shows == Shows::text) {
                text_result(result, row);
            } else {
                number_result(result, row);
            }
            ++row;
        }
    }

    void workings() {
        put(kReadAt, kFirstRow - 1, Look::heading, make.say("As read: g, fractions, °C, h"));
        put(kWorkingAt, kFirstRow - 1, Look::heading, make.say("Worked out on the way"));
        for (const Working& working : kWorkings) one_working(working);
        for (const Working& working : kSentences) {
            one_working(working);
            name(working.name, make.at(working.name).raw);
        }
        for (const RowWorking& working : kRowWorkings) {
            const CellArea area = make.at(working.name).raw;
            put(area.column, area.row - 1, Look::working, make.say(working.heading));
            for (std::size_t row = area.row; row < area.row + area.rows; ++row)
                put(area.column, row, Look::working, formula(working.formula, row)).format = kHours;
            if (working.beside == "run_time") name(working.name, area);
        }
        curve();
    }

    PlannedChart chart(const CellArea& over) const {
        using Line = PlannedChart::Series::Line;
        const auto cells = [this](std::string_view name) { return make.at(name).raw; };
        return {.title = make.say("Drying curve"),
                .x_title = make.say("Hours since the first reading"),
                .y_title = make.say("Moisture, % of the wet mass"),
                .series = {{make.sheet(), cells("run_h"), cells("run_moisture"), {}, Line::points},
                           {make.sheet(), cells("curve_h"), cells("curve_moisture"), {}, Line::drawn},
                           {make.sheet(), cells("curve_h"), cells("target_line"), {}, Line::dashed}},
                .over = over};
    }

    const Maker& make;

    // Asked anew in every cell that says it: one that is kept would say what was true when it was saved.
    static std::string absent() { return "ISERROR(DRY.IN(1;\"g\";\"g\"))"; }
    static constexpr std::string_view kNotHere =
        "“Drysheet is not installed in this office: what shows an error or a question mark needs it.”";

  private:
    static constexpr const char* kFigures = "[<1]0.0000;[<100]0.00;0.0";
    static constexpr const char* kHours = "0.0###";  // of their own, lest they take a clock's

    void input(const InputLine& line, int time, std::size_t row) {
        put(0, row, Look::label,
            make.say(line.label) + (line.times > 1 ? " " + std::to_string(time + 1) : ""));
        std::string question, ends, unit, note = time == 0 && !line.note.empty() ? make.say(line.note) : "";
        std::size_t column = 0;
        for (const InputCell* input : {&line.b, &line.c, &line.d}) {
            ++column;
            if (input->what == What::none) continue;
            const std::string cell = "$" + address(column, row), at = address(column - 1 + kReadAt, row);
            std::string content(input->formula);
            if (content.starts_with("“")) content = make.in_words(content);
            if (content.starts_with("=")) content = make.expand(content);
            PlannedCell& typed = put(column, row, Look::input, content);
            typed.note = std::exchange(note, {});
            const auto [allowed, refusal] = allowed_in(input->what);
            if (!allowed.empty()) {
                typed.allowed = make.expand(with_cell(allowed, address(column, row)));
                typed.refusal = make.say(refusal);
            }
            if (input->what == What::clock)
                put(kReadAt, row, Look::working, clock(cell, row)).format = kHours;
            const HowRead how = how_read(input->what);
            if (how.read.empty()) continue;
            put(column - 1 + kReadAt, row, Look::working,
                "=IF(" + cell + "=\"\";\"\";" + make.expand(with_cell(how.read, cell)) + ")");
            question +=
                "IF(ISERROR($" + at + ");IFERROR(" + make.expand(with_cell(how.why, cell)) + ";\"?\");";
            ends += ")";
            if (unit.empty()) unit = line.unit.empty() ? make.expand(how.unit) : in_quotes(line.unit);
        }
        if (!question.empty())
            put(kQuestionAt, row, Look::remark, "=" + question + (unit.empty() ? "\"\"" : unit) + ends);
    }

    // Hours of a clock that goes on past midnight, of a date, or as typed.
    std::string clock(const std::string& typed, std::size_t row) const {
        const std::string above = absolute({kReadAt, make.at("run_time").raw.row - 1}) + ":$" +
                                  column_letters(kReadAt) + std::to_string(row);
        const std::string cell_clock = "OR(LEFT(CELL(\"format\";" + typed + ");1)=\"D\";" + typed + ">20000)";
        const std::string of_clock = "IF(ISTEXT(" + typed + ");ISNUMBER(SEARCH(\":\";" + typed + "));AND(" +
                                     cell_clock + ";" + typed + "<1))";
        const std::string hours = "IF(ISTEXT(" + typed + ");DRY.IN(" + typed + ";\"h\");IF(" + cell_clock +
                                  ";" + typed + "*24;" + typed + "))";
        return "=IF(" + typed + "=\"\";\"\";" + hours + "+IF(" + of_clock + ";24*MAX(0;ROUNDUP((MAX(" +
               above + ")-" + hours + ")/24;0));0))";
    }

    void text_result(const Result& result, std::size_t row) {
        const CellArea area = make.at(result.name).raw;
        const std::string text = make.expand(result.formula, row);
        put(kResultAt, row, Look::label, make.say(result.label));
        put(area.column - 1, area.row, Look::working, make.say(result.label));
        put(area.column, area.row, Look::working, value_of(result, text, row));
        put(kShownAt, row, Look::sentence, told_of(result, absolute(area), text, absolute(area), row))
            .columns = kRemarkAt + 1 - kShownAt;
        name(result.name, area);
        plan.heights.emplace_back(row, (result.name == "growth" ? 3 : 2) * kLine);
    }

    void number_result(const Result& result, std::size_t row) {
        const bool mass = result.shows == Shows::mass, share = result.shows == Shows::share;
        const std::string value = absolute({kValueAt, row}), u = absolute({kUAt, row}),
                          digits = absolute({kDigitsAt, row}), scale = share ? "*100" : "";
        const auto in_unit = [&](const std::string& grams) {
            return mass ? "(" + grams + ")/" + make.expand("[factor]") : grams;
        };
        const std::string format(share ? "0.0 %" : kFigures);
        put(kResultAt, row, Look::label, make.say(result.label));
        const std::string text = in_unit(make.expand(result.formula, row, &make.at(result.name)));
        put(kValueAt, row, Look::number, value_of(result, text, row)).format = format;
        name(result.name, {kValueAt, row});
        std::string of_u;
        if (!result.u.empty()) {
            of_u = make.expand(result.u == kFirstOrder ? make.first_order(result.formula)
                                                       : std::string(result.u));
            of_u = "=IF(ISNUMBER(" + value + ");" + in_unit(of_u) + ";\"\")";
            name(std::string(result.name) + "_u", {kUAt, row});
        }
        put(kUAt, row, Look::number, of_u).format = format;
        // two figures of the ±, or three of the value where it has none
        put(kDigitsAt, row, Look::working,
            "=IF(ISNUMBER(" + value + ");IF(IFERROR(N(" + u + ");0)>0;1-INT(LOG10(" + u + scale + "));IF(" +
                value + "=0;0;2-INT(LOG10(ABS(" + value + scale + ")))));\"\")");
        const std::string unit = mass                  ? "&\" \"&" + make.expand("[unit]")
                                 : share               ? "&\" %\""
                                 : result.unit.empty() ? ""
                                                       : "&" + in_quotes(" " + std::string(result.unit));
        put(kShownAt, row, Look::result,
            "=IF(ISNUMBER(" + value + ");FIXED(" + value + scale + ";" + digits + ";1)&IF(IFERROR(N(" + u +
                ");0)>0;\" ± \"&FIXED(" + u + scale + ";" + digits + ";1);\"\")" + unit + ";IF(ISERROR(" +
                value + ");\"?\";\"\"))");
        put(kRemarkAt, row, Look::remark,
            told_of(result, value, text,
                    result.remark.empty() ? "\"\"" : make.expand(result.remark, row, &make.at(result.name)),
                    row));
    }

    // Blank while what it needs is, and where it has none even so.
    std::string value_of(const Result& result, const std::string& text, std::size_t row) const {
        return "=IF(" + make.any_blank(result.needs) + ";\"\";" +
               (result.unless.empty() ? text
                                      : "IF(" + make.expand(result.unless, row) + ";\"\";" + text + ")") +
               ")";
    }

    // Why it is refused, or what it wants, or what there is to say of it.
    std::string told_of(const Result& result, const std::string& value, const std::string& text,
                        const std::string& remark, std::size_t row) const {
        std::string why = in_quotes(make.say("An input is not understood, or impossible: see beside it."));
        const std::string whole = "=" + text;
        if (const auto calls = calls_in(whole); !calls.empty()) {
            std::string asked = "DRY.WHY(" + in_quotes(calls.front().name.substr(4));
            for (const auto argument : calls.front().arguments) asked.append(";").append(argument);
            why = "IFERROR(" + asked + ");" + why + ")";
        }
        why = "IF(" + absent() + ";" + make.expand(kNotHere) + ";" + why + ")";
        const std::string list = make.blanks_in_words(result.needs), wants = make.say("Wants: {}");
        return "=IF(ISERROR(" + value + ");" + why + ";IF(" + value + "=\"\";IF(LEN(" + list + ")>0;" +
               in_quotes(wants.substr(0, wants.find("{}"))) + "&MID(" + list + ";3;300);" +
               (result.hold.empty() ? "\"\"" : make.expand(result.hold, row)) + ");" + remark + "))";
    }

    void one_working(const Working& working) {
        const CellArea area = make.at(working.name).raw;
        put(area.column - 1, area.row, Look::working, make.say(working.label));
        put(area.column, area.row, Look::working,
            working.needs.empty()
                ? formula(working.formula)
                : "=IF(" + make.any_blank(working.needs) + ";\"\";" + make.expand(working.formula) + ")");
    }

    void curve() {
        const CellArea hours = make.at("curve_h").raw;
        put(kWorkingAt, hours.row - 1, Look::working, make.say("The curve to draw"));
        constexpr std::string_view headings[] = {"Hours", "Curve, %", "To reach, %"};
        for (std::size_t i = 0; i < std::size(headings); ++i)
            put(hours.column + i, hours.row - 1, Look::working, make.say(headings[i]));
        for (std::size_t i = 0; i < hours.rows; ++i) {
            const std::size_t row = hours.row + i;
            const std::string part = std::to_string(i) + "/" + std::to_string(hours.rows - 1);
            put(hours.column, row, Look::working,
                formula("IF([run_first]=\"\";\"\";MAX([run_h])*" + part + ")"));
            put(hours.column + 1, row, Look::working,
                formula("IF([fit_solids]=\"\";\"\";100*DRY.WETBASIS([fit_start]*DRY.CURVE(\"Page\";{curve_h};"
                        "[fit_parameters])))",
                        row));
            put(hours.column + 2, row, Look::working,
                formula("IF(OR({curve_h}=\"\";[target_moisture]=\"\");\"\";100*[target_moisture])", row));
        }
    }
};

SheetPlan plan_of_trial(const Maker& make) {
    Writer writer(make);
    writer.top();
    writer.inputs();
    writer.results();
    writer.workings();
    SheetPlan& plan = writer.plan;
    const std::size_t rows = make.inputs_end() - kFirstRow;
    plan.alarms.push_back({{kQuestionAt, kFirstRow, 1, rows},
                           "SUMPRODUCT(ISERROR($" + address(kReadAt, kFirstRow) + ":$" +
                               address(kReadAt + 2, kFirstRow) + ")*1)>0"});
    plan.charts.push_back(writer.chart({kResultAt, make.results_end() + 1, 5, 22}));
    plan.widths = {62, 25, 25, 25, 38, 4, 66, 42, 20, 18, 108, 4, 18, 18, 18, 20, 20, 20, 14, 62, 28, 20, 20};
    plan.height = kLine;
    plan.heights.insert(plan.heights.end(), {{0, 8}, {1, 2 * kLine}, {2, 2 * kLine}});
    plan.print = {0, 0, kRemarkAt + 1, make.inputs_end()};
    plan.landscape = true;
    return writer.take();
}

SheetPlan plan_of_report(const Maker& make) {
    Writer writer(make);
    constexpr std::size_t columns = 4;
    std::size_t row = 1;
    const auto line = [&](Look look, const std::string& content, double height = 0) {
        if (height > 0) writer.plan.heights.emplace_back(row, height);
        writer.put(0, row++, look, content).columns = columns;
    };
    writer.title();
    line(
        Look::remark,
        writer.formula(
            "IF(" + Writer::absent() + ";" + std::string(Writer::kNotHere) + "&\" \";\"\")&" +
            R"(TRIM(IF(<lot>="";"";“Lot {}”(<lot>)&" · ")&IF(<date>="";"";IF(ISNUMBER(<date>);YEAR(<date>)&"-"&RIGHT("0"&MONTH(<date>);2)&"-"&RIGHT("0"&DAY(<date>);2);<date>)&" · ")&IF(<operator>="";"";<operator>&" · ")&<place>))"));
    ++row;
    for (const char* sentence : {"<sentence_1>", "<sentence_2>", "<sentence_3>"})
        line(Look::sentence, writer.formula("IFERROR(" + std::string(sentence) + ";\"\")"), 10);
    ++row;
    const std::string headings[] = {make.say("Ten numbers"), make.say("± its standard uncertainty"), "", ""};
    for (std::size_t i = 0; i < columns; ++i) writer.put(i, row, Look::section, headings[i]);
    for (const std::string_view ten : kTen) {
        const CellArea shown = *make.at(ten).shown;
        const std::string value = absolute(shown, make.sheet());
        writer.put(0, ++row, Look::label, make.say(make.at(ten).said));
        writer.plan.heights.emplace_back(row, 8);
        writer.put(1, row, Look::result,
                   std::string("=IF(").append(value).append("=\"\";\"–\";").append(value).append(")"));
        writer.put(2, row, Look::remark, "=" + absolute({kRemarkAt, shown.row}, make.sheet())).columns = 2;
    }
    constexpr std::size_t chart_rows = 20;
    writer.plan.charts.push_back(writer.chart({0, row + 2, columns, chart_rows}));
    row += chart_rows + 3;
    line(Look::sentence,
         writer.formula(
             "IF(<guessed>=\"\";“Nothing was guessed.”;“Guessed or typical, not measured: {}.”(<guessed>))"),
         10);
    line(Look::remark,
         make.say("A calculation is no food safety assessment: only a measured water activity and the local "
                  "food authority decide."),
         9);
    line(Look::remark,
         make.say("Slow or cool drying lets things grow while it lasts, and drying kills nothing for "
                  "certain. Fine powder in the air can burn: no flame, no sparks."),
         9);
    writer.plan.widths = {62, 46, 40, 32};
    writer.plan.print = {0, 0, columns, row};
    writer.plan.height = kLine;
    writer.plan.heights.emplace_back(0, 9);
    writer.plan.one_page = true;
    return writer.take();
}

// ---- several trials

struct Compared {
    std::string_view name;
    bool judged;  ///< of a kind that two trials of other amounts may share
};
constexpr Compared kCompared[] = {
    {"loaded", false},         {"yield_prepared", true},  {"dried", false}, {"yield_dried", true},
    {"yield_overall", true},   {"expected_dried", false}, {"water", false}, {"passed_by_readings", true},
    {"passed_by_curve", true}, {"heat", false},           {"air", false},   {"cost", true}};
constexpr std::string_view kConditions[] = {
    "product",        "lot", "date", "dryer_temp", "room_temp", "start_moisture", "final_moisture",
    "target_moisture"};

// "{0}+{1}" with these put in.
std::string filled(std::string_view form, std::initializer_list<std::string_view> values) {
    std::string made;
    for (std::size_t i = 0; i < form.size(); ++i) {
        if (form[i] == '{' && i + 2 < form.size() && form[i + 2] == '}') {
            made += values.begin()[form[i + 1] - '0'];
            i += 2;
        } else {
            made += form[i];
        }
    }
    return made;
}

class SideBySide {
  public:
    SideBySide(const Maker& maker, const std::vector<TrialCells>& all)
        : make_(maker), trials_(all), n_(all.size()), writer_(maker) {}

    SheetPlan take() {
        writer_.put(0, 0, Look::title, make_.say("Trials side by side"));
        head();
        std::size_t row = kHead;
        for (const std::string_view name : kConditions) condition(name, ++row);
        std::string differs;
        for (const Compared& compared : kCompared) {
            compare(compared, ++row);
            if (compared.judged) differs.append(differs.empty() ? "" : "&").append(told(row));
        }
        const std::string none = in_quotes(make_.say("Nothing differs by more than its ± explains."));
        const std::string some =
            make_.expand(filled("“More than the ± explains: {}.”(MID({0};3;400))", {differs}));
        writer_.put(0, 1, Look::sentence, filled("=IF(LEN({0})=0;{1};{2})", {differs, none, some})).columns =
            n_ + 2;
        chart({0, row + 2, n_ + 2, 24});
        writer_.name("trials_table", {0, kHead, n_ + 2, row + 1 - kHead});
        SheetPlan plan = writer_.take();
        plan.widths = std::vector<double>(n_ + 1, 40);
        plan.widths.front() = 66;
        plan.widths.push_back(110);
        plan.height = kLine;
        plan.heights = {{0, 8}, {1, 2 * kLine}};
        plan.print = {0, 0, n_ + 2, row + 27};
        plan.landscape = plan.one_page = true;
        return plan;
    }

  private:
    static constexpr std::size_t kHead = 3;

    std::string cell(std::size_t trial, std::string_view name) const {
        const auto found = trials_[trial].names.find(name);
        return found == trials_[trial].names.end() ? std::string()
                                                   : absolute(found->second, trials_[trial].sheet);
    }
    // Where a trial's value, its ± and, of all but the first, the difference and its ± are worked out.
    std::string value(std::size_t trial, std::size_t row) const {
        return absolute({n_ + 3 + 4 * trial, row});
    }
    std::string u(std::size_t trial, std::size_t row) const { return absolute({n_ + 4 + 4 * trial, row}); }
    std::string difference(std::size_t trial, std::size_t row) const {
        return absolute({n_ + 5 + 4 * trial, row});
    }
    std::string its_u(std::size_t trial, std::size_t row) const {
        return absolute({n_ + 6 + 4 * trial, row});
    }

    void head() {
        writer_.put(0, kHead, Look::section, "");
        for (std::size_t i = 0; i < n_; ++i) writer_.put(i + 1, kHead, Look::section, trials_[i].sheet);
        std::string against = make_.say("Against {}");
        writer_.put(n_ + 1, kHead, Look::section, against.replace(against.find("{}"), 2, trials_[0].sheet));
    }

    void condition(std::string_view name, std::size_t row) {
        writer_.put(0, row, Look::label, make_.words_of(name));
        for (std::size_t i = 0; i < n_; ++i) {
            const std::string typed = cell(i, name);
            PlannedCell& shown = writer_.put(i + 1, row, Look::remark,
                                             typed.empty() ? "" : filled("=IF({0}=\"\";\"\";{0})", {typed}));
            if (name == "date") shown.format = "YYYY-MM-DD";
        }
    }

    // The value to the digits that its ± leaves, or to three figures.
    static std::string rounded(const std::string& value, const std::string& u, const std::string& shown) {
        return filled("FIXED({2};IF(N({1})>0;1-INT(LOG10({1}));IF({0}=0;0;2-INT(LOG10(ABS({0})))));1)",
                      {value, u, shown});
    }

    void compare(const Compared& compared, std::size_t row) {
        const auto* const result = std::ranges::find(kResults, compared.name, &Result::name);
        const bool share = result->shows == Shows::share, mass = result->shows == Shows::mass;
        const std::string unit = mass                   ? " g"
                                 : share                ? " %"
                                 : result->unit.empty() ? ""
                                                        : " " + std::string(result->unit);
        writer_.put(0, row, Look::label, make_.say(result->label));
        std::string verdict;
        for (std::size_t i = 0; i < n_; ++i) {
            const auto in_unit = [&](const std::string& from) {
                if (from.empty()) return std::string();
                return filled(mass    ? "=IF(ISNUMBER({0});DRY.IN({0}&\" \"&{1};\"g\");\"\")"
                              : share ? "=IF(ISNUMBER({0});{0}*100;\"\")"
                                      : "=IF(ISNUMBER({0});{0};\"\")",
                              {from, cell(i, "mass_unit")});
            };
            const std::string mine = value(i, row), mine_u = u(i, row);
            writer_.put(n_ + 3 + 4 * i, row, Look::working, in_unit(cell(i, compared.name)));
            writer_.put(n_ + 4 + 4 * i, row, Look::working,
                        in_unit(cell(i, std::string(compared.name) + "_u")));
            writer_.put(i + 1, row, Look::result,
                        filled("=IF({0}=\"\";\"\";{1}&IF(N({2})>0;\" ± \"&{3};\"\")&{4})",
                               {mine, rounded(mine, mine_u, mine), mine_u, rounded(mine, mine_u, mine_u),
                                in_quotes(unit)}));
            if (i > 0 && compared.judged)
                verdict.append(verdict.empty() ? "" : "&")
                    .append(judged(i, row, share ? " " + make_.say("points") : unit));
        }
        writer_.put(n_ + 1, row, Look::remark, verdict.empty() ? verdict : "=TRIM(" + verdict + ")");
    }

    // Whether it differs from the first trial's.
    std::string judged(std::size_t i, std::size_t row, const std::string& unit) {
        const std::string less = difference(i, row), its = its_u(i, row), who = in_quotes(trials_[i].sheet);
        writer_.put(n_ + 5 + 4 * i, row, Look::working,
                    filled("=IF(OR({0}=\"\";{1}=\"\");\"\";{0}-{1})", {value(i, row), value(0, row)}));
        writer_.put(n_ + 6 + 4 * i, row, Look::working,
                    filled("=IF({0}=\"\";\"\";SQRT(N({1})^2+N({2})^2))", {less, u(i, row), u(0, row)}));
        const std::string shown =
            filled("IF({0}>0;\"+\";\"\")&{1}&{2}", {less, rounded(less, its, less), in_quotes(unit)});
        return make_.expand(
            filled("IF({0}=\"\";\"\";IF({1}=0;“{}: no ± to judge by”({2});IF(ABS({0})>2*{1};“{} differs by "
                   "{}, more than its ± explains”({2};{3});“{}: no more than its ± explains”({2})))&\"   \")",
                   {less, its, who, shown}));
    }

    // The label of a row in which any trial differs, behind "; ".
    std::string told(std::size_t row) const {
        std::string any;
        for (std::size_t i = 1; i < n_; ++i)
            any.append(any.empty() ? "" : ";")
                .append(filled("IF(N({1})=0;FALSE();ABS({0})>2*{1})", {difference(i, row), its_u(i, row)}));
        return filled("IF(OR({0});\"; \"&{1};\"\")", {any, absolute({0, row})});
    }

    void chart(const CellArea& over) {
        PlannedChart chart{.title = make_.say("Drying curves"),
                           .x_title = make_.say("Hours since the first reading"),
                           .y_title = make_.say("Moisture, % of the wet mass"),
                           .over = over};
        for (std::size_t i = 0; i < n_; ++i) {
            const auto x = trials_[i].names.find("run_h"), y = trials_[i].names.find("run_moisture");
            if (x != trials_[i].names.end() && y != trials_[i].names.end())
                chart.series.push_back({trials_[i].sheet, x->second, y->second,
                                        absolute({i + 1, kHead}, make_.sheet()),
                                        PlannedChart::Series::Line::joined});
        }
        writer_.plan.charts.push_back(std::move(chart));
    }

    const Maker& make_;
    const std::vector<TrialCells>& trials_;
    std::size_t n_;
    Writer writer_;
};

SheetPlan plan_of_trials(const Maker& make, const std::vector<TrialCells>& trials) {
    return SideBySide(make, trials).take();
}

}  // namespace

SheetPlan trial_plan(const Texts& texts) { return plan_of_trial(Maker(texts)); }
SheetPlan trial_report(const std::string& trial, const Texts& texts) {
    return plan_of_report(Maker(texts, trial));
}

TrialCells cells_of_plan(const std::string& sheet, const SheetPlan& plan) {
    TrialCells cells{.sheet = sheet};
    for (const PlannedName& name : plan.names) cells.names.emplace(name.name, name.area);
    return cells;
}

SheetPlan trials_side_by_side(const std::string& sheet, const std::vector<TrialCells>& trials,
                              const Texts& texts) {
    return plan_of_trials(Maker(texts, sheet), trials);
}

std::vector<std::string> trial_words() {
    std::vector<std::string> heard;
    const Texts english;
    plan_of_trial(Maker(english, {}, &heard));
    plan_of_report(Maker(english, "Trial", &heard));
    plan_of_trials(Maker(english, "Trials", &heard),
                   {cells_of_plan("Trial", trial_plan()), cells_of_plan("Trial 2", trial_plan())});
    return heard;
}

std::string absolute(const CellArea& area, std::string_view sheet) {
    const auto corner = [](std::size_t column, std::size_t row) {
        return "$" + column_letters(column) + "$" + std::to_string(row + 1);
    };
    std::string made = sheet.empty() ? std::string() : "$" + quoted_sheet(sheet) + ".";
    made += corner(area.column, area.row);
    if (area.rows * area.columns > 1)
        made += ":" + corner(area.column + area.columns - 1, area.row + area.rows - 1);
    return made;
}

}  // namespace drysheet
