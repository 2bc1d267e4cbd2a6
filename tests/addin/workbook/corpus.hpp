// Invented workbooks of a hill co-operative that dries ginger and pineapple, labelled as people label, with
// mistakes planted. A line "! CLASS CELL" names a planted mistake; nothing else in them is wrong.
#pragma once

#include <string_view>

namespace drysheet::workbook {

inline constexpr std::string_view kCorpus[] = {
    // a form, units in brackets
    R"(
sheet Batch
A1 | Batch record, ginger slices, invented
A3 | Fresh mass (kg) | 42.5
A4 | Peel and trimmings (kg) | 4.1
A5 | Prepared mass (kg) | =B3-B4
A6 | Moisture at start (% wb) | 86
A7 | Moisture at end (% wb) | 9.5
A8 | Dry solids (kg) | =B5*(1-B6/100)
A9 | Expected dried mass (kg) | =B8/(1-B7/100)
A10 | Dried mass found (g) | 5900
A11 | Difference (kg) | =B9-B10
A12 | Yield of prepared (%) | =B10/1000/B5*100
A13 | Water removed (g) | =B5-B9
A14 | Drying time (h) | 9.5
A15 | Mean water removal (kg/h) | =(B5-B9)/B14
A16 | Trays used | 12
A17 | Load per tray (kg) | =B5/B16
A18 | Tray area (m²) | 0.8
A19 | Loading density (kg/m²) | =B17/B18
! unit B11
! unit B13
)",
    // a table with the units in a row under the headings
    R"(
sheet Trays
A1 | Tray | Gross before | Tare | Net before | Gross after | Net after | Loss | Time
A2 |      | g            | g    | g          | g           | g         | %    | min
A3:A10 | T | 1420 | 380 | =B3-C3 | 545 | =E3-C3 | =(D3-F3)/D3*100 | 540
A11 | total | =SUM(B3:B10) | =SUM(C3:C10) | =SUM(D3:D10) | =SUM(E3:E10) | =SUM(F3:F10)
A12 | mean | =AVERAGE(B3:B10) | =AVERAGE(C3:C10) | =AVERAGE(D3:D10) | =AVERAGE(E3:E10) | =AVERAGE(F3:F10) | =AVERAGE(G3:G10)
F7 | =E7-C6
G9 | =(D9-F9)/1040*100
! reference F7
! constant G9
)",
    // units in formats, none in the labels
    R"(
sheet Run
A1 | Loaded | 12.4 {format 0.0" kg"}
A2 | Dried product | 1.95 {format 0.00" kg"}
A3 | Moisture of the feed | 86 %
A4 | Moisture of the product | 10 %
A5 | Heater | 3.5 {format 0.0" kW"}
A6 | Time | 8 {format 0.0" h"}
A7 | Heat used | =B5*B6 {format 0.0" kWh"}
A8 | Water evaporated | =B1-B2 {format 0.0" kg"}
A9 | Heat per water | =B7/B8 {format 0.00" kWh/kg"}
A10 | Solids in | =B1*(1-B3) {format 0.00" kg"}
A11 | Solids out | =B2*(1-B4) {format 0.00" kg"}
A12 | Load and heat | =B1+B7 {format 0.0" kg"}
A13 | Remaining share | =100-B3 {percent}
A14 | Heat in a shift | =B5*B6*60 {format 0.0" kWh"}
A15 | Dried product from sheet | =B1*(1-B3)/(1-B4) {format 0" g"}
! unit B12
! percent B13
! unit B15
)",
    // our functions, handed the wrong things
    R"(
