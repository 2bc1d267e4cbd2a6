// SPDX-License-Identifier: MPL-2.0
#include <set>
#include <string>

#include "drysheet/units.hpp"
#include "tests/core/shared.hpp"

namespace drysheet {
namespace {

using test::near;

double one(std::string_view name) {
    const auto unit = read_unit(name);
    EXPECT_TRUE(unit.has_value()) << name;
    return unit ? unit->to_si(1) : 0;
}

// NIST SP 811 (2008) Appendix B.9, as printed: seven digits, so half a unit of the last one.
TEST(Units, printed_factors_of_NIST_SP_811) {
    const struct {
        std::string_view unit;
        double printed;
    } table[] = {{"Btu", 1.055056e3},
                 {"cal", 4.1868},
                 {"kcal", 4.1868e3},  // "calorie IT, kilogram (nutrition)"
                 {"hp", 7.456999e2},
                 {"atm", 1.01325e5},
                 {"bar", 1e5},
                 {"mbar", 1e2},
                 {"mmHg", 1.333224e2},
                 {"inHg", 3.386389e3},
                 {"psi", 6.894757e3},
                 {"Torr", 1.333224e2},
                 {"ft", 3.048e-1},
                 {"in", 2.54e-2},
                 {"yd", 9.144e-1},
                 {"micron", 1e-6},
                 {"grain", 6.479891e-5},
                 {"oz", 2.834952e-2},
                 {"lb", 4.535924e-1},
                 {"t", 1e3},
                 {"d", 8.64e4},
                 {"h", 3.6e3},
                 {"min", 60},
                 {"gal", 3.785412e-3},
                 {"L", 1e-3}};
    for (const auto& [unit, printed] : table) EXPECT_TRUE(near(one(unit), printed, 5e-7)) << unit;
    // Compound units by hand from those: 0.3048³/60, 0.45359237/0.3048³, its inverse, 1055.05585/0.45359237,
    // 0.45359237/0.3048².
    EXPECT_TRUE(near(one("CFM"), 4.719474e-4, 5e-7));
    EXPECT_TRUE(near(one("lb/ft³"), 1.601846e1, 5e-7));
    EXPECT_TRUE(near(one("ft³/lb"), 6.242796e-2, 5e-7));
    EXPECT_TRUE(near(one("Btu/lb"), 2.326e3, 5e-7));
    EXPECT_TRUE(near(one("lb/ft²"), 4.882428, 5e-7));
}

// The definitions behind the rounded table, exact by definition.
TEST(Units, exact_definitions) {
    EXPECT_EQ(one("lb"), 0.45359237);      // international pound, 1959
    EXPECT_EQ(one("in"), 0.0254);          // international inch, 1959
    EXPECT_EQ(one("ft"), 0.3048);          // the same
    EXPECT_EQ(one("Btu"), 1055.05585262);  // SP 811 note 9
    EXPECT_EQ(one("kWh"), 3.6e6);          // SI Brochure
    EXPECT_TRUE(
        near(one("mmHg"), 133.322387415, 1e-15));  // 13 595.1 kg/m³ · 9.806 65 m/s² · 1 mm, ISO 80000-4
    EXPECT_TRUE(near(one("gal"), 3.785411784e-3, 1e-15));  // 231 in³
    EXPECT_TRUE(near(one("mmHg") * 760, 101325, 2e-7));    // Torr and mmHg differ by less
    EXPECT_EQ(read_unit("g")->to_si(412.5), 0.4125);       // and not 0.41250000000000003
    EXPECT_EQ(read_unit("%")->to_si(80), 0.8);
}

TEST(Units, agree_with_pint) {
    const auto rows = test::reference("units.csv", ';');
    ASSERT_GT(rows.size(), 80u);
    for (const auto& row : rows) {
        const auto unit = read_unit(row[0]);
        ASSERT_TRUE(unit.has_value()) << row[0];
        EXPECT_TRUE(near(unit->to_si(std::stod(row[1])), std::stod(row[2]), 1e-13)) << row[0];
    }
}

TEST(Units, every_spelling_is_read_and_none_has_two_meanings) {
    std::set<std::string> seen;
    for (const NamedUnit& named : vocabulary()) {
        std::istringstream words{std::string(named.spellings)};
        for (std::string word; words >> word;) {
            EXPECT_TRUE(seen.insert(word).second) << word;
            const auto unit = read_unit(word);
            ASSERT_TRUE(unit.has_value()) << word;
            EXPECT_EQ(unit->dimension, named.dimension) << word;
            EXPECT_EQ(unit->to_si(2), 2 * named.numerator / named.denominator + named.offset) << word;
            EXPECT_TRUE(near(unit->from_si(unit->to_si(3)), 3, 1e-12)) << word;
        }
        EXPECT_FALSE(named.source.empty()) << named.spellings;
    }
}

TEST(Units, spellings_of_one_compound) {
    const double wanted = 1 / 86400.0 / 1e6;  // g, kPa and a day in SI
    for (const std::string_view text :
         {"g/(m²·day·kPa)", "g/(m2 day kPa)", "g/m2/day/kPa", "g/m²/d/kPa", "g m-2 d-1 kPa-1",
          "g·m⁻²·d⁻¹·kPa⁻¹", "g per m2 per day per kPa", "g/(m^2*day*kPa)", "g/( m2 day kPa )"})
        EXPECT_TRUE(near(one(text), wanted, 1e-15)) << text;
    for (const std::string_view text : {"kJ/(kg K)", "kJ/(kg·K)", "kJ/kg/K", "kJ/(kg °C)", "kJ kg-1 K-1"})
        EXPECT_TRUE(near(one(text), 1000, 1e-15)) << text;
    for (const std::string_view text : {"ft³", "ft3", "ft^3", "cu ft"})
        EXPECT_TRUE(near(one(text), 0.028316846592, 1e-15)) << text;
    for (const std::string_view text : {"deg F", "° F", "°F", "degF", "F", "℉", "Fahrenheit"})
        EXPECT_TRUE(near(read_unit(text)->to_si(140), 333.15, 1e-15)) << text;
    for (const std::string_view text : {"µm", "μm", "um", "micron"})
        EXPECT_TRUE(near(one(text), 1e-6, 1e-15)) << text;
    for (const std::string_view text : {"mm Hg", "mmHg"})
        EXPECT_TRUE(near(one(text), 133.322387415, 1e-15)) << text;
    EXPECT_TRUE(near(one("g/(100 in²·day)"), 1e-3 / 0.064516 / 86400, 1e-14));
    EXPECT_TRUE(near(one("g/(m²·24h)"), 1e-3 / 86400, 1e-14));
    EXPECT_FALSE(read_unit("100 g"));  // "1 100 g" is one thousand and one hundred to its writer
    EXPECT_FALSE(read_unit("gr"));     // a gram to some, a grain to others
}

TEST(Units, ambiguous_and_unknown_are_refused) {
    for (const std::string_view text : {"kJ/kg K",
                                        "g/m²·day",
                                        "g/m2 day kPa",
                                        "W/m2 K",  // a product behind a solidus
                                        "ton",
                                        "tons",
                                        "fl oz",
                                        "psig",
                                        "mw",
                                        "MG",
                                        "Mm",
                                        "pt",
                                        "cup",
                                        "xyz",
                                        "kg/",
                                        "/kg",
                                        "kg//m2",
                                        "kg/(m2",
                                        "m2)",
                                        "kg^",
                                        "m^0",
                                        "m^4",
                                        "m^-9",
                                        "g g g g g g g g g",
                                        "((((((kg))))))",
                                        "12",
                                        "kg 5",
                                        "²",
                                        "°",
                                        "µ",
                                        "per kg"})
        EXPECT_FALSE(read_unit(text).has_value()) << text;
    EXPECT_FALSE(read_unit(std::string(10000, '(')).has_value());
}

TEST(Units, a_temperature_and_a_temperature_difference) {
    const Unit c = read_unit("°C").value(), f = read_unit("°F").value();
    EXPECT_TRUE(near(c.to_si(25), 298.15, 1e-15));
    EXPECT_TRUE(near(f.from_si(373.15), 212, 1e-14));
    EXPECT_TRUE(near(f.to_si(-40), c.to_si(-40), 1e-15));
    EXPECT_EQ(c.step_to_si(5), 5);
    EXPECT_TRUE(near(f.step_to_si(9), 5, 1e-15));
    EXPECT_EQ(read_unit("kJ/(kg·°C)")->offset, 0);  // in a compound it is a difference
    EXPECT_EQ(read_unit("1/°C")->offset, 0);
    EXPECT_EQ(read_unit("°C²")->offset, 0);
}

TEST(Units, what_fits_what) {
    const auto ok = [](std::string_view unit, Kind kind) { return fits(read_unit(unit).value(), kind); };
    EXPECT_TRUE(ok("oz", Kind::mass));
    EXPECT_FALSE(ok("mL", Kind::mass));
    EXPECT_FALSE(ok("g", Kind::moisture_wet));
    EXPECT_TRUE(ok("% wb", Kind::moisture_dry));
    EXPECT_TRUE(ok("%(w.b.)", Kind::moisture_wet));
    EXPECT_TRUE(ok("kg/kg db", Kind::moisture_wet));
    EXPECT_FALSE(ok("kg/kg", Kind::moisture_wet));  // of what? It may be kg of dry solids
    EXPECT_TRUE(ok("kg/kg", Kind::moisture_dry));
    EXPECT_FALSE(ok("% wb", Kind::fraction));
    EXPECT_FALSE(ok("% db", Kind::relative_humidity));
    EXPECT_TRUE(ok("% RH", Kind::relative_humidity));
    EXPECT_FALSE(ok("% RH", Kind::water_activity));
    EXPECT_FALSE(ok("%", Kind::humidity_ratio));
    EXPECT_TRUE(ok("g/kg dry air", Kind::humidity_ratio));
    EXPECT_TRUE(ok("grain/lb", Kind::humidity_ratio));
    EXPECT_TRUE(ok("kJ/kg dry air", Kind::specific_energy));
    EXPECT_FALSE(ok("kg/kg dry air", Kind::moisture_dry));
    EXPECT_FALSE(ok("g/kg", Kind::relative_humidity));
    EXPECT_FALSE(ok("kW", Kind::energy));
    EXPECT_FALSE(ok("h", Kind::number));
    EXPECT_TRUE(ok("", Kind::number));
}

TEST(Units, every_kind_has_a_readable_default) {
    for (int i = 0; i < static_cast<int>(kKinds.size()); ++i) {
        const Kind kind = static_cast<Kind>(i);
        EXPECT_EQ(row_of(kind).kind, kind) << i;
        EXPECT_TRUE(fits(default_unit(kind), kind)) << row_of(kind).name;
    }
}

}  // namespace
}  // namespace drysheet
