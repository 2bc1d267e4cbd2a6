// SPDX-License-Identifier: MPL-2.0
#include "drysheet/sorption.hpp"

#include <stdexcept>

#include "addin/functions/isotherm_choice.hpp"
#include "addin/functions/model_words.hpp"
#include "addin/functions/topics.hpp"
#include "addin/text/words.hpp"

namespace drysheet {
namespace {

constexpr std::string_view kMeasured =
    "A calculated water activity is an estimate. Only a measured water activity and the local food authority "
    "decide whether a product may be kept.";

constexpr Param kModel{arg::model, "name of the isotherm; DRY.SORPTIONMODELS lists formula and parameters"};
constexpr Param kParameters{.name = arg::parameters,
                            .text =
                                "its parameters in the order of DRY.SORPTIONMODELS; moisture in kg/kg dry "
                                "basis, in the grain-standard forms % dry basis and °C as printed there",
                            .alone = true};
constexpr Param kTemp{arg::temp, "temperature; needed and used by the temperature-dependent forms only"};

Table models_table() {
    Table table{.columns = 4};
    for (const IsothermModelInfo& model : isotherm_models()) {
        const std::string parameters = joined(model.parameters);
        const std::string formula = printed(
            model.formula, {{"moisture_db", "X"}, {"moisture", "X"}, {"activity", "aw"}, {"temp", "t"}});
        for (const std::string_view cell :
             {model.name, std::string_view(formula), std::string_view(parameters), model.source})
            table.cells.emplace_back(std::string(cell));
    }
    return table;
}

Sentence misfit_in_words(const IsothermFit& fit) {
    const Sentence::Part at(fit.at.value(), {}, 3), share(100 * std::abs(fit.misfit.size), "%", 2);
    const bool above = fit.misfit.size > 0;
    switch (fit.misfit.kind) {
        case numeric::Misfit::Kind::none:
            break;
        case numeric::Misfit::Kind::one_reading:
            return {
                above ? "does not follow: the point at {} lies {} of the largest moisture above the isotherm"
                      : "does not follow: the point at {} lies {} of the largest moisture below the isotherm",
                {at, share}};
        case numeric::Misfit::Kind::step:
            return {above ? "does not follow: from {} on the points lie {} of the largest moisture above the "
                            "others' isotherm"
                          : "does not follow: from {} on the points lie {} of the largest moisture below the "
                            "others' isotherm",
                    {at, share}};
        case numeric::Misfit::Kind::bend:
        case numeric::Misfit::Kind::term:
            return {
                "does not follow: the points bend away from the isotherm, at {} by {} of the largest "
                "moisture",
                {at, share}};
    }
    return "follows";
}
Sentence verdict_of(const IsothermFit& fit) {
    Sentence text = misfit_in_words(fit);
    if (fit.better)
        text = {"{}; {} is closer (aicc less by {})",
                {std::move(text), info(*fit.better).name, {fit.better_by, {}, 2}}};
    if (fit.moved)
        text = {
            "{}; activities all {} off would move {} by {}, more than its standard error",
            {std::move(text), kActivityDoubt, info(fit.model).parameters[*fit.moved], {fit.moved_by, {}, 2}}};
    return text;
}

Outcome fit_table(const IsothermFit& fit) {
    Table table{.columns = 3};
    const auto row = [&table](std::string_view name, const Cell& value, const Cell& error = "") {
        table.cells.insert(table.cells.end(), {Cell(std::string(name)), value, error});
    };
    for (std::size_t k = 0; k < fit.parameters.size(); ++k)
        row(info(fit.model).parameters[k], fit.parameters[k], fit.robust_errors[k]);
    row("r2", fit.r2);
    row("rmse", fit.rmse);
    row("deviation", fit.deviation);
    row("aicc", aicc_cell(fit.aicc));
    row("readings", static_cast<double>(fit.points));
    row("verdict", Told(verdict_of(fit)));
    return table;
}

std::string_view growth_words(GrowthBand band) {
    switch (band) {
        case GrowthBand::none:
            return "below 0.60: nothing in the table grows; of one mould, germination has been reported down "
                   "to 0.585";
        case GrowthBand::osmophilic_yeasts:
            return "0.60 to 0.65: yeasts that tolerate sugar and a few moulds may grow";
        case GrowthBand::xerophilic_moulds:
            return "0.65 to 0.75: moulds of dry foods and yeasts that tolerate sugar may grow";
        case GrowthBand::halophilic_bacteria:
            return "0.75 to 0.80: also salt-loving bacteria and moulds that form mycotoxins may grow";
        case GrowthBand::most_moulds:
            return "0.80 to 0.87: also most moulds and most spoilage yeasts may grow, and Staphylococcus "
                   "aureus in the upper part";
        case GrowthBand::many_yeasts:
            return "0.87 to 0.91: also many yeasts, Micrococcus and Staphylococcus aureus may grow";
        case GrowthBand::many_bacteria:
            return "0.91 to 0.95: also many bacteria may grow, among them Salmonella and Clostridium "
                   "botulinum";
        case GrowthBand::spoilage_bacteria:
            return "0.95 and above: nearly everything may grow, as in fresh food";
    }
    throw std::logic_error("growth band");
}

Outcome band_text(const ActivityBand& band) {
    const Sentence
        growth = growth_words(band.growth),
        line = band.above_regulator_line
                   ? "Above 0.85, the line of 21 CFR 114.3 for low-acid and acidified foods."
                   : "Not above 0.85, the line of 21 CFR 114.3.",
        only =
            "Only a measured water activity counts, never a moisture, and the local food authority "
            "decides.";
    if (band.like_a_moisture)
        return Sentence(
            "{} (Beuchat 1981). But is this a water activity? It looks like a moisture content, which "
            "says nothing here. {} {}",
            {growth, line, only});
    return Sentence("{} (Beuchat 1981). {} {}", {growth, line, only});
}

std::vector<std::string_view> moisture_workings() {
    const auto& all = for_each_model(isotherm_models(), [](const IsothermModelInfo& model) {
        return with_parameters(model.parameters, model.moisture);
    });
    return {all.begin(), all.end()};
}
std::vector<std::string_view> activity_workings() {
    const auto& all = for_each_model(isotherm_models(), [](const IsothermModelInfo& model) {
        return with_parameters(model.parameters, model.activity);
    });
    return {all.begin(), all.end()};
}

constexpr std::string_view kSource =
    "Each model's own publication, in the last column of DRY.SORPTIONMODELS.";
constexpr std::string_view kRange =
    "Below the pole: activity under 1 ÷ K for GAB, under 1 for the others but Peleg. BET is published for "
    "activities up to about 0.5. The activities at which the parameters were fitted.";
constexpr std::string_view kCornOrigin =
    "printed table of shelled corn, 70 °F and 70 %: 14.5 % wet basis, 16.96 % dry";
constexpr std::string_view kSoyOrigin =
    "Wikipedia, Equilibrium moisture content: soybean at 70 °F and 25 %, 5.5 % wet";
constexpr std::string_view kDurumOrigin =
    "Wikipedia, Equilibrium moisture content: durum wheat at 70 °F and 25 %, 7.7 % wet";
constexpr std::string_view kChungOrigin = "by hand: −ln(55.205 × 0.356675 ÷ 312.40) ÷ 16.958";

}  // namespace

std::vector<Function> sorption_entries() {
    constexpr std::string_view topic = "sorption";
    const Input gab = column(0.1, 10.0, 0.8), bet = column(0.06, 20.0), oswin = column(0.12, 0.5),
                halsey = column(0.02, 2.0), henderson = column(30.0, 2.0), peleg = column(0.1, 0.5, 0.2, 4.0),
                corn = column(8.6541e-5, 1.8634, 49.810), chung = column(312.40, 0.16958, 30.205),
                soy = column(2.87, -0.0054, 1.38), durum = column(13.101, -0.052626, 2.9987);
    // Corn at 70 °F, the printed table: % wet basis at 10 to 90 %.
    const Input activities = column(0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9);
    const Input moistures = column("4.4 % wb", "6.4 % wb", "8.1 % wb", "9.7 % wb", "11.2 % wb", "12.8 % wb",
                                   "14.5 % wb", "16.6 % wb", "19.4 % wb");
    // Durum wheat at 25, 30 and 35 % and four temperatures: Wikipedia, Equilibrium moisture content.
    const Input durum_rh = column(0.25, 0.25, 0.25, 0.25, 0.3, 0.3, 0.3, 0.3, 0.35, 0.35, 0.35, 0.35);
    const Input durum_wb = column("8.3 % wb", "8.0 % wb", "7.7 % wb", "7.2 % wb", "8.9 % wb", "8.7 % wb",
                                  "8.3 % wb", "7.7 % wb", "9.6 % wb", "9.3 % wb", "8.9 % wb", "8.3 % wb");
    const Input durum_temps = column("35 °F", "50 °F", "70 °F", "100 °F", "35 °F", "50 °F", "70 °F", "100 °F",
                                     "35 °F", "50 °F", "70 °F", "100 °F");
    return {
        function<equilibrium_moisture>(
            {.name = "SORPTION",
             .topic = topic,
             .summary = "Moisture of a food in equilibrium with a water activity or air humidity",
             .params = {{kModel,
                         {arg::activity, "water activity, or relative humidity of the air"},
                         kParameters,
                         kTemp}},
             .result = "moisture",
             .range = kRange,
             .source = kSource,
             .caution = kMeasured,
             .workings = moisture_workings(),
             .checks =
                 {{{"GAB", 0.5, gab}, 0.4 / 2.76, 1e-12, "by hand: 0.1·10·0.4 ÷ (0.6 × 4.6)"},
                  {{"BET", 0.25, bet}, 0.3 / 4.3125, 1e-12, "by hand: 0.06·20·0.25 ÷ (0.75 × 5.75)"},
                  {{"Oswin", 0.8, oswin}, 0.24, 1e-12, "by hand: 0.12 × √4"},
                  {{"Halsey", 0.36787944117144233, halsey}, 0.1414213562, 1e-9, "by hand: aw = 1/e, √0.02"},
                  {{"Henderson", 0.6321205588285577, henderson},
                   0.1825741858,
                   1e-9,
                   "by hand: aw = 1 − 1/e, √(1/30)"},
                  {{"Peleg", 0.25, peleg}, 0.05 + 0.2 / 256, 1e-12, "by hand: 0.1·0.5 + 0.2/256"},
                  {{"modified Henderson", 0.7, corn, "70 °F"}, 0.1696, 4e-3, kCornOrigin},
                  {{"modified Chung-Pfost", 0.7, chung, 25.0}, 0.1630, 1e-3, kChungOrigin},
                  {{"modified Halsey", 0.25, soy, "70 °F"}, 0.0582, 1e-2, kSoyOrigin},
                  {{"modified Oswin", 0.25, durum, "70 °F"}, 0.0834, 1e-2, kDurumOrigin}},
             .refusals = {{{"GAB", 0.875, column(0.2, 11.84, 1.143)}, "activity"},
                          {{"BET", 1.0, bet}, "activity"},
                          {{"Oswin", 1.0, oswin}, "activity"},
                          {{"GAB", 80.0, gab}, "activity"},
                          {{"GAB", 0.5, bet}, "parameters"},
                          {{"GAB", 0.5, column(0.1, -10.0, 0.8)}, "parameters"},
                          {{"modified Henderson", 0.5, corn}, "temp"},
                          {{"Gab-like", 0.5, gab}, "model"}},
             .see_also = {"WATERACTIVITY", "SORPTIONFIT", "SORPTIONMODELS"}}),
        function<water_activity>(
            {.name = "WATERACTIVITY",
             .topic = topic,
             .summary = "Water activity that an isotherm gives for a moisture",
             .params = {{kModel, {arg::moisture_db, "moisture, dry basis"}, kParameters, kTemp}},
             .result = "activity",
             .range = kRange,
             .source = kSource,
             .caution = kMeasured,
             .workings = activity_workings(),
             .checks = {{{"GAB", 0.4 / 2.76, gab}, 0.5, 1e-12, "by hand: 0.1·10·0.4 ÷ (0.6 × 4.6)"},
                        {{"BET", 0.3 / 4.3125, bet}, 0.25, 1e-12, "by hand: 0.06·20·0.25 ÷ (0.75 × 5.75)"},
                        {{"Oswin", 0.24, oswin}, 0.8, 1e-12, "by hand: 0.12 × √4"},
                        {{"Halsey", 0.1, halsey}, 0.1353352832, 1e-9, "by hand: exp(−0.02 ÷ 0.01)"},
                        {{"Henderson", 0.1, henderson}, 0.2591817793, 1e-9, "by hand: 1 − exp(−30 × 0.01)"},
                        {{"Peleg", 0.05 + 0.2 / 256, peleg}, 0.25, 1e-9, "by hand: 0.1·0.5 + 0.2/256"},
                        {{"modified Henderson", "14.5 % wb", corn, "70 °F"}, 0.7, 4e-3, kCornOrigin},
                        {{"modified Chung-Pfost", 0.1630, chung, 25.0}, 0.7, 1e-3, kChungOrigin},
                        {{"modified Halsey", "5.5 % wb", soy, "70 °F"}, 0.25, 2e-2, kSoyOrigin},
                        {{"modified Oswin", "7.7 % wb", durum, "70 °F"}, 0.25, 2e-2, kDurumOrigin}},
             .refusals = {{{"Peleg", 0.31, peleg}, "moisture_db"},
                          {{"GAB", 2.0, gab}, "moisture_db"},
                          {{"GAB", 0.0, gab}, "moisture_db"},
                          {{"modified Oswin", 0.1, durum}, "temp"}},
             .see_also = {"SORPTION", "ACTIVITYBAND"}}),
        function<fit_isotherm>(
            {.name = "SORPTIONFIT",
             .topic = topic,
             .summary = "Isotherm parameters from measured points, with standard errors",
             .params = {{kModel,
                         {arg::activities, "water activities of the points", between(0, 1)},
                         {arg::moistures,
                          "their moistures, dry basis: 5 g in 100 g of solids is 0.05",
                          {.high = 3}},
                         {.name = arg::temps,
                          .text = "temperature of each point, for the temperature-dependent forms"}}},
             .result = "fit",
             .range = "More points than parameters. BET is meant for activities up to about 0.5.",
             .source = "Least squares on moisture, as van den Berg & Bruin (1981) advise. Standard errors: "
                       "the largest of "
                       "those under equal noise, under unequal noise (HC2, MacKinnon and White (1985) J. "
                       "Econometrics "
                       "29:305), and under noise in proportion to the moisture or to the isotherm's slope. "
                       "Verdict by F "
                       "tests of the residuals, Seber and Lee (2003) Linear Regression Analysis, 2nd ed. "
                       "deviation is "
                       "the mean of |X − fitted X| ÷ X.",
             .caution = kMeasured,
             .working =
                 ": the parameters are those with the least sum of (moisture − isotherm)² over the points\n"
                 ": standard errors by (JᵀJ)⁻¹ Jᵀ diag(variances) J (JᵀJ)⁻¹, the largest over the variances "
                 "that "
                 "the noise may have\n"
                 ": 95 % limits are the value ± Student's t of points less parameters × its standard error",
             .checks = {{{"GAB", activities, moistures},
                         0.09849852116,
                         1e-6,
                         "SciPy 1.10.1 on the same points",
                         "Xm"},
                        {{"GAB", activities, moistures},
                         0.6823867798,
                         1e-6,
                         "SciPy 1.10.1 on the same points",
                         "K"},
                        {{"GAB", activities, moistures},
                         0.01013344,
                         1e-4,
                         "SciPy 1.10.1 on the same points",
                         "deviation"},
                        {{"Oswin", activities, moistures},
                         0.3318300392,
                         1e-6,
                         "SciPy 1.10.1 on the same points",
                         "b"},
                        {{"Halsey", activities, moistures},
                         2.404188621,
                         1e-6,
                         "SciPy 1.10.1 on the same points",
                         "b"},
                        {{"Henderson", activities, moistures},
                         32.46279268,
                         1e-6,
                         "SciPy 1.10.1 on the same points",
                         "a"},
                        {{"Peleg", activities, moistures},
                         4.812861384,
                         1e-5,
                         "SciPy 1.10.1 on the same points",
                         "n2"},
                        {{"Peleg", activities, moistures}, 9.0, 0, "by counting", "readings"},
                        {{"Oswin", column(0.2, 0.4, 0.6), column(0.05, 0.08, 0.12)},
                         "too few points",
                         0,
                         "3 points for 2 parameters",
                         "aicc"},
                        {{"modified Oswin", durum_rh, durum_wb, durum_temps},
                         13.11394724,
                         1e-5,
                         "SciPy 1.10.1 on the same points; ASAE D245.5 has 13.101",
                         "A"}},
             .refusals = {{{"BET", activities, moistures}, "moistures"},  // C runs off over the whole range
                          {{"GAB", column(0.2, 0.4, 0.6), column(0.05, 0.08, 0.12)}, "moistures"},
                          {{"GAB", column(0.2, 0.4, 1.0), column(0.05, 0.08, 0.12)}, "activities"},
                          {{"modified Oswin", activities, moistures}, "temps"}},
             .see_also = {"SORPTION", "SORPTIONMODELS"},
             .show = fit_table}),
        function<models_table>(
            {.name = "SORPTIONMODELS",
             .topic = topic,
             .summary = "The isotherms: name, formula, parameters in order, source",
             .result = "models",
             .source = "Each in its row.",
             .working = ": X moisture dry basis in kg/kg, aw water activity, M = 100 X, t temperature in °C",
             .checks =
                 {{{},
                   "u = K aw; X = Xm C u/((1 − u) (1 − u + C u))",
                   0,
                   "van den Berg & Bruin (1981)",
                   "GAB"},
                  {{}, "aw = exp(−a/X^b)", 0, "Halsey (1948)", "Halsey"},
                  {{}, "M = 100 X; aw = 1/(((A + B t)/M)^C + 1)", 0, "ASAE D245.5 (1995)", "modified Oswin"}},
             .see_also = {"SORPTION", "WATERACTIVITY", "SORPTIONFIT"}}),
        function<isosteric_heat>(
            {.name = "ISOSTERICHEAT",
             .topic = topic,
             .summary = "Net heat of sorption from the water activities of one moisture at two temperatures",
             .params = {{{arg::activity1, "water activity at temp1", above_up_to(0, 1)},
                         {"temp1", "first temperature"},
                         {arg::activity2, "water activity of the same moisture at temp2", above_up_to(0, 1)},
                         {arg::temp2, "second temperature"}}},
             .result = "heat",
             .source = "Clausius-Clapeyron relation of water activity; Rizvi (2014) Engineering Properties "
                       "of Foods, 4th ed., ch. 7. Per kg of water; add DRY.LATENTHEAT for the whole heat of "
                       "desorption.",
             .working = "heat = 8.314462618 ÷ 0.018015268 ÷ 1000 × ln(activity2 ÷ activity1) ÷ (1 ÷ (temp1 + "
                        "273.15) − 1 ÷ (temp2 + 273.15))",
             .checks =
                 {{{0.5, 25.0, 0.6, 45.0}, 399.083, 1e-4, "by hand: 0.461523 × 0.1823216 ÷ 2.108466e-4"}},
             .refusals = {{{0.5, 25.0, 0.6, 25.0}, "temp2"}, {{0.0, 25.0, 0.6, 45.0}, "activity1"}},
             .see_also = {"WATERACTIVITY", "LATENTHEAT"},
             .slips =
                 {{"the temperatures were left in °C",
                   "8.314462618 ÷ 0.018015268 ÷ 1000 × ln(activity2 ÷ activity1) ÷ (1 ÷ temp1 − 1 ÷ temp2)"},
                  {"the logarithm to base 10 was taken",
                   "8.314462618 ÷ 0.018015268 ÷ 1000 × log10(activity2 ÷ activity1) ÷ (1 ÷ (temp1 + 273.15) "
                   "− 1 ÷ (temp2 + 273.15))"},
                  {"the molar mass of water was left out",
                   "8.314462618 ÷ 1000 × ln(activity2 ÷ activity1) ÷ (1 ÷ (temp1 + 273.15) − 1 ÷ (temp2 + "
                   "273.15))"}}}),
        function<activity_band>(
            {.name = "ACTIVITYBAND",
             .topic = topic,
             .summary = "What may still grow at a water activity, by published limits",
             .params = {{{arg::activity, "measured water activity, a plain number", above_up_to(0, 1)}}},
             .result = "band",
             .source = "Beuchat (1981) Cereal Foods World 26:345; U.S. 21 CFR 114.3 (above 0.85); "
                       "germination at 0.585: Aspergillus penicillioides, Stevenson et al. (2017) Environ. "
                       "Microbiol. 19:687, as told in Wikipedia's article on that mould.",
             .caution = "What was alive, or a toxin formed, before drying may outlast it. Growth limits "
                        "shift with temperature, acidity, salt and species. Only a measured water activity "
                        "and the local food authority decide.",
             .working =
                 ": the band of Beuchat's table that holds the activity; a band includes its lower limit",
             .checks =
                 {{{0.55}, "nothing in the table", 0, "Beuchat (1981)", "", 2, true},
                  {{0.60}, "tolerate sugar and a few moulds", 0, "Beuchat (1981)", "", 2, true},
                  {{0.70}, "moulds of dry foods", 0, "Beuchat (1981)", "", 2, true},
                  {{0.75}, "salt-loving", 0, "Beuchat (1981)", "", 2, true},
                  {{0.80}, "most moulds", 0, "Beuchat (1981)", "", 2, true},
                  {{0.85}, "Not above 0.85", 0, "21 CFR 114.3: above 0.85", "", 2, true},
                  {{0.86}, "Above 0.85", 0, "21 CFR 114.3: above 0.85", "", 2, true},
                  {{0.88}, "many yeasts", 0, "Beuchat (1981)", "", 2, true},
                  {{0.92}, "Salmonella", 0, "Beuchat (1981)", "", 2, true},
                  {{0.96}, "as in fresh food", 0, "Beuchat (1981)", "", 2, true},
                  {{0.5}, "local food authority decides", 0, "the caution itself", "", 2, true},
                  {{0.25},
                   "below 0.60: nothing in the table grows; of one mould, germination has been reported "
                   "down to 0.585 (Beuchat 1981). But is this a water activity? It looks like a moisture "
                   "content, which says nothing here. Not above 0.85, the line of 21 CFR 114.3. Only a "
                   "measured water activity counts, never a moisture, and the local food authority decides.",
                   0,
                   "as low as moistures of dried foods are"}},
             .refusals =
                 {{{1.2}, "activity"}, {{60.0}, "activity"}, {{0.0}, "activity"}, {{"25 %"}, "activity"}},
             .see_also = {"WATERACTIVITY"},
             .show = band_text}),
    };
}

}  // namespace drysheet