sheet Ours
A1 | Fresh mass | 42.5 | kg
A2 | Start moisture, wet basis | 0.86 |
A3 | Final moisture, wet basis | 0.1 |
A4 | Moisture content (db) | 6.1 | kg/kg
A5 | Dried mass | 6600 | g
A6 | Gross mass with tray | 44.1 | kg
A7 | Water activity | 0.55
A8 | Relative humidity (%) | 45
A9 | Air temperature (°C) | 58
A10 | Room temperature (°F) | 78
A11 | Elapsed | 0.375 {clock}
A12 | Thickness (cm) | 0.6
A13 | Dried product (kg) | =DRY.DRIEDMASS(B1;B2;B3)
A14 | Dried product (g) | =DRY.DRIEDMASS(B1;B2;B3)
A15 | Water to remove (kg) | =DRY.WATERREMOVED(B1;B2;B3)
A16 | Final moisture from weights | =DRY.FINALMOISTURE(B1;B2;B5)
A17 | Dried product (kg) | =DRY.DRIEDMASS(B6;B2;B3)
A18 | Dry basis | =DRY.DRYBASIS(B4)
A19 | Humidity ratio (kg/kg) | =DRY.HUMIDITYRATIO(B9;B8)
A20 | Dew point (°C) | =DRY.DEWPOINT(B10;0.45)
A21 | Time for thicker slices (h) | =DRY.THICKNESSTIME(B11;6;8)
A22 | New time (h) | =DRY.THICKNESSTIME(9;B12;8)
A23 | Limit for storing | =DRY.ACTIVITYBAND(B3)
A24 | Dry product | =DRY.DRIEDMAS(B1;B2;B3)
A25 | Dried, in kg | =DRY.DRIEDMASS(B1&" g";B2;B3)
A26 | Solids (kg) | =DRY.SOLIDSMASS(B1;B2)
A27 | Drying ratio | =DRY.DRYINGRATIO(B2;B3)
! unit B14
! unit B16
! tare B17
! basis B18
! percent B19
! unit B20
! clock B21
! unit B22
! activity B23
! name B24
! unit B25
)",
    // German, units in square brackets
    R"(
sheet Trocknung
A1 | Frischmasse [kg] | 25
A2 | Schälabfall [kg] | 2.2
A3 | Einwaage Trockner [kg] | =B1-B2
A4 | Anfangsfeuchte [% FS] | 85
A5 | Endfeuchte [% FS] | 8
A6 | Trockensubstanz [kg] | =B3*(1-B4/100)
A7 | Trockenprodukt [kg] | =B6/(1-B5/100)
A8 | Wasserentzug [kg] | =B3-B7
A9 | Trocknungszeit [h] | 11
A10 | Wasserentzug je Stunde [g/h] | =B8/B9
A11 | Ausbeute [%] | =B7/B1*100
A12 | Restwasser [kg] | =B7*B5
A13 | Trockensubstanz Kontrolle [kg] | =B7*(1-B5)
A14 | Heizleistung [kW] | 6
A15 | Verbrauch [kWh] | =B14*B9
A16 | Verbrauch je kg Wasser [kWh/kg] | =B15/B8
! unit B10
! percent B12
! percent B13
)",
    // French, units after a comma or in a column
    R"(
sheet Essai
A1 | Grandeur | Valeur | Unité
A2 | Masse fraîche | 18.2 | kg
A3 | Épluchures | 1.4 | kg
A4 | Masse préparée | =B2-B3 | kg
A5 | Humidité initiale | 84 | %
A6 | Humidité finale | 11 | %
A7 | Matière sèche | =B4*(100-B5)/100 | kg
A8 | Masse sèche attendue | =B7/(1-B6/100) | kg
A9 | Masse obtenue | 3050 | g
A10 | Écart | =B8-B9 | kg
A11 | Durée de séchage | 600 | min
A12 | Eau évaporée | =B4-B8 | kg
A13 | Vitesse | =B12/B11 | kg/h
A14 | Rendement | =B9/1000/B4*100 | %
A15 | Énergie | 14 | kWh
A16 | Énergie par kg d'eau | =B15/B12 | kWh/kg
A17 | Part restante | =1-B5 | 
! unit B10
! unit B13
! percent B17
)",
    // Spanish, a table
    R"(
