// SPDX-License-Identifier: MPL-2.0
#include "addin/call/uncertainty.hpp"

#include <cmath>
#include <utility>

#include "addin/call/named_call.hpp"
#include "addin/text/words.hpp"
#include "drysheet/error.hpp"
#include "drysheet/numeric/propagate.hpp"

namespace drysheet {
namespace {

constexpr double kLost = 0.005;  // of the draws

// One number that a call depends on: where it sits among the values, and its name.
struct Place {
    std::size_t argument = 0;
    std::optional<std::size_t> cell;
    std::string name;
};

double& at(std::vector<Value>& values, const Place& place) {
    Value& value = values[place.argument];
    return place.cell ? value.column[*place.cell] : value.si;
}

bool possible(const Parameter& param, double si) {
    return row_of(param.kind).limits.hold(si) && param.range.hold(param.read_in.from_si(si));
}

// Every number of the call that the function works with: value and standard uncertainty, and where it sits.
void collect(const Call& call, std::vector<Place>& places, std::vector<numeric::Uncertain>& inputs) {
    for (std::size_t i = 0; i < call.values.size(); ++i) {
        const Parameter& param = call.function.params[i];
        const Value& value = call.values[i];
        const std::string name(param.name);
        if (param.shape == Shape::scalar && !param.repeats && value.given) {
            places.push_back({i, std::nullopt, name});
            inputs.push_back({value.si, value.u});
        }
        for (std::size_t k = 0; k < value.column.size(); ++k) {
            places.push_back({i, k, name + " " + std::to_string(value.place(k) + 1)});
            inputs.push_back({value.column[k], value.column_u.empty() ? 0 : value.column_u[k]});
        }
    }
}

Sentence warning(const numeric::Propagated& first, const numeric::Model& model,
                 std::span<const numeric::Uncertain> inputs, std::string_view unit) {
    const auto drawn = numeric::sample(model, inputs);
    if (!drawn)
        return "first order misleads: for most values within these uncertainties the function is refused";
    const Sentence lost{"values within these uncertainties are refused ({} % of the draws)",
                        {{100 * drawn->without_value, {}, 2}}};
    const bool any_lost = drawn->without_value > kLost;
    if (!numeric::misleads(first, *drawn)) return any_lost ? lost : "none";
    Sentence off{"first order misleads: draws give u = {} and 95 % of values from {} to {}",
                 {{drawn->u, {}, 3}, {drawn->low, {}, 4}, {drawn->high, unit, 4}}};
    return any_lost ? Sentence("{}; {}", {lost, std::move(off)}) : off;
}

}  // namespace

Table uncertainty(const Call& call) {
    const Function& function = call.function;
    (void)value(call);  // refused as the function itself would refuse it
    std::vector<Value> values = call.values;
    std::vector<Place> places;
    std::vector<numeric::Uncertain> inputs;
    collect(call, places, inputs);
    bool any = false;
    for (const numeric::Uncertain& input : inputs) any = any || input.u > 0;
    if (!any) refuse("argument", "none has an uncertainty; write one like \"412.5 ± 0.1 g\"");

    const numeric::Model model = [&](std::span<const double> x) -> std::optional<double> {
        for (std::size_t i = 0; i < places.size(); ++i) {
            if (x[i] != inputs[i].value && !possible(function.params[places[i].argument], x[i]))
                return std::nullopt;
            at(values, places[i]) = x[i];
        }
        try {
            const double y = std::get<double>(function.call(values));
            return std::isfinite(y) ? std::optional(y) : std::nullopt;
        } catch (const NoResult&) {
            return std::nullopt;
        }
    };
    numeric::Propagated first;
    try {
        first = numeric::propagate(model, inputs);
    } catch (const NoResult& refused) {
        throw Refusal(Refusal::Reason::no_solution, "", refused.reason()).under("u");
    }

    // A difference of temperatures in °C is one in K.
    const std::string unit = call.result_unit(), u_unit = unit == "°C" ? "K" : unit;
    Table table{.columns = 4, .cells = {"name", "value", "unit", "share"}};
    const auto row = [&table](std::string_view name, Cell amount, std::string_view in, Cell share = "") {
        for (Cell cell :
             {Cell(std::string(name)), std::move(amount), Cell(std::string(in)), std::move(share)})
            table.cells.push_back(std::move(cell));
    };
    row("value", first.value, unit);
    row("u", first.u, u_unit);
    row("expanded", 2 * first.u, u_unit);
    for (std::size_t i = 0; i < places.size(); ++i) {
        const double part = first.contributions[i];
        row(places[i].name, part, u_unit, first.u > 0 ? std::pow(part / first.u, 2) : 0);
    }
    row("warning", written(warning(first, model, inputs, unit), call.reading), {});
    return table;
}

Function uncertainty_entry() {
    return {
        .name = "UNCERTAINTY",
        .topic = "trust",
        .summary =
            "How sure a result is: value, standard and expanded uncertainty (k = 2), each input's share, and "
            "a warning where first order misleads",
        .params = {as_it_stands("function", "name in quotes of a function that gives one number"),
                   any_more("argument", "its arguments, the uncertain ones as \"412.5 ± 0.1 g\"")},
        .result = "uncertainty",
        .range = "Inputs independent and normal. The warning comes from 2000 draws, always the same.",
        .source = "First order: JCGM 100:2008 (GUM) 5.1.2. Check by draws: JCGM 101:2008 (GUM Supplement 1).",
        .checks = {{{"SOLIDSMASS", "100 ± 1 g", 0.8}, 0.2, 1e-9, "by hand: 1 × 0.2", "u"},
                   {{"SOLIDSMASS", "100 ± 3 g", "0.8 ± 0.004"},
                    0.72111,
                    1e-5,
                    "by hand: √((3 × 0.2)² + (100 × 0.004)²)",
                    "u"},
                   {{"DRIEDMASS", "1000 ± 1 g", "85 ± 0.5 %", "10 ± 0.4 %"},
                    11.214396489091176,
                    1e-9,
                    "python3-uncertainties 3.1.6: 2 × 5.607198244545588",
                    "expanded"},
                   {{"DRIEDMASS", "1000 ± 1 g", "85 ± 0.5 %", "10 ± 0.4 %"},
                    "none",
                    0,
                    "nearly linear",
                    "warning"}},
        .refusals = {{{"SOLIDSMASS", 100.0, 0.8}, "argument"},
                     {{"SOLIDSMASS", "100 ± 1 g", 80.0}, "moisture"},
                     {{"CLOSURE", "100 ± 1 g"}, "function"},
                     {{"NOSUCH"}, "function"}},
        .see_also = {"WORKING", "RECONCILE", "REPLICATES"},
        .raw = [](std::span<const Input> given, const Reading& reading) -> Outcome {
            const auto [function, arguments] = named_call(given);
            if (!function.scalar)
                refuse("function", {"DRY.{} does not give a single number", {function.name}});
            return uncertainty(read(function, arguments, reading));
        }};
}

}  // namespace drysheet
