// SPDX-License-Identifier: MPL-2.0
// The types of the core: Boost.Units quantities in SI, and strong kinds where Boost.Units has only
// "dimensionless".
#pragma once

#include <boost/units/absolute.hpp>
#include <boost/units/base_dimension.hpp>
#include <boost/units/base_unit.hpp>
#include <boost/units/quantity.hpp>
#include <boost/units/systems/si.hpp>
#include <boost/units/systems/si/amount.hpp>
#include <compare>
#include <concepts>
#include <string_view>

#include "drysheet/error.hpp"
#include "drysheet/kinds.hpp"

namespace drysheet {

namespace si = boost::units::si;
template <class Unit>
using Quantity = boost::units::quantity<Unit, double>;

// Money is a dimension of its own, so that a tariff cannot be used as a wage.
struct MoneyDimension : boost::units::base_dimension<MoneyDimension, 1001> {};
struct MoneyUnit : boost::units::base_unit<MoneyUnit, MoneyDimension::dimension_type, 1001> {
    static const char* name() { return "money"; }
    static const char* symbol() { return "money"; }
};

/// A dimensionless value that is not interchangeable with any other.
/// Throws BadInput, naming no argument, for a value outside the kind's limits.
template <Kind K>
class Ratio {
  public:
    static constexpr Limits limits = row_of(K).limits;

    constexpr Ratio() = default;
    constexpr explicit Ratio(double value) : value_(value) {
        if (!limits.hold(value)) throw BadInput("", "is impossible: {}", {Amount{value, K}});
    }
    constexpr double value() const { return value_; }
    friend constexpr auto operator<=>(Ratio, Ratio) = default;

  private:
    double value_ = 0;
};

using Volume = Quantity<si::volume>;
// Mass, Time, …: a type a kind. MoistureWet and MoistureDry are kg of water per kg of wet material and of dry
// solids, RelativeHumidity is of air and WaterActivity of a food, HumidityRatio is per kg of dry air,
// MoistureRatio is (X - Xe) / (X0 - Xe), which noise may put above 1 or below 0, DryingRate is per kg of dry
// solids.
// NOLINTNEXTLINE(bugprone-macro-parentheses): a type stands in none
#define DRYSHEET_KIND(kind, Type, type, name, unit, limits, forms) using Type = type;
DRYSHEET_KINDS(DRYSHEET_KIND)
#undef DRYSHEET_KIND

// kind_of<T>: the kind that a type of the core stands for. Undefined (a compile error) for any other type.
template <class T>
struct KindOf;
#define DRYSHEET_KIND(kind, Type, type, name, unit, limits, forms) \
    template <>                                                    \
    struct KindOf<Type> {                                          \
        static constexpr Kind value = Kind::kind;                  \
    };
DRYSHEET_KINDS(DRYSHEET_KIND)
#undef DRYSHEET_KIND
template <class T>
inline constexpr Kind kind_of = KindOf<T>::value;

template <class T>
concept PhysicalValue = requires {
    KindOf<T>::value;
};

/// From a number in coherent SI units (or the bare ratio), and back.
template <PhysicalValue T>
constexpr T from_si(double x) {
    if constexpr (std::same_as<T, double>) {
        return x;
    } else if constexpr (requires { T::limits; }) {
        return T(x);
    } else {
        return T::from_value(x);
    }
}
template <PhysicalValue T>
constexpr double to_si(const T& x) {
    if constexpr (std::same_as<T, double>) {
        return x;
    } else {
        return x.value();
    }
}

/// The same with its type erased, for a message or a table.
template <PhysicalValue T>
constexpr Amount amount(const T& x) {
    return {to_si(x), kind_of<T>};
}

inline constexpr Pressure kStandardPressure = Pressure::from_value(101325);  ///< 1 atm, ISO 2533
inline constexpr double kMolarGasConstant = 8.314462618;                     ///< J/(mol K), CODATA 2018

}  // namespace drysheet
