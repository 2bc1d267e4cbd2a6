#include "addin/boundary/patterns.hpp"

#include <algorithm>
#include <map>
#include <optional>

#include "addin/boundary/formula_text.hpp"

namespace drysheet {
namespace {

// The numbers are invented, to be typed over.
constexpr Pattern kPatterns[] = {
    {.command = "yield", .title = "Yield with its check", .lines = R"(Yield with its check
Type over the shaded cells, in any unit | value | unit | ±
Prepared material put in | fresh: 12.5 | kg | fresh_u: 0.02
Its moisture, wet basis | start: 86 | % | start_u: 0.5
Dried product taken out | dried: 1.96 | kg | dried_u: 0.005
Its moisture, wet basis | final: 10 | % | final_u: 0.5
Dried product to expect | =DRY.DRIEDMASS([fresh];[start];[final]) | g
Water taken out | =DRY.WATERREMOVED([fresh];[start];[final]) | g
Fresh mass for one of dried | =DRY.DRYINGRATIO([start];[final]) | g/g
Moisture that the two weights give, wet basis | =DRY.FINALMOISTURE([fresh];[start];[dried])*100 | %
Do weights and moistures agree? | =DRY.PICK(DRY.RECONCILE([fresh];[fresh_u];[start];[start_u];[dried];[dried_u];[final];[final_u]);"verdict")
If a result is refused, the reason | =DRY.WHY("DRIEDMASS";[fresh];[start];[final]))"},
    {.command = "run", .title = "Drying run", .lines = R"(Drying run, weighed
Type over the shaded cells, in any unit | value | unit
Moisture at the start | start: 86 | % wb
Moisture to reach | target: 10 | % wb
Moisture at which drying would end by itself | rest: 0.06 | kg/kg db
Dry solids on the tray | solids: =DRY.SOLIDSMASS(INDEX(<mass>;1)&" "&<mass_unit>;[start]) | g
Page curve, k | page: {=DRY.PICK(DRY.CURVEFIT("Page";<time>&" "&<time_unit>;<ratio>);"k")} | 1/h^n
Page curve, n | page: {=DRY.PICK(DRY.CURVEFIT("Page";<time>&" "&<time_unit>;<ratio>);"n")}
Time to the moisture to reach | =DRY.DRYINGTIME([start];[target];[rest];"Page";<page>) | h
If a result is refused, the reason | {=DRY.WHY("RATIOS";<mass>&" "&<mass_unit>;[solids];[rest])}
Readings, without the tray | Time | Mass | Moisture ratio | Moisture | Drying rate
 | time_unit: h | mass_unit: g | – | kg/kg db | kg/kg/h
1 | time: 0 | mass: 1000 | ratio: {=DRY.RATIOS(<mass>&" "&<mass_unit>;[solids];[rest])} | {=<mass>/INDEX(<mass>;1)*(1+DRY.DRYBASIS([start]))-1} | {=DRY.RATES(<time>&" "&<time_unit>;<mass>&" "&<mass_unit>;[solids])}
2 | time: 1 | mass: 709 | ratio: ^ | ^ | ^
3 | time: 2 | mass: 505 | ratio: ^ | ^ | ^
4 | time: 3 | mass: 369 | ratio: ^ | ^ | ^
5 | time: 4 | mass: 284 | ratio: ^ | ^ | ^
6 | time: 5 | mass: 232 | ratio: ^ | ^ | ^
7 | time: 6 | mass: 201 | ratio: ^ | ^ | ^
8 | time: 7 | mass: 181 | ratio: ^ | ^ | ^
9 | time: 8 | mass: 167 | ratio: ^ | ^ | ^
10 | time: 9 | mass: 157 | ratio: ^ | ^ | ^)"},
    {.command = "air", .title = "State of air", .lines = R"(State of air
Type over the shaded cells, in any unit | value | unit
Temperature | temp: 24 | °C
Relative humidity | rh: 65 | %
Altitude | altitude: 1200 | m
Dryer's setting | heated: 58 | °C
Pressure | pressure: =DRY.ALTITUDEPRESSURE([altitude]) | kPa
Humidity ratio | =DRY.HUMIDITYRATIO([temp];[rh];[pressure])*1000 | g/kg
Dew point | =DRY.DEWPOINT([temp];[rh];[pressure]) | °C
Wet bulb | =DRY.WETBULB([temp];[rh];[pressure]) | °C
Density of the moist air | =DRY.AIRDENSITY([temp];[rh];[pressure]) | kg/m³
Relative humidity when heated to the setting | hot: =DRY.HEATEDRH([temp];[rh];[heated];[pressure])*100 | %
Water that heated air takes up to 80 % humidity | =DRY.AIRPICKUP([heated];[hot];0.8;[pressure])*1000 | g/kg
If a result is refused, the reason | =DRY.WHY("HEATEDRH";[temp];[rh];[heated];[pressure]))"},
};

std::string_view trimmed(std::string_view text) {
    while (text.starts_with(' ')) text.remove_prefix(1);
    while (text.ends_with(' ')) text.remove_suffix(1);
    return text;
}

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
    if (end == 0 || end == std::string_view::npos || !text.substr(end).starts_with(": ")) return {};
    const auto name = text.substr(0, end);
    text = trimmed(text.substr(end + 1));
    return name;
}

struct Place {
    std::size_t column = 0, row = 0, rows = 1;
};
using Places = std::map<std::string_view, Place>;

// A reference that starts in this text with < or [, as the sheet writes it; nothing where none starts.
std::optional<std::string> reference(std::string_view& text, const Places& places) {
    const char close = text.front() == '<' ? '>' : text.front() == '[' ? ']' : '\0';
    const auto end = close == '\0' ? std::string_view::npos : text.find(close);
    if (end == std::string_view::npos) return {};
    const auto found = places.find(text.substr(1, end - 1));
    if (found == places.end()) return {};
    text.remove_prefix(end + 1);
    const auto& [column, row, rows] = found->second;
    if (close == '>')
        return address(column, row) + (rows > 1 ? ":" + address(column, row + rows - 1) : std::string());
    // an uncertainty stands to the right of the unit that it shares
    const bool shares_unit = found->first.ends_with("_u");
    return address(column, row) + "&\" \"&" + address(shares_unit ? column - 1 : column + 1, row);
}

std::string with_addresses(std::string_view text, const Places& places) {
    std::string made;
    while (!text.empty()) {
        if (auto found = reference(text, places)) {
            made += *found;
        } else {
            made += text.front();
            text.remove_prefix(1);
        }
    }
    return made;
}

}  // namespace

