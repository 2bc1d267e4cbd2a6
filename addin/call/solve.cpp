// SPDX-License-Identifier: MPL-2.0
#include "addin/call/solve.hpp"

#include <algorithm>
#include <cmath>

#include "addin/call/named_call.hpp"
#include "addin/call/sentences.hpp"
#include "addin/call/tables.hpp"
#include "addin/text/quantity_text.hpp"
#include "addin/text/words.hpp"
#include "drysheet/error.hpp"
#include "drysheet/numeric/all_roots.hpp"

namespace drysheet {
namespace {

constexpr double kColdest = -100, kHottest = 400;  // °C, where an entry does not say it
constexpr double kNear = 0.01;                     // of a value of the same kind, where ranges often end
constexpr std::size_t kNeighbours = 2;

bool is_unknown(const Input& input) {
    return input.form == Input::Form::text && trimmed(input.text).starts_with("?");
}
const Input& cell_of(const Input& input) {
    return input.form == Input::Form::grid && input.cells.size() == 1 ? input.cells.front() : input;
}

std::size_t unknown_among(std::span<const Input> arguments) {
    std::optional<std::size_t> found;
    for (std::size_t i = 0; i < arguments.size(); ++i) {
        if (std::ranges::any_of(arguments[i].cells, is_unknown) && arguments[i].cells.size() > 1)
            refuse("argument", "a \"?\" in a range cannot be looked for; a single value is wanted");
        if (!is_unknown(cell_of(arguments[i]))) continue;
        if (found) refuse("argument", "more than one is \"?\"; only one can be found");
        found = i;
    }
    if (!found)
        refuse("argument", "none is \"?\"; write \"?\" for the one to find, or \"? kg\" for its unit");
    return *found;
}

// The one unknown number of a call.
class Unknown {
  public:
    Unknown(const Function& function, std::span<const Input> arguments, const Reading& reading)
        : function_(function),
          at_(unknown_among(arguments)),
          param_(parameter_at(function, at_)),
          given_(arguments.begin(), arguments.end()),
          reading_(reading) {
        if (param_.shape != Shape::scalar && !(param_.shape == Shape::column && param_.repeats))
            refuse(param_, "is no single number, so it cannot be looked for");
        std::string storage;
        const std::string_view text =
            trimmed(trimmed(plain_spaces(cell_of(given_[at_]).text, storage)).substr(1));
        if (text.empty()) return;
        said_ = text;
        const auto unit = read_written_unit(text);
        if (!unit) refuse(param_, {"\"{}\" is not a unit known here", {text}});
        if (!fits(*unit, param_.kind)) refuse_unit(param_, cell_of(given_[at_]), *unit);
        unit_ = *unit;
    }

    const Parameter& param() const { return param_; }

    /// Its possible values, in the unit of a plain number.
    Limits limits() const {
        const Limits& kind = row_of(param_.kind).limits;
        Limits both = param_.range;
        if (const double low = param_.read_in.from_si(kind.low); low >= both.low)
            both.low_open = kind.low_open || (low == both.low && both.low_open), both.low = low;
        if (const double high = param_.read_in.from_si(kind.high); high <= both.high)
            both.high_open = kind.high_open || (high == both.high && both.high_open), both.high = high;
        if (param_.kind == Kind::temperature) {
            both.low = std::max(both.low, default_unit(Kind::temperature).to_si(kColdest) - 273.15);
            both.high = std::min(both.high, kHottest);
        }
        return both;
    }

    /// The call with any possible value in its place. A mass has a unit where the others, or what is wanted,
    /// have.
    Call read_with(double x, bool units) {
        if (param_.kind == Kind::mass && !units && !unit_) try {
                given_[at_] = x;
                return read(function_, given_, reading_);
            } catch (const Refusal&) {  // others have a unit, or a plain mass will not do
            }
        given_[at_] =
            param_.kind == Kind::mass ? Input(exact(x) + " " + std::string(param_.shown_unit)) : Input(x);
        return read(function_, given_, reading_);
    }

    /// Where the call keeps it.
    double& in(std::vector<Value>& values) const {
        if (param_.shape == Shape::scalar) return values[at_].si;
        std::size_t before = 0;
        for (std::size_t i = function_.params.size() - 1; i < at_; ++i)
            before += given_[i].form == Input::Form::grid
                          ? static_cast<std::size_t>(std::ranges::count_if(
                                given_[i].cells, [](const Input& cell) { return !cell.blank(); }))
                          : 1;
        return values.back().column.at(before);
    }

