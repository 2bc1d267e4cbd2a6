// SPDX-License-Identifier: MPL-2.0
// What the numbers of a sheet are, by their labels, units, formats, notes and names.
#include <gtest/gtest.h>

#include "addin/workbook/labels.hpp"
#include "tests/addin/workbook/picture_text.hpp"

namespace drysheet::workbook {
namespace {

TEST(WorkbookLabels, AreTakenApart) {
    struct Row {
        std::string_view text, unit;
        std::vector<Say> says;
    };
    for (const Row& row : std::initializer_list<Row>{
             {"Fresh mass (kg)", "kg", {Say::fresh, Say::mass}},
             {"mass, g", "g", {Say::mass}},
             {"t [min]", "min", {}},
             {"Temps (min)", "min", {Say::time}},
             {"RH %", "%", {Say::humidity}},
             {"Moisture % wb", "% wb", {Say::moisture, Say::wet_basis}},
             {"X db", "", {Say::dry_basis}},
             {"Frischmasse in kg", "kg", {Say::fresh, Say::mass}},
             {"Endfeuchte [%]", "%", {Say::final, Say::moisture}},
             {"Anfangsfeuchte (% w.b.)", "% w.b.", {Say::start, Say::moisture, Say::wet_basis}},
             {"Trockenmasse / g", "g", {Say::solids, Say::mass}},
             {"Humidité finale (%)", "%", {Say::final, Say::moisture}},
             {"Humidité relative (%)", "%", {Say::humidity}},
             {"Humedad inicial, base húmeda (%)", "%", {Say::moisture, Say::start, Say::wet_basis}},
             {"Peso fresco (kg)", "kg", {Say::fresh, Say::mass}},
             {"Moisture content (kg water/kg dry solids)",
              "kg water/kg dry solids",
              {Say::moisture, Say::dry_basis}},
             {"Water activity", "", {Say::activity}},
             {"Gross weight with tray (g)", "g", {Say::gross, Say::mass}},
             {"Tare (g)", "g", {Say::tare}},
             {"Temperature °C", "°C", {Say::temperature}},
             {"% moisture", "%", {Say::moisture}},
             {"kg", "kg", {}},
             {"Temp min", "", {Say::temperature}}}) {
        const Label label = read_label(row.text);
        EXPECT_EQ(label.unit_text, row.unit) << row.text;
        EXPECT_EQ(label.unit.has_value(), !row.unit.empty()) << row.text;
        for (const Say say : row.says)
            EXPECT_TRUE(label.has(say)) << row.text << " " << static_cast<int>(say);
    }
}

TEST(WorkbookLabels, AreFoundInASheet) {
    const PictureText sheets = read_picture(R"(
        sheet Form
        A1 | Fresh mass | 12.5 | kg
        A2 | Moisture at start | 86 % |
        A3 | Dried mass (kg) | 1.96
        A4 | Temperature | 60 {format 0.0" °C"}
        A5 | Drying time (h) | 0.35 {clock}
        A6 | Dried (g) | 2 {format 0.00" kg"}
        A7 | | 3.5 {note tare, kg}
        A8 | | 8
        D1 | Fresh mass (g)
        D2 | 500
        D3 | Drying time (h)
        D4 | 6
        name load_kg = $Form.$B$8
        sheet Table
        A1 | Tray | Fresh mass | Moisture | RH | Water | Water | Water taken up
        A2 |      | g          | % db     | %  | % db  | % wb  | kg/kg
        A3 | T1   | 412        | 640      | 35 | 640   | 86    | 0.012
        A4 | T2   | 415        | 610      | 33 | 610   | 86    | 0.011)");
    const Picture& picture = sheets.picture;
    const Labels labels(picture);
    const auto at = [&](std::string_view address) -> const Meaning& {
        return labels.at(place(picture, address));
    };
    EXPECT_EQ(at("B1").kind, Kind::mass);
    EXPECT_EQ(at("B1").unit_text, "kg");
    EXPECT_EQ(at("B1").evidence, "labelled \"Fresh mass\", the unit beside it is kg");
    EXPECT_TRUE(at("B2").percent_format);
    EXPECT_EQ(at("B2").kind, Kind::moisture_wet);
    EXPECT_TRUE(at("B2").has(Say::start));
    EXPECT_EQ(at("B3").unit_text, "kg");
    EXPECT_EQ(at("B4").kind, Kind::temperature);
    EXPECT_TRUE(at("B5").clock_format);
    EXPECT_EQ(at("B6").contradiction, "labelled \"Dried (g)\", but its format shows kg");
    EXPECT_TRUE(at("B7").has(Say::tare));
    EXPECT_EQ(at("B8").unit_text, "kg");
    EXPECT_EQ(at("D2").evidence, "headed \"Fresh mass (g)\"");
    EXPECT_EQ(at("D4").evidence, "headed \"Drying time (h)\"");  // what stands above it no longer counts
    EXPECT_EQ(at("Table.B3").kind, Kind::mass);
    EXPECT_EQ(at("Table.B4").unit_text, "g");
    EXPECT_TRUE(at("Table.B4").has(Say::fresh));
    EXPECT_EQ(at("Table.C4").kind, Kind::moisture_dry);
    EXPECT_EQ(at("Table.C4").evidence, "headed \"Moisture / % db\"");
    EXPECT_EQ(at("Table.D3").kind, Kind::relative_humidity);
    EXPECT_EQ(at("Table.E3").kind, Kind::moisture_dry);
    EXPECT_EQ(at("Table.F3").kind, Kind::moisture_wet);
    EXPECT_FALSE(at("Table.G3").kind);  // of solids, of the whole or of air
}

}  // namespace
}  // namespace drysheet::workbook
