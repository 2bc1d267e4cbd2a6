// SPDX-License-Identifier: MPL-2.0
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
! factor B14
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
    // labels without units in a transposed table, days across
    R"(
sheet Across
A1 | | Mon | Tue | Wed | Thu | Fri | Week
A2 | Ginger in (kg) | 38 | 41 | 40 | 39 | 42 | =SUM(B2:F2)
A3 | Chips out (kg) | 6.1 | 6.6 | 6.4 | 6.2 | 6.8 | =SUM(B3:F3)
A4 | In : out | =B2/B3 | =C2/C3 | =D2/D3 | =E2/E3 | =F2/F3 | =G2/G3
A5 | Water gone (kg) | =B2-B3 | =C2-C3 | =D2-D3 | =E2-E3 | =F2-F3 | =G2-G3
A6 | Meter before (kWh) | 1200 | 1246 | 1293 | 1340 | 1386
A7 | Meter after (kWh) | 1246 | 1293 | 1340 | 1386 | 1433
A8 | Used (kWh) | =B7-B6 | =C7-C6 | =D7-D6 | =E7-E6 | =F7-F6 | =SUM(B8:F8)
A9 | kWh/kg water | =B8/B5 | =C8/C5 | =D8/C5 | =E8/E5 | =F8/F5 | =G8/G5
A10 | Hrs run | 9 | 9.5 | 9 | 9 | 10 | =SUM(B10:F10)
A11 | kg water per hr | =B5/B10 | =C5/C10 | =D5/D10 | =E5/E10 | =F5/F10 | =G5/G10
A12 | In plus meter (kg) | =B2+B6
! reference D9
! unit B12
)",
    // short symbols
    R"(
sheet Symbols
A1 | m0 (g) | m1 (g) | m2 (g) | w (%) | X (kg/kg db) | t (min) | rate (g/h)
A2:A9 | 22.1 | 27.4 | 22.9 | =(B2-C2)/(B2-A2)*100 | =(B2-C2)/(C2-A2) | 180 | =(B2-C2)/F2*60
A12 | w in % wb | 84
A13 | X | =B12/(100-B12)
A14 | w again (%) | =B13/(1+B13)*100
A15 | X wrong way | =B12/(1-B12)
A16 | L (mm) | 5
A17 | D_eff (m²/s) | 2.5e-10
A18 | Fo | =B17*3600/(B16/2000)^2
A19 | k (1/h) | 0.32
A20 | t half (h) | =LN(2)/B19
A21 | MR after 4 h | =EXP(-B19*4)
A22 | m at 4 h (g) | =A2+(B2-A2)*B21
! percent B15
)",
    // buying and selling in lb and kg, headings with notes in brackets
    R"(
sheet Shop
A1 | Item | Bought (lb) | Bought (kg, from lb) | Price (USD/lb) | Paid (USD) | Pieces | g per piece
A2:A6 | x | 12 | =B2*0.4536 | 1.9 | =B2*D2 | 40 | =C2*1000/F2
A7 | all | =SUM(B2:B6) | =SUM(C2:C6) | =E7/B7 | =SUM(E2:E6) | =SUM(F2:F6)
A9 | Ready to eat (oz) | 8
A10 | Ready to eat (g) | =B9*28.35
A11 | Packs from Monday | =INT(C2*1000/B10)
A12 | All bought, g | =C7+B10
A13 | Share of the first (%) | =C2/C7*100
A14 | First and second (kg) | =C2+C3
! unit B12
)",
    // German with a form, units beside, and words of a workshop
    R"(
