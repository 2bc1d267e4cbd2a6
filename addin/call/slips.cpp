// SPDX-License-Identifier: MPL-2.0
#include "addin/call/slips.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <sstream>
#include <utility>

#include "addin/call/call.hpp"
#include "addin/call/expression.hpp"
#include "addin/call/lookup.hpp"
#include "addin/call/working.hpp"
#include "addin/text/words.hpp"

namespace drysheet {
namespace {

bool moisture(Kind kind) { return kind == Kind::moisture_wet || kind == Kind::moisture_dry; }
// A share of a whole, which people write in per cent.
bool share(Kind kind) {
    return kind == Kind::moisture_wet || kind == Kind::relative_humidity || kind == Kind::water_activity ||
           kind == Kind::fraction || kind == Kind::moisture_ratio;
}

// One factor between units that are taken for each other.
struct Mixed {
    Kind kind;
    double factor;  ///< the number with the slip over the right one
    std::string_view words;
};
constexpr Mixed kMixed[] = {{Kind::mass, 1000, "1000 times too large, as with g for kg"},
                            {Kind::mass, 0.001, "1000 times too small, as with kg for g"},
                            {Kind::time, 60, "60 times too large, as with minutes for hours"},
                            {Kind::time, 1.0 / 60, "60 times too small, as with hours for minutes"},
                            {Kind::time, 24, "24 times too large, as with hours for days"},
                            {Kind::time, 1.0 / 24, "24 times too small, as with days for hours"},
                            {Kind::energy, 3600, "3600 times too large, as with kJ for kWh"},
                            {Kind::energy, 3.6, "3.6 times too large, as with MJ for kWh"},
                            {Kind::energy, 1 / 3.6, "3.6 times too small, as with kWh for MJ"},
                            {Kind::power, 1000, "1000 times too large, as with W for kW"},
                            {Kind::power, 3600, "3600 times too large, as with kJ/h for kW"},
                            {Kind::pressure, 1000, "1000 times too large, as with Pa for kPa"},
                            {Kind::pressure, 10, "10 times too large, as with mbar for kPa"},
                            {Kind::humidity_ratio, 1000, "1000 times too large, as with g/kg for kg/kg"},
                            {Kind::specific_energy, 1000, "1000 times too large, as with J for kJ"},
                            {Kind::volume_flow, 1.0 / 3600, "3600 times too small, as with m³/s for m³/h"},
                            {Kind::volume_flow, 1.0 / 60, "60 times too small, as with m³/min for m³/h"},
                            {Kind::areal_load, 1000, "1000 times too large, as with g for kg"},
                            {Kind::money_per_mass, 0.001, "1000 times too small, as with g for kg"},
                            {Kind::density, 0.001, "1000 times too small, as with g/mL for kg/m³"}};

// The arguments under their names, in the units of plain numbers.
Names names_of(const Function& function, std::span<const Value> arguments) {
    Names names;
    for (std::size_t i = 0; i < function.params.size(); ++i) {
        const Parameter& param = function.params[i];
        const Value& value = arguments[i];
        Input& named = names.values[std::string(param.name)];
        if (param.shape == Shape::choice) {
            named = std::string(param.choices.at(static_cast<std::size_t>(value.choice)));
        } else if (param.repeats || param.shape == Shape::column) {
            std::vector<Input> cells;
            for (const double si : value.column)
                cells.emplace_back(unit_in_working(function, param).from_si(si));
            named = Input(std::move(cells));
        } else if (value.given) {
            named = unit_in_working(function, param).from_si(value.si);
        }
    }
    names.call = [](std::string_view name, std::span<const Input> inputs, const std::string&) {
        return Names::Called{std::get<double>(evaluate(*find_function(name), inputs, {}))};
    };
    return names;
}

bool possible(const Function& function, std::span<const Value> arguments) {
    for (std::size_t i = 0; i < function.params.size(); ++i) {
        const Parameter& param = function.params[i];
        const auto holds = [&](double si) {
            return row_of(param.kind).limits.hold(si) && param.range.hold(param.read_in.from_si(si));
        };
        if (param.shape == Shape::scalar && !param.repeats && arguments[i].given && !holds(arguments[i].si))
            return false;
        if (!std::ranges::all_of(arguments[i].column, holds)) return false;
    }
    return true;
}

std::optional<double> by_itself(const Function& function, std::span<const Value> arguments) {
    if (!possible(function, arguments)) return std::nullopt;
    try {
        return std::get<double>(function.call(arguments));
    } catch (const NoResult&) {
        return std::nullopt;
    }
}

class Usual {
  public:
    Usual(const Function& function, std::span<const Value> arguments)
        : function_(function),
          values_(arguments.begin(), arguments.end()),
          right_(std::get<double>(function.call(arguments))) {}

    std::vector<Slip> all() && {
        told();
        for (std::size_t i = 0; i < values_.size(); ++i) of_argument(i);
        as_whole_numbers();
        swapped();
        of_result();
        return std::move(found_);
    }