sheet Secado
A1 | Lote | Peso fresco (kg) | Humedad inicial (%) | Humedad final (%) | Sólidos (kg) | Peso seco esperado (kg) | Peso seco obtenido (kg) | Diferencia (kg)
A2:A9 | L | 30 | 85 | 10 | =B2*(1-C2/100) | =E2/(1-D2/100) | 4.9 | =F2-G2
A10 | Suma | =SUM(B2:B9) | | | =SUM(E2:E9) | =SUM(F2:F9) | =SUM(G2:G8) | =SUM(H2:H9)
E5 | =B5*(1-C4/100)
F7 | =E7/(1-0.12)
! reference E5
! constant F7
! range G10
)",
    // a week's log, units behind the words without brackets
    R"(
sheet Week
A1 | Day | Fresh kg | Dried g | Yield % | Power kW | Hours h | Energy kWh | kWh per kg dried
A2:A8 | d | 40 | 6200 | =C2/1000/B2*100 | 4.5 | 10 | =E2*F2 | =G2/(C2/1000)
A9 | Sum | =SUM(B2:B8) | =SUM(C2:C8) | =AVERAGE(D2:D8) | | =SUM(F2:F8) | =SUM(G2:G8)
G4 | =E4+F4
D6 | =C6/B6*100
H7 | =G7/(C6/1000)
! reference D6
! sign G4
! reference H7
)",
    // air log with clock cells and a basis mixed up
    R"(
sheet Air
A1 | Time | Inlet °C | Outlet °C | RH inlet (%) | Drop (K)
A2:A9 | 0.4 {clock} | 60 | 44 | 18 | =B2-C2
A11 | Start | 0.33 {clock}
A12 | End | 0.75 {clock}
A13 | Run time (h) | =B12-B11
A14 | Run time right (h) | =(B12-B11)*24
A15 | Moisture (% wb) | 82
A16 | Moisture, dry basis (kg/kg) | 4.5
A17 | Drop in moisture | =B15-B16
A18 | Mean inlet (°C) | =AVERAGE(B2:B9)
A19 | Heat and flow (kW) | 4
A20 | Air flow (m³/h) | 600
A21 | Air per kg water (m³/kg) | =B20/B22
A22 | Water per hour (kg/h) | 1.2
A23 | Running (min) | =B14*60
A24 | Running all (h) | =B14+B23
! unit B13
! basis B17
! unit B24
)",
    // stages of a pineapple batch over two sheets, with names
    R"(
sheet Prep
A1 | Whole fruit bought, kg | 120
A2 | Crown and peel, kg | 41
A3 | Core, kg | 9
A4 | Cut fruit, kg | =B1-B2-B3
A5 | Share usable | =B4/B1 {percent}
sheet Dry
A1 | Cut fruit in, kg | =$Prep.B4
A2 | Moisture in, % | 86.5
A3 | Moisture out, % | 14
A4 | Dried out, kg | =cut_kg*(1-B2/100)/(1-B3/100)
A5 | Pack, g | 250
A6 | Packs | =B4*1000/B5
A7 | Packs short way | =ROUND(B4/B5*1000;0)
A8 | Overall yield, % | =B4/$Prep.B1*100
A9 | Cost of fruit, EUR | 84
A10 | Cost per kg dried, EUR/kg | =B9/B4
A11 | Dried and packed, kg | =B4+B5
A12 | Overall yield again, % | =B4/$Prep.B1
name cut_kg = $Dry.$B$1
! unit Dry.B11
! percent Dry.B12
)",
    // cumulative masses in a run, rows copied, odd rows
    R"(
sheet Curve
A1 | t (h) | Reading (g) | Tare (g) | Net (g) | X (kg/kg db) | MR
A2 | 0 | 1520 | 320 | =B2-C2 | =(D2-$H$1)/$H$1 | =(E2-$H$2)/($E$2-$H$2)
A3:A14 | 1 | 1180 | 320 | =B3-C3 | =(D3-$H$1)/$H$1 | =(E3-$H$2)/($E$2-$H$2)
G1 | solids (g) | 168
G2 | Xe (kg/kg db) | 0.06
D8 | =B8-320
E10 | =(D10-$H$1)/D10
F12 | =(E11-$H$2)/($E$2-$H$2)
B5 | 900
B11 | 610
! reference E10
! reference F12
)",
    // contradicting labels and one cell with two meanings
    R"(