sheet Charge
A1 | Charge 7, erfunden
A2 | Bruttogewicht mit Horden | 48,2 |
A3 | Brutto mit Horden | 48.2 | kg
A4 | Tara Horden | 12.6 | kg
A5 | Netto Frischware | =B3-B4 | kg
A6 | Feuchte Anfang (Mittel) | 83.5 | %
A7 | Restfeuchte | 12 | %
A8 | Trockensubstanzanteil | =100-B6 | %
A9 | TS | =B5*B8/100 | kg
A10 | Soll-Trockengewicht | =B9*100/(100-B7) | kg
A11 | Ist-Trockengewicht | 6450 | g
A12 | Abweichung | =B11/1000-B10 | kg
A13 | Abweichung relativ | =B12/B10*100 | %
A14 | Beginn | 0.3125 {clock} | 
A15 | Ende | 0.8125 {clock} |
A16 | Dauer | =(B15-B14)*24 | h
A17 | Wasser je Stunde | =(B5-B10)/B16 | kg/h
A18 | Dauer in Minuten | =B15-B14 | min
A19 | Strompreis | 0.32 | EUR/kWh
A20 | Stromkosten | =B19*B21 | EUR
A21 | Stromverbrauch | 62 | kWh
A22 | Wasser gesamt | =B5-B11 | kg
A23 | Lufttemperatur | 62 | °C
A24 | Abkühlung | =B23-B25 | K
A25 | Ablufttemperatur | 41 | °C
! unit B18
! unit B22
)",
    // French table, percent formats
    R"(
sheet Lots
A1 | Lot | Masse brute (kg) | Tare (kg) | Masse nette (kg) | Teneur en eau avant | Teneur en eau après | Produit sec théorique (kg) | Produit sec pesé (kg) | Écart relatif
A2:A8 | A | 33 | 6 | =B2-C2 | 85 % | 11 % | =D2*(1-E2)/(1-F2) | 4.3 | =(H2-G2)/G2 {percent}
A9 | Total | | | =SUM(D2:D8) | =AVERAGE(E2:E8) {percent} | =AVERAGE(F2:F8) {percent} | =SUM(G2:G8) | =SUM(H2:H8) | =(H9-G9)/G9 {percent}
D4 | =B4-6.5
G6 | =D6*(100-E6)/(1-F6)
A11 | Eau à enlever (kg) | =D9*(100-E9)
A12 | Débit d'air (m³/h) | 900
A13 | Débit d'air (m³/min) | =B12/60
A14 | Débit (m³/s) | =B12/60
! constant D4
! percent G6
! percent B11
! unit B14
)",
    // Spanish form
    R"(
sheet Piña
A1 | Peso entero (kg) | 90
A2 | Cáscara y corazón (kg) | 38
A3 | Rodajas a bandejas (kg) | =B1-B2
A4 | Humedad de entrada (%) | 86
A5 | Humedad de salida (%) | 15
A6 | Sólidos (kg) | =B3*(100-B4)/100
A7 | Producto seco (kg) | =B6/(100-B5)*100
A8 | Agua evaporada (kg) | =B3-B7
A9 | Rendimiento (%) | =B7/B1*100
A10 | Tiempo (h) | 14
A11 | Velocidad media (kg/h) | =B8/B10
A12 | Velocidad media (g/min) | =B8*1000/B10/60
A13 | Gas usado (kg) | 5.2
A14 | Costo del gas (USD/kg) | 1.4
A15 | Costo (USD) | =B13*B14
A16 | Costo por kg seco (USD/kg) | =B15/B7
A17 | Bandejas | 40
A18 | Carga por bandeja (g) | =B3/B17
A19 | Carga por bandeja (kg) | =B3/B17
A20 | Suma de pesos (kg) | =B3+B10
A21 | Agua en el producto (kg) | =B7*B5
! unit B18
! unit B20
! percent B21
)",
    // our functions used rightly, in many ways
    R"(
