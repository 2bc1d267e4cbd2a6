// SPDX-License-Identifier: MPL-2.0
// One entry per sheet function: its words, ranges, source, working and check values, and the formula itself.
// Arity, kinds and default units come from the formula's own type, so an entry cannot disagree with the code.
#pragma once

#include <array>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

#include "addin/text/cell.hpp"
#include "addin/text/words.hpp"
#include "drysheet/quantity.hpp"
#include "drysheet/units.hpp"

namespace drysheet {

/// What an entry says of one parameter. Everything but name and text has a usual value.
struct Param {
    std::string_view name;
    std::string_view text;
    Limits range{};                     ///< stated once here: enforced, and printed into the reference
    std::string_view unit{};            ///< where a plain number is not in the kind's default unit
    std::optional<double> otherwise{};  ///< the value when left out; makes the parameter optional
    bool repeats = false;               ///< the last parameter may be given again and again
    bool ranges = false;                ///< ... and each may be a whole range
    bool zero = false;                  ///< the number 0 is a usual value of this moisture, not a blank cell
    bool alone = false;                 ///< a range whose rows do not belong to the rows of the other ranges
    bool missed = false;  ///< a range whose blank cells are readings missed: their rows are left out
    bool shares = false;  ///< a range of numbers that may be shares instead, "81 %", all or none of them
    std::optional<double> blank{};  ///< what a blank cell of the range stands for; none: it is refused
};

/// A value that the function must give, compared whole.
struct Check {
    std::vector<Input> given;
    std::variant<double, std::string> expected;
    double tolerance = 0;     ///< relative, as fine as the origin's digits; absolute where 0 is expected
    std::string_view origin;  ///< a printed table, arithmetic shown, or an independent program
    std::string_view at{};    ///< the row of a table by its name; empty: the value itself, the first row, or
                              ///< for a text any cell of the table
    std::size_t column = 2;   ///< of that row, counted from 1; of a table of one column the first
    bool part = false;        ///< a text that must only be contained: say why beside it
};

/// A call that must be refused, and the argument that must be named.
struct RefusalCheck {
    std::vector<Input> given;
    std::string_view argument;
};

/// What a working needs besides the arguments: a range put in order, the part of it that is meant, a constant
/// of each row.
struct WorkingRange {
    std::string_view name;
    std::string_view like;  ///< the parameter in whose unit it is shown, its cells in SI; none: as they stand
    std::variant<double, std::vector<double>, std::vector<std::string>> cells;
};

/// A usual slip that no change of the call gives: what was done, and the answer as an expression over the
/// parameters' names, as in a working.
struct ToldSlip {
    std::string_view sentence, answer;
};

/// How the wizard and the reader see an argument.
enum class Shape : unsigned char { scalar, column, names, text, choice, anything, table };

struct Parameter : Param {
    Kind kind = Kind::number;
    Shape shape = Shape::scalar;
    bool may_be_missing = false;
    Unit read_in;                             ///< the unit of a plain number
    std::string_view shown_unit;              ///< the same in words
    std::vector<std::string_view> choices{};  ///< for Shape::choice, in the order of the enumeration
    std::vector<Parameter> rows{};            ///< for Shape::table: what its rows may be
};

/// An argument after reading, in coherent SI units, and what it was read from.
struct Value {
    bool given = false;
    bool unit = false;  ///< a unit was written with it, or with one of its cells
    double si = 0;
    double u = 0;  ///< standard uncertainty of si, as typed; the formula does not see it
    int choice = 0;
    std::vector<double> column{};
    std::vector<double> column_u{};     ///< of each cell, where any has one; else empty
    std::vector<std::string> names{};   ///< of Shape::text the one text
    std::vector<Value> rows{};          ///< of a table, in the order of Parameter::rows
    std::vector<std::size_t> places{};  ///< of a column or of names: the cell of each, counted from 0 over
                                        ///< all typed; empty: one after another from the first
    std::span<const Input> typed{};     ///< the argument's cells as typed; they outlive the call

