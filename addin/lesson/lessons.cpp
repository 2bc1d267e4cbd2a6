// SPDX-License-Identifier: MPL-2.0
// The exercises that come with Drysheet. The co-operative, its weights and its prices are invented.
#include <array>
#include <utility>

#include "addin/lesson/exercise.hpp"

namespace drysheet {
namespace {

constexpr const char *kBalances = "Balances", *kAir = "Moist air", *kTime = "Rate and time",
                     *kSorption = "Sorption", *kEnergy = "Energy", *kScale = "Scale-up";

constexpr std::array<std::pair<std::string_view, std::string_view>, 6> kStories{
    {{kBalances,
      "The co-operative on the hill buys ginger and pineapple from its members. Drying takes out water and "
      "nothing "
      "else: the solids that go in come out again."},
     {kAir,
      "The dryer draws in the hill's own air, cool and damp, and heats it. What that air can take up decides "
      "how fast "
      "it dries and how much of it is needed."},
     {kTime,
      "A tray is weighed every half hour. From its weights the co-operative learns the rate, and from the "
      "rate how "
      "long the next batch will take."},
     {kSorption,
      "Dried slices and powder take up water from damp air until both are at rest. The isotherm says how "
      "much, and "
      "only a measured water activity tells of keeping."},
     {kEnergy,
      "Wood and electricity are dear on the hill. The co-operative wants to know the least heat that drying "
      "takes, and "
      "how much of what it pays for goes into the water."},
     {kScale,
      "A buyer has asked for a season's powder. From one tray on the bench the co-operative works out trays, "
      "batches "
      "and raw produce."}}};

const std::array<ExerciseRow, 39> kRows{{
    // ---- balances
    {kBalances,
     "Peeled ginger holds {start} % water, on the wet basis. How many kilograms of water are there to a "
     "kilogram of dry "
     "solids?",
     "DRYBASIS", "{start} %", "start 78 to 88", "", "1", "",
     "Take 100 g of the ginger. How much of it is water, how much is dry solids? | Divide the water by the "
     "solids, not by "
     "the whole."},
    {kBalances,
     "A dish weighs {dish} g. With a sample of pineapple it weighs {wet} g, and after the oven {dry} g. What "
     "was the "
     "moisture of the sample on the wet basis, as a fraction or with %?",
     "OVENMOISTURE", "{dish} g; {wet} g; {dry} g",
     "dish 18 to 22 step 0.01; wet 27 to 32 step 0.01; dry 19 to 24 step 0.01", "", "1", "",
     "The oven took the water: how much did the dish lose? | The sample alone is what was weighed before the "
     "oven, less "
     "the dish. Divide the loss by it."},
    {kBalances,
     "A crate of {mass} kg of peeled pineapple holds {moisture} % water, on the wet basis. How many "
     "kilograms of dry solids "
     "are in it?",
     "SOLIDSMASS", "{mass} kg; {moisture} %", "mass 12 to 30; moisture 78 to 87", "", "1", "kg",
     "What share of the crate is not water? | Multiply the mass by that share."},
    {kBalances,
     "{fresh} kg of sliced ginger of {start} % moisture go into the dryer and are dried to {final} % (both "
     "on the wet "
     "basis). How many kilograms of dried slices come out?",
     "DRIEDMASS", "{fresh} kg; {start} %; {final} %", "fresh 20 to 60; start 78 to 86; final 19 to 28", "",
     "2", "kg",
     "How many kilograms of dry solids go in? The same come out. | In the dried slices the solids are 100 % "
     "less the final "
     "moisture: divide by that share."},
    {kBalances,
     "How much water does the dryer take out of {fresh} kg of sugared pineapple that goes in at {start} % "
     "and comes out at "
     "{final} % (both on the wet basis)? Answer in kg.",
     "WATERREMOVED", "{fresh} kg; {start} %; {final} %", "fresh 20 to 60; start 46 to 60; final 20 to 28", "",
     "2", "kg",
     "First the mass of dried slices, from the solids. | The water removed is what went in less what came "
     "out. "
     "Percentages of two different masses cannot be subtracted."},
    {kBalances,
     "A shop wants {dried} kg of dried pineapple of {final} % moisture. The slices go in at {start} % (both "
     "on the wet "
     "basis). How many kilograms of slices must be loaded?",
     "FRESHFOR", "{dried} kg; {start} %; {final} %", "dried 4 to 12; start 80 to 87; final 19 to 28", "", "2",
     "kg",
     "How many kilograms of dry solids does the shop get? | Those solids are 100 % less the start moisture "
     "of the "
     "slices."},
    {kBalances,
     "{fresh} kg of ginger of {start} % moisture (wet basis) were dried and weigh {dried} kg now. What is "
     "their moisture "
     "now on the wet basis, as a fraction or with %?",
     "FINALMOISTURE", "{fresh} kg; {start} %; {dried} kg", "fresh 20 to 30; start 80 to 86; dried 4 to 8", "",
     "2", "",
     "The solids are the same as before. | What in the dried slices is not solids is water: divide it by "
     "their mass."},
    {kBalances,
     "An empty tray weighs {tare} g. {fresh} g of slices of {start} % moisture lie on it. What does the "
     "scale show, tray "
     "included, when they have reached {target} % (both on the wet basis)? Answer in g.",
     "STOPMASS", "{tare} g; {fresh} g; {start} %; {target} %",
     "tare 150 to 300 step 5; fresh 1200 to 2400 step 10; start 60 to 75; target 22 to 30", "", "2", "",
     "The tray does not dry. Work out the mass of the dried slices alone. | Then put the tray back under "
     "them."},
    {kBalances,
     "Of the ginger {peel} % is left after peeling, of the peeled {slice} % after slicing and sorting, and "
     "of the dried "
     "slices {mill} % after milling. What share is left of all three together, as a fraction or with %?",
     "CHAINYIELD", "{peel} %; {slice} %; {mill} %", "peel 76 to 88; slice 84 to 92; mill 90 to 97", "", "1",
     "", "Each share is taken of what the step before has left. | Multiply the three shares."},

    // ---- moist air
    {kAir,
     "The air on the hill has {temp} °C and {rh} % relative humidity at {pressure} kPa. How many kilograms "
     "of vapour are "
     "there to a kilogram of dry air?",
     "HUMIDITYRATIO", "{temp} °C; {rh} %; {pressure} kPa",
     "temp 14 to 24; rh 60 to 85 step 1; pressure 84 to 92 step 0.5", "", "2", "kg/kg",
     "Look up the saturation pressure of water at that temperature and multiply it by the relative humidity. "
     "| The "
     "vapour's mass to the air's is 0.622 × vapour pressure ÷ (pressure − vapour pressure)."},
    {kAir,
     "Air of {temp} °C and {rh} % relative humidity is cooled at {pressure} kPa. At what temperature does "
     "dew form?",
     "DEWPOINT", "{temp} °C; {rh} %; {pressure} kPa",
     "temp 18 to 30; rh 45 to 75 step 1; pressure 84 to 101 step 0.5", "", "2", "",
     "Cooling changes neither the vapour nor its pressure. | At which temperature is that vapour pressure "
     "the saturation "
     "pressure?"},
    {kAir,
     "In the valley, at 101.325 kPa, a wet cloth is wound round a thermometer in air of {temp} °C and {rh} % "
     "relative "
     "humidity. What temperature does it show?",
     "WETBULB", "{temp} °C; {rh} %", "temp 35 to 60; rh 15 to 40 step 1", "", "2", "",
     "Wet slices in moving air have this temperature too, while their surface is wet. | It lies between the "
     "dew point and "
     "the air's temperature; a chart's line of one wet bulb leads there."},
    {kAir,
     "A wet bulb shows {wetbulb} °C beside a dry thermometer at {temp} °C ({pressure} kPa). What is the "
     "relative humidity, "
     "as a fraction or with %?",
     "RHFROMWETBULB", "{temp} °C; {wetbulb} °C; {pressure} kPa",
     "temp 40 to 60; wetbulb 24 to 36; pressure 84 to 101 step 0.5", "", "2", "",
     "The drier the air, the farther apart the two thermometers. | Find the point on the chart where both "
     "lines meet. "
     "Two temperatures must not be divided."},
    {kAir,
     "Air of {temp} °C and {rh} % relative humidity is heated to {heated} °C at {pressure} kPa. What is its "
     "relative "
     "humidity then, as a fraction or with %?",
     "HEATEDRH", "{temp} °C; {rh} %; {heated} °C; {pressure} kPa",
     "temp 15 to 24; rh 60 to 85 step 1; heated 50 to 65 step 1; pressure 84 to 92 step 0.5", "", "2", "",
     "Heating adds no vapour: its pressure stays. | Divide it by the saturation pressure at the higher "
     "temperature."},
    {kAir,
     "Air of {temp} °C and {rh} % relative humidity passes over wet slices at {pressure} kPa and leaves with "
     "{exit} %. How "
     "many grams of water has each kilogram of dry air taken up?",
     "AIRPICKUP", "{temp} °C; {rh} %; {exit} %; {pressure} kPa",
     "temp 50 to 65 step 1; rh 6 to 14 step 1; exit 35 to 60 step 1; pressure 84 to 92 step 0.5", "", "3",
     "g/kg",
     "The air cools along the line of one wet bulb. | Take the humidity ratio where that line meets the exit "
     "humidity, "
     "less that at the inlet."},
    {kAir,
     "How much room does a kilogram of dry air take up, with its vapour, at {temp} °C, {rh} % relative "
     "humidity and "
     "{pressure} kPa? Answer in m³/kg.",
     "AIRVOLUME", "{temp} °C; {rh} %; {pressure} kPa",
     "temp 56 to 75; rh 40 to 70 step 1; pressure 84 to 92 step 0.5", "", "2", "",
     "Thin air takes more room: begin with the gas law for dry air. | The vapour brings its own molecules: "
     "multiply by 1 + "
     "1.608 × humidity ratio."},
    {kAir,
     "{water} kg of water are to be dried off in {time} h by air of {temp} °C and {rh} % relative humidity "
     "that leaves with "
     "{exit} % ({pressure} kPa). How many m³ of air must come in an hour, at the dryer's inlet?",
     "AIRNEEDED", "{water} kg; {time} h; {temp} °C; {rh} %; {exit} %; {pressure} kPa",
     "water 20 to 60; time 6 to 12 step 0.5; temp 52 to 65 step 1; rh 6 to 14 step 1; exit 35 to 60 step 1; "
     "pressure 84 to "
     "92 step 0.5",
     "", "3", "",
     "How much water does each kilogram of dry air take up? How many kilograms an hour is that? | Turn the "
     "kilograms of dry "
     "air to m³ with the volume at the inlet."},

    // ---- drying rate and time
    {kTime,
     "Ginger went in with {start} kg of water to a kg of dry solids, now holds {now} kg/kg, and would come "
     "to rest at "
     "{rest} kg/kg. What is its moisture ratio?",
     "MOISTURERATIO", "{now}; {start}; {rest}", "start 3.5 to 5.5; now 0.8 to 2.4; rest 0.2 to 0.4", "", "1",
     "",
     "What could still dry away, and what could at the start? | Take the moisture at rest off both, then "
     "divide."},
    {kTime,
     "{solids} kg of dry solids lie on {area} m² of trays. As long as the surface is wet {rate} kg of water "
     "leave each m² "
     "in an hour. How many hours does it take from {start} to {end} kg water per kg dry solids?",
     "CONSTRATETIME", "{solids} kg; {start}; {end}; {area}; {rate}",
     "solids 3 to 9; area 4 to 12; rate 0.6 to 1.6; start 4 to 5.5; end 1.6 to 2.6", "", "2", "",
     "How many kilograms of water must leave in all? | Divide them by what leaves the whole area in an "
     "hour."},
    {kTime,
     "The same dryer below its critical moisture: {solids} kg of dry solids on {area} m², {rate} kg/(m²·h) "
     "while wet, "
     "critical moisture {critical} kg/kg, at rest at {rest} kg/kg. How many hours from {start} to {end} "
     "kg/kg?",
     "FALLRATETIME", "{solids} kg; {start}; {end}; {critical}; {rest}; {area}; {rate}",
     "solids 3 to 9; area 4 to 12; rate 0.6 to 1.6; start 1.2 to 1.7; end 0.3 to 0.5; critical 1.8 to 2.6; "
     "rest 0.05 to "
     "0.15",
     "", "3", "",
     "The rate falls in a straight line over the moisture that is left above rest. | Time = solids × "
     "(critical − rest) ÷ "
     "(area × rate) × ln((start − rest) ÷ (end − rest))."},
    {kTime,
     "Slices of one size dry by a Lewis curve with k = {k} per hour. What is their moisture ratio after "
     "{time} h?",
     "CURVE", "Lewis; {time}; {k}", "k 0.15 to 0.4; time 2.5 to 8", "", "1", "",
     "The ratio falls by the same share in every hour. | exp(−k × time)"},
    {kTime,
     "Pineapple rings dry by a Page curve with k = {k} and n = {n} (time in hours). When has the moisture "
     "ratio fallen to "
     "{ratio}?",
     "CURVETIME", "Page; {ratio}; {k} | {n}",
     "k 0.12 to 0.3; n 1.1 to 1.4 step 0.05; ratio 0.05 to 0.25 step 0.01", "", "2", "h",
     "Turn the curve round: −ln(ratio) = k × time to the power n. | Divide by k, then take the power 1 ÷ n."},
    {kTime,
     "Slices of {start} % moisture are to be dried to {target} %; they would come to rest at {rest} % (all "
     "on the wet "
     "basis). They follow a Lewis curve with k = {k} per hour. How many hours does it take?",
     "DRYINGTIME", "{start} %; {target} %; {rest} %; Lewis; {k}",
     "start 80 to 87; target 19 to 24; rest 12 to 16; k 0.25 to 0.5", "", "3", "h",
     "A moisture ratio is made of dry-basis moistures: turn all three first. | Then time = −ln(ratio) ÷ k."},
    {kTime,
     "Slices of {thickness} mm dry in {time} h, and it is the way through the slice that takes so long. How "
     "many hours do "
     "slices of {new} mm take?",
     "THICKNESSTIME", "{time} h; {thickness} mm; {new} mm",
     "time 5 to 9; thickness 3 to 4.5 step 0.1; new 5.5 to 8 step 0.1", "", "2", "",
     "Twice as thick is not twice as long: the water has twice as far to go down half the slope. | The time "
     "goes with the "
     "square of the thickness."},

    // ---- sorption
    {kSorption,
     "Ginger powder follows a GAB isotherm with Xm = {xm}, C = {c} and K = {k}. How many kilograms of water "
     "to a kilogram "
     "of dry solids does it hold at a water activity of {aw}?",
     "SORPTION", "GAB; {aw}; {xm} | {c} | {k}",
     "xm 0.05 to 0.09 step 0.001; c 8 to 20 step 0.5; k 0.78 to 0.92 step 0.01; aw 0.3 to 0.6 step 0.01", "",
     "2", "kg/kg", "First u = K × activity. | X = Xm × C × u ÷ ((1 − u) × (1 − u + C × u))"},
    {kSorption,
     "Dried pineapple follows an Oswin isotherm with a = {a} and b = {b}. It holds {moisture} kg of water to "
     "a kg of dry "
     "solids. What is its water activity?",
     "WATERACTIVITY", "Oswin; {moisture}; {a} | {b}",
     "a 0.09 to 0.14 step 0.001; b 0.4 to 0.6 step 0.01; moisture 0.06 to 0.2 step 0.001", "", "2", "",
     "Oswin: X = a × (aw ÷ (1 − aw))^b. Turn it round. | aw = 1 ÷ (1 + (a ÷ X)^(1 ÷ b))"},
    {kSorption,
     "At one moisture the water activity of a powder is {aw1} at {t1} °C and {aw2} at {t2} °C. What is its "
     "net isosteric "
     "heat of sorption, in kJ to a kg of water?",
     "ISOSTERICHEAT", "{aw1}; {t1} °C; {aw2}; {t2} °C",
     "aw1 0.3 to 0.4 step 0.005; aw2 0.44 to 0.56 step 0.005; t1 20 to 27 step 1; t2 38 to 50 step 1", "",
     "3", "",
     "Clausius and Clapeyron: ln(aw2 ÷ aw1) goes with 1/T1 − 1/T2, temperatures in kelvin. | Multiply by the "
     "gas constant "
     "of water vapour, 0.4615 kJ/(kg·K)."},
    {kSorption,
     "A film is rated {wvtr} g/(m²·day) at {temp} °C and {rh} % relative humidity. What is its permeance, in "
     "g/(m²·day·kPa)?",
     "PERMEANCE", "{wvtr}; {temp} °C; {rh} %", "wvtr 1.5 to 9; temp 25 to 38 step 0.5; rh 70 to 90 step 1",
     "", "2", "",
     "What drives the water through is a difference of vapour pressure. | It is the saturation pressure "
     "times the relative "
     "humidity: divide the rate by it."},
    {kSorption,
     "A pouch of {area} m² with a film of {film} g/(m²·day·kPa) lies at {temp} °C and {out} % relative "
     "humidity for {days} "
     "days; inside it shall stay at {in} %. The desiccant takes up {capacity} g of water per g. How many "
     "grams of it are "
     "needed?",
     "DESICCANT", "{days}; {area}; {film}; {temp} °C; {out} %; {in} %; {capacity}",
     "days 60 to 180 step 5; area 0.04 to 0.09 step 0.005; film 0.4 to 1.5 step 0.05; temp 22 to 30 step 1; "
     "out 66 to 85 "
     "step 1; in 20 to 30 step 1; capacity 0.15 to 0.3 step 0.01",
     "", "3", "",
     "The film lets through: permeance × area × days × difference of vapour pressure. | The difference is "
     "the saturation "
     "pressure times (outside − inside). Then divide by what a gram takes up."},

    // ---- energy
    {kEnergy, "A heater of {power} kW runs for {time} h, on for {duty} % of the time. How many kWh is that?",
     "RUNENERGY", "{power} kW; {time} h; {duty} %",
     "power 2 to 9 step 0.1; time 6 to 14 step 0.5; duty 55 to 85 step 1", "", "1", "",
     "Power times time is energy. | Count only the time that it is on."},
    {kEnergy,
     "{fresh} kg of sugared pineapple of {start} % moisture are dried to {final} % (wet basis). They come in "
     "at {feed} °C and dry at "
     "{dryer} °C. How many kWh does it take at least, to warm them and to evaporate the water?",
     "HEATDEMAND", "{fresh} kg; {start} %; {final} %; {feed} °C; {dryer} °C",
     "fresh 30 to 80; start 44 to 56; final 20 to 28; feed 8 to 18 step 1; dryer 52 to 66 step 1", "", "3",
     "",
     "Three sums: the water that leaves, the heat to warm all, the heat to evaporate that water. | 3600 kJ "
     "are 1 kWh."},
    {kEnergy,
     "A run took {energy} kWh and dried off {water} kg of water at {temp} °C. What share of the energy went "
     "into "
     "evaporating it, as a fraction or with %?",
     "DRYEREFFICIENCY", "{water} kg; {energy} kWh; {temp} °C",
     "energy 40 to 90; water 15 to 28; temp 48 to 62 step 1", "", "2", "",
     "How much heat does the water take to evaporate? About 2380 kJ a kilogram. | Bring both to one unit, "
     "then divide."},
    {kEnergy,
     "A run took {energy} kWh and dried off {water} kg of water. How many kWh is that to each kilogram of "
     "water?",
     "ENERGYPERWATER", "{energy} kWh; {water} kg", "energy 40 to 90; water 15 to 38", "", "1", "",
     "Energy by water, not water by energy. | The least that it could be is about 0.66 kWh."},
    {kEnergy,
     "A fan draws in {flow} m³ of room air an hour, at {temp} °C, {rh} % relative humidity and {pressure} "
     "kPa. It is heated "
     "to {heated} °C. What power must the heater have, in kW?",
     "HEATINGLOAD", "{flow}; {temp} °C; {rh} %; {heated} °C; {pressure} kPa",
     "flow 200 to 900 step 10; temp 14 to 22 step 1; rh 60 to 85 step 1; heated 48 to 62 step 1; pressure 84 "
     "to 92 step "
     "0.5",
     "", "3", "",
     "How many kilograms of dry air are in that volume? | Each takes about 1.02 kJ for a kelvin, its vapour "
     "included; 3600 "
     "kJ/h are 1 kW."},

    // ---- scale-up
    {kScale, "{mass} kg of slices lie on {area} m² of trays. What is the load, in kg/m²?", "TRAYLOAD",
     "{mass} kg; {area}", "mass 12 to 40; area 3 to 9", "", "1", "",
     "Mass by area. | Each square metre carries its share."},
    {kScale,
     "{mass} kg of slices are to be spread at {load} kg/m² on trays of {tray} m². How many trays does it "
     "take?",
     "TRAYSFOR", "{mass} kg; {load}; {tray}", "mass 20 to 50; load 2.5 to 5.5; tray 0.5 to 1 step 0.01", "",
     "2", "", "How many kilograms does one tray carry? | A part of a tray is a tray."},
    {kScale,
     "A batch gives {batch} kg of dried product; the buyer wants {target} kg. How many batches does it take?",
     "BATCHESFOR", "{target} kg; {batch} kg", "target 40 to 120; batch 6 to 9.9", "", "2", "",
     "Divide what is wanted by what a batch gives. | A part of a batch is a batch."},
    {kScale,
     "On the bench {fresh} g of slices gave {dried} g dried. How many kilograms should {batch} kg of the "
     "same slices give?",
     "PRORATE", "{fresh} g; {dried} g; {batch} kg",
     "fresh 900 to 1900 step 10; dried 150 to 330 step 1; batch 30 to 70", "", "1", "kg",
     "What share was left on the bench? | The same share is left of the batch."},
    {kScale,
     "The buyer wants {dried} kg of powder. {ratio} kg of prepared slices give 1 kg dried; {peel} % is left "
     "after peeling and "
     "{mill} % after milling. How many kilograms of raw ginger must be bought?",
     "RAWFOR", "{dried} kg; {ratio}; {peel} %; {mill} %",
     "dried 60 to 180; ratio 4.2 to 6.5; peel 74 to 84; mill 88 to 96", "", "3", "kg",
     "Work backwards: what must leave each step so that the next has enough? | Every loss makes the raw "
     "amount "
     "greater: divide by the yields."},
}};

}  // namespace

std::span<const ExerciseRow> exercise_rows() { return kRows; }

std::string story_of(std::string_view lesson, const Texts& texts) {
    for (const auto& [name, story] : kStories)
        if (lesson == name || lesson == texts.text(name)) return texts.text(story);
    return {};
}

}  // namespace drysheet
