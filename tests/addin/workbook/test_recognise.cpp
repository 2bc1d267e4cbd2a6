// SPDX-License-Identifier: MPL-2.0
// Known sums and slips in plain formulas: workbooks in the habits in which people write them, right ones and
// with a mistake planted.
#include <gtest/gtest.h>

#include <array>
#include <map>
#include <string>
#include <vector>

#include "addin/workbook/labels.hpp"
#include "addin/workbook/recognise.hpp"
#include "addin/workbook/sums.hpp"
#include "tests/addin/workbook/picture_text.hpp"

namespace drysheet::workbook {
namespace {

// What is said of a cell of a picture.
std::optional<Recognised> said(const std::string& text, std::string_view cell) {
    PictureText made = read_picture(text);
    calculate(made.picture);
    const Labels labels(made.picture);
    return recognise(made.picture, place(made.picture, cell), labels, {});
}

constexpr int kLanguages = 4;

// An input of a sheet: its label in English, German, French, Spanish; its unit; its value, a share as a
// fraction.
struct Quantity {
    std::array<std::string, kLanguages> label;
    std::string unit;  ///< "%": a share
    double value = 0;
};

const Quantity fresh{{"Fresh mass", "Frischmasse", "Masse fraîche", "Masa fresca"}, "kg", 12.5};
const Quantity dried{
    {"Dried product mass", "Masse Trockenprodukt", "Masse produit sec", "Masa producto seco"}, "kg", 2.25};
const Quantity start{
    {"Initial moisture", "Anfangsfeuchte", "Humidité initiale", "Humedad inicial"}, "%", 0.84};
const Quantity final_{{"Final moisture", "Endfeuchte", "Humidité finale", "Humedad final"}, "%", 0.09};
const Quantity target{{"Target moisture", "Zielfeuchte", "Humidité cible", "Humedad objetivo"}, "%", 0.1};
const Quantity moisture{
    {"Moisture content", "Feuchtegehalt", "Teneur en eau", "Contenido de humedad"}, "%", 0.8};
const Quantity water{{"Water removed", "Wasserentzug", "Eau évaporée", "Agua evaporada"}, "kg", 0};
const Quantity solids{{"Dry solids", "Trockensubstanz", "Matière sèche", "Sólidos secos"}, "kg", 0};
const Quantity dish{{"Empty dish", "Schale leer", "Capsule vide", "Cápsula vacía"}, "g", 20};
const Quantity dish_wet{{"Dish + wet sample", "Schale + feuchte Probe", "Capsule + échantillon humide",
                         "Cápsula + muestra húmeda"},
                        "g",
                        25};
const Quantity dish_dry{
    {"Dish + dry sample", "Schale + trockene Probe", "Capsule + échantillon sec", "Cápsula + muestra seca"},
    "g",
    21};
const Quantity tare{{"Tray tare", "Tara Horde", "Tare claie", "Tara bandeja"}, "kg", 1.2};
const Quantity whole{{"Whole fruit", "Ganze Früchte", "Fruits entiers", "Fruta entera"}, "kg", 20};
const Quantity peel{{"Peel", "Schalenabfall", "Épluchures", "Cáscara"}, "kg", 4};
const Quantity core{{"Core", "Kerne", "Noyaux", "Corazón"}, "kg", 2};
const Quantity yield_{{"Yield", "Ausbeute", "Rendement", "Rendimiento"}, "%", 0};
const Quantity peeling{
    {"Peeling yield", "Ausbeute Schälen", "Rendement épluchage", "Rendimiento de pelado"}, "%", 0.7};
const Quantity drying{
    {"Drying yield", "Ausbeute Trocknen", "Rendement séchage", "Rendimiento de secado"}, "%", 0.18};
const Quantity milling{
    {"Milling yield", "Ausbeute Mahlen", "Rendement mouture", "Rendimiento de molienda"}, "%", 0.95};
const Quantity overall{{"Overall yield", "Gesamtausbeute", "Rendement global", "Rendimiento total"}, "%", 0};
const Quantity temp{
    {"Air temperature", "Lufttemperatur", "Température de l'air", "Temperatura del aire"}, "°C", 25};
const Quantity rh{
    {"Relative humidity", "Relative Feuchte", "Humidité relative", "Humedad relativa"}, "%", 0.6};
const Quantity pressure{
    {"Atmospheric pressure", "Luftdruck", "Pression atmosphérique", "Presión atmosférica"}, "kPa", 92};
const Quantity ps{
    {"Saturation pressure", "Sättigungsdampfdruck", "Pression de saturation", "Presión de saturación"},
    "kPa",
    0};
const Quantity ps_hpa{
    {"Saturation pressure", "Sättigungsdampfdruck", "Pression de saturation", "Presión de saturación"},
    "hPa",
    0};
const Quantity ratio{
    {"Humidity ratio", "Wasserbeladung Luft", "Humidité absolue", "Razón de mezcla"}, "kg/kg", 0};
const Quantity power{{"Heater power", "Heizleistung", "Puissance", "Potencia"}, "kW", 3};
const Quantity hours{{"Drying time", "Trocknungszeit", "Durée de séchage", "Tiempo de secado"}, "h", 9};
const Quantity minutes{{"Drying time", "Trocknungszeit", "Durée de séchage", "Tiempo de secado"}, "min", 540};
const Quantity energy{{"Energy used", "Energieverbrauch", "Énergie", "Energía"}, "kWh", 0};
const Quantity drying_ratio{
    {"Drying ratio", "Eintrocknungsverhältnis", "Rapport frais sec", "Relación de secado"}, "", 0};
const Quantity dry_basis{
    {"Moisture db", "Feuchte auf Trockenbasis", "Humidité base sèche", "Humedad base seca"}, "kg/kg", 4};
const Quantity mr{{"Moisture ratio", "Feuchteverhältnis", "Humidité réduite", "Razón de humedad"}, "", 0};
const Quantity x0{{"Initial moisture db", "Anfangsfeuchte auf Trockenbasis", "Humidité initiale base sèche",
                   "Humedad inicial base seca"},
                  "kg/kg",
                  5};
const Quantity xe{{"Equilibrium moisture db", "Gleichgewichtsfeuchte auf Trockenbasis",
                   "Humidité d'équilibre base sèche", "Humedad de equilibrio base seca"},
                  "kg/kg",
                  0.1};
const Quantity reading{{"Target weight with tray", "Zielgewicht mit Horde", "Poids cible avec claie",
                        "Peso objetivo con bandeja"},
                       "kg",
                       0};
const Quantity lost{{"Loss", "Verlust", "Perte", "Pérdida"}, "kg", 0};

Quantity with_unit(Quantity quantity, std::string unit) {
    quantity.unit = std::move(unit);
    return quantity;
}

// A formula over its inputs: {0} is a cell, {0%} a share as a fraction however the habit gives it, {%} stands
// behind a result that is a share.
struct Sheeted {
    std::string function;  ///< empty: nothing is to be said
    std::vector<Quantity> inputs;
    Quantity result;
    std::string formula;
};

enum Habit { brackets, unit_beside, table, unit_row, percent_formats, no_units, habits };

std::string number(double x) {
    std::string text = std::to_string(x);
    while (text.back() == '0') text.pop_back();
    if (text.back() == '.') text.pop_back();
    return text;
}

// The sheet's text; the formula's cell in `at`.
std::string sheet_of(const Sheeted& sum, int habit, int language, std::string& at) {
    const bool fractions = habit == percent_formats;
    const bool lying = habit == table || habit == unit_row;
    std::vector<std::string> cells;
    const int row = habit == unit_row ? 3 : 2;
    for (std::size_t i = 0; i <= sum.inputs.size(); ++i)
        cells.push_back(lying ? std::string(1, static_cast<char>('A' + i)) + std::to_string(row)
                              : "B" + std::to_string(i + 1));
    std::string formula;
    for (std::size_t i = 0; i < sum.formula.size(); ++i) {
        if (sum.formula[i] != '{') {
            formula += sum.formula[i];
            continue;
        }
        const std::size_t end = sum.formula.find('}', i);
        const std::string inside = sum.formula.substr(i + 1, end - i - 1);
        if (inside == "%")
            formula += fractions ? "" : "*100";
        else
            formula += cells[static_cast<std::size_t>(inside[0] - '0')] +
                       (inside.ends_with('%') && !fractions ? "/100" : "");
        i = end;
    }
    at = cells.back();
    const auto value = [&](std::size_t i) {
        if (i == sum.inputs.size()) return "=" + formula;
        const Quantity& q = sum.inputs[i];
        if (q.unit != "%") return number(q.value);
        return fractions ? number(100 * q.value) + "%" : number(100 * q.value);
    };
    const auto label = [&](std::size_t i) {
        const Quantity& q = i == sum.inputs.size() ? sum.result : sum.inputs[i];
        std::string text = q.label[static_cast<std::size_t>(language)];
        const bool shown =
            (habit == brackets || habit == table || (habit == percent_formats && q.unit != "%")) &&
            !q.unit.empty();
        return shown ? text + " (" + q.unit + ")" : text;
    };
    const auto unit = [&](std::size_t i) {
        return i == sum.inputs.size() ? sum.result.unit : sum.inputs[i].unit;
    };
    std::string text = "sheet Run\n";
    const auto line = [&](int at_row, const auto& cell) {
        text += "A" + std::to_string(at_row);
        for (std::size_t i = 0; i < cells.size(); ++i) text += " | " + cell(i);
        text += "\n";
    };
    if (lying) {
        line(1, label);
        if (habit == unit_row) line(2, unit);
        line(row, value);
        return text;
    }
    for (std::size_t i = 0; i < cells.size(); ++i) {
        text += "A" + std::to_string(i + 1) + " | " + label(i) + " | " + value(i);
        if (fractions && i == sum.inputs.size() && sum.result.unit == "%") text += " {percent}";
        if (habit == unit_beside && !unit(i).empty()) text += " | " + unit(i);
        text += "\n";
    }
    return text;
}

const std::vector<Sheeted>& right_sums() {
    static const std::vector<Sheeted> all{
        {"DRIEDMASS", {fresh, start, final_}, dried, "{0}*(1-{1%})/(1-{2%})"},
        {"DRIEDMASS", {fresh, start, final_}, dried, "ROUND({0}/((1-{2%})/(1-{1%}));3)"},
        {"FRESHFOR", {dried, start, final_}, fresh, "{0}*(1-{2%})/(1-{1%})"},
        {"WATERREMOVED", {fresh, start, final_}, water, "{0}*({1%}-{2%})/(1-{2%})"},
        {"WATERREMOVED", {fresh, start, final_}, water, "{0}-{0}*(1-{1%})/(1-{2%})"},
        {"SOLIDSMASS", {fresh, moisture}, solids, "{0}*(1-{1%})"},
        {"OVENMOISTURE", {dish, dish_wet, dish_dry}, moisture, "({1}-{2})/({1}-{0}){%}"},
        {"OVENMOISTURE",
         {dish, dish_wet, dish_dry},
         moisture,
         "IF({1}=\"\";\"\";(1-({2}-{0})/({1}-{0})){%})"},
        {"DRYINGRATIO", {start, final_}, drying_ratio, "(1-{1%})/(1-{0%})"},
        {"DRYBASIS", {moisture}, dry_basis, "{0%}/(1-{0%})"},
        {"WETBASIS", {dry_basis}, moisture, "{0}/(1+{0}){%}"},
        {"FINALMOISTURE", {fresh, start, dried}, final_, "(1-{0}*(1-{1%})/{2}){%}"},
        {"STOPMASS", {tare, fresh, start, target}, reading, "{0}+{1}*(1-{2%})/(1-{3%})"},
        {"TRIMYIELD", {whole, peel, core}, yield_, "({0}-{1}-{2})/{0}{%}"},
        {"CHAINYIELD", {peeling, drying, milling}, overall, "{0%}*{1%}*{2%}{%}"},
        {"MOISTURERATIO", {dry_basis, x0, xe}, mr, "({0}-{2})/({1}-{2})"},
        {"SATPRESSURE", {temp}, ps, "0.6108*EXP(17.27*{0}/({0}+237.3))"},
        {"SATPRESSURE", {temp}, ps_hpa, "6.112*10^(7.5*{0}/(237.7+{0}))"},
        {"HUMIDITYRATIO",
         {temp, rh, pressure},
         ratio,
         "0.622*{1%}*0.6108*EXP(17.27*{0}/({0}+237.3))/({2}-{1%}*0.6108*EXP(17.27*{0}/({0}+237.3)))"},
        {"RUNENERGY", {power, hours}, energy, "{0}*{1}"},
        {"RUNENERGY", {power, minutes}, energy, "{0}*{1}/60"},
        // right, and not one of ours or too common to be said
        {"", {fresh, dried}, with_unit(lost, "kg"), "{0}-{1}"},
        {"",
         {start, final_},
         {{"Mean moisture", "Mittlere Feuchte", "Humidité moyenne", "Humedad media"}, "%", 0},
         "AVERAGE({0};{1})"},
        {"",
         {fresh, dried},
         {{"Weight loss", "Gewichtsverlust", "Perte de poids", "Pérdida de peso"}, "%", 0},
         "({0}-{1})/{0}{%}"},
        {"", {start, final_}, {{"Difference", "Differenz", "Écart", "Diferencia"}, "%", 0}, "{0}-{1}"},
        {"",
         {fresh, {{"Price per kg", "Preis pro kg", "Prix par kg", "Precio por kg"}, "", 2}},
         {{"Cost", "Kosten", "Coût", "Costo"}, "", 0},
         "{0}*{1}"},
        {"", {temp}, {{"Temperature", "Temperatur", "Température", "Temperatura"}, "°F", 0}, "{0}*1.8+32"},
        {"",
         {hours},
         {{"Drying time", "Trocknungszeit", "Durée de séchage", "Tiempo de secado"}, "min", 0},
         "{0}*60"}};
    return all;
}

struct Planted {
    std::string kind;
    Sheeted sum;
};
const std::vector<Planted>& planted() {
    static const std::vector<Planted> all{
        {"residual moisture", {"", {fresh, start, final_}, dried, "{0}*(1-{1%})"}},
        {"residual moisture", {"", {fresh, start, final_}, water, "{0}*({1%}-{2%})"}},
        {"percent", {"", {fresh, start, final_}, dried, "{0}*(1-{1})/(1-{2})"}},
        {"percent", {"", {fresh, moisture}, solids, "{0}*(1-{1})"}},
        {"percent", {"", {start, final_}, drying_ratio, "(1-{1})/(1-{0})"}},
        {"percent",
         {"",
          {temp, rh, pressure},
          ratio,
          "0.622*{1}*0.6108*EXP(17.27*{0}/({0}+237.3))/({2}-{1}*0.6108*EXP(17.27*{0}/({0}+237.3)))"}},
        {"basis",
         {"",
          {fresh,
           x0,
           {{"Final moisture db", "Endfeuchte auf Trockenbasis", "Humidité finale base sèche",
             "Humedad final base seca"},
            "kg/kg",
            0.1}},
          dried,
          "{0}*(1-{1})/(1-{2})"}},
        {"basis", {"", {dish, dish_wet, dish_dry}, with_unit(dry_basis, "%"), "({1}-{2})/({1}-{0})*100"}},
        {"basis", {"", {fresh, x0}, solids, "{0}*(1-{1})"}},
        {"tare", {"", {dish, dish_wet, dish_dry}, moisture, "({1}-{2})/{1}{%}"}},
        {"tare", {"", {tare, fresh, start, target}, reading, "{1}*(1-{2%})/(1-{3%})"}},
        {"inverse", {"", {fresh, start, final_}, dried, "{0}*(1-{2%})/(1-{1%})"}},
        {"inverse", {"", {dried, start, final_}, fresh, "{0}*(1-{1%})/(1-{2%})"}},
        {"sign", {"", {fresh, start, final_}, water, "{0}*({2%}-{1%})/(1-{2%})"}},
        {"sign", {"", {dish, dish_wet, dish_dry}, moisture, "({2}-{1})/({1}-{0}){%}"}},
        {"averaging", {"", {peeling, drying, milling}, overall, "AVERAGE({0};{1};{2})"}},
        {"unit", {"", {fresh, start, final_}, with_unit(dried, "g"), "{0}*(1-{1%})/(1-{2%})"}},
        {"unit", {"", {temp}, ps, "6.108*EXP(17.27*{0}/({0}+237.3))"}},
        {"unit", {"", {with_unit(fresh, "g"), moisture}, solids, "{0}*(1-{1%})"}},
        {"per minute", {"", {power, minutes}, energy, "{0}*{1}"}},
        {"constant", {"", {temp}, ps, "0.6180*EXP(17.27*{0}/({0}+237.3))"}},
        {"constant", {"", {temp}, ps, "0.6108*EXP(17.72*{0}/({0}+237.3))"}},
        {"constant", {"", {temp}, ps, "0.6108*EXP(17.27*{0}/({0}+273.3))"}},
        {"constant",
         {"",
          {temp, rh, pressure},
          ratio,
          "0.662*{1%}*0.6108*EXP(17.27*{0}/({0}+237.3))/({2}-{1%}*0.6108*EXP(17.27*{0}/({0}+237.3)))"}}};
    return all;
}

TEST(Recognise, RightFormulasInEveryHabitAreNeverWrong) {
    std::size_t formulas = 0, wrong = 0, known = 0, named = 0, could_be_known = 0;
    std::map<std::string, std::size_t> missed;
    for (const Sheeted& sum : right_sums())
        for (int habit = 0; habit < habits; ++habit)
            for (int language = 0; language < kLanguages; ++language) {
                std::string at;
                const std::string text = sheet_of(sum, habit, language, at);
                const auto found = said(text, at);
                ++formulas;
                could_be_known += sum.function.empty() ? 0 : 1;
                if (found && found->verdict == Verdict::wrong) {
                    ++wrong;
                    ADD_FAILURE() << text << found->why << "\n" << found->evidence;
                }
                if (!sum.function.empty()) {
                    const bool there = found && found->verdict == Verdict::could_be_checked &&
                                       found->why.find("DRY." + sum.function + ",") != std::string::npos;
                    known += there ? 1 : 0;
                    named += there && !found->suggested.empty() ? 1 : 0;
                    if (!there) ++missed[sum.function + " habit " + std::to_string(habit)];
                    if (there && !found->suggested.empty() && found->would_show) {
                        // the call shows what the formula shows: within the 1.2 % that an approximation may
                        // be off
                        PictureText made = read_picture(text);
                        calculate(made.picture);
                        const double shown =
                            std::get<double>(made.picture.at(place(made.picture, at))->value);
                        EXPECT_NEAR(*found->would_show / shown, 1,
                                    sum.function.ends_with("PRESSURE") || sum.function == "HUMIDITYRATIO"
                                        ? 0.012
                                        : 1e-3)
                            << text << found->suggested;
                    }
                }
            }
    std::cout << formulas << " right formulas: " << wrong << " called wrong; of " << could_be_known
              << " known sums " << known << " recognised, " << named << " with a call\n";
    for (const auto& [what, count] : missed)
        std::cout << "  not recognised: " << what << " " << count << "\n";
    EXPECT_GE(formulas, 200U);
    EXPECT_EQ(wrong, 0U);
    EXPECT_GE(10 * known, 8 * could_be_known);
}

TEST(Recognise, PlantedMistakesAreFound) {
    std::map<std::string, std::array<std::size_t, 2>> found_of;
    std::size_t found_all = 0, all = 0;
    for (const Planted& plant : planted())
        for (int habit = 0; habit < no_units; ++habit)
            for (int language = 0; language < kLanguages; ++language) {
                if (plant.kind == "percent" && habit == percent_formats) continue;  // right there
                std::string at;
                const std::string text = sheet_of(plant.sum, habit, language, at);
                const auto found = said(text, at);
                const bool there = found && found->verdict == Verdict::wrong;
                auto& [hits, of] = found_of[plant.kind];
                hits += there ? 1 : 0;
                ++of;
                found_all += there ? 1 : 0;
                ++all;
                if (!there && std::getenv("SHOW_MISSED") != nullptr)
                    std::cout << plant.kind << "\n" << text << (found ? found->why : "nothing") << "\n";
            }
    for (const auto& [kind, counts] : found_of)
        std::cout << kind << ": " << counts[0] << " of " << counts[1] << "\n";
    std::cout << "all: " << found_all << " of " << all << "\n";
    EXPECT_GE(10 * found_all, 8 * all);
}

// Right, though near to a slip: nothing here is wrong, and "?" names what may still be said.
constexpr std::string_view kTraps[] = {
    // net weights need no tare
    R"(
sheet Net
A1 | Tare (g) | Gross wet (g) | Net wet (g) | Net dry (g) | Moisture (%)
A2 | 20 | 25 | =B2-A2 | 1 | =(C2-D2)/C2*100)",
    // a mean of replicates is a mean
    R"(
sheet Yields
A1 | Yield run 1 (%) | Yield run 2 (%) | Yield run 3 (%) | Yield (%)
A2 | 18 | 19 | 17 | =AVERAGE(A2:C2)
A3 | 18 | 19 | 17 | =(A3+B3+C3)/3)",
    // water of dry solids and a dry basis
    R"(
sheet Solids
A1 | Dry solids (kg) | 2
A2 | Moisture db (kg/kg) | 4
A3 | Water (kg) | =B1*B2
A4 | Wet mass (kg) | =B1*(1+B2))",
    // an oven test by weights before and after, beside a final moisture
    R"(