    std::size_t place(std::size_t k) const { return places.empty() ? k : places[k]; }
};

/// Plain masses are refused whatever else is given.
inline constexpr std::string_view kAlways = "always";

/// An entry with its types erased.
struct Function {
    std::string_view name, topic, summary;
    std::vector<Parameter> params;
    std::string_view result;                     ///< the result's name, as in the working
    std::string_view result_unit;                ///< empty for a pure number, a text or a table
    std::optional<std::size_t> unit_argument{};  ///< the argument that names the result's unit
    std::optional<Kind> gives{};                 ///< the kind of a number, or of a column's numbers
    bool scalar = false;                         ///< gives one number
    bool count = false;                          ///< ... that counts things: whole, and exact
    bool row_by_row = false;                     ///< gives a column, a cell for every row of its ranges
    bool takes_masses = false;                   ///< among its arguments or the rows of its tables
    /// When a plain number for a mass is refused since the result would differ with its unit: always, or
    /// where this optional argument is given, which brings another dimension in.
    std::string_view mass_in_a_unit{};
    std::string_view range, source, caution;
    std::string_view working;
    std::vector<std::string_view> workings;  ///< by the name of the first choice; empty: `working` serves all
    std::function<std::vector<WorkingRange>(std::span<const Value>)> working_ranges;  ///< may be none
    std::vector<Check> checks;
    std::vector<RefusalCheck> refusals;
    std::vector<std::string_view> see_also;
    std::vector<ToldSlip> slips;

    /// What the value rests on besides its source, told by WHY; may be none, and may give an empty text.
    std::function<std::string(std::span<const Value>)> rests_on;
    std::function<Outcome(std::span<const Value>)> call;
    /// Only the functions about functions (WHY, SOURCE, …) take their arguments as they stand.
    std::function<Outcome(std::span<const Input>, const Reading&)> raw;
};

// ---- types of the formula
// ------------------------------------------------------------------------------------------

/// A choice by name: specialise for an enumeration with `static std::vector<std::string_view> names()`, in
/// its order.
template <class E>
struct ChoiceOf;

/// A table of names and quantities, in any order: specialise for a struct of the core with
/// `static std::vector<Field<S>> fields()`, one field<&S::member>({…}) a row.
template <class S>
struct FieldsOf;
template <class S>
concept NamedTable = requires {
    FieldsOf<S>::fields();
};
template <class S>
struct Field {
    Parameter parameter;
    void (*set)(S& whole, const Value& value);
};

template <class T>
struct Signature;
template <class R, class... A>
struct Signature<R (*)(A...)> {
    using Result = R;
    static constexpr std::size_t arity = sizeof...(A);
    template <template <class...> class To>
    using Apply = To<std::remove_cvref_t<A>...>;
};
template <auto F>
using SignatureOf = Signature<std::remove_cv_t<decltype(F)>>;

/// The words of an entry, sized by the formula's type.
template <auto F>
struct Words {
    using Result = typename SignatureOf<F>::Result;