sheet Right
A1 | Prepared (g) | 5000
A2 | Moisture in | 86 %
A3 | Moisture out | 10 %
A4 | Weighed dry (g) | 790
A5 | Dryer temp (°C) | 60
A6 | Room (°C) | 24
A7 | Room RH | 65 %
A8 | Altitude (m) | 1200
A9 | Tare of tray (g) | 850
A10 | Expected (g) | =DRY.DRIEDMASS(B1;B2;B3)
A11 | Expected (kg) | =DRY.DRIEDMASS(B1;B2;B3)/1000
A12 | Water (g) | =DRY.WATERREMOVED(B1;B2;B3)
A13 | Final moisture | =DRY.FINALMOISTURE(B1;B2;B4) {percent}
A14 | Final moisture (%) | =DRY.FINALMOISTURE(B1;B2;B4)*100
A15 | Stop at (g) | =DRY.STOPMASS(B9;B1;B2;B3)
A16 | Pressure (kPa) | =DRY.ALTITUDEPRESSURE(B8)
A17 | Humidity ratio (kg/kg) | =DRY.HUMIDITYRATIO(B6;B7;B16)
A18 | Humidity ratio (g/kg) | =DRY.HUMIDITYRATIO(B6;B7;B16)*1000
A19 | Dew point (°C) | =DRY.DEWPOINT(B6;B7;B16)
A20 | RH hot | =DRY.HEATEDRH(B6;B7;B5;B16) {percent}
A21 | X in (kg/kg db) | =DRY.DRYBASIS(B2)
A22 | back (wb) | =DRY.WETBASIS(B21)
A23 | from text (g) | =DRY.DRIEDMASS("5 kg";"86 %";B3)
A24 | with unit (g) | =DRY.DRIEDMASS(B1&" g";B2;B3)
A25 | Expected in kg, as text | =ROUND(B10/1000;2)&" kg"
A26 | Why | =DRY.WHY("DRIEDMASS";B1;B2;B3)
A27 | Ratio | =DRY.DRYINGRATIO(B2;B3)
A28 | Fresh for 2 kg (g) | =DRY.FRESHFOR(2000;B2;B3)
A29 | Latent heat (kJ/kg) | =DRY.LATENTHEAT(B5)
A30 | Refused | =DRY.DRIEDMASS(B1;86;B3)
A31 | Rests on it | =B30*2
A32 | Hidden | =IFERROR(DRY.DRIEDMASS(B1;B3;B2);"")
A33 | Percent twice | =DRY.DRYBASIS(B2&" %")
A34 | Expected (lb) | =DRY.DRIEDMASS(B1;B2;B3)
! refusal B30
! refusal B32
! percent B33
! unit B34
)",
    // plain tables of other things: nothing to find
    R"(
sheet Stock
A1 | Code | Item | In stock | Min | Order | Unit price | Value | Due
A2:A9 | 17 | jar | 120 | 100 | =IF(C2<D2;D2*2-C2;0) | 0.35 | =C2*F2 | 45000 {date}
A10 | | Sum | =SUM(C2:C9) | | =SUM(E2:E9) | | =SUM(G2:G9)
sheet Scores
A1 | Taster | Colour | Taste | Crunch | Mean | Weighted
A2:A8 | p | 7 | 8 | 6 | =AVERAGE(B2:D2) | =0.2*B2+0.5*C2+0.3*D2
A9 | Mean | =AVERAGE(B2:B8) | =AVERAGE(C2:C8) | =AVERAGE(D2:D8) | =AVERAGE(E2:E8) | =AVERAGE(F2:F8)
A10 | SD | =STDEV(B2:B8) | =STDEV(C2:C8) | =STDEV(D2:D8) | =STDEV(E2:E8) | =STDEV(F2:F8)
sheet Syrup
A1 | Recipe for | 10 | kg of fruit
A2 | Sugar | =B1*0.4 | kg
A3 | Water | =B1*0.6 | L
A4 | Acid | =B1*2 | g
A5 | All of it | =B1+B2+B3 | kg
A6 | Brix | 40 | °
A7 | Days | =B8-B9 | d
A8 | Use by | 45100 {date}
A9 | Made on | 45000 {date}
A10 | Shelves | =CEILING(B1*1000/350;1)
A11 | Labels | =B10*2+5
sheet People
A1 | Name | Hours | Rate (USD/h) | Pay (USD) | Bonus (%) | Total (USD)
A2:A7 | n | 38 | 3.2 | =B2*C2 | 5 | =D2*(1+E2/100)
A8 | Sum | =SUM(B2:B7) | | =SUM(D2:D7) | | =SUM(F2:F7)
)",
    // air and energy in plain formulas, rightly
    R"(