sheet Oven
A1 | Weight before (g) | Weight after (g) | Initial moisture (%) | Final moisture (%)
A2 | 5 | 1 | =(A2-B2)/A2*100 | 9)",
    // a moisture whose basis nobody says
    R"(
sheet Basis
A1 | Empty dish (g) | Dish + wet sample (g) | Dish + dry sample (g) | Moisture (%)
A2 | 20 | 25 | 21 | =(B2-C2)/(C2-A2)*100)",
    // a mass corrected to another moisture
    R"(
sheet Corrected
A1 | Sample mass (g) | 50
A2 | Moisture (%) | 11
A3 | Mass at 14 % moisture (g) | =B1*(1-B2/100)/(1-0.14)
A4 | Mass at reference moisture (g) | =B1*(100-B2)/86)",
    // a net weight to stop at
    R"(
sheet Stop
A1 | Tray tare (kg) | 1.2
A2 | Fresh mass (kg) | 12
A3 | Initial moisture (%) | 84
A4 | Target moisture (%) | 10
A5 | Target weight (kg) | =B2*(1-B3/100)/(1-B4/100)
A6 | Target weight with tray (kg) | =B5+B1)",
    // so many shifts, packs, trays
    R"(
sheet Times
A1 | Heater power (kW) | 3
A2 | Time (h) | 8
A3 | Energy in 20 days (kWh) | =B1*B2*20
A4 | Fresh mass per tray (kg) | 2.5
A5 | Initial moisture (%) | 84
A6 | Final moisture (%) | 9
A7 | Dried product of 12 trays (kg) | =12*B4*(1-B5/100)/(1-B6/100))",
    // dry matter is no dried product
    R"(
