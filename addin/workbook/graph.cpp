// SPDX-License-Identifier: MPL-2.0
#include "addin/workbook/graph.hpp"

#include <algorithm>
#include <set>

#include "addin/workbook/compute.hpp"

namespace drysheet::workbook {
namespace {

using What = Formula::What;

void add_areas(const Formula& formula, const Picture& picture, int depth, std::vector<Area>& areas) {
    const auto add = [&](const Reference& from, const Reference& to) {
        if (from.gone || to.gone || !from.file.empty()) return;
        const auto [top, bottom] = std::minmax(from.cell.row, to.cell.row);
        const auto [left, right] = std::minmax(from.cell.column, to.cell.column);
        const auto [first, last] = std::minmax(from.cell.sheet, to.cell.sheet);
        for (int sheet = first; sheet <= last; ++sheet) areas.push_back({sheet, top, left, bottom, right});
    };
    if (formula.what == What::cell) add(formula.from, formula.from);
    if (formula.what == What::range) add(formula.from, formula.to);
    if (formula.what == What::name && depth < 30)
        if (const Formula* means = meaning(picture, formula)) add_areas(*means, picture, depth + 1, areas);
    for (const Formula& part : formula.parts) add_areas(part, picture, depth, areas);
}

// The cell whose array formula fills this one: up, then left, over cells that are filled so.
Place array_start(const Picture& picture, Place place) {
    const auto filled = [&](const Place& at) {
        const Cell* cell = at.row < 0 || at.column < 0 ? nullptr : picture.at(at);
        return cell != nullptr && cell->of_array;
    };
    while (filled({place.sheet, place.row - 1, place.column})) --place.row;
    while (filled({place.sheet, place.row, place.column - 1})) --place.column;
    for (const Place& start :
         {Place{place.sheet, place.row - 1, place.column}, Place{place.sheet, place.row, place.column - 1}})
        if (start.row >= 0 && start.column >= 0)
            if (const Cell* cell = picture.at(start); cell != nullptr && cell->formula) return start;
    return place;
}

}  // namespace

std::vector<Area> areas_in(const Formula& formula, const Picture& picture) {
    std::vector<Area> areas;
    add_areas(formula, picture, 0, areas);
    return areas;
}

Graph::Graph(const Picture& picture) : picture_(picture), by_range_(picture.sheets.size()) {
    for (std::size_t i = 0; i < picture.sheets.size(); ++i)
        for (const auto& [at, cell] : picture.sheets[i].cells) {
            const Place place{static_cast<int>(i), at.first, at.second};
            std::vector<Area> areas;
            if (cell.formula) {
                areas = areas_in(*cell.formula, picture);
            } else if (cell.of_array) {
                const Place start = array_start(picture, place);
                if (start != place)
                    areas.push_back({start.sheet, start.row, start.column, start.row, start.column});
            }
            if (areas.empty() && !cell.formula) continue;
            std::ranges::sort(areas);
            areas.erase(std::unique(areas.begin(), areas.end()), areas.end());
            for (const Area& area : areas) {
                if (area.one_cell())
                    by_cell_[{area.sheet, area.top, area.left}].push_back(place);
                else if (area.sheet >= 0 && static_cast<std::size_t>(area.sheet) < by_range_.size())
                    by_range_[static_cast<std::size_t>(area.sheet)][area].push_back(place);
            }
            refers_.emplace(place, std::move(areas));
        }
}

std::vector<Place> Graph::refers_to(const Place& place) const {
    std::set<Place> all;
    if (const auto found = refers_.find(place); found != refers_.end())
        for (const Area& area : found->second)
            for (const Place& cell : filled_cells(picture_, {.cell = {area.sheet, area.top, area.left}},
                                                  {.cell = {area.sheet, area.bottom, area.right}}))
                all.insert(cell);
    return {all.begin(), all.end()};
}

std::vector<Place> Graph::referred_by(const Place& place) const {
    std::set<Place> all;
    if (const auto found = by_cell_.find(place); found != by_cell_.end())
        all.insert(found->second.begin(), found->second.end());
    if (place.sheet < 0 || static_cast<std::size_t>(place.sheet) >= by_range_.size())
        return {all.begin(), all.end()};
    for (const auto& [area, formulas] : by_range_[static_cast<std::size_t>(place.sheet)]) {
        if (area.top > place.row) break;  // in order of their first rows
        if (area.holds(place)) all.insert(formulas.begin(), formulas.end());
    }
    return {all.begin(), all.end()};
}

template <class Next>
std::vector<Place> Graph::reached(const Place& from, Next next) const {
    std::set<Place> all;
    std::vector<Place> open{from};
    while (!open.empty()) {
        const Place place = open.back();
        open.pop_back();
        for (const Place& one : next(place))
            if (all.insert(one).second) open.push_back(one);
    }
    return {all.begin(), all.end()};
}

std::vector<Place> Graph::inputs_of(const Place& place) const {
    if (!refers_.contains(place)) return {place};
    auto all = reached(place, [this](const Place& at) { return refers_to(at); });
    std::erase_if(all, [this](const Place& at) { return refers_.contains(at); });
    return all;
}

std::vector<Place> Graph::dependents(const Place& place) const {
    return reached(place, [this](const Place& at) { return referred_by(at); });
}

std::vector<Place> Graph::results_of(const Place& place) const {
    auto all = dependents(place);
    std::erase_if(all, [this](const Place& at) { return !referred_by(at).empty(); });
    return all;
}

}  // namespace drysheet::workbook