    /// The answer, x in the unit of a plain number.
    Solved solved(double x, const Call& call) {
        Solved made{.value = x, .unit = std::string(param_.shown_unit)};
        if (param_.kind == Kind::mass && call.masses_as_given) made.unit = kAsGiven;
        if (unit_) {
            double si = param_.read_in.to_si(x);
            const Basis own = param_.kind == Kind::moisture_wet   ? Basis::wet
                              : param_.kind == Kind::moisture_dry ? Basis::dry
                                                                  : Basis::unsaid;
            if (own != Basis::unsaid && unit_->basis != Basis::unsaid && unit_->basis != own)
                si = other_basis(si, own);
            made.value = unit_->from_si(si);
            made.unit = said_;
        }
        const bool with_unit = given_[at_].form == Input::Form::text || unit_;
        given_[at_] = with_unit ? Input(exact(made.value) + " " + made.unit) : Input(made.value);
        made.argument = at_;
        made.arguments = given_;
        return made;
    }

  private:
    std::string exact(double x) const { return in_words(x, 15, reading_); }

    const Function& function_;
    const std::size_t at_;
    const Parameter& param_;
    std::vector<Input> given_;
    const Reading& reading_;
    std::optional<Unit> unit_;
    std::string said_;
};

bool has_unit(const Input& wanted, const Reading& reading) {
    std::string storage;
    return cell_of(wanted).form == Input::Form::text &&
           !read_quantity(plain_spaces(cell_of(wanted).text, storage), reading).said.empty();
}

// What is wanted, read as the function's result is given.
Measured read_wanted(const Input& wanted, const Call& call) {
    const Function& function = call.function;
    Parameter param;
    param.name = "wanted";
    param.kind = function.gives.value_or(Kind::number);
    param.shown_unit = function.result_unit;
    param.read_in =
        function.result_unit.empty() ? default_unit(param.kind) : read_unit(function.result_unit).value();
    const Measured read = read_measured(param, wanted, call.reading);
    if (read.unit && call.result_unit().starts_with(kAsGiven))
        refuse(param.name,
               "has a unit, and the masses of the call have none: give all of them with a unit, or none");
    if (!read.unit && read.value != 0 && param.kind == Kind::mass && function.takes_masses &&
        !call.masses_as_given)
        refuse(param.name, {"has no unit, and the masses of the call have one: write it like \"{}\"",
                            {Sentence::Part(read.value, function.result_unit)}});
    return read;
}

// A grid over the range, and points beside other values of the kind: there a function's own range often ends.
std::vector<double> grid_of(const Parameter& param, const Limits& limits, const Call& call) {
    std::vector<double> grid = numeric::search_grid(limits);
    std::size_t neighbours = 0;
    for (std::size_t i = 0; i < call.values.size(); ++i) {
        const Parameter& other = call.function.params[i];
        if (&other == &param || other.kind != param.kind || other.shape != Shape::scalar ||
            !call.values[i].given || neighbours == kNeighbours)
            continue;
        ++neighbours;
        const double x = param.read_in.from_si(call.values[i].si),
                     step = kNear * std::max(std::abs(x), kNear);
        for (const double near : {x - step, x, x + step})
            if (limits.hold(near)) grid.push_back(near);
    }
    std::ranges::sort(grid);
    grid.erase(std::unique(grid.begin(), grid.end()), grid.end());
    return grid;
}

[[noreturn]] void refuse_solution(Sentence why) {
    throw Refusal(Refusal::Reason::no_solution, "wanted", std::move(why));
}

}  // namespace

Solved solve(const Input& wanted, const Function& function, std::span<const Input> arguments,
             const Reading& reading) {
    if (!function.scalar || function.raw)
        refuse("function", {"DRY.{} gives no single number", {function.name}});
    if (function.count)
        refuse("function",
               {"DRY.{} gives whole numbers, each of them for a whole range of values", {function.name}});
    Unknown unknown(function, arguments, reading);
    const Parameter& param = unknown.param();
    const Limits limits = unknown.limits();
    const std::vector<double> probes = numeric::search_grid(limits);
    const Call call = unknown.read_with(probes[probes.size() / 2], has_unit(wanted, reading));
    const Measured target = read_wanted(wanted, call);

    std::vector<Value> values = call.values;
    double& x_si = unknown.in(values);
    const auto curve = [&](double x) -> std::optional<double> {
        x_si = param.read_in.to_si(x);
        if (!limits.hold(x) || !row_of(param.kind).limits.hold(x_si)) return std::nullopt;
        try {
            const double y = std::get<double>(function.call(values)) - target.value;
            return std::isfinite(y) ? std::optional(y) : std::nullopt;
        } catch (const NoResult&) {
            return std::nullopt;
        }
    };
    const std::vector<double> grid = grid_of(param, limits, call);
    const numeric::Roots roots = numeric::all_roots(curve, grid, kSolveSteps);
    if (roots.at.size() == 1 && !roots.flat && !roots.unfinished)
        return unknown.solved(roots.at.front(), call);

    const std::string unit = call.result_unit() == kAsGiven ? "" : call.result_unit();
    const bool bare =
        (call.masses_as_given && param.kind == Kind::mass) || param.shown_unit.starts_with("fraction");
    const std::string_view x_unit = bare ? std::string_view{} : param.shown_unit;
    const Sentence::Part amount(target.value, unit), from(grid.front(), std::string_view{}, 4),
        to(grid.back(), x_unit, 4);
    if (roots.flat) refuse_solution({"{} comes out for a whole range of {}", {amount, param.name}});
    if (roots.at.size() > 1) {
        std::string all;
        for (const double x : roots.at)
            all.append(all.empty() ? std::string_view{} : list_comma(reading))
                .append(in_words(x, x_unit, 4, reading));
        refuse_solution({"{} comes out for more than one {}: {}", {amount, param.name, all}});
    }
    if (roots.unfinished)
        refuse_solution({"the search for {} did not end in {} steps", {param.name, kSolveSteps}});
    if (!roots.somewhere)
        refuse_solution(
            {"DRY.{} has no value for any {} from {} to {}", {function.name, param.name, from, to}});
    refuse_solution(
        {"{} comes out for no {} from {} to {}; the results found there lie from {} to {}",
         {amount, param.name, from, to, Sentence::Part(roots.least + target.value, std::string_view{}, 4),
          Sentence::Part(roots.most + target.value, unit, 4)}});
}

Sentence in_a_sentence(const Solved& solved) {
    if (solved.unit == kAsGiven) return {"{} (as given)", {solved.value}};
    return {"{}", {{solved.value, solved.unit}}};
}

Solved solve(std::span<const Input> typed, const Reading& reading) {
    if (typed.empty() || typed[0].blank()) refuse("wanted", "is missing");
    const auto [function, arguments] = named_call(typed.subspan(1));
    return solve(typed[0], function, arguments, reading);
}

Function solve_entry() {
    return {
        .name = "SOLVEFOR",
        .topic = "trust",
        .summary = "The value of one argument, given as \"?\", for which a function gives what is wanted",
        .params = {as_it_stands("wanted", "what the function shall give, with or without a unit"),
                   function_named(),
                   any_more("argument", "its arguments, the one to find as \"?\", or \"? kg\" for its unit")},
        .result = "found",
        .range =
            "Looks over the whole range that the argument may have. Refused where no value of it gives what "
            "is "
            "wanted, or more than one. The function is called 60 times at most.",
        .source = "Search: Alefeld, Potra & Shi (1995) Algorithm 748, ACM Trans. Math. Softw. 21(3):327-344.",
        .checks = {{{25.0, "DRIEDMASS", "?", 0.8, 0.2}, 100.0, 1e-12, "by hand: 25 × 0.80 ÷ 0.20"},
                   {{"25 g", "DRIEDMASS", "?", 0.8, 0.2}, 100.0, 1e-12, "the same"},
                   {{"25 g", "DRIEDMASS", "? kg", 0.8, 0.2}, 0.1, 1e-12, "by hand: 25 g × 0.80 ÷ 0.20"},
                   {{25.0, "DRIEDMASS", 100.0, "? % wb", 0.2}, 80.0, 1e-12, "by hand: 1 − 25 × 0.80 ÷ 100"},
                   {{25.0, "DRIEDMASS", 100.0, 0.8, "? db"}, 0.25, 1e-11, "by hand: 5 g of water in 25 g"},
                   {{4.0, "DRYBASIS", "?"}, 0.8, 1e-12, "by hand: 4 ÷ 5"},
                   {{0.4, "CHAINYIELD", 0.8, "?"}, 0.5, 1e-12, "by hand: 0.4 ÷ 0.8"}},
        .refusals = {{{25.0, "DRIEDMASS", 100.0, 0.8, 0.2}, "argument"},
                     {{25.0, "DRIEDMASS", "?", "?", 0.2}, "argument"},
                     {{25.0, "DRIEDMASS", column(100.0, "?"), 0.8, 0.2}, "argument"},
                     {{25.0, "DRIEDMASS", "? h", 0.8, 0.2}, "fresh"},
                     {{"25 g", "DRYINGRATIO", "?", 0.2}, "wanted"},
                     {{"25 g", "PRORATE", "?", 10.0, 50.0}, "test_dried"},
                     {{25.0, "DRIEDMASS", "? kg", 0.8, 0.2}, "wanted"},
                     {{200.0, "DRIEDMASS", 100.0, "?", 0.2}, "wanted"},
                     {{5.0, "COLOURCHANGE", "?", 0.0, 0.0, 50.0, 0.0, 0.0}, "wanted"},
                     {{3.0, "BATCHESFOR", "?", 10.0}, "function"},
                     {{3.0, "REPLICATES", "?"}, "function"},
                     {{0.5, "CURVE", "?", 1.0, 0.5}, "model"},
                     {{25.0, "NOSUCH", "?"}, "function"},
                     {{Input(), "DRYBASIS", "?"}, "wanted"}},
        .see_also = {"WORKING", "UNCERTAINTY", "WHY"},
        .raw = [](std::span<const Input> given, const Reading& reading) -> Outcome {
            return solve(given, reading).value;
        }};
}

}  // namespace drysheet