sheet Psych
A1 | T (°C) | RH (%) | psat (kPa) | pv (kPa) | P (kPa) | W (kg/kg) | h (kJ/kg) | v (m³/kg)
A2:A8 | 25 | 60 | =0.61078*EXP(17.27*A2/(A2+237.3)) | =B2/100*C2 | 101.325 | =0.622*D2/(E2-D2) | =1.006*A2+F2*(2501+1.86*A2) | =0.287*(A2+273.15)*(1+1.608*F2)/E2
sheet Heat
A1 | Feed, kg | 40
A2 | cp, kJ/kg K | 3.8
A3 | T feed, °C | 22
A4 | T dryer, °C | 60
A5 | Warming, kJ | =B1*B2*(B4-B3)
A6 | Water, kg | 33
A7 | r, kJ/kg | 2358
A8 | Evaporation, kJ | =B6*B7
A9 | Least heat, kWh | =(B5+B8)/3600
A10 | Burner, kW | 12
A11 | Time, h | =B9/B10
A12 | Time, min | =B9/B10*60
A13 | Air, m³/h | 1100
A14 | Air density, kg/m³ | 1.06
A15 | Air, kg/h | =B13*B14
A16 | Air per kg water, kg/kg | =B15*B11/B6
A17 | Area, m² | 3.2
A18 | Air speed, m/s | =B13/3600/B17
A19 | Total heat, kJ | =B5+B9
A20 | Power need, kW | =B9*B11
! unit Heat.B19
! unit Heat.B20
)",
    // two products beside one another, one column of units; a block of means below
    R"(
sheet Bench
A1 | Bench trial | Ginger | Pineapple | Unit
A2 | Sliced, on trays | 4.2 | 5.1 | kg
A3 | Off the trays | 0.71 | 0.83 | kg
A4 | Moisture of slices | 0.86 | 0.87 | fraction
A5 | Moisture of chips | 0.1 | 0.13 | fraction
A6 | Solids in | =B2*(1-B4) | =C2*(1-C4) | kg
A7 | Solids out | =B3*(1-B5) | =C3*(1-C5) | kg
A8 | Gap | =B6-B7 | =C6-C7 | kg
A9 | Gap, share | =B8/B6 | =C8/C6 | fraction
A10 | Gap, per cent | =B8/B6*100 | =C8/C6*100 | %
A11 | Water driven off | =B2-B3 | =C2-C3 | kg
A12 | Drying | 8.5 | 12 | h
A13 | Water per hour | =B11/B12 | =C11/C12 | kg/h
A14 | Gas burnt | 0.9 | 1.4 | kg
A15 | Gas per water | =B14/B11 | =C14/C11 | kg/kg
A16 | Gas heat | =B14*46 | =C14*46 | MJ
A17 | Heat per water | =B16/B11 | =C16/C11 | MJ/kg
A18 | Water per minute | =B11/B12/60 | =C11/C12/60 | g/min
A19 | Solids and water | =B6+B12 | =C6+C12 | kg
! unit B18
! unit C18
! unit B19
! unit C19
)",
    // readings of a run with a unit in the heading's second line and clock times
    R"(
sheet Weighing
A1 | Clock | Since start | Scale | Without tray | Moisture | Lost since last
A2 | | h | kg | kg | % wb | g
A3 | 0.3 {clock} | =(A3-$A$3)*24 | 14.2 | =C3-$H$3 | =100-(100-$H$4)*$D$3/D3 |
A4:A12 | 0.35 {clock} | =(A4-$A$3)*24 | 11.9 | =C4-$H$3 | =100-(100-$H$4)*$D$3/D4 | =(D3-D4)*1000
G3 | tray kg | 2.6
G4 | start % wb | 85
C5 | 11.2
C6 | 10.4
C7 | 9.5
B8 | =A8-$A$3
F9 | =D8-D9
D11 | =C11-$H$4
! unit B8
! unit F9
! reference D11
)",
    // rows of a recipe, masses in g and kg with conversions within
    R"(
