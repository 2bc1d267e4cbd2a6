// SPDX-License-Identifier: MPL-2.0
// Mixes of kinds that must not compile, beside the ones that must. All assertions are made by the compiler.
#include <gtest/gtest.h>

#include <cmath>

#include "drysheet/quantity.hpp"
#include "drysheet/units.hpp"

namespace drysheet {
namespace {

template <class To, class From>
concept Assignable = requires(To to, From from) {
    to = from;
};
template <class A, class B>
concept Addable = requires(A a, B b) {
    a + b;
};
template <class To, class From>
concept Passable = requires(void (*f)(To), From from) {
    f(from);
};

// Legal, so that the assertions below say something.
static_assert(Assignable<MoistureWet, MoistureWet> && Passable<Mass, Mass>);
static_assert(Addable<Mass, Mass> && Addable<Temperature, TemperatureDifference>);

// Wet for dry basis, and either for a bare number.
static_assert(!Assignable<MoistureWet, MoistureDry> && !Passable<MoistureDry, MoistureWet>);
static_assert(!Passable<MoistureWet, double> && !Passable<double, MoistureWet>);
// Relative humidity for water activity: equal only at equilibrium.
static_assert(!Assignable<WaterActivity, RelativeHumidity> && !Passable<RelativeHumidity, WaterActivity>);
static_assert(!Passable<HumidityRatio, RelativeHumidity> && !Passable<Fraction, MoistureWet>);
static_assert(!Passable<MoistureRatio, Fraction>);
// Temperature for temperature difference: Boost.Units refuses outside the immediate context, so a
// requires-expression cannot see it; must_not_compile.cpp shows it with the compiler itself. Mass for
// fraction, and units of different dimension.
static_assert(!Passable<Mass, Fraction> && !Passable<Fraction, Mass> && !Addable<Mass, Fraction>);
static_assert(!Passable<Mass, Time> && !Addable<Mass, Area> && !Passable<MoneyPerEnergy, MoneyPerTime>);
static_assert(!Passable<Mass, double> && !Passable<double, Mass>);

TEST(Kinds, ImpossibleValuesAreRefused) {
    EXPECT_THROW(MoistureWet(1.0), BadInput);
    EXPECT_THROW(MoistureWet(-0.01), BadInput);
    EXPECT_THROW(MoistureDry(-1e-9), BadInput);
    EXPECT_THROW(RelativeHumidity(1.0001), BadInput);
    EXPECT_THROW(Fraction(std::nan("")), BadInput);
    EXPECT_NO_THROW(MoistureDry(9.0));
    EXPECT_NO_THROW(RelativeHumidity(1.0));
}

}  // namespace
}  // namespace drysheet