sheet Labels
A1 | Dried mass (g) | 2.4 {format 0.0" kg"}
A2 | Fresh mass (kg) | 12 | g
A3 | Moisture | 0.4
A4 | as wet | =DRY.DRYBASIS(B3)
A5 | as dry | =DRY.WETBASIS(B3)
A6 | Temp, °C | 60
A7 | Water removed | 8.1 kg
A8 | Water per hour (kg/h) | =8.1/9
! label B1
! label B2
! two B3
)",
    // costs, energy, people: right sums only
    R"(
sheet Costs
A1 | Dried product per batch (kg) | 6.2
A2 | Batches per week | 5
A3 | Output per week (kg) | =B1*B2
A4 | Tariff (EUR/kWh) | 0.21
A5 | Energy per batch (kWh) | 48
A6 | Energy cost per batch (EUR) | =B4*B5
A7 | Labour (h) | 6
A8 | Wage (EUR/h) | 11
A9 | Labour cost (EUR) | =B7*B8
A10 | Fruit (EUR) | 75
A11 | Cost per batch (EUR) | =B6+B9+B10
A12 | Cost per kg (EUR/kg) | =B11/B1
A13 | Price (EUR) | 28
A14 | Margin (EUR) | =B13*B1-B11
A15 | Margin (%) | =B14/(B13*B1)*100
A16 | Hours per batch | 10
A17 | Minutes | =B16*60
A18 | Dryer power (kW) | =B5/B16
A19 | Evaporated (kg) | 31
A20 | Specific energy (kWh/kg) | =B5/B19
A21 | Specific energy (MJ/kg) | =B5*3.6/B19
A22 | Latent heat (kJ/kg) | 2350
A23 | Efficiency (%) | =B19*B22/3600/B5*100
A24 | Efficiency | =B19*B22/(B5*3600) {percent}
A25 | Evaporation (kg/h) | =B19/B16
A26 | Evaporation (g/min) | =B19*1000/(B16*60)
A27 | Tray area (m²) | 12
A28 | Evaporation flux (kg/m²h) | =B25/B27
A29 | Weeks | 40
A30 | Output per year (t) | =B3*B29/1000
)",
    // right sums in many habits
    R"(
sheet Oven
A1 | Dish (g) | Dish + wet sample (g) | Dish + dry sample (g) | Moisture (% wb) | Solids (%) | Moisture db (%)
A2:A9 | 21.34 | 26.51 | 21.97 | =(B2-C2)/(B2-A2)*100 | =100-D2 | =(B2-C2)/(C2-A2)*100
A10 | | | | =AVERAGE(D2:D9) | =AVERAGE(E2:E9) | =STDEV(F2:F9)
sheet Oven2
A1 | Schale | Schale+nass | Schale+trocken | Wassergehalt | TS
A2 | g | g | g | % | %
A3:A9 | 20.11 | 25.4 | 20.85 | =100*(B3-C3)/(B3-A3) | =100-D3
sheet Conv
A1 | Fresh (lb) | 20 | Fresh (kg) | =B1*0.4536
A2 | Temp (°F) | 140 | Temp (°C) | =(B2-32)*5/9
A3 | Time (min) | 540 | Time (h) | =B3/60
A4 | Pressure (mbar) | 880 | Pressure (kPa) | =B4/10
A5 | Thickness (mm) | 6 | Thickness (m) | =B5/1000
A6 | Energy (kJ) | 9000 | Energy (kWh) | =B6/3600
A7 | Mass (kg) | 4 | Mass (g) | =B7*1000
A8 | X (kg/kg db) | 3.2 | Moisture wb (%) | =B8/(1+B8)*100
A9 | Moisture wb (%) | 76 | X (kg/kg db) | =B9/(100-B9)
A10 | Temp (°C) | 55 | Temp (K) | =B10+273.15
)",
};

}  // namespace drysheet::workbook
