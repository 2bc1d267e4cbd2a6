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

#include "core/error.hpp"
#include "core/kind.hpp"

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

using Mass = Quantity<si::mass>;
using Time = Quantity<si::time>;
using Length = Quantity<si::length>;
using Area = Quantity<si::area>;
using Volume = Quantity<si::volume>;
using Temperature = Quantity<boost::units::absolute<si::temperature>>;
using TemperatureDifference = Quantity<si::temperature>;
using Pressure = Quantity<si::pressure>;
using Energy = Quantity<si::energy>;
using Power = Quantity<si::power>;
using Speed = Quantity<si::velocity>;
using Density = decltype(Mass() / Volume());
using SpecificVolume = decltype(Volume() / Mass());
using SpecificEnergy = decltype(Energy() / Mass());
using HeatCapacity = decltype(Energy() / Mass() / TemperatureDifference());
using VolumeFlow = decltype(Volume() / Time());
using MassFlow = decltype(Mass() / Time());
using ArealLoad = decltype(Mass() / Area());
using MassFlux = decltype(Mass() / Area() / Time());
using Permeance = decltype(Mass() / Area() / Time() / Pressure());
using Diffusivity = decltype(Area() / Time());
using MolarEnergy = decltype(Energy() / Quantity<si::amount>());
using DryingRate = decltype(1.0 / Time());  ///< kg water per kg dry solids and time
using Money = Quantity<MoneyUnit::unit_type>;
using MoneyPerEnergy = decltype(Money() / Energy());
using MoneyPerTime = decltype(Money() / Time());
using MoneyPerMass = decltype(Money() / Mass());

/// A dimensionless value that is not interchangeable with any other.
/// Tag gives `limits` (what is possible) and `kind`. Throws BadInput, naming no argument, for an impossible
/// value.
template <class Tag>
class Ratio {
  public:
    static constexpr Limits limits = Tag::limits;
    static constexpr Kind kind = Tag::kind;

    constexpr Ratio() = default;
    constexpr explicit Ratio(double value) : value_(value) {
        if (!limits.hold(value)) throw BadInput("", "is impossible: {}", {Amount{value, kind}});
    }
    constexpr double value() const { return value_; }
    friend constexpr auto operator<=>(Ratio, Ratio) = default;

  private:
    double value_ = 0;
};

namespace tag {
struct MoistureWet {
    static constexpr Limits limits{.low = 0, .high = 1, .high_open = true};
    static constexpr Kind kind = Kind::moisture_wet;
};
struct MoistureDry {
    static constexpr Limits limits{.low = 0};
    static constexpr Kind kind = Kind::moisture_dry;
};
struct RelativeHumidity {
    static constexpr Limits limits{.low = 0, .high = 1};
    static constexpr Kind kind = Kind::relative_humidity;
};
struct WaterActivity {
    static constexpr Limits limits{.low = 0, .high = 1};
    static constexpr Kind kind = Kind::water_activity;
};
struct HumidityRatio {
    static constexpr Limits limits{.low = 0};
    static constexpr Kind kind = Kind::humidity_ratio;
};
struct MoistureRatio {
    static constexpr Limits limits{};
    static constexpr Kind kind = Kind::moisture_ratio;
};
struct Fraction {
    static constexpr Limits limits{.low = 0, .high = 1};
    static constexpr Kind kind = Kind::fraction;
};
}  // namespace tag

using MoistureWet = Ratio<tag::MoistureWet>;            ///< kg water per kg wet material
using MoistureDry = Ratio<tag::MoistureDry>;            ///< kg water per kg dry solids
using RelativeHumidity = Ratio<tag::RelativeHumidity>;  ///< of air: vapour over vapour at saturation
using WaterActivity = Ratio<tag::WaterActivity>;        ///< of a food: its vapour over that of pure water
using HumidityRatio = Ratio<tag::HumidityRatio>;        ///< kg vapour per kg dry air
using MoistureRatio =
    Ratio<tag::MoistureRatio>;          ///< (X - Xe) / (X0 - Xe); noise may put it above 1 or below 0
using Fraction = Ratio<tag::Fraction>;  ///< a share of a whole

// kind_of<T>: the kind that a type of the core stands for. Undefined (a compile error) for any other type.
template <class T>
struct KindOf;
template <class Tag>
struct KindOf<Ratio<Tag>> {
    static constexpr Kind value = Tag::kind;
};
template <Kind K>
struct KindIs {
    static constexpr Kind value = K;
};
// clang-format off
template <> struct KindOf<double> : KindIs<Kind::number> {};
template <> struct KindOf<Mass> : KindIs<Kind::mass> {};
template <> struct KindOf<Time> : KindIs<Kind::time> {};
template <> struct KindOf<Length> : KindIs<Kind::length> {};
template <> struct KindOf<Area> : KindIs<Kind::area> {};
template <> struct KindOf<Temperature> : KindIs<Kind::temperature> {};
template <> struct KindOf<TemperatureDifference> : KindIs<Kind::temperature_difference> {};
template <> struct KindOf<Pressure> : KindIs<Kind::pressure> {};
template <> struct KindOf<Energy> : KindIs<Kind::energy> {};
template <> struct KindOf<Power> : KindIs<Kind::power> {};
template <> struct KindOf<Speed> : KindIs<Kind::speed> {};
template <> struct KindOf<Density> : KindIs<Kind::density> {};
template <> struct KindOf<SpecificVolume> : KindIs<Kind::specific_volume> {};
template <> struct KindOf<SpecificEnergy> : KindIs<Kind::specific_energy> {};
template <> struct KindOf<HeatCapacity> : KindIs<Kind::heat_capacity> {};
template <> struct KindOf<VolumeFlow> : KindIs<Kind::volume_flow> {};
template <> struct KindOf<MassFlow> : KindIs<Kind::mass_flow> {};
template <> struct KindOf<ArealLoad> : KindIs<Kind::areal_load> {};
template <> struct KindOf<MassFlux> : KindIs<Kind::mass_flux> {};
template <> struct KindOf<Permeance> : KindIs<Kind::permeance> {};
template <> struct KindOf<Diffusivity> : KindIs<Kind::diffusivity> {};
template <> struct KindOf<MolarEnergy> : KindIs<Kind::molar_energy> {};
template <> struct KindOf<DryingRate> : KindIs<Kind::drying_rate> {};
template <> struct KindOf<Money> : KindIs<Kind::money> {};
template <> struct KindOf<MoneyPerEnergy> : KindIs<Kind::money_per_energy> {};
template <> struct KindOf<MoneyPerTime> : KindIs<Kind::money_per_time> {};
template <> struct KindOf<MoneyPerMass> : KindIs<Kind::money_per_mass> {};
// clang-format on
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

inline constexpr double kMolarGasConstant = 8.314462618;  ///< J/(mol K), CODATA 2018

}  // namespace drysheet