std::span<const Pattern> patterns() { return kPatterns; }

const Pattern* find_pattern(std::string_view command) {
    const auto found = std::find_if(std::begin(kPatterns), std::end(kPatterns),
                                    [&](const Pattern& pattern) { return pattern.command == command; });
    return found == std::end(kPatterns) ? nullptr : found;
}

Block placed(const Pattern& pattern, std::size_t column, std::size_t row) {
    Block block;
    Places places;
    std::map<std::size_t, std::size_t> array_above;  // by column, the number of the array formula's cell
    for_each_part(pattern.lines, '\n', [&](std::size_t line, std::string_view text) {
        block.rows = line + 1;
        for_each_part(text, '|', [&](std::size_t i, std::string_view part) {
            block.columns = std::max(block.columns, i + 1);
            part = trimmed(part);
            PatternCell cell{.column = column + i, .row = row + line};
            if (const auto name = take_name(part); !name.empty()) {
                const auto [known, added] = places.emplace(name, Place{cell.column, cell.row});
                if (!added) ++known->second.rows;
                cell.input = !part.starts_with("=") && !part.starts_with("{=") && part != "^";
            }
            if (part == "^") {
                ++block.cells[array_above.at(i)].array_rows;
            } else if (!part.empty()) {
                if (part.starts_with("{=")) {
                    cell.array_rows = 1;
                    part = part.substr(1, part.size() - 2);
                    array_above[i] = block.cells.size();
                }
                cell.content = part;
                block.cells.push_back(std::move(cell));
            }
        });
    });
    for (PatternCell& cell : block.cells)
        if (cell.content.starts_with("=")) cell.content = with_addresses(cell.content, places);
    return block;
}

}  // namespace drysheet