sheet Powder
A1 | Chips milled (kg) | 12
A2 | Powder (g) | 11650
A3 | Milling loss (kg) | =B1-B2/1000
A4 | Milling loss (%) | =(B1*1000-B2)/(B1*1000)*100
A5 | Milling yield | =B2/1000/B1 {percent}
A6 | Bulk volume (mL) | 250
A7 | Mass in cylinder (g) | 118
A8 | Bulk density (g/mL) | =B7/B6
A9 | Bulk density (kg/m³) | =B7/B6*1000
A10 | Tapped volume (mL) | 205
A11 | Tapped density (g/mL) | =B7/B10
A12 | Hausner ratio | =B11/B8
A13 | Carr index (%) | =(B11-B8)/B11*100
A14 | Bags of 50 g | =INT(B2/50)
A15 | Left over (g) | =MOD(B2,50)
A16 | Bag (g) | 50
A17 | Bags | =ROUNDDOWN(B2/B16;0)
A18 | Boxes of 24 | =ROUNDUP(B17/24;0)
A19 | Desiccant per bag (g) | 1.5
A20 | Desiccant in all (g) | =B19*B17
A21 | Water in powder at 6 % (g) | =B2*0.06
A22 | Water in powder (g) | =B2*B23/100
A23 | Moisture (%) | 6
A24 | aw | 0.32
A25 | Powder, kg | =B2/1000
A26 | Powder and desiccant (kg) | =B25+B20
A27 | Milling loss (g) | =B1-B2
! unit B26
! unit B27
)",
    // German table, heading in two rows, comma texts beside
    R"(
sheet Horden
A1 | Horde | Vor dem Trocknen | | Nach dem Trocknen | | Verlust
A2 | Nr. | Masse (g) | Feuchte (%) | Masse (g) | Feuchte (%) | Wasser (g)
A3:A10 | 1 | 1250 | 84.5 | 214 | 9.5 | =B3-D3
A11 | Summe | =SUM(B3:B10) | | =SUM(D3:D10) | | =SUM(F3:F10)
A12 | Mittel | =AVERAGE(B3:B10) | =AVERAGE(C3:C10) | =AVERAGE(D3:D10) | =AVERAGE(E3:E10) | =AVERAGE(F3:F10)
A14 | Trockensubstanz vor (g) | =B11*(1-C12/100)
A15 | Trockensubstanz nach (g) | =D11*(1-E12/100)
A16 | Fehlende TS (g) | =B14-B15
A17 | Fehlende TS (%) | =B16/B14*100
A18 | Wiederfindung (%) | =B15/B14*100
A19 | Temperatur Zuluft (°C) | 62
A20 | Temperatur Abluft (°C) | 45
A21 | Differenz (K) | =B19-B20
A22 | Wasser insgesamt (kg) | =F11/1000
A23 | Wasser insgesamt (kg) falsch | =F11
A24 | Wasser je m² (kg/m²) | =B22/B25
A25 | Hordenfläche (m²) | 6.4
A26 | Anteil | =1-C12
F6 | =B6-D5
! reference F6
! unit B23
! percent B26
)",
    // settings and conditions: nothing to find
    R"(