  private:
    // of_result: what only tells how the answer looks, and is nothing more where a cause has been found.
    void add(std::optional<double> answer, Sentence sentence, bool of_result = false) {
        if (!answer || !std::isfinite(*answer) || *answer == 0) return;
        if (function_.count ? *answer == right_ : same_to_four_digits(*answer, right_)) return;
        for (Slip& slip : found_)
            if (same_to_four_digits(slip.answer, *answer)) {
                if (!of_result)
                    slip.sentence = {"{}, or {}", {std::move(slip.sentence), std::move(sentence)}};
                return;
            }
        found_.push_back({*answer, std::move(sentence)});
    }

    // The call with one thing changed: as the function gives it, or as its working does.
    template <class Change>
    void changed(const Change& change, Sentence sentence) {
        std::vector<Value> values = values_;
        change(values);
        auto answer = by_itself(function_, values);
        if (!answer) answer = as_written(function_, values);
        add(answer, std::move(sentence));
    }

    void told() {
        for (const ToldSlip& slip : function_.slips)
            add(as_written(function_, values_, slip.answer), slip.sentence);
    }

    void of_argument(std::size_t i) {
        const Parameter& param = function_.params[i];
        const Sentence what = in_a_sentence(param);
        if (param.repeats) {
            if (values_[i].column.size() < 2) return;
            for (std::size_t k = 0; k < values_[i].column.size(); ++k)
                changed([&](auto& v) { v[i].column.erase(v[i].column.begin() + std::ptrdiff_t(k)); },
                        {"{} no. {} was left out", {what, k + 1}});
            return;
        }
        if (param.shape != Shape::scalar || !values_[i].given) return;
        const double x = values_[i].si;
        const auto with = [&](double si, Sentence done) {
            changed([&](auto& v) { v[i].si = si; }, std::move(done));
        };
        const Sentence left_out{"{} was left out", {what}};
        if (moisture(param.kind)) {
            const bool wet = param.kind == Kind::moisture_wet;
            if (wet || x < 1)
                with(other_basis(x, wet ? Basis::dry : Basis::wet),
                     {wet ? "{} was taken on the dry basis" : "{} was taken on the wet basis", {what}});
            with(other_basis(x, wet ? Basis::wet : Basis::dry),
                 {wet ? "{} was turned to the dry basis first" : "{} was turned to the wet basis first",
                  {what}});
            static constexpr std::array kResidual{"final", "target", "end_db", "equilibrium",
                                                  "equilibrium_db"};
            if (std::ranges::find(kResidual, param.name) != kResidual.end()) with(0, left_out);
        }
        if (param.otherwise) {
            with(param.read_in.to_si(*param.otherwise), left_out);
        } else if ((param.kind == Kind::mass || param.kind == Kind::time || param.kind == Kind::energy ||
                    param.kind == Kind::money || param.kind == Kind::money_per_time) &&
                   param.range.hold(0)) {
            with(0, left_out);
        }
        if (!function_.mass_in_a_unit.empty() || param.kind != Kind::mass)
            for (const Mixed& mixed : kMixed)
                if (mixed.kind == param.kind && (param.kind == Kind::mass || param.kind == Kind::time))
                    with(x * mixed.factor, {"{} was {}", {what, Sentence(mixed.words)}});
    }

    void as_whole_numbers() {
        bool any = false;
        std::vector<Value> values = values_;
        for (std::size_t i = 0; i < values.size(); ++i)
            if (share(function_.params[i].kind) && function_.params[i].shape != Shape::choice) {
                any = true;
                values[i].si *= 100;
                for (double& x : values[i].column) x *= 100;
            }
        if (any) add(as_written(function_, values), "percentages were put in as whole numbers, 80 for 0.8");
    }

    void swapped() {
        for (std::size_t i = 0; i < values_.size(); ++i)
            for (std::size_t j = i + 1; j < values_.size(); ++j) {
                const Parameter &a = function_.params[i], &b = function_.params[j];
                if (a.kind != b.kind || a.shape != Shape::scalar || b.shape != Shape::scalar || b.repeats ||
                    a.kind == Kind::number || !values_[i].given || !values_[j].given)
                    continue;
                changed([&](auto& v) { std::swap(v[i].si, v[j].si); },
                        {"{} and {} were swapped", {in_a_sentence(a), in_a_sentence(b)}});
            }
    }

    void of_result() {
        const double e = right_;
        const Kind kind = function_.gives.value_or(Kind::number);
        if (kind == Kind::moisture_wet && e < 1)
            add(other_basis(e, Basis::wet), "the answer is on the dry basis");
        if (kind == Kind::moisture_dry) add(other_basis(e, Basis::dry), "the answer is on the wet basis");
        const auto looks = [&](double answer, Sentence how) { add(answer, std::move(how), true); };
        if (share(kind)) {
            looks(1 - e, kind == Kind::moisture_wet ? "the share of the dry matter was given"
                                                    : "the rest of the whole was given");
            looks(100 * e, "a percentage was given where a fraction was asked");
        }
        if (kind == Kind::temperature) {
            looks(e + 273.15, "the answer is in kelvin");
            looks(1.8 * e + 32, "the answer is in °F");
        }
        for (const Mixed& mixed : kMixed)
            if (mixed.kind == kind) looks(e * mixed.factor, {"the answer is {}", {Sentence(mixed.words)}});
        if (!function_.count && (row_of(kind).forms != Forms::with_dimension || kind == Kind::density ||
                                 kind == Kind::specific_volume || kind == Kind::specific_energy))
            looks(1 / e, "the answer is upside down");
        looks(-e, "the answer has the wrong sign");
    }