    std::string_view name, topic, summary;
    std::string_view mass_in_a_unit{};  ///< kAlways, or the name of an optional argument; see Function
    std::array<Param, SignatureOf<F>::arity> params{};
    std::string_view result{};  ///< name of the result
    std::string_view unit{};    ///< of the result, where it is not the kind's default
    std::string_view range{};   ///< validity in words, where the parameters' ranges do not say it all
    std::string_view source{};
    std::string_view caution{};
    /// The working: lines of `name = expression` over the parameters' names (in the units of plain numbers),
    /// the last line naming the result. An expression may call other functions of the catalogue. A line
    /// starting with ":" is prose; "if temp > 0.01: line" stands where that holds (> ≥ < ≤), "if k given:
    /// line" and "if k left out: line" where that was. See addin/call/working.hpp.
    std::string_view working{};
    /// Where the formula is another for every name of the first choice: a working for each, in the order of
    /// its names.
    std::vector<std::string_view> workings{};
    /// What the working needs besides the arguments: ranges_by<f>, f a function of the formula's arguments.
    std::vector<WorkingRange> (*working_ranges)(std::span<const Value> arguments) = nullptr;
    std::vector<Check> checks{};
    std::vector<RefusalCheck> refusals{};
    std::vector<std::string_view> see_also{};
    std::vector<ToldSlip> slips{};
    bool row_by_row = false;  ///< gives a column, a cell for every row of its ranges
    bool count = false;       ///< gives a count: trays, batches
    /// What the value rests on besides its source, told by WHY; see Function.
    std::string (*rests_on)(std::span<const Value> arguments) = nullptr;
    /// Turns a struct or enumeration into a table or a text. Not needed for a quantity or a column of them.
    Outcome (*show)(const Result&) = nullptr;
};

namespace detail {

template <class T>
struct ArgumentType {  // an enumeration
    using Choice = T;
    static constexpr Shape shape = Shape::choice;
    static constexpr Kind kind = Kind::number;
    static constexpr bool optional = false;
    static T unpack(const Value& v) { return static_cast<T>(v.choice); }
};
template <PhysicalValue T>
struct ArgumentType<T> {
    static constexpr Shape shape = Shape::scalar;
    static constexpr Kind kind = kind_of<T>;
    static constexpr bool optional = false;
    static T unpack(const Value& v) { return from_si<T>(v.si); }
};
template <PhysicalValue T>
struct ArgumentType<std::optional<T>> : ArgumentType<T> {
    static constexpr bool optional = true;
    static std::optional<T> unpack(const Value& v) {
        return v.given ? std::optional<T>(from_si<T>(v.si)) : std::nullopt;
    }
};
template <PhysicalValue T>
struct ArgumentType<std::span<const T>> {
    static constexpr Shape shape = Shape::column;
    static constexpr Kind kind = kind_of<T>;
    static constexpr bool optional = false;
    static std::vector<T> unpack(const Value& v) {
        std::vector<T> column;
        column.reserve(v.column.size());
        for (const double x : v.column) column.push_back(from_si<T>(x));
        return column;
    }
};
template <PhysicalValue T>
struct ArgumentType<std::optional<std::span<const T>>> : ArgumentType<std::span<const T>> {
    static constexpr bool optional = true;  // left out it arrives empty
};
template <>
struct ArgumentType<std::span<const std::string>> {
    static constexpr Shape shape = Shape::names;
    static constexpr Kind kind = Kind::number;
    static constexpr bool optional = false;
    static const std::vector<std::string>& unpack(const Value& v) { return v.names; }
};

template <>
struct ArgumentType<std::optional<std::span<const std::string>>>
    : ArgumentType<std::span<const std::string>> {
    static constexpr bool optional = true;  // left out it arrives empty
};
template <>
struct ArgumentType<std::string> {
    static constexpr Shape shape = Shape::text;
    static constexpr Kind kind = Kind::number;
    static constexpr bool optional = false;
    static const std::string& unpack(const Value& v) { return v.names.front(); }
};
template <>
struct ArgumentType<std::optional<std::string>> : ArgumentType<std::string> {
    static constexpr bool optional = true;
    static std::optional<std::string> unpack(const Value& v) {
        return v.given ? std::optional(v.names.front()) : std::nullopt;
    }
};

template <class E>
requires std::is_enum_v<E>
struct ArgumentType<std::optional<E>> : ArgumentType<E> {
    static constexpr bool optional = true;
    static std::optional<E> unpack(const Value& v) {
        return v.given ? std::optional<E>(static_cast<E>(v.choice)) : std::nullopt;
    }
};
template <NamedTable S>
struct ArgumentType<S> {
    static constexpr Shape shape = Shape::table;
    static constexpr Kind kind = Kind::number;
    static constexpr bool optional = false;
    static S unpack(const Value& v) {
        S whole;
        const auto fields = FieldsOf<S>::fields();
        for (std::size_t i = 0; i < fields.size(); ++i) fields[i].set(whole, v.rows[i]);
        return whole;
    }
};

template <class R>
struct ResultType {  // a struct or an enumeration: shown by the entry
    static constexpr bool scalar = false;
};
template <PhysicalValue R>
struct ResultType<R> {
    static constexpr bool scalar = true;
    static constexpr Kind kind = kind_of<R>;
};
template <PhysicalValue R>
struct ResultType<std::vector<R>> {
    static constexpr bool scalar = false;
    static constexpr Kind kind = kind_of<R>;
};

/// Completes what the entry says of a parameter with what its type says.
Parameter complete(const Param& said, Kind kind, Shape shape, bool optional,
                   std::vector<std::string_view> choices);
/// Checks what the compiler cannot: that every parameter is worded and that units fit. Throws
/// std::logic_error.
void finish(Function& function, std::optional<Kind> result_kind, std::string_view result_unit);

template <class T>
Parameter parameter(const Param& said) {
    using Type = ArgumentType<T>;
    std::vector<std::string_view> choices;
    if constexpr (Type::shape == Shape::choice) choices = ChoiceOf<typename Type::Choice>::names();
    Parameter made = complete(said, Type::kind, Type::shape, Type::optional, std::move(choices));
    if constexpr (NamedTable<T>)
        for (const auto& field : FieldsOf<T>::fields()) made.rows.push_back(field.parameter);
    return made;
}

template <class T>
struct MemberType {
    using Argument = T;
};
template <class T>
struct MemberType<std::vector<T>> {
    using Argument = std::span<const T>;
};
template <class M>
struct Member;
template <class S, class T>
struct Member<T S::*> {
    using Whole = S;
    using Argument = typename MemberType<T>::Argument;
};

template <auto F, class... A>
struct Caller {
    template <std::size_t... I>
    static auto call([[maybe_unused]] std::span<const Value> values, std::index_sequence<I...>) {
        return F(ArgumentType<A>::unpack(values[I])...);
    }
    static auto call(std::span<const Value> values) { return call(values, std::index_sequence_for<A...>{}); }
    template <std::size_t... I>
    static std::vector<Parameter> parameters([[maybe_unused]] std::span<const Param> said,
                                             std::index_sequence<I...>) {
        return {parameter<A>(said[I])...};
    }
    static std::vector<Parameter> parameters(std::span<const Param> said) {
        return parameters(said, std::index_sequence_for<A...>{});
    }
};

template <auto F>
struct CallerFor {
    template <class... A>
    using With = Caller<F, A...>;
};

}  // namespace detail

template <auto F>
std::vector<WorkingRange> ranges_by(std::span<const Value> arguments) {
    return SignatureOf<F>::template Apply<detail::CallerFor<F>::template With>::call(arguments);
}
template <class T>
std::vector<double> in_si(std::span<const T> quantities) {
    std::vector<double> si;
    si.reserve(quantities.size());
    for (const T& x : quantities) si.push_back(to_si(x));
    return si;
}

/// A row of a table of names and quantities: its name is the row's name. Several numbers (a vector) stand
/// side by side behind the name; whether they may be missing is for the formula to say.
template <auto M>
auto field(const Param& said) {
    using Whole = typename detail::Member<decltype(M)>::Whole;
    using Argument = typename detail::Member<decltype(M)>::Argument;
    Field<Whole> made{.parameter = detail::parameter<Argument>(said),
                      .set = [](Whole& whole, const Value& value) {
                          whole.*M = detail::ArgumentType<Argument>::unpack(value);
                      }};
    made.parameter.may_be_missing |= made.parameter.shape == Shape::column;
    return made;
}

/// An entry: function<dried_mass>({.name = "DRIEDMASS", …}).
template <auto F>
Function function(const Words<F>& words) {
    using Result = typename SignatureOf<F>::Result;
    using Shown = detail::ResultType<Result>;
    using Caller = typename SignatureOf<F>::template Apply<detail::CallerFor<F>::template With>;
    Function made{.name = words.name,
                  .topic = words.topic,
                  .summary = words.summary,
                  .params = Caller::parameters(words.params),
                  .result = words.result,
                  .scalar = Shown::scalar,
                  .count = words.count,
                  .row_by_row = words.row_by_row,
                  .mass_in_a_unit = words.mass_in_a_unit,
                  .range = words.range,
                  .source = words.source,
                  .caution = words.caution,
                  .working = words.working,
                  .workings = words.workings,
                  .checks = words.checks,
                  .refusals = words.refusals,
                  .see_also = words.see_also,
                  .slips = words.slips};
    if (words.rests_on != nullptr) made.rests_on = words.rests_on;
    if (words.working_ranges != nullptr) made.working_ranges = words.working_ranges;
    std::optional<Kind> kind;
    if constexpr (requires { Shown::kind; }) kind = Shown::kind;
    detail::finish(made, kind, words.unit);
    if (words.show != nullptr) {
        made.call = [show = words.show](std::span<const Value> values) { return show(Caller::call(values)); };
    } else if constexpr (Shown::scalar) {
        const Unit unit = made.result_unit.empty() ? Unit{} : read_unit(made.result_unit).value();
        made.call = [unit](std::span<const Value> values) -> Outcome {
            return unit.from_si(to_si(Caller::call(values)));
        };
    } else if constexpr (requires { Shown::kind; }) {
        const Unit unit = made.result_unit.empty() ? Unit{} : read_unit(made.result_unit).value();
        made.call = [unit](std::span<const Value> values) -> Outcome {
            Table table{.columns = 1};
            for (const auto& x : Caller::call(values)) table.cells.emplace_back(unit.from_si(to_si(x)));
            return table;
        };
    } else if constexpr (std::is_convertible_v<Result, Outcome>) {
        made.call = [](std::span<const Value> values) -> Outcome { return Caller::call(values); };
    }
    return made;
}

/// One row of a table of quantities: name, value, unit.
struct Row {
    std::string_view name;
    std::variant<Amount, Told> value;
    std::string_view unit{};  ///< where it is not the kind's default
};
/// An AICc, which needs two points more than the model has parameters.
Cell aicc_cell(double aicc);
/// A table of quantities with its three columns.
Table quantities(std::initializer_list<Row> rows);

}  // namespace drysheet