sheet Logic
A1 | Target moisture (%) | 10
A2 | Measured (%) | 12.5
A3 | Dry enough? | =IF(B2<=B1;"yes";"no")
A4 | Points over | =MAX(0;B2-B1)
A5 | Batch size (kg) | 30
A6 | Dryer holds (kg) | 12
A7 | Batches | =ROUNDUP(B5/B6;0)
A8 | Hours per batch | 9
A9 | Total time (h) | =B7*B8
A10 | Days of 8 hours | =B9/8
A11 | Safety margin | 5 %
A12 | Hours with margin | =B9*(1+B11)
A13 | In words | =ROUND(B9;1)&" h for "&B5&" kg"
A14 | Rate (kg/h) | =IF(B9>0;B5/B9;0)
A15 | Rate or nothing | =IFERROR(B5/B9;"")
A16 | Mean of three | =(B20+B21+B22)/3
A17 | Spread | =MAX(B20:B22)-MIN(B20:B22)
A18 | Relative spread (%) | =B17/B16*100
A20 | Sample 1 (% wb) | 11.9
A21 | Sample 2 (% wb) | 12.3
A22 | Sample 3 (% wb) | 12.1
A23 | As fraction | =B16/100
A24 | On dry basis (%) | =B16/(100-B16)*100
A25 | Slices per tray | 140
A26 | Mass of a slice (g) | 6.5
A27 | Load (g) | =B25*B26
A28 | Load (kg) | =B25*B26/1000
A29 | Trays | =B5/B28
A30 | Space (m²) | =B29*0.54
A31 | Start | 45000.3 {date clock}
A32 | End | =B31+B9/24 {date clock}
A33 | Length (h) | =(B32-B31)*24
sheet Lin
A1 | x | y | x*y | x² | fit
A2:A9 | 2 | 3.1 | =A2*B2 | =A2^2 | =$H$1+$H$2*A2
A10 | =SUM(A2:A9) | =SUM(B2:B9) | =SUM(C2:C9) | =SUM(D2:D9)
G1 | a | 0.2
G2 | b | 1.4
sheet Names
A1 | Fresh | 25
A2 | Dried | 3.9
A3 | Ratio | =fresh_kg/dried_kg
A4 | Loss (kg) | =fresh_kg-dried_kg
A5 | Loss (g) | =fresh_kg-dried_kg
name fresh_kg = $Names.$B$1
name dried_kg = $Names.$B$2
! unit Names.B5
)",
    // Spanish and French forms with a column of units, and our functions in them
    R"(
sheet Ficha
A1 | Masa de rodajas | 36 | kg
A2 | Humedad inicial (b.h.) | 86 | %
A3 | Humedad final (b.h.) | 12 | %
A4 | Masa seca esperada | =DRY.DRIEDMASS(B1;B2/100;B3/100) | kg
A5 | Agua por quitar | =DRY.WATERREMOVED(B1;B2/100;B3/100) | kg
A6 | Tiempo de secado | 780 | min
A7 | Agua por hora | =B5/B6*60 | kg/h
A8 | Razón de secado | =DRY.DRYINGRATIO(B2/100;B3/100) |
A9 | Masa final | 5900 | g
A10 | Humedad real | =DRY.FINALMOISTURE(B1;B2/100;B9/1000)*100 | %
A11 | Humedad real | =DRY.FINALMOISTURE(B1;B2/100;B9) | %
A12 | Temperatura del aire | 60 | °C
A13 | Humedad relativa del aire | 22 | %
A14 | Punto de rocío | =DRY.DEWPOINT(B12;B13/100) | °C
A15 | Razón de humedad | =DRY.HUMIDITYRATIO(B12;B13/100)*1000 | g/kg
A16 | Actividad de agua | 0.45 |
A17 | Rocío con la humedad del producto | =DRY.DEWPOINT(B12;B3/100) | °C
A18 | Base seca | =DRY.DRYBASIS(B2/100) | kg/kg bs
sheet Fiche
A1 | Masse de tranches | 36 | kg
A2 | Plateau compris | 41 | kg
A3 | Teneur en eau initiale (base humide) | 0.86 |
A4 | Teneur en eau finale (base humide) | 0.12 |
A5 | Produit sec attendu | =DRY.DRIEDMASS(B1;B3;B4) | kg
A6 | Produit sec attendu | =DRY.DRIEDMASS(B1;B3;B4) | g
A7 | Eau à enlever | =DRY.WATERREMOVED(B1;B3;B4) | kg
A8 | Poids brut avec claies | 44 | kg
A9 | Attendu, mal | =DRY.DRIEDMASS(B8;B3;B4) | kg
A10 | Teneur en eau base sèche | 5.8 | kg/kg
A11 | En base humide | =DRY.WETBASIS(B10) |
A12 | Matière sèche | =DRY.SOLIDSMASS(B1;B10) | kg
! unit Ficha.B11
! moisture Ficha.B17
! unit Fiche.B6
! tare Fiche.B9
! basis Fiche.B12
)",
    // formats with units and per cent signs in quotes, notes and names
    R"(
