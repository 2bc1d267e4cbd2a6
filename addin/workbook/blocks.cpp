// SPDX-License-Identifier: MPL-2.0
#include "addin/workbook/blocks.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <map>
#include <optional>
#include <vector>

#include "addin/text/words.hpp"
#include "addin/workbook/formula_text.hpp"

namespace drysheet {
namespace {

// The numbers are invented, to be typed over.
constexpr Pattern kPatterns[] = {
    {.command = "yield", .title = "Yield with its check", .lines = R"(
Type over the shaded cells, in any unit | Value | Unit | ±
Prepared material put in | fresh: 12.5 | kg | fresh_u: 0.02
Its moisture, wet basis | start: 86 % | fraction wb | start_u: 0.5 %
Dried product taken out | dried: 1.96 | kg | dried_u: 0.005
Its moisture, wet basis | final: 10 % | fraction wb | final_u: 0.5 %
Dried product to expect | =DRY.DRIEDMASS([fresh];[start];[final]) | g
Water taken out | =DRY.WATERREMOVED([fresh];[start];[final]) | g
Fresh mass per mass of dried product | =DRY.DRYINGRATIO([start];[final]) | g/g
Moisture that the two weights give, wet basis | =DRY.FINALMOISTURE([fresh];[start];[dried]) % | fraction wb
Do weights and moistures agree? | =DRY.PICK(DRY.RECONCILE([fresh];[fresh_u];[start];<start_u>&" fraction";[dried];[dried_u];[final];<final_u>&" fraction");"verdict")
If a result is refused, the reason | =reason)"},
    {.command = "run", .title = "Drying run", .lines = R"(
Type over the shaded cells, in any unit | Value | Unit
Moisture at the start | start: 86 % | fraction wb
Moisture to reach | target: 10 % | fraction wb
Moisture at which drying would end by itself | rest: 0.06 | kg/kg db
Dry solids on the tray | solids: =DRY.SOLIDSMASS(INDEX(<mass>;1)&" "&<mass_unit>;[start]) | g
Page curve, k | page: {=DRY.PICK(DRY.CURVEFIT("Page";[time if mass];<ratio>);"k")} | 1/h^n
Page curve, n | page: {=DRY.PICK(DRY.CURVEFIT("Page";[time if mass];<ratio>);"n")}
Time to the moisture to reach | =DRY.DRYINGTIME([start];[target];[rest];"Page";<page>) | h
If a result is refused, the reason | =reason
Readings, without the tray | Time | Mass | Moisture ratio | Moisture | Drying rate
Times as numbers: 8.5 h, not 8:30 | time_unit: h | mass_unit: g | – | kg/kg db | kg/kg/h
1 | time: 0 | mass: 1000 | ratio: {=IF(<mass>="";"";DRY.RATIOS([mass if mass];[solids];[rest]))} | {=IF(<ratio>="";"";<mass>/INDEX(<mass>;1)*(1+DRY.DRYBASIS([start]))-1)} | {=IF(<mass>="";"";DRY.RATES([time if mass];[mass if mass];[solids]))}
2 | time: 1 | mass: 709 | ratio: ^ | ^ | ^
3 | time: 2 | mass: 505 | ratio: ^ | ^ | ^
4 | time: 3 | mass: 369 | ratio: ^ | ^ | ^
5 | time: 4 | mass: 284 | ratio: ^ | ^ | ^
6 | time: 5 | mass: 232 | ratio: ^ | ^ | ^
7 | time: 6 | mass: 201 | ratio: ^ | ^ | ^
8 | time: 7 | mass: 181 | ratio: ^ | ^ | ^
9 | time: 8 | mass: 167 | ratio: ^ | ^ | ^
10 | time: 9 | mass: 157 | ratio: ^ | ^ | ^
11 | time: | mass: | ratio: ^ | ^ | ^
12 | time: | mass: | ratio: ^ | ^ | ^
13 | time: | mass: | ratio: ^ | ^ | ^
14 | time: | mass: | ratio: ^ | ^ | ^
15 | time: | mass: | ratio: ^ | ^ | ^
16 | time: | mass: | ratio: ^ | ^ | ^
17 | time: | mass: | ratio: ^ | ^ | ^
18 | time: | mass: | ratio: ^ | ^ | ^
19 | time: | mass: | ratio: ^ | ^ | ^
20 | time: | mass: | ratio: ^ | ^ | ^)"},
    {.command = "air", .title = "State of air", .lines = R"(
Type over the shaded cells, in any unit | Value | Unit
Temperature | temp: 24 | °C
Relative humidity | rh: 65 % | fraction
Altitude | altitude: 1200 | m
Dryer's setting | heated: 58 | °C
Pressure | pressure: =DRY.ALTITUDEPRESSURE([altitude]) | kPa
Humidity ratio | =DRY.HUMIDITYRATIO([temp];[rh];[pressure])*1000 | g/kg
Dew point | =DRY.DEWPOINT([temp];[rh];[pressure]) | °C
Wet bulb | =DRY.WETBULB([temp];[rh];[pressure]) | °C
Density of the moist air | =DRY.AIRDENSITY([temp];[rh];[pressure]) | kg/m³
Relative humidity when heated to the setting | hot: =DRY.HEATEDRH([temp];[rh];[heated];[pressure]) % | fraction
Water that heated air takes up to 80 % humidity | =DRY.AIRPICKUP([heated];[hot];0.8;[pressure])*1000 | g/kg
If a result is refused, the reason | =reason)"},
    {.command = "two-inputs",
     .title = "One result over two inputs",
     .lines = R"(
Type over the shaded cells | First | Step
Prepared material put in; the results are in the same unit | fresh: 1000
Moisture of the dried product, wet basis | across: 6 % | across_step: 2 %
Moisture of the prepared material, wet basis | down: 78 % | down_step: 2 %
Moisture of the prepared material ↓, of the dried product → | top: =<across> % | top: =<left>+<across_step fixed> % | top: " | top: " | top: "
side: =<down> % | =DRY.DRIEDMASS(<fresh fixed>;<side in row>;<top in column>) | " | " | " | "
side: =<above>+<down_step fixed> % | =DRY.DRIEDMASS(<fresh fixed>;<side in row>;<top in column>) | " | " | " | "
side: =<above>+<down_step fixed> % | =DRY.DRIEDMASS(<fresh fixed>;<side in row>;<top in column>) | " | " | " | "
side: =<above>+<down_step fixed> % | =DRY.DRIEDMASS(<fresh fixed>;<side in row>;<top in column>) | " | " | " | "
side: =<above>+<down_step fixed> % | =DRY.DRIEDMASS(<fresh fixed>;<side in row>;<top in column>) | " | " | " | "
side: =<above>+<down_step fixed> % | =DRY.DRIEDMASS(<fresh fixed>;<side in row>;<top in column>) | " | " | " | "
side: =<above>+<down_step fixed> % | =DRY.DRIEDMASS(<fresh fixed>;<side in row>;<top in column>) | " | " | " | "
For another result change the first cell of the table and copy it over the others
If the first cell is refused, the reason | =DRY.WHY("DRIEDMASS";<fresh>;<down>;<across>))",
     .chart_of = "top"},
};

// Calls `visit` with each part of a text and its number.
template <class Visit>
void for_each_part(std::string_view text, char mark, Visit visit) {
    for (std::size_t i = 0;; ++i) {
        const auto end = std::min(text.find(mark), text.size());
        visit(i, text.substr(0, end));
        if (end == text.size()) return;
        text.remove_prefix(end + 1);
    }
}

// "name: content" → name, and the content left in the text.
std::string_view take_name(std::string_view& text) {
    const auto end = text.find_first_not_of("abcdefghijklmnopqrstuvwxyz_");
    if (end == 0 || end == std::string_view::npos || text[end] != ':') return {};
    const auto name = text.substr(0, end);
    text = trimmed(text.substr(end + 1));
    return name;
}

// "86 %" → "86", and whether there was a sign to take; a text keeps its own.
bool take_percent(std::string_view& text) {
    if (!text.ends_with(" %") || (text.front() != '=' && (text.front() < '0' || text.front() > '9')))
        return false;
    text.remove_suffix(2);
    return true;
}

// "86" → "0.86".
std::string hundredth(std::string_view number) {
    double value = 0;
    std::from_chars(number.data(), number.data() + number.size(), value);
    std::array<char, 32> text{};
    return {text.data(), std::to_chars(text.data(), text.data() + text.size(), value / 100).ptr};
}

bool is_label(std::string_view text) { return !text.empty() && text.front() >= 'A' && text.front() <= 'Z'; }
std::string title_key(const Pattern& pattern) { return "pattern." + std::string(pattern.command); }

constexpr std::string_view kDitto = "\"";
constexpr std::size_t kChartRows = 18;

struct Place {
    std::size_t column = 0, row = 0, rows = 1;
};
using Places = std::map<std::string_view, Place>;

std::string range_of(const Place& place) {
    const auto& [column, row, rows] = place;
    return address(column, row) + (rows > 1 ? ":" + address(column, row + rows - 1) : std::string());
}

// "fixed", "in row", "in column": how a name's cell is written in a formula that is copied.
std::optional<std::string> copied_reference(std::string_view inside, const Places& places,
                                            const PatternCell& cell) {
    const auto dollars = [](bool of_column, std::size_t column, bool of_row, std::size_t row) {
        return (of_column ? "$" : "") + column_letters(column) + (of_row ? "$" : "") +
               std::to_string(row + 1);
    };
    if (inside == "above") return dollars(false, cell.column, false, cell.row - 1);
    if (inside == "left") return dollars(false, cell.column - 1, false, cell.row);
    const auto cut = inside.find(' ');
    const auto found = places.find(inside.substr(0, cut));
    if (cut == std::string_view::npos || found == places.end()) return {};
    const Place& place = found->second;
    const std::string_view how = inside.substr(cut + 1);
    if (how == "fixed") return dollars(true, place.column, true, place.row);
    if (how == "in row") return dollars(true, place.column, false, cell.row);
    if (how == "in column") return dollars(false, cell.column, true, place.row);
    return {};
}

// A reference that starts in this text with < or [, as the sheet writes it; nothing where none starts.
std::optional<std::string> reference(std::string_view& text, const Places& places, const PatternCell& cell) {
    const char close = text.front() == '<' ? '>' : text.front() == '[' ? ']' : '\0';
    const auto end = close == '\0' ? std::string_view::npos : text.find(close);
    if (end == std::string_view::npos) return {};
    constexpr std::string_view where_filled = " if ";
    const auto inside = text.substr(1, end - 1);
    if (close == '>')
        if (auto copied = copied_reference(inside, places, cell)) {
            text.remove_prefix(end + 1);
            return copied;
        }
    const auto cut = inside.find(where_filled);
    const auto found = places.find(inside.substr(0, cut));
    if (found == places.end()) return {};
    text.remove_prefix(end + 1);
    const std::string_view name = found->first;
    const Place& place = found->second;
    if (close == '>') return range_of(place);
    const auto with_unit = [&place](std::size_t column, std::size_t row) {
        return range_of(place) + "&\" \"&" + address(column, row);
    };
    if (cut != std::string_view::npos)
        return "IF(" + range_of(places.at(inside.substr(cut + where_filled.size()))) + "=\"\";\"\";" +
               with_unit(place.column, place.row - 1) + ")";
    // an uncertainty stands to the right of the unit that it shares
    return with_unit(name.ends_with("_u") ? place.column - 1 : place.column + 1, place.row);
}

std::string with_addresses(std::string_view text, const Places& places, const PatternCell& cell) {
    std::string made;
    while (!text.empty()) {
        if (auto found = reference(text, places, cell)) {
            made += *found;
        } else {
            made += text.front();
            text.remove_prefix(1);
        }
    }
    return made;
}

// ---- the reason

constexpr std::string_view kReason = "=reason";

// Whether any of these values is an error; an array formula takes ranges and tables as a whole.
std::string fails(std::string_view what, bool array) {
    std::string test = "ISERROR(" + std::string(what) + ")";
    return array ? "OR(" + test + ")" : test;
}

std::string asked(const CallText& call) {
    std::string text = "DRY.WHY(\"" + std::string(call.name.substr(4)) + "\"";
    for (const auto argument : call.arguments) text.append(";").append(argument);
    return text + ")";
}

// What DRY.WHY says of the first call in these cells that is refused, inner calls before outer ones. A call
// that has another's error among its arguments cannot be asked, so IFERROR goes on to the next.
void give_reason(PatternCell& reason, std::span<const PatternCell> cells, const Texts& texts) {
    std::vector<const PatternCell*> results;
    for (const PatternCell& cell : cells)
        if (&cell != &reason && cell.content.starts_with("=")) results.push_back(&cell);
    const bool array = std::ranges::any_of(results, [](auto* cell) { return cell->array_rows > 0; });
    std::string text = "=", ends, any;
    for (const PatternCell* cell : results) {
        const std::string shown =
            fails(range_of({cell->column, cell->row, std::max<std::size_t>(cell->array_rows, 1)}), array);
        any += (any.empty() ? "" : ";") + shown;
        auto calls = calls_in(cell->content);
        std::ranges::reverse(calls);
        for (const CallText& call : calls) {
            const bool all = call.whole.size() + 1 == cell->content.size();
            const std::string step =
                "IFERROR(IF(" + (all ? shown : fails(call.whole, array)) + ";" + asked(call) + ";NA());";
            if (text.find(step) != std::string::npos) continue;
            text += step;
            ends += ")";
        }
    }
    reason.content = text + "IF(OR(" + any + ");" +
                     in_quotes(texts.word("a cell that the results come from holds an error itself")) + ";" +
                     in_quotes(texts.word("every result is fine")) + ")" + ends;
    reason.array_rows = array ? 1 : 0;
}

}  // namespace

