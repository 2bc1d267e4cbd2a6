#include "addin/call/each.hpp"

#include <bit>
#include <cstdint>

#include "addin/call/sentences.hpp"

namespace drysheet {
namespace {

bool gone_through(const Function& function, std::size_t argument, const Input& input) {
    const Parameter& param = parameter_at(function, argument);
    const bool whole = (param.shape == Shape::column || param.shape == Shape::names) && !param.repeats;
    if (param.shape == Shape::table) return false;
    return !whole && input.form == Input::Form::grid && input.cells.size() > 1;
}

}  // namespace

double error_cell(int code) {
    constexpr std::uint64_t quiet_nan = 0x7FF8000000000000u;
    return std::bit_cast<double>(quiet_nan | static_cast<std::uint32_t>(code));
}

Table each(const Function& function, std::span<const Input> arguments, const Reading& reading,
           std::string* first_refused) {
    if (!function.scalar || function.raw)
        refuse("function", "DRY." + std::string(function.name) + " does not give a single number.");
    std::size_t rows = 0;
    bool lying = false;
    std::vector<std::size_t> moving;
    std::vector<Input> row(arguments.begin(), arguments.end());
    for (std::size_t i = 0; i < arguments.size(); ++i) {
        if (!gone_through(function, i, arguments[i])) continue;
        const Input& range = arguments[i];
        if (range.rows() > 1 && range.columns > 1)
            refuse("argument", "one row or one column of cells is wanted for each range.");
        if (rows != 0 && rows != range.cells.size())
            refuse("argument", "the ranges have " + std::to_string(rows) + " and " +
                                   std::to_string(range.cells.size()) +
                                   " cells; they belong together row by row.");
        if (moving.empty()) lying = range.columns > 1;
        rows = range.cells.size();
        moving.push_back(i);
    }
    if (moving.empty()) refuse("argument", "no range was given to go through.");
    Table table{.columns = lying ? rows : 1};
    table.cells.reserve(rows);
    for (std::size_t k = 0; k < rows; ++k) {
        bool blank = true;
        for (const std::size_t i : moving) {
            row[i] = arguments[i].cells[k];
            blank = blank && row[i].blank();
        }
        if (blank) {
            table.cells.emplace_back(std::string());
            continue;
        }
        try {
            table.cells.emplace_back(std::get<double>(evaluate(function, row, reading)));
        } catch (const Refusal& refusal) {
            if (first_refused != nullptr && first_refused->empty())
                *first_refused = "row " + std::to_string(k + 1) + ": " + refusal.what();
            table.cells.emplace_back(error_cell(
                refusal.reason() == Refusal::Reason::argument ? kInvalidArgument : kNoConvergence));
        }
    }
    return table;
}

}  // namespace drysheet
