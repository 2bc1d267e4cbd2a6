// SPDX-License-Identifier: MPL-2.0
#include "addin/functions/function.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace drysheet {
namespace {

[[noreturn]] void wrong(std::string_view entry, std::string_view what) {
    throw std::logic_error("catalogue entry " + std::string(entry) + ": " + std::string(what));
}

}  // namespace

namespace detail {

Parameter complete(const Param& said, Kind kind, Shape shape, bool optional,
                   std::vector<std::string_view> choices) {
    Parameter made;
    static_cast<Param&>(made) = said;
    made.kind = kind;
    made.shape = shape;
    made.may_be_missing = optional || said.otherwise.has_value();
    made.choices = std::move(choices);
    made.shown_unit = said.unit.empty() ? row_of(kind).default_unit : said.unit;
    made.read_in = default_unit(kind);
    if (!said.unit.empty()) {
        const auto unit = read_unit(said.unit);
        if (!unit || !fits(*unit, kind)) wrong(said.name, "the unit of the parameter is not one of its kind");
        made.read_in = *unit;
    }
    return made;
}

void finish(Function& function, std::optional<Kind> result_kind, std::string_view result_unit) {
    if (function.name.empty() || function.topic.empty() || function.summary.empty() ||
        function.source.empty())
        wrong(function.name, "name, topic, summary and source are all needed");
    for (std::size_t i = 0; i < function.params.size(); ++i) {
        const Parameter& param = function.params[i];
        for (const Parameter& row : param.rows) {
            if (row.name.empty() || row.text.empty())
                wrong(function.name, "a row of a table without a name or a text");
            function.takes_masses |= row.kind == Kind::mass;
        }
        if (param.name.empty() || param.text.empty())
            wrong(function.name, "a parameter without a name or a text");
        if (param.repeats && i + 1 != function.params.size())
            wrong(function.name, "only the last parameter may repeat");
        function.takes_masses |= param.kind == Kind::mass && param.shape != Shape::choice;
    }
    function.gives = result_kind;
    if (!result_kind) return;
    function.result_unit = result_unit.empty() ? row_of(*result_kind).default_unit : result_unit;
    const auto unit = read_unit(function.result_unit);
    if (!unit || !fits(*unit, *result_kind))
        wrong(function.name, "the unit of the result is not one of its kind");
}

}  // namespace detail

Cell aicc_cell(double aicc) {
    return std::isfinite(aicc) ? Cell(aicc) : Cell(Told(Sentence("too few points")));
}

Table quantities(std::initializer_list<Row> rows) {
    Table table{.columns = 3};
    for (const Row& row : rows) {
        table.cells.emplace_back(std::string(row.name));
        if (const auto* amount = std::get_if<Amount>(&row.value)) {
            table.cells.emplace_back(shown(*amount, row.unit));
            table.cells.emplace_back(
                std::string(row.unit.empty() ? row_of(amount->kind).default_unit : row.unit));
        } else {
            table.cells.emplace_back(std::get<Told>(row.value));
            table.cells.emplace_back(std::string(row.unit));
        }
    }
    return table;
}

}  // namespace drysheet