std::span<const Pattern> patterns() { return kPatterns; }

const Pattern* find_pattern(std::string_view command) {
    const auto found = std::ranges::find(kPatterns, command, &Pattern::command);
    return found == std::end(kPatterns) ? nullptr : found;
}

Block placed(const Pattern& pattern, std::size_t column, std::size_t row, const Texts& texts) {
    Block block{
        .cells = {{.column = column, .row = row, .content = texts.text(title_key(pattern), pattern.title)}}};
    Places places;
    std::map<std::size_t, std::size_t> array_above;  // by column, the number of the array formula's cell
    for_each_part(pattern.lines, '\n', [&](std::size_t line, std::string_view text) {
        block.rows = line + 1;
        std::string_view before;
        for_each_part(text, '|', [&](std::size_t i, std::string_view part) {
            block.columns = std::max(block.columns, i + 1);
            part = trimmed(part);
            PatternCell cell{.column = column + i, .row = row + line};
            if (const auto name = take_name(part); !name.empty()) {
                const auto [known, added] = places.emplace(name, Place{cell.column, cell.row});
                if (!added) ++known->second.rows;
                if (part == kDitto) part = before;
                cell.input = !part.starts_with("=") && !part.starts_with("{=") && part != "^";
            }
            if (part == kDitto) part = before;
            before = part;
            if (part == "^") {
                ++block.cells[array_above.at(i)].array_rows;
            } else if (!part.empty() || cell.input) {
                if (part.starts_with("{=")) {
                    cell.array_rows = 1;
                    part = part.substr(1, part.size() - 2);
                    array_above[i] = block.cells.size();
                }
                cell.percent = take_percent(part);
                // the unit of an input, which may be another
                if (!block.cells.empty() && !part.empty() && !is_label(part) && part != "–" &&
                    part.find('=') == std::string_view::npos) {
                    const PatternCell& left = block.cells.back();
                    cell.input =
                        cell.input || (left.input && left.row == cell.row && left.column + 1 == cell.column);
                }
                if (is_label(part))
                    cell.content = texts.text(part);
                else
                    cell.content =
                        cell.percent && !part.starts_with('=') ? hundredth(part) : std::string(part);
                block.cells.push_back(std::move(cell));
            }
        });
    });
    for (PatternCell& cell : block.cells)
        if (cell.content.starts_with("=")) cell.content = with_addresses(cell.content, places, cell);
    if (const auto reason = std::ranges::find(block.cells, kReason, &PatternCell::content);
        reason != block.cells.end())
        give_reason(*reason, block.cells, texts);
    if (const auto heads = places.find(pattern.chart_of); heads != places.end()) {
        const auto& [first, top, count] = heads->second;  // of a row `rows` counts its cells
        block.chart = {
            .column = first - 1, .row = top, .columns = count + 1, .rows = places.at("side").rows + 1};
        block.rows += 1 + kChartRows;
    }
    return block;
}

std::vector<std::pair<std::string, std::string>> labels(const Pattern& pattern) {
    std::vector<std::pair<std::string, std::string>> all{{title_key(pattern), std::string(pattern.title)}};
    const Block block = placed(pattern, 0, 0);
    for (const PatternCell& cell : std::span(block.cells).subspan(1))
        if (is_label(cell.content)) all.emplace_back(cell.content, cell.content);
    return all;
}

}  // namespace drysheet