sheet Words
A1 | Fresh weight (g) | 100
A2 | Moisture (% wb) | 84
A3 | Final moisture (% wb) | 9
A4 | Dry weight (g) | =B1*(1-B2/100)
A5 | Trockenmasse (g) | =B1*(1-B2/100)
A6 | Dry matter (%) | =100-B2
A7 | Loss on drying (%) | =(B1-B4)/B1*100)",
    // other equations of the trade than ours
    R"(
sheet Air
A1 | Air temperature (°C) | 40
A2 | Relative humidity (%) | 30
A3 | Saturation pressure (hPa) | =6.1121*EXP((18.678-B1/234.5)*B1/(257.14+B1))
A4 | Vapour pressure (hPa) | =B3*B2/100
A5 | Humidity ratio (g/kg) | =622*B4/(1013.25-B4)
A6 | Latent heat (kJ/kg) | =2501-2.36*B1
A7 | Air temperature (K) | =B1+273.15
A8 | Specific heat (kJ/kg K) | =1.675+0.025*B9
A9 | Moisture (% wb) | 84
A10 | Air density (kg/m³) | =1013.25/(2.87*B7))"};

TEST(Recognise, WhatIsNearASlipIsNotWrong) {
    std::size_t formulas = 0;
    for (const std::string_view text : kTraps) {
        PictureText made = read_picture(text);
        calculate(made.picture);
        const Labels labels(made.picture);
        for (const auto& [where, cell] : made.picture.sheets[0].cells) {
            if (!cell.formula) continue;
            ++formulas;
            const auto found = recognise(made.picture, {0, where.first, where.second}, labels, {});
            if (!found) continue;
            EXPECT_NE(found->verdict, Verdict::wrong)
                << made.picture.sheets[0].name << " " << cell.formula_text << ": " << found->why;
            if (std::getenv("SHOW_MISSED") != nullptr)
                std::cout << made.picture.sheets[0].name << " " << cell.formula_text << ": " << found->why
                          << " " << found->suggested << "\n";
        }
    }
    std::cout << formulas << " formulas near a slip\n";
}