    const Function& function_;
    std::vector<Value> values_;
    double right_;
    std::vector<Slip> found_;
};

}  // namespace

bool same_to_four_digits(double a, double b) {
    return std::abs(a - b) <= 5e-5 * std::max(std::abs(a), std::abs(b));
}

std::optional<double> as_written(const Function& function, std::span<const Value> arguments,
                                 std::string_view expression) {
    try {
        return compute(expression, names_of(function, arguments)).value;
    } catch (const Refusal&) {  // a function of the catalogue that has no value there
        return std::nullopt;
    }
}

std::optional<double> as_written(const Function& function, std::span<const Value> arguments) {
    if (!function.workings.empty()) return std::nullopt;  // a model's: its formula may be an integral
    Names names = names_of(function, arguments);
    std::istringstream lines{std::string(function.working)};
    std::optional<double> last;
    for (std::string line; std::getline(lines, line);) {
        last.reset();
        if (line.starts_with(":")) continue;
        const WorkingLine read = read_working_line(line);
        // found by the function itself, which has no value here
        if (!read.condition.empty() || read.form != WorkingLine::Form::step ||
            read.expression.find("itself") != std::string_view::npos)
            return std::nullopt;
        try {
            last = compute(read.expression, names).value;
        } catch (const Refusal&) {
            return std::nullopt;
        }
        names.values[std::string(read.name)] = *last;
    }
    return last;
}

Sentence in_a_sentence(const Parameter& param) {
    // Names as words of a sentence.
    static constexpr std::array<std::pair<std::string_view, std::string_view>, 61> kSaid{
        {{"in", "the mass that went in"},
         {"out", "the mass that came out"},
         {"dish_wet", "the dish with the wet sample"},
         {"dish_dry", "the dish with the dry sample"},
         {"fresh", "the fresh mass"},
         {"dried", "the dried mass"},
         {"test_fresh", "the fresh mass of the test"},
         {"test_dried", "the dried mass of the test"},
         {"batch_fresh", "the fresh mass of the batch"},
         {"rehydrated", "the rehydrated mass"},
         {"solids", "the mass of solids"},
         {"per_batch", "the mass of a batch"},
         {"hours", "the working time"},
         {"hours_per_day", "the working time of a day"},
         {"days", "the storage time"},
         {"other", "the other cost"},
         {"temp", "the temperature"},
         {"temp1", "the first temperature"},
         {"temp2", "the second temperature"},
         {"activity1", "the first activity"},
         {"activity2", "the second activity"},
         {"heated", "the temperature after heating"},
         {"rh", "the relative humidity"},
         {"rh_in", "the humidity inside"},
         {"rh_out", "the humidity outside"},
         {"bulk", "the bulk density"},
         {"tapped", "the tapped density"},
         {"store_temp", "the store temperature"},
         {"tg_solids", "the glass transition of the solids"},
         {"tg_water", "the glass transition of water"},
         {"end_db", "the end moisture"},
         {"start", "the start moisture"},
         {"final", "the final moisture"},
         {"target", "the target moisture"},
         {"start_db", "the start moisture"},
         {"critical_db", "the critical moisture"},
         {"equilibrium_db", "the equilibrium moisture"},
         {"equilibrium", "the equilibrium moisture"},
         {"moisture_db", "the moisture"},
         {"limit_db", "the limit moisture"},
         {"moisture", "the moisture"},
         {"mass", "the mass"},
         {"time", "the time"},
         {"area", "the area"},
         {"pressure", "the pressure"},
         {"dish", "the dish"},
         {"whole", "the whole"},
         {"loss", "the loss"},
         {"yield", "the yield"},
         {"water", "the water"},
         {"energy", "the energy"},
         {"power", "the power"},
         {"tare", "the tare"},
         {"kept", "the kept mass"},
         {"rate", "the rate"},
         {"thickness", "the thickness"},
         {"exit_rh", "the humidity of the air leaving"},
         {"raw", "the raw mass"},
         {"drying_ratio", "the drying ratio"},
         {"dryer_temp", "the dryer temperature"},
         {"feed_temp", "the feed temperature"}}};
    const auto said =
        std::ranges::find(kSaid, param.name, &std::pair<std::string_view, std::string_view>::first);
    if (said != kSaid.end()) return said->second;
    std::string name(param.name);
    std::ranges::replace(name, '_', ' ');
    if (name.ends_with(" db")) name.resize(name.size() - 3);
    if (moisture(param.kind) && name.find("moisture") == std::string::npos && name != "capacity")
        return {"the {} moisture", {name}};
    return {"the {}", {name}};
}

std::vector<Slip> slips(const Call& call) { return Usual(call.function, call.values).all(); }

}  // namespace drysheet