sheet Formats
A1 | Load | 14 {format 0.0" kg"}
A2 | Start | 86 {format 0.0" %"} {note moisture wet basis}
A3 | End | 11 {format 0.0" %"} {note moisture wet basis}
A4 | Solids | =B1*(1-B2/100) {format 0.00" kg"}
A5 | Solids, badly | =B1*(1-B2) {format 0.00" kg"}
A6 | Expected | =B4/(1-B3/100) {format 0.00" kg"}
A7 | Expected | =B4/(1-B3/100)*1000 {format 0" g"}
A8 | Expected | =B4/(1-B3/100) {format 0" g"}
A9 | Sample | 12 {note gross mass of dish and sample, g}
A10 | Dish | 9 {note tare, g}
A11 | Net | =B9-B10 {format 0.0" g"}
A12 | Net in kg | =(B9-B10)/1000 {format 0.000" kg"}
A13 | Net and load | =B11+B1 {format 0.0" kg"}
A14 | Length of run | 0.4 {clock}
A15 | Power | 3 {format 0.0" kW"}
A16 | Energy | =B15*B14*24 {format 0.0" kWh"}
A17 | Energy, badly | =B15*B14 {format 0.0" kWh"}
A18 | Dried | =DRY.DRIEDMASS(load;B2/100;B3/100) {format 0.0" kg"}
A19 | Dried, by name | =expected
A20 | Dried, badly | =wrongly
A21 | Why | =DRY.WHY("DRIEDMAS";B1;0.86;0.1)
A22 | Why | =DRY.WHY("DRIEDMASS";B1;0.86;0.1)
A23 | Dry basis | =DRY.DRYBASIS(B2&" %")
A24 | Dry basis, twice | =DRY.DRYBASIS(B25&" %")
A25 | Moisture | 84 %
A26 | Moisture times two | =B25*2 {percent}
name load = $Formats.$B$1
name expected = DRY.DRIEDMASS($Formats.$B$1;0.86;0.11)
name wrongly = DRY.DRIEDMASS($Formats.$B$1;$Formats.$B$15;0.11)
! percent B5
! unit B8
! unit B13
! clock B17
! unit B20
! name B21
! percent B24
)",
    // weights at intervals, loads by tray, a summary on another sheet in other units
    R"(
sheet Trays
A1 | Tray no. | Tray, empty (kg) | Tray with fruit (kg) | Fruit (kg) | Tray with dry fruit (kg) | Dry fruit (kg) | Share left (%)
A2:A11 | 1 | 1.2 | 4.3 | =C2-B2 | 1.75 | =E2-B2 | =F2/D2*100
A12 | All | | | =SUM(D2:D11) | | =SUM(F2:F11) | =F12/D12*100
D5 | =C5
F9 | =E9-B8
sheet Summary
A1 | Loaded (kg) | =$Trays.D12
A2 | Loaded (g) | =$Trays.D12
A3 | Dried (kg) | =$Trays.F12
A4 | Dried per tray (g) | =$Trays.F12/10*1000
A5 | Loss of mass (kg) | =B1-B3
A6 | Loss of mass (%) | =B5/B1*100
A7 | Loss, fraction | =B5/B1
A8 | Hours | 11
A9 | Loss per hour (kg/h) | =B5/B8
A10 | Loss per hour (%/h) | =B6/B8
A11 | Mean temperature (°C) | 58
A12 | Loss and hours | =B5*B8
A13 | Loss less temperature (kg) | =B5-B11
A14 | Dried mass in lb | =B3*2.2046
A15 | Dried mass (lb) | =B3*2.2046
A16 | Dried mass (lb) | =B3/2.2046
A17 | Dried mass (oz) | =B3*35.274
! reference Trays.D5
! reference Trays.F9
! unit Summary.B2
! unit Summary.B13
! unit Summary.B16
)",
};

}  // namespace drysheet::workbook