TEST(Recognise, WholeTexts) {
    const std::string batch = R"(
sheet Batch
A1 | Fresh mass (kg) | 42.5
A2 | Initial moisture (%) | 84
A3 | Final moisture (%) | 9
A4 | Dried product (kg) | =B1*(1-B2/100)/(1-B3/100)
A5 | Dried product (kg) | =B1*(1-B2/100)
A6 | Dried product (kg) | =B1*(1-B2)/(1-B3)
A7 | Dried product (g) | =B1*(1-B2/100)/(1-B3/100)
A8 | x | =B1*0.152/0.88
A9 | | =B1+B2)";
    const auto right = said(batch, "B4");
    ASSERT_TRUE(right);
    EXPECT_EQ(right->what, Recognised::What::right);
    EXPECT_EQ(right->verdict, Verdict::could_be_checked);
    EXPECT_EQ(right->why,
              "The same sum as DRY.DRIEDMASS, mass of dried product from a fresh mass and two moistures");
    EXPECT_EQ(right->suggested, "=DRY.DRIEDMASS(B1;B2/100;B3/100)");
    EXPECT_NEAR(right->would_show.value_or(0), 42.5 * 0.16 / 0.91, 1e-9);  // by hand
    EXPECT_EQ(
        right->evidence,
        "B1 labelled \"Fresh mass (kg)\"; B2 labelled \"Initial moisture (%)\"; B3 labelled \"Final moisture "
        "(%)\"; this cell labelled \"Dried product (kg)\"");
    const auto residual = said(batch, "B5");
    ASSERT_TRUE(residual);
    EXPECT_EQ(residual->verdict, Verdict::wrong);
    EXPECT_EQ(
        residual->why,
        "the final moisture was left out (DRY.DRIEDMASS, mass of dried product from a fresh mass and two "
        "moistures)");
    const auto percent = said(batch, "B6");
    ASSERT_TRUE(percent);
    EXPECT_EQ(percent->why,
              "B2 is in per cent and is used as a fraction; B3 is in per cent and is used as a fraction "
              "(DRY.DRIEDMASS, mass of dried product from a fresh mass and two moistures)");
    EXPECT_EQ(percent->suggested, "=DRY.DRIEDMASS(B1;B2/100;B3/100)");
    const auto grams = said(batch, "B7");
    ASSERT_TRUE(grams);
    EXPECT_EQ(
        grams->why,
        "the result is 1000 times too small for its unit (DRY.DRIEDMASS, mass of dried product from a fresh "
        "mass and two moistures)");
    EXPECT_EQ(grams->suggested, "=DRY.DRIEDMASS(B1;B2/100;B3/100)*1000");
    EXPECT_NEAR(grams->would_show.value_or(0), 42500 * 0.16 / 0.91, 1e-6);  // by hand
    const auto typed = said(batch, "B8");
    ASSERT_TRUE(typed);
    EXPECT_EQ(typed->suggested, "=DRY.DRIEDMASS(B1;0.848;0.12)");
    EXPECT_FALSE(said(batch, "B9"));
}

