// SPDX-License-Identifier: MPL-2.0
// What stands on the sheet of a trial: its inputs, what is worked out from them, its results and sentences.
//
// In a formula:
//   <name>     the cell or range of that name      <name.>     a result as it is shown, with its ±
//   [name]     the same as read: masses in g, moistures as fractions, temperatures in °C, times in h …
//   {name}     the cell of the range on this row   {[name]}    the same as read
//   “words {}”(a;b)   words in the reader's language, joined with these values
//   name_u     the ± of a result, or of an input that has one
// Cells are counted by SUMPRODUCT((…<>"")*1), which an error among them makes an error: COUNT would leave it
// out, and a number that is too small would stand in the file.
#pragma once

#include <array>
#include <string_view>
#include <utility>

namespace drysheet::trial {

enum class What : unsigned char {
    none,
    text,
    date,
    unit,
    way,
    isotherm,
    mass,
    moisture,
    points,
    share,
    celsius,
    metre,
    area,
    hours,
    clock,
    energy,
    money,
    number,
    activity,
    days
};

struct InputCell {
    std::string_view name{};
    What what = What::none;
    std::string_view formula{};  ///< what stands there until something is typed over it
};

struct InputLine {
    std::string_view label;
    InputCell b{}, c{}, d{};
    std::string_view note{};  ///< of its first input
    int times = 1;            ///< rows, their labels numbered
    std::array<std::string_view, 3> headings{};
    bool section = false;
    std::string_view unit{};  ///< that stands at the right, where its kind does not say it
};

constexpr std::string_view kTypicalMoisture =
    R"(=IF(OR(<product>="";<start_way><>“typical”);"";IFERROR(ROUND(100*DRY.TYPICAL(<product>;"moisture");1)&" %";"")))";
constexpr std::string_view kStartPoints =
    R"(=IF(<start_moisture>="";"";IF(<start_way>=“oven”;0.5;IF(<start_way>=“meter”;2;IF(<start_way>=“typical”;IFERROR(ROUND(100*DRY.TYPICAL(<product>;"sd");1);3);3)))))";
constexpr std::string_view kFinalPoints =
    R"(=IF(<final_moisture>="";"";IF(<final_way>=“oven”;0.5;IF(<final_way>=“meter”;2;3))))";

constexpr InputLine kInputs[] = {
    {.label = "What, where and who", .section = true},
    {.label = "Product",
     .b = {"product", What::text},
     .note = "Its everyday name, such as ginger or pineapple: of a known one the typical moisture is filled "
             "in below."},
    {.label = "Lot", .b = {"lot", What::text}},
    {.label = "Date", .b = {"date", What::date}},
    {.label = "Operator", .b = {"operator", What::text}},
    {.label = "Place", .b = {"place", What::text}},
    {.label = "Masses are in",
     .b = {"mass_unit", What::unit, "g"},
     .note = "The unit of every mass on this sheet that says none itself. A cell may say its own: 1.2 kg, or "
             "2 lb 3 oz."},
    {.label = "One weighing is good to ±",
     .b = {"scale_u", What::mass},
     .note = "How far the same thing weighed twice may differ. While this is blank, 1 g is taken."},

    {.label = "Cleaning and cutting", .section = true},
    {.label = "Whole, as bought", .b = {"whole", What::mass}},
    {.label = "Part taken off",
     .b = {"parts_off", What::mass},
     .c = {"parts_names", What::text},
     .note = "Peel, core, ends: what went into the bin, each weighed. The cell on the right is for its name. "
             "Rows may stay blank.",
     .times = 6},
    {.label = "Prepared, ready for the trays", .b = {"prepared", What::mass}},
    {.label = "Fresh samples taken from it",
     .b = {"fresh_samples", What::mass},
     .note = "For the oven, say: weighed with the prepared, not put on the trays. They are not lost."},

    {.label = "Trays", .headings = {"Empty", "Loaded", "After drying"}, .section = true},
    {.label = "Tray",
     .b = {"tray_tare", What::mass},
     .c = {"tray_gross", What::mass},
     .d = {"dried_gross", What::mass},
     .note = "Each tray as the scale shows it, the tray included. After drying: each tray again, or a single "
             "weight of all of them together.",
     .times = 12},
    {.label = "Container of the dried, if not the trays",
     .d = {"dried_tare", What::mass},
     .note = "Where the dried was weighed in one box and not on its trays: the empty box."},
    {.label = "Area of one tray", .b = {"tray_area", What::area}},

    {.label = "Dryer and air", .section = true},
    {.label = "Dryer's setting", .b = {"dryer_temp", What::celsius}},
    {.label = "Room air", .b = {"room_temp", What::celsius}},
    {.label = "Humidity of the room air", .b = {"room_rh", What::share}},
    {.label = "Altitude",
     .b = {"altitude", What::metre},
     .note = "While this is blank, the pressure at sea level is taken."},

    {.label = "Moisture, of the wet mass", .headings = {"Known by", "Moisture", "± points"}, .section = true},
    {.label = "Before drying",
     .b = {"start_way", What::way, "“typical”"},
     .c = {"start_moisture", What::moisture, kTypicalMoisture},
     .d = {"start_u", What::points, kStartPoints},
     .note = "82, 82 %, 0.82 and 82 % wb are the same; 4.5 db is on the dry basis. A guess is as welcome as "
             "an oven's value: choose here how the moisture is known, and the ± follows, open to change. A ± "
             "of 0.5 is 0.5 % (common practice: oven 0.5, meter 2, guess 3)."},
    {.label = "After drying",
     .b = {"final_way", What::way, "“guess”"},
     .c = {"final_moisture", What::moisture},
     .d = {"final_u", What::points, kFinalPoints}},
    {.label = "To reach",
     .c = {"target_moisture", What::moisture},
     .note = "At which drying is to be stopped."},

    {.label = "After drying", .section = true},
    {.label = "Samples kept of the dried", .b = {"kept_samples", What::mass}},
    {.label = "Milled and sieved", .b = {"milled", What::mass}},
    {.label = "Water activity, measured",
     .b = {"activity", What::activity},
     .note = "Only from a measurement, a number such as 0.45; never a moisture."},

    {.label = "Weighed run of one tray", .headings = {"Time", "Scale shows", ""}, .section = true},
    {.label = "Empty tray", .c = {"run_tare", What::mass}},
    {.label = "Reading",
     .b = {"run_time", What::clock},
     .c = {"run_gross", What::mass},
     .note = "By the clock, 8:30, also past midnight; a date with its time; hours since the start, 1.5; or "
             "90 min. A reading that was missed stays blank. A longer run may stand elsewhere: =Run.A2 here "
             "points to it.",
     .times = 40},

    {.label = "Prices and work", .section = true},
    {.label = "Price of the raw material", .b = {"prices", What::money}, .unit = "money/kg"},
    {.label = "Price of the energy", .b = {"prices", What::money}, .unit = "money/kWh"},
    {.label = "Pay", .b = {"prices", What::money}, .unit = "money/h"},
    {.label = "Everything else of this trial", .b = {"prices", What::money}},
    {.label = "Hours of work", .b = {"hours", What::hours}},
    {.label = "Energy used, by the meter",
     .b = {"energy", What::energy},
     .note = "While this is blank, the least heat is taken; a real dryer takes two to four times as much."},

    {.label = "A bigger batch, powder and store", .section = true},
    {.label = "Whole material of a bigger batch", .b = {"bigger", What::mass}},
    {.label = "Warmest temperature of the store", .b = {"store_temp", What::celsius}},
    {.label = "Humidity of the store", .b = {"store_rh", What::share}},
    {.label = "Glass transition of the dry solids",
     .b = {"glass_point", What::celsius},
     .note =
         "DRY.SOLIDSGLASSPOINT gives it from the sugars; sucrose 62 °C with the constant 5.42 (Roos 1993)."},
    {.label = "Its constant with water", .b = {"glass_k", What::number}},
    {.label = "Sorption isotherm of the product",
     .b = {"isotherm", What::isotherm},
     .note = "Its name in DRY.SORPTIONMODELS; its two or three parameters in the row below."},
    {.label = "Its parameters",
     .b = {"isotherm_parameters", What::number},
     .c = {"isotherm_parameters", What::number},
     .d = {"isotherm_parameters", What::number}},
    {.label = "Product in a pack", .b = {"pack_mass", What::mass}},
    {.label = "Film around it, both sides", .b = {"pack_area", What::area}},
    {.label = "Days to keep", .b = {"pack_days", What::days}},
};

// What is worked out from the inputs, a cell each.
struct Working {
    std::string_view label, name, needs, formula;
};

constexpr Working kWorkings[] = {
    {"Grams in it", "factor", "", R"(DRY.IN("1 "&[unit];"g"))"},
    {"One weighing is good to, g", "u1", "", R"(IF([scale_u]="";1;[scale_u]))"},
    {"One weighing is good to", "weighing", "", R"([u1]/[factor]&" "&[unit])"},
    {"Pressure, kPa", "pressure", "", R"(IF([altitude]="";101.325;DRY.ALTITUDEPRESSURE([altitude])))"},
    {"Parts taken off, g", "parts", "", "SUM([parts_off])"},
    {"Moisture at the end, or to reach", "end", "",
     R"(IF([final_moisture]<>"";[final_moisture];[target_moisture]))"},
    {"Its ±", "end_u", "", R"(IF([final_moisture]<>"";[final_u];IF([target_moisture]="";"";0)))"},
    {"Trays without their empty weight", "trays_open", "",
     R"(SUMPRODUCT(([tray_gross]<>"")*1)-SUMPRODUCT(([tray_net]<>"")*1))"},
    {"Dried weights", "dried_count", "", R"(SUMPRODUCT(([dried_gross]<>"")*1))"},
    {"Their empty weights, g", "dried_empty", "",
     R"(IF([dried_tare]<>"";[dried_tare];IF([dried_count]=1;SUM([loaded_tare]);IF(SUMPRODUCT(([dried_tares]<>"")*1)<[dried_count];"";SUM([dried_tares])))))"},
    {"Dried, of trays that were not all weighed", "dried_open", "",
     R"(AND([dried_count]>1;[dried_tare]="";[dried_count]<>SUMPRODUCT(([tray_net]<>"")*1)))"},
    {"Product after the mill, g", "product_out", "",
     R"(IF([milled]<>"";[milled]+N([kept_samples]);IF([dried]="";"";[dried])))"},
    {"Whole that was loaded, g", "whole_loaded", "whole prepared loaded", R"([whole]*[loaded]/[prepared])"},
    {"Its ±", "product_out_u", "product_out",
     R"(IF([milled]<>"";[u1]*SQRT(1+SUMPRODUCT(([kept_samples]<>"")*1));[dried_u]))"},
    {"± of the whole that was loaded, g", "whole_loaded_u", "whole_loaded",
     "[whole_loaded]*SQRT(([loaded_u]/[loaded])^2+([u1]/[whole])^2+([u1]/[prepared])^2)"},
    {"Fresh per dried", "ratio", "loaded",
     R"(IF([dried]<>"";[loaded]/[dried];IF(OR([start_moisture]="";[end]="");"";DRY.DRYINGRATIO([start_moisture];[end]))))"},
    {"Its ±", "ratio_u", "ratio",
     R"(IF([dried]<>"";[ratio]*SQRT(([loaded_u]/[loaded])^2+([dried_u]/[dried])^2);DRY.PICK(DRY.UNCERTAINTY("DRYINGRATIO";[start_moisture]&" ± "&[start_u];[end]&" ± "&[end_u]);"u")))"},
    {"Share of the ± of the expected dried: load", "share_loaded", "expected_dried",
     R"(DRY.PICK(DRY.UNCERTAINTY("DRIEDMASS";[loaded]&" ± "&[loaded_u];[start_moisture]&" ± "&[start_u];[end]&" ± "&[end_u]);"fresh";4))"},
    {"Moisture before drying", "share_start", "expected_dried",
     R"(DRY.PICK(DRY.UNCERTAINTY("DRIEDMASS";[loaded]&" ± "&[loaded_u];[start_moisture]&" ± "&[start_u];[end]&" ± "&[end_u]);"start";4))"},
    {"Moisture after drying", "share_end", "expected_dried", R"(1-[share_loaded]-[share_start])"},
    {"Readings with mass and time", "run_count", "", R"(SUMPRODUCT(([run_net]<>"")*1))"},
    {"Weighed tray, or tray 1: empty, g", "stop_empty", "",
     R"(IF([run_count]>0;[run_tare];INDEX([tray_tare];1)))"},
    {"The same, fresh, g", "stop_fresh", "",
     R"(IF([run_count]>0;INDEX([run_net];MATCH(TRUE();INDEX(ISNUMBER([run_net]);0);0));INDEX([tray_net];1)))"},
    {"Its ±", "stop_fresh_u", "stop_fresh", R"([u1]*SQRT(2))"},
    {"Its ± when empty", "stop_empty_u", "", "[u1]"},
    {"Its dry solids, g", "run_solids", "run_first start_moisture",
     R"(DRY.SOLIDSMASS([stop_fresh];[start_moisture]))"},
    {"Their ±", "run_solids_u", "run_solids",
     R"(DRY.PICK(DRY.UNCERTAINTY("SOLIDSMASS";[stop_fresh]&" ± "&[stop_fresh_u];[start_moisture]&" ± "&[start_u]);"u"))"},
    {"Weighed run: first reading, g", "run_first", "", R"(IF([run_count]=0;"";[stop_fresh]))"},
    {"Mass at the moisture to reach, g", "run_goal", "run_first start_moisture target_moisture",
     R"(DRY.STOPMASS(0;[run_first];[start_moisture];[target_moisture]))"},
    {"Page curve: solids likely, g", "fit_solids", "run_solids", R"(IF([run_count]<5;"";[run_solids]))"},
    {"k, 1/h^n", "fit_k", "fit_solids", R"(DRY.PICK(DRY.RUNFIT("Page";[run_h];[run_net];[fit_solids]);"k"))"},
    {"n", "fit_n", "fit_solids", R"(DRY.PICK(DRY.RUNFIT("Page";[run_h];[run_net];[fit_solids]);"n"))"},
    {"Moisture at the start, kg/kg", "fit_start", "fit_solids",
     R"(DRY.PICK(DRY.RUNFIT("Page";[run_h];[run_net];[fit_solids]);"start moisture"))"},
    {"Its verdict", "fit_verdict", "fit_solids",
     R"(DRY.PICK(DRY.RUNFIT("Page";[run_h];[run_net];[fit_solids]);"verdict"))"},
    {"Page curve: solids were the start drier by 2 ±, g", "dry_solids", "fit_solids target_moisture",
     R"(DRY.SOLIDSMASS([run_first];[start_moisture]-2*[start_u]))"},
    {"k, 1/h^n", "dry_k", "dry_solids", R"(DRY.PICK(DRY.RUNFIT("Page";[run_h];[run_net];[dry_solids]);"k"))"},
    {"n", "dry_n", "dry_solids", R"(DRY.PICK(DRY.RUNFIT("Page";[run_h];[run_net];[dry_solids]);"n"))"},
    {"Moisture at the start, kg/kg", "dry_start", "dry_solids",
     R"(DRY.PICK(DRY.RUNFIT("Page";[run_h];[run_net];[dry_solids]);"start moisture"))"},
    {"Page curve: solids were the start wetter by 2 ±, g", "wet_solids", "fit_solids target_moisture",
     R"(DRY.SOLIDSMASS([run_first];[start_moisture]+2*[start_u]))"},
    {"k, 1/h^n", "wet_k", "wet_solids", R"(DRY.PICK(DRY.RUNFIT("Page";[run_h];[run_net];[wet_solids]);"k"))"},
    {"n", "wet_n", "wet_solids", R"(DRY.PICK(DRY.RUNFIT("Page";[run_h];[run_net];[wet_solids]);"n"))"},
    {"Moisture at the start, kg/kg", "wet_start", "wet_solids",
     R"(DRY.PICK(DRY.RUNFIT("Page";[run_h];[run_net];[wet_solids]);"start moisture"))"},
    {"Drying time, h", "dry_time", "",
     R"(IF([passed_by_readings]<>"";[passed_by_readings];IF([passed_by_curve]<>"";[passed_by_curve];IF([run_count]>1;MAX([run_h]);""))))"},
    {"Its ±", "dry_time_u", "dry_time",
     R"(IF([passed_by_readings]<>"";[passed_by_readings_u];IF([passed_by_curve]<>"";[passed_by_curve_u];0)))"},
    {"Air into the dryer, relative humidity", "dryer_rh", "room_temp room_rh dryer_temp",
     R"(DRY.HEATEDRH([room_temp];[room_rh];[dryer_temp];[pressure]))"},
    {"Energy, kWh", "energy_used", "", R"(IF([energy]<>"";[energy];[heat]))"},
    {"Its ±", "energy_used_u", "energy_used", R"(IF([energy]<>"";0;[heat_u]))"},
    {"Cost of the raw material", "raw_cost", "price_raw whole_loaded", "[price_raw]*[whole_loaded]/1000"},
    {"Its ±", "raw_cost_u", "raw_cost", "[raw_cost]*[whole_loaded_u]/[whole_loaded]"},
    {"Dry solids in a pack, g", "pack_solids", "pack_mass end", "DRY.SOLIDSMASS([pack_mass];[end])"},
    {"Product in words", "what", "", R"(IF(<product>="";“the product”;<product>))"},
    {"Moisture to reach in words", "target_words", "target_moisture",
     R"(FIXED(100*[target_moisture];1;1)&" %")"},
    {"Unit of mass", "unit", "", R"(IF(<mass_unit>="";"g";<mass_unit>))"},
};

// Cells beside a range of inputs, a row each.
struct RowWorking {
    std::string_view beside, heading, name;
    std::size_t column;
    std::string_view formula;
};
constexpr std::size_t kReadAt = 12;  // column M: what was read of B; N of C, O of D
constexpr std::size_t kBesideAt = 15;

constexpr RowWorking kRowWorkings[] = {
    {"tray_gross", "Net, g", "tray_net", kBesideAt,
     R"(IF(OR({[tray_gross]}="";{[tray_tare]}="");"";{[tray_gross]}-{[tray_tare]}))"},
    {"tray_gross", "Loaded tray, empty, g", "loaded_tare", kBesideAt + 1,
     R"(IF({[tray_net]}="";"";{[tray_tare]}))"},
    {"tray_gross", "Dried tray, empty, g", "dried_tares", kBesideAt + 2,
     R"(IF({[dried_gross]}="";"";{[tray_tare]}))"},
    {"run_time", "Time with a mass", "run_at", kBesideAt + 3, R"(IF({run_net}="";"";{[run_time]}))"},
    {"run_time", "Hours", "run_h", kBesideAt, R"(IF({run_at}="";"";{run_at}-MIN([run_at])))"},
    {"run_time", "Net, g", "run_net", kBesideAt + 1,
     R"(IF(OR({[run_gross]}="";N({[run_gross]})=0;{[run_time]}="";[run_tare]="");"";{[run_gross]}-[run_tare]))"},
    {"run_time", "Readings, %", "run_moisture", kBesideAt + 2,
     R"(IF(OR({[run_net]}="";[run_solids]="");"";100*DRY.FINALMOISTURE([run_first];[start_moisture];{[run_net]})))"},
};

enum class Shows : unsigned char { mass, share, number, text };

struct Result {
    std::string_view label, name;
    Shows shows = Shows::number;
    std::string_view unit{};  ///< of a number
    std::string_view needs{};
    std::string_view formula{};
    std::string_view u{};       ///< "first order": through the formula's one call, by the ± of what it takes
    std::string_view remark{};  ///< beside a value
    std::string_view unless{};  ///< where this holds it has no value even so
    std::string_view hold{};    ///< ... in words
    bool section = false;
};
constexpr std::string_view kFirstOrder = "first order";

constexpr std::string_view kExplained =
    R"(IF(ABS({value})<=2*{u};“no more than weighing explains”;IF({value}<0;“more came out than went in: a wrong weight?”;“more than weighing explains: juice, board, a wrong weight?”)))";

constexpr Result kResults[] = {
    {.label = "Yields", .section = true},
    {.label = "Prepared of the whole",
     .name = "yield_prepared",
     .shows = Shows::share,
     .needs = "whole prepared",
     .formula = "DRY.STEPYIELD([whole];[prepared])",
     .u = kFirstOrder},
    {.label = "Went astray in preparing",
     .name = "lost_preparing",
     .shows = Shows::mass,
     .needs = "whole prepared",
     .formula = "DRY.UNACCOUNTED([whole];[parts];[prepared])",
     .u = R"([u1]*SQRT(2+SUMPRODUCT(([parts_off]<>"")*1)))",
     .remark = kExplained},
    {.label = "On the trays",
     .name = "loaded",
     .shows = Shows::mass,
     .needs = "tray_gross",
     .formula = "SUM([tray_net])",
     .u = R"([u1]*SQRT(2*SUMPRODUCT(([tray_net]<>"")*1)))",
     .remark = R"(“{} trays”(SUMPRODUCT(([tray_net]<>"")*1)))",
     .unless = "[trays_open]>0",
     .hold = "“a loaded tray has no empty weight”"},
    {.label = "Went astray between board and trays",
     .name = "lost_loading",
     .shows = Shows::mass,
     .needs = "prepared loaded",
     .formula = "DRY.UNACCOUNTED([prepared];N([fresh_samples]);[loaded])",
     .u = R"([u1]*SQRT(2+2*SUMPRODUCT(([tray_net]<>"")*1)))",
     .remark = kExplained},
    {.label = "Dried, weighed",
     .name = "dried",
     .shows = Shows::mass,
     .needs = "dried_gross",
     .formula = "SUM([dried_gross])-[dried_empty]",
     .u = R"([u1]*SQRT([dried_count]+IF([dried_tare]<>"";1;SUMPRODUCT(([tray_net]<>"")*1))))",
     .remark = "IF([dried_count]=1;“one weight for all”;“{} trays”([dried_count]))",
     .unless = R"(OR([dried_open];SUMPRODUCT(([tray_net]<>"")*1)=0;[dried_empty]=""))",
     .hold = "“not every loaded tray has a dried weight, or its empty weight is missing”"},
    {.label = "Dried of the loaded",
     .name = "yield_dried",
     .shows = Shows::share,
     .needs = "loaded dried",
     .formula = "DRY.STEPYIELD([loaded];[dried])",
     .u = kFirstOrder,
     .remark = "“{} fresh to 1 dried”(FIXED([ratio];2;1))"},
    {.label = "Went astray in milling",
     .name = "lost_milling",
     .shows = Shows::mass,
     .needs = "dried milled",
     .formula = "DRY.UNACCOUNTED([dried];N([kept_samples]);[milled])",
     .u = "SQRT([dried_u]^2+2*[u1]^2)",
     .remark = kExplained},
    {.label = "Milled and kept, of the loaded whole",
     .name = "yield_overall",
     .shows = Shows::share,
     .needs = "whole_loaded dried milled",
     .formula = "DRY.STEPYIELD([whole_loaded];[product_out])",
     .u = kFirstOrder},

    {.label = "Drying", .section = true},
    {.label = "Dried product to expect",
     .name = "expected_dried",
     .shows = Shows::mass,
     .needs = "loaded start_moisture end",
     .formula = "DRY.DRIEDMASS([loaded];[start_moisture];[end])",
     .u = kFirstOrder,
     .remark =
         R"(IF([final_moisture]="";“at the moisture to reach”;IF([dried]="";"";“{} of it were weighed”(FIXED(100*[dried]/{value}/[factor];1;1)&" %"))))"},
    {.label = "Do weights and moistures agree?",
     .name = "agree",
     .shows = Shows::text,
     .needs = "loaded start_moisture dried final_moisture",
     .formula =
         R"(DRY.PICK(DRY.RECONCILE([loaded];[loaded_u];[start_moisture];[start_u];[dried];[dried_u];[final_moisture];[final_u]);"verdict"))"},
    {.label = "Measure this better first",
     .name = "better_first",
     .shows = Shows::text,
     .needs = "expected_dried",
     .formula =
         R"(IF(AND([share_start]>=[share_loaded];[share_start]>=[share_end]);“the moisture before drying: {} of the ± of the dried product to expect comes from it”(FIXED(100*[share_start];0;1)&" %");IF([share_end]>=[share_loaded];“the moisture after drying: {} of the ± of the dried product to expect comes from it”(FIXED(100*[share_end];0;1)&" %");“the weight on the trays: {} of the ± of the dried product to expect comes from it”(FIXED(100*[share_loaded];0;1)&" %"))))"},
    {.label = "Stop when the scale shows",
     .name = "stop_reading",
     .shows = Shows::mass,
     .needs = "stop_empty stop_fresh start_moisture target_moisture",
     .formula = "DRY.STOPMASS([stop_empty];[stop_fresh];[start_moisture];[target_moisture])",
     .u = kFirstOrder,
     .remark = "IF([run_count]>0;“under the weighed tray”;“under tray 1”)"},
    {.label = "Passed by the readings",
     .name = "passed_by_readings",
     .unit = "h",
     .needs = "run_solids target_moisture",
     .formula = "DRY.TIMEAT([run_h];[run_net];[run_solids];[target_moisture])",
     .u =
         R"(DRY.PICK(DRY.UNCERTAINTY("TIMEAT";[run_h];[run_net];[run_solids]&" ± "&[run_solids_u];[target_moisture]);"u"))",
     .remark = "“after the first reading”",
     .unless = "MIN([run_net])>[run_goal]",
     .hold = "“the last reading is still above it”"},
    {.label = "Passed by the curve: likely",
     .name = "passed_by_curve",
     .unit = "h",
     .needs = "run_first start_moisture target_moisture",
     .formula =
         R"(DRY.CURVETIME("Page";DRY.MOISTURERATIO(DRY.DRYBASIS([target_moisture]);[fit_start];0);[fit_parameters]))",
     .u = "([passed_slow]-[passed_fast])/4",
     .remark = R"(IF({value}>MAX([run_h]);“beyond the last reading; ”;"")&[fit_verdict])",
     .unless = "[run_count]<5",
     .hold = "“needs five readings”"},
    {.label = "fast",
     .name = "passed_fast",
     .unit = "h",
     .needs = "passed_by_curve",
     .formula =
         R"(MIN(DRY.CURVETIME("Page";DRY.MOISTURERATIO(DRY.DRYBASIS([target_moisture]);[dry_start];0);[dry_parameters]);DRY.CURVETIME("Page";DRY.MOISTURERATIO(DRY.DRYBASIS([target_moisture]);[wet_start];0);[wet_parameters])))",
     .remark = "“were the moisture before drying off by twice its ±”"},
    {.label = "slow",
     .name = "passed_slow",
     .unit = "h",
     .needs = "passed_by_curve",
     .formula =
         R"(MAX(DRY.CURVETIME("Page";DRY.MOISTURERATIO(DRY.DRYBASIS([target_moisture]);[dry_start];0);[dry_parameters]);DRY.CURVETIME("Page";DRY.MOISTURERATIO(DRY.DRYBASIS([target_moisture]);[wet_start];0);[wet_parameters])))",
     .remark = "“the other way round”"},
    {.label = "Readings to look at",
     .name = "run_check",
     .shows = Shows::text,
     .needs = "run_first",
     .formula =
         R"(IF(ISNUMBER(INDEX(DRY.RUNCHECK([run_h];[run_net]);2;1));“reading {}: {}”(INDEX(DRY.RUNCHECK([run_h];[run_net]);2;1);INDEX(DRY.RUNCHECK([run_h];[run_net]);2;5));“none”))",
     .unless = "[run_count]<6",
     .hold = "“needs six readings”"},

    {.label = "Water, heat and air", .section = true},
    {.label = "Water taken out",
     .name = "water",
     .shows = Shows::mass,
     .needs = "loaded start_moisture end",
     .formula = "DRY.WATERREMOVED([loaded];[start_moisture];[end])",
     .u = kFirstOrder},
    {.label = "Least heat for it",
     .name = "heat",
     .unit = "kWh",
     .needs = "loaded start_moisture end room_temp dryer_temp",
     .formula = R"(DRY.HEATDEMAND([loaded]&" g";[start_moisture];[end];[room_temp];[dryer_temp]))",
     .u = kFirstOrder,
     .remark = "“a real dryer takes two to four times as much”"},
    {.label = "Air for it",
     .name = "air",
     .unit = "m³/h",
     .needs = "water dry_time dryer_rh",
     .formula = R"(DRY.AIRNEEDED([water]&" g";[dry_time];[dryer_temp];[dryer_rh];0.4;[pressure]))",
     .u = kFirstOrder,
     .remark = "“leaving at 40 % humidity, spread over {} h”(FIXED([dry_time];1;1))"},

    {.label = "Powder, store and pack", .section = true},
    {.label = "Cakes above this moisture",
     .name = "caking",
     .shows = Shows::share,
     .needs = "store_temp glass_point glass_k",
     .formula = "DRY.CAKINGMOISTURE([store_temp];[glass_point];[glass_k])",
     .remark =
         R"(IF([end]="";"";IF([end]<{value};“the product is drier than that”;“the product is wetter: it cakes in this store”)))"},
    {.label = "What may still grow",
     .name = "growth",
     .shows = Shows::text,
     .needs = "activity",
     .formula = "DRY.ACTIVITYBAND([activity])"},
    {.label = "The most a pack's film may pass",
     .name = "pack",
     .unit = "g/(m²·day·kPa)",
     .needs = "pack_solids pack_area pack_days end caking isotherm store_temp store_rh",
     .formula =
         R"(DRY.BARRIERFOR([pack_days];[pack_solids]&" g";DRY.DRYBASIS([end]);DRY.DRYBASIS([caking]);[isotherm];IF(INDEX([isotherm_parameters];1;3)="";INDEX([isotherm_parameters];1;1):INDEX([isotherm_parameters];1;2);[isotherm_parameters]);[pack_area];[store_temp];[store_rh]))",
     .remark = "“so that it stays below its caking moisture for {} days”([pack_days])",
     .unless = "[end]>=[caking]",
     .hold = "“no film can help: the product is above its caking moisture when packed”"},

    {.label = "Money and more", .section = true},
    {.label = "Cost of a kilogram",
     .name = "cost",
     .unit = "",
     .needs = "product_out whole_loaded price_raw price_energy price_hour hours energy_used",
     .formula =
         R"(DRY.UNITCOST([product_out]&" g";[raw_cost];[energy_used];[price_energy];[hours];[price_hour];N([price_other])))",
     .u = kFirstOrder,
     .remark =
         R"(IF([milled]="";“dried, not milled”;“milled and kept”)&IF([energy]="";“; with the least heat only; prices and hours as exact”;“; prices, hours and the meter as exact”))"},
    {.label = "The bigger batch gives, dried",
     .name = "bigger_dried",
     .shows = Shows::mass,
     .needs = "bigger yield_prepared ratio",
     .formula = "DRY.DRIEDFROM([bigger];[ratio];[yield_prepared])",
     .u = kFirstOrder,
     .remark = R"(IF([dried]="";“by the moistures”;“by the weights of this trial”))"},
    {.label = "and water to take out",
     .name = "bigger_water",
     .shows = Shows::mass,
     .needs = "bigger yield_prepared start_moisture end",
     .formula = "DRY.WATERREMOVED([bigger]*[yield_prepared];[start_moisture];[end])",
     .u = kFirstOrder},
};

// What the yields need; the rest is told beside each result.
constexpr std::string_view kWanted =
    "product whole prepared tray_gross start_moisture final_moisture target_moisture dried_gross";

constexpr std::pair<std::string_view, std::string_view> kSaid[] = {
    {"tray_gross", "Loaded trays"},
    {"dried_gross", "Dried weight"},
    {"start_moisture", "Moisture before drying"},
    {"final_moisture", "Moisture after drying"},
    {"target_moisture", "Moisture to reach"},
};

// Sentences over all of it.
constexpr Working kSentences[] = {
    {"What went through", "sentence_1", "loaded",
     R"(IF([dried]="";IF([expected_dried]="";“{} of {} on the trays.”(<loaded.>;[what]);“{} of {} on the trays should give {} of dried product.”(<loaded.>;[what];<expected_dried.>));“{} of {} on the trays gave {} of dried product, {} of what was loaded.”(<loaded.>;[what];<dried.>;<yield_dried.>)))"},
    {"Is it to be believed", "sentence_2", "agree", R"(UPPER(LEFT(<agree>;1))&MID(<agree>;2;500)&".")"},
    {"How long", "sentence_3", "",
     R"(IF([passed_by_readings]<>"";“By the readings, {} moisture was passed after {}.”([target_words];<passed_by_readings.>)&IF([passed_by_curve]="";"";" "&“The curve says {}, between {} and {}.”(<passed_by_curve.>;<passed_fast.>;<passed_slow.>));IF([stop_reading]<>"";“At {} moisture the scale under the tray will show {}.”([target_words];<stop_reading.>);"")))"},
    {"Guessed", "guessed", "",
     R"(MID(IF(OR(<start_way>=“guess”;<start_way>=“typical”;<start_way>="");"; "&“Moisture before drying”;"")&IF(OR(<final_way>=“guess”;<final_way>=“typical”;<final_way>="");"; "&“Moisture after drying”;"")&IF([scale_u]="";"; "&“One weighing is good to ±”&" 1 g";"")&IF(AND([altitude]="";[air]<>"");"; "&“sea level”;"")&IF(AND([energy]="";[cost]<>"");"; "&“the least heat for the energy”;"");3;500))"},
};

constexpr std::string_view kTen[] = {
    "loaded",        "yield_prepared", "lost_preparing",     "dried",        "expected_dried",
    "yield_overall", "water",          "passed_by_readings", "stop_reading", "cost"};

// How a typed cell is read, {} the cell; and what is said of it where it cannot be read.
struct HowRead {
    std::string_view unit, read, why;
};

inline HowRead how_read(What what) {
    switch (what) {
        case What::mass:
            return {"[unit]", R"(DRY.IN({}&" "&[unit];"g"))",
                    R"(DRY.WHY("IN";IF(ISTEXT({});{};{}&" "&[unit]);"g"))"};
        case What::moisture:
            return {
                R"("%")",
                R"(DRY.WETBASIS(DRY.DRYBASIS(IF(ISTEXT({});{}&"";IF(AND({}>=1;{}<=1.5);NA();IF({}<1;{};{}/100))))))",
                R"(IF(AND(ISNUMBER({});{}>=1;{}<=1.5);“Per cent, or on the dry basis? Type it so: {} % or {} db”({};{});DRY.WHY("DRYBASIS";IF(ISTEXT({});{};IF({}<1;{};{}/100)))))"};
        case What::points:
            return {"", R"(IF(ISTEXT({});DRY.IN({};"fraction");IF(LEFT(CELL("format";{});1)="P";{};{}/100)))",
                    R"(DRY.WHY("IN";{};"fraction"))"};
        case What::share:
            return {
                R"("%")",
                R"(IF(ISTEXT({});DRY.IN({};"fraction");IF(AND({}>=1;{}<=1.5);NA();IF({}<1;{};{}/100))))",
                R"(IF(AND(ISNUMBER({});{}>=1;{}<=1.5);“Per cent? Type it with its sign: {} %”({});DRY.WHY("IN";{};"fraction")))"};
        case What::celsius:
            return {R"("°C")", R"(DRY.IN({}&" °C";"°C"))",
                    R"(DRY.WHY("IN";IF(ISTEXT({});{};{}&" °C");"°C"))"};
        case What::metre:
            return {R"("m")", R"(DRY.IN({}&" m";"m"))", R"(DRY.WHY("IN";IF(ISTEXT({});{};{}&" m");"m"))"};
        case What::area:
            return {R"("m²")", R"(DRY.IN({}&" m²";"m²"))",
                    R"(DRY.WHY("IN";IF(ISTEXT({});{};{}&" m²");"m²"))"};
        case What::hours:
            return {R"("h")", R"(IF(LEFT(CELL("format";{});1)="D";{}*24;DRY.IN({}&" h";"h")))",
                    R"(DRY.WHY("IN";IF(ISTEXT({});{};{}&" h");"h"))"};
        case What::energy:
            return {R"("kWh")", R"(DRY.IN({}&" kWh";"kWh"))",
                    R"(DRY.WHY("IN";IF(ISTEXT({});{};{}&" kWh");"kWh"))"};
        case What::days:
            return {"“days”", "VALUE({})", "“A number is wanted.”"};
        case What::activity:
            return {"“measured”", "{}", "“A number is wanted.”"};
        case What::money:
        case What::number:
            return {"", "VALUE({})", "“A number is wanted.”"};
        default:
            return {};
    }
}

// What may be typed, {} the cell: a formula or a list, and the sentence for anything else.
inline std::pair<std::string_view, std::string_view> allowed_in(What what) {
    switch (what) {
        case What::unit:
            return {R"("g";"kg";"lb";"oz")", "Choose g, kg, lb or oz. A cell may say another unit itself."};
        case What::way:
            return {"“guess”;“typical”;“oven”;“meter”", "Choose guess, typical, oven or meter."};
        case What::isotherm:
            return {R"("GAB";"BET";"Oswin";"Halsey";"Henderson";"Peleg")",
                    "Choose one of the isotherms of the list."};
        case What::mass:
            return {"OR(ISTEXT({});{}>=0)",
                    "A mass is a number, 0 or more, or a number with its unit, such as 1.2 kg."};
        case What::moisture:
            return {"OR(ISTEXT({});AND({}>0;{}<100))",
                    "A moisture is above 0 and below 100 %: type 82, 82 %, or 4.5 db for the dry basis."};
        case What::points:
            return {"OR(ISTEXT({});AND({}>=0;{}<=20))",
                    "The ± of a moisture is in points, 0 to 20: 0.5 is 0.5 %."};
        case What::share:
            return {"OR(ISTEXT({});AND({}>0;{}<=100))",
                    "A humidity is above 0 and at most 100 %: type 65 or 65 %."};
        case What::celsius:
            return {"OR(ISTEXT({});AND({}>-60;{}<250))", "A temperature in °C, or with its unit: 140 °F."};
        case What::metre:
            return {"OR(ISTEXT({});AND({}>-500;{}<6000))", "An altitude in m, or with its unit: 4000 ft."};
        case What::activity:
            return {"AND(ISNUMBER({});{}>0;{}<=1)",
                    "A water activity is a number above 0, at most 1, and measured."};
        case What::area:
        case What::hours:
        case What::energy:
        case What::money:
        case What::number:
        case What::days:
            return {"OR(ISTEXT({});{}>=0)", "A number, 0 or more, is wanted here."};
        default:
            return {};
    }
}
}  // namespace drysheet::trial