// A unit is joined where the function would read a plain number in another.
TEST(Recognise, UnitsAreJoinedWhereTheyAreWanted) {
    const auto suggested = [](std::string_view power_in, std::string_view time_in, std::string_view sum) {
        std::string text = "sheet Energy\nA1 | Power (";
        text.append(power_in).append(") | 2\nA2 | Running time (").append(time_in);
        text.append(") | 9\nA3 | Energy (kWh) | =").append(sum);
        const auto found = said(text, "B3");
        return found ? found->suggested : "nothing";
    };
    EXPECT_EQ(suggested("kW", "h", "B1*B2"), "=DRY.RUNENERGY(B1;B2)");
    EXPECT_EQ(suggested("kW", "min", "B1*B2/60"), "=DRY.RUNENERGY(B1;B2&\" min\")");
    EXPECT_EQ(suggested("W", "h", "B1*B2/1000"), "=DRY.RUNENERGY(B1&\" W\";B2)");
}

TEST(Recognise, FactorsBetweenUnits) {
    for (const double factor : {1.0, 1e-3, 100.0, 60.0, 6.0, 3.6, 1440.0, 14.4, 24.0, -1000.0})
        for (const double clean : {factor, 1 / factor}) EXPECT_TRUE(clean_factor(clean)) << clean;
    for (const double factor : {2.0, 7.0, 12.0, 1.001, 1.02, 1468.8})
        EXPECT_FALSE(clean_factor(factor)) << factor;
}

// Which of two functions it is: the values say, or both are named and none is suggested.
TEST(Recognise, BothAreNamedWhereNothingTellsThemApart) {
    const auto dried_mass = said("sheet Bare\nA1 | 100 | 0.8 | 0.2 | =A1*(1-B1)/(1-C1)", "D1");
    ASSERT_TRUE(dried_mass);
    EXPECT_EQ(dried_mass->verdict, Verdict::could_be_checked);
    EXPECT_EQ(dried_mass->suggested, "=DRY.DRIEDMASS(A1;B1;C1)");
    const auto either = said("sheet Bare\nA1 | 100 | 0.5 | 0.5 | =A1*(1-B1)/(1-C1)", "D1");
    ASSERT_TRUE(either);
    EXPECT_EQ(either->verdict, Verdict::could_be_checked);
    EXPECT_EQ(either->why,
              "The same sum as DRY.DRIEDMASS, mass of dried product from a fresh mass and two moistures, or "
              "DRY.FRESHFOR, prepared fresh mass needed for an amount of dried product: the labels do not "
              "say which");
    EXPECT_EQ(either->suggested, "");
    EXPECT_FALSE(either->would_show);
}

}  // namespace
}  // namespace drysheet::workbook
