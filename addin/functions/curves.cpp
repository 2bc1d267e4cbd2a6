// SPDX-License-Identifier: MPL-2.0
#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>

#include "addin/functions/cautions.hpp"
#include "addin/functions/curve_choice.hpp"
#include "addin/functions/model_words.hpp"
#include "addin/functions/topics.hpp"
#include "addin/text/words.hpp"
#include "drysheet/kinetics.hpp"

namespace drysheet {
namespace {

constexpr Param kModel{arg::model, "name of the curve; DRY.CURVEMODELS lists formula and parameters"};
constexpr Param kParameters{.name = arg::parameters,
                            .text = "its parameters in the order of DRY.CURVEMODELS, time in h",
                            .alone = true};
constexpr Param kTimes{arg::times, "times of the readings", at_least(0)};
constexpr Param kRatios{
    .name = arg::ratios,
    .text = "moisture ratios of the readings, from DRY.RATIOS; a blank one leaves its reading out",
    .range = {.high = 2},
    .missed = true};

constexpr std::string_view kModelSource =
    "Each model's own publication, in the last column of DRY.CURVEMODELS.";
constexpr std::string_view kFitSource =
    "Least squares (Levenberg-Marquardt, Moré 1978, Lecture Notes in Mathematics 630) on the moisture ratio; "
    "AICc of Burnham and Anderson (2002) Model Selection and Multimodel Inference, 2nd ed.; standard errors "
    "of "
    "MacKinnon and White (1985) J. Econometrics 29:305 (HC2), which hold under unequal noise, not below "
    "those of "
    "equal noise; verdict by F tests of the residuals, Seber and Lee (2003) Linear Regression Analysis, 2nd "
    "ed., "
    "ch. 4 and 10.";
constexpr std::string_view kFitRange =
    "More readings than parameters. Readings that do not determine every parameter are refused; two-term and "
    "Verma need a curve with two clearly different rates. 95 % limits are the value ± Student's t of "
    "readings less "
    "parameters × its standard error, where the verdict is that the readings follow.";

std::string time_lines(const CurveModelInfo& model) {
    if (model.time.empty())
        return "try time: searched from time 0\nholds " + std::string(model.ratio) + " = ratio";
    return "time = " + std::string(model.time);
}
std::vector<std::string_view> curve_workings() {
    const auto& all = for_each_model(curve_models(), [](const CurveModelInfo& model) {
        return with_parameters(model.parameters, "ratio = " + std::string(model.ratio));
    });
    return {all.begin(), all.end()};
}
std::vector<std::string_view> time_workings() {
    const auto& all = for_each_model(curve_models(), [](const CurveModelInfo& model) {
        return with_parameters(model.parameters, time_lines(model));
    });
    return {all.begin(), all.end()};
}
/// The same with the ratio worked out from wet-basis moistures before.
std::vector<std::string_view> drying_time_workings() {
    const auto& all = for_each_model(curve_models(), [](const CurveModelInfo& model) {
        return "X0 = start ÷ (1 − start)\nX = target ÷ (1 − target)\nXe = equilibrium ÷ (1 − equilibrium)\n"
               "ratio = (X − Xe) ÷ (X0 − Xe)\n" +
               with_parameters(model.parameters, time_lines(model));
    });
    return {all.begin(), all.end()};
}

void add_row(Table& table, std::initializer_list<Cell> cells) {
    table.cells.insert(table.cells.end(), cells.begin(), cells.end());
}
Cell name_cell(std::string_view name) { return std::string(name); }

Table models_table() {
    Table table{.columns = 4};
    for (const CurveModelInfo& model : curve_models()) {
        add_row(table, {name_cell(model.name), "MR = " + printed(model.ratio, {{"time", "t"}}),
                        joined(model.parameters), name_cell(model.source)});
    }
    return table;
}

/// fit: with a misfit in shares of the whole fall, and the time at which it lies.
Sentence misfit_in_words(const numeric::Misfit& misfit, Time time) {
    const Sentence::Part at(shown(time), "h", 3), share(100 * std::abs(misfit.size), "%", 2);
    const bool above = misfit.size > 0;
    switch (misfit.kind) {
        case numeric::Misfit::Kind::none:
            break;
        case numeric::Misfit::Kind::one_reading:
            return {above ? "does not follow: the reading at {} lies {} of the whole fall above the curve"
                          : "does not follow: the reading at {} lies {} of the whole fall below the curve",
                    {at, share}};
        case numeric::Misfit::Kind::step:
            return {above ? "does not follow: from {} on the readings lie {} of the whole fall higher"
                          : "does not follow: from {} on the readings lie {} of the whole fall lower, as "
                            "after a spill",
                    {at, share}};
        case numeric::Misfit::Kind::term:
            return {above ? "does not follow: the clock seems {} late"
                          : "does not follow: the clock seems {} early",
                    {{60 * std::abs(misfit.size), "min", 2}}};
        case numeric::Misfit::Kind::bend:
            return {"does not follow: the readings bend away from the curve, at {} by {} of the whole fall",
                    {at, share}};
    }
    return "follows";
}
Sentence verdict_of(const CurveFit& fit) {
    Sentence text = misfit_in_words(fit.misfit, fit.at);
    if (!fit.better) return text;
    return {"{}; {} is closer (aicc less by {})",
            {std::move(text), info(*fit.better).name, {fit.better_by, {}, 2}}};
}

/// Rows of the curve's parameters, `between` after them, then how close the fit is.
Outcome fit_table(const CurveFit& fit, std::initializer_list<Cell> between) {
    Table table{.columns = 3};
    const auto names = info(fit.model).parameters;
    for (std::size_t k = 0; k < names.size(); ++k)
        add_row(table, {name_cell(names[k]), fit.parameters[k], fit.robust_errors[k]});
    add_row(table, between);
    add_row(table, {"r2", fit.r2, ""});
    add_row(table, {"rmse", fit.rmse, ""});
    add_row(table, {"chi2", fit.reduced_chi2, ""});
    add_row(table, {"aicc", aicc_cell(fit.aicc), ""});
    add_row(table, {"readings", static_cast<double>(fit.points), ""});
    add_row(table, {"verdict", Told(verdict_of(fit)), ""});
    return table;
}
Outcome curve_table(const CurveFit& fit) { return fit_table(fit, {}); }

struct RunTable {
    CurveFit fit;
    MoistureDry equilibrium_db;
};
RunTable weighed_fit(CurveModel model, std::span<const Time> times, std::span<const Mass> masses, Mass solids,
                     MoistureDry equilibrium_db) {
    return {run_fit(model, times, masses, solids, equilibrium_db), equilibrium_db};
}
Outcome run_table(const RunTable& run) {
    const auto& fit = run.fit;
    return fit_table(fit, {"start moisture", run.equilibrium_db.value() + fit.parameters.back(),
                           fit.robust_errors.back()});
}

Outcome rank_table(const std::vector<RankedCurve>& ranked) {
    Table table{.columns = 8};
    add_row(table,
            {"model", "aicc", "rmse", "r2", "parameter 1", "parameter 2", "parameter 3", "parameter 4"});
    for (const auto& [model, fit] : ranked) {
        std::vector<Cell> cells(table.columns, "");
        cells[0] = name_cell(info(model).name);
        if (fit) {
            cells[1] = aicc_cell(fit->aicc);
            cells[2] = fit->rmse;
            cells[3] = fit->r2;
            std::ranges::copy(fit->parameters, cells.begin() + 4);
        } else {
            cells[1] = Told(Sentence("not determined"));
        }
        table.cells.insert(table.cells.end(), cells.begin(), cells.end());
    }
    return table;
}

Input column_of(const std::vector<double>& values) {
    return Input(std::vector<Input>(values.begin(), values.end()));
}

constexpr std::string_view kHemlock =
    "SciPy 1.10.1, make_hemlock_fits.py, on the hemlock board of Gilliland and Sherwood (Seader and Henley, "
    "2nd ed., problem 18.4)";

// Of the series of a slab, as many as matter.
std::vector<WorkingRange> odd_numbers(double fourier) {
    std::vector<double> odd{1};
    const double fall = std::numbers::pi * std::numbers::pi / 4 * fourier;
    while (odd.size() < 10 && (std::pow(odd.back() + 2, 2) - 1) * fall < 37)  // e^-37 is below 1e-16
        odd.push_back(odd.back() + 2);
    return {{"odd", {}, odd}};
}

}  // namespace

std::vector<Function> curve_entries() {
    constexpr std::string_view topic = "kinetics";
    // The hemlock board: hours, and (moisture in % − 6.6) ÷ (127 − 6.6).
    const std::vector<double> board_hours{0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 12, 14, 16, 18, 20, 22};
    std::vector<double> board_ratios, board_masses;  // masses of 100 g of solids
    for (const double percent : {127., 112., 96.8, 83.5, 73.6, 64.9, 57.2, 51.7, 46.1, 41.8, 38.5, 30.8, 26.4,
                                 20.9, 16.5, 14.3, 12.1}) {
        board_ratios.push_back((percent - 6.6) / (127 - 6.6));
        board_masses.push_back(100 + percent);
    }
    const Input times = column_of(board_hours), ratios = column_of(board_ratios),
                weighings = column_of(board_masses);

    return {
        function<curve>(
            {.name = "CURVE",
             .topic = topic,
             .summary = "Moisture ratio on a drying curve after a time",
             .params = {{kModel, {arg::time, "since the start of the curve", at_least(0)}, kParameters}},
             .result = "ratio",
             .range = "Within the run to which the parameters were fitted.",
             .source = kModelSource,
             .workings = curve_workings(),
             .checks =
                 {{{"Lewis", 2.0, column(0.5)}, 0.36787944117, 1e-11, "by hand: exp(−1)"},
                  {{"Page", 4.0, column(0.5, 0.5)}, 0.36787944117, 1e-11, "by hand: exp(−0.5 × √4)"},
                  {{"Henderson-Pabis", 2.0, column(2.0, 0.5)}, 0.73575888234, 1e-11, "by hand: 2 exp(−1)"},
                  {{"logarithmic", 2.0, column(2.0, 0.5, 0.1)},
                   0.83575888234,
                   1e-11,
                   "by hand: 2 exp(−1) + 0.1"},
                  {{"two-term", 2.0, column(1.0, 0.5, 0.5, 1.0)},
                   0.43554708279,
                   1e-10,
                   "by hand: exp(−1) + 0.5 exp(−2)"},
                  {{"Midilli", 4.0, column(2.0, 0.5, 0.5, 0.1)},
                   1.13575888234,
                   1e-11,
                   "by hand: 2 exp(−1) + 0.4"},
                  {{"Weibull", 4.0, column(4.0, 0.5)}, 0.36787944117, 1e-11, "by hand: exp(−1)"},
                  {{"Verma", 2.0, column(0.25, 0.5, 1.0)},
                   0.19347132272,
                   1e-10,
                   "by hand: 0.25 exp(−1) + 0.75 exp(−2)"},
                  {{"Page", "90 min", column(0.5, 1.0)}, 0.47236655274, 1e-10, "by hand: exp(−0.75)"}},
             .refusals = {{{"Page", 2.0, column(0.5)}, "parameters"},
                          {{"Page", 2.0, column(-0.5, 1.0)}, "parameters"},
                          {{"Page", -2.0, column(0.5, 1.0)}, "time"},
                          {{"Newton", 2.0, column(0.5)}, "model"}},
             .see_also = {"CURVETIME", "CURVEFIT", "CURVEMODELS"}}),
        function<curve_time>(
            {.name = "CURVETIME",
             .topic = topic,
             .summary = "Time after which a drying curve falls to a moisture ratio",
             .params = {{kModel, {arg::ratio, "moisture ratio to reach"}, kParameters}},
             .result = "time",
             .range = "The first time at which the curve falls to the ratio; refused when it never does.",
             .source = kModelSource,
             .caution = kDryEnough,
             .workings = time_workings(),
             .checks =
                 {{{"Lewis", 0.5, column(0.2)}, 3.4657359028, 1e-10, "by hand: ln 2 ÷ 0.2"},
                  {{"Page", 0.36787944117144233, column(0.5, 0.5)}, 4.0, 1e-12, "by hand: exp(−0.5 × √4)"},
                  {{"Henderson-Pabis", 0.5, column(2.0, 0.5)}, 2.7725887222, 1e-10, "by hand: ln 4 ÷ 0.5"},
                  {{"logarithmic", 0.6, column(2.0, 0.5, 0.1)}, 2.7725887222, 1e-10, "by hand: ln 4 ÷ 0.5"},
                  {{"two-term", 0.43554708278974868, column(1.0, 0.5, 0.5, 1.0)},
                   2.0,
                   1e-12,
                   "by hand: exp(−1) + 0.5 exp(−2)"},
                  {{"Midilli", 0.33575888234288467, column(2.0, 0.5, 0.5, -0.1)},
                   4.0,
                   1e-10,
                   "by hand: 2 exp(−1) − 0.4"},
                  {{"Weibull", 0.36787944117144233, column(4.0, 0.5)}, 4.0, 1e-12, "by hand: exp(−1)"},
                  {{"Verma", 0.19347132272032012, column(0.25, 0.5, 1.0)},
                   2.0,
                   1e-12,
                   "by hand: 0.25 exp(−1) + 0.75 exp(−2)"}},
             .refusals = {{{"logarithmic", 0.05, column(0.9, 0.5, 0.1)}, "ratio"},
                          {{"Lewis", 1.2, column(0.5)}, "ratio"},
                          {{"Lewis", 0.0, column(0.5)}, "ratio"},
                          {{"Lewis", 0.5, column(0.5, 1.0)}, "parameters"}},
             .see_also = {"CURVE", "DRYINGTIME"}}),
        function<curve_fit>(
            {.name = "CURVEFIT",
             .topic = topic,
             .summary =
                 "Parameters of a drying curve from measured ratios, with standard errors and a verdict",
             .params = {{kModel, kTimes, kRatios}},
             .result = "fit",
             .range = kFitRange,
             .source = kFitSource,
             .working =
                 ": the parameters are those with the least sum of (ratio − curve)² over the readings; a "
                 "ratio of "
                 "1 at time 0 is so by definition and is left out\n"
                 ": standard errors by the covariance (JᵀJ)⁻¹ Jᵀ diag(e² ÷ (1 − h)) J (JᵀJ)⁻¹, and the first "
                 "weighing's error, which all ratios share\n"
                 ": chi2 = least sum ÷ (n − p); aicc = n ln(least sum ÷ n) + 2 K + 2 K (K + 1) ÷ (n − K − "
                 "1), K = p + 1",
             .checks =
                 {{{"Lewis", times, ratios}, 0.139375231, 1e-7, kHemlock, "k"},
                  {{"Page", times, ratios}, 0.153239492, 1e-7, kHemlock, "k"},
                  {{"Page", times, ratios}, 0.952653426, 1e-7, kHemlock, "n"},
                  {{"Page", times, ratios}, 0.00850439452, 1e-8, kHemlock, "rmse"},
                  {{"Page", times, ratios}, -144.549512, 1e-8, kHemlock, "aicc"},
                  {{"Henderson-Pabis", times, ratios}, 0.136010282, 1e-7, kHemlock, "k"},
                  {{"logarithmic", times, ratios}, 0.0138314728, 1e-5, kHemlock, "c"},
                  {{"two-term", times, ratios}, 0.691062336, 1e-4, kHemlock, "k0"},
                  {{"Midilli", times, ratios}, -0.00192259131, 1e-5, kHemlock, "b"},
                  {{"Weibull", times, ratios}, 7.16334905, 1e-7, kHemlock, "alpha"},
                  {{"Verma", times, ratios}, 0.126223131, 1e-4, kHemlock, "g"},
                  {{"Lewis", times, ratios}, 16.0, 0, "by counting: 17 less time 0", "readings"},
                  {{"Midilli", times, ratios}, "follows", 0, "wave of its residuals below 0.5 %", "verdict"}},
             .refusals = {{{"Midilli", column(0.0, 1.0, 2.0, 3.0), column(1.0, 0.7, 0.5, 0.3)}, "ratios"},
                          {{"Lewis", column(0.0, 1.0), column(1.0, 0.7)}, "ratios"},
                          {{"two-term", column(0.0, 1.0, 2.0, 3.0, 4.0, 5.0),
                            column(1.0, 0.61, 0.37, 0.22, 0.135, 0.082)},
                           "ratios"},
                          {{"Page", column(-1.0, 1.0, 2.0, 3.0), column(1.0, 0.7, 0.5, 0.3)}, "times"}},
             .see_also = {"RUNFIT", "CURVERANK", "CURVE", "RATIOS"},
             .show = curve_table}),
        function<weighed_fit>(
            {.name = "RUNFIT",
             .topic = topic,
             .summary =
                 "Parameters of a drying curve and the moisture at the start from the weighings of a run, "
                 "with standard errors and a verdict",
             .params = {{kModel,
                         {arg::times, "times of the weighings, rising; the first is the start"},
                         {.name = arg::masses,
                          .text = "masses weighed, without the tray; a blank one leaves its reading out",
                          .missed = true},
                         {arg::solids, "dry solids in them, from DRY.SOLIDSMASS", positive},
                         {.name = arg::equilibrium_db,
                          .text = "moisture to which this air would dry it; 0 is a common assumption",
                          .otherwise = 0.0,
                          .zero = true}}},
             .result = "fit",
             .range = kFitRange,
             .source = kFitSource,
             .working = ": X = (mass − solids) ÷ solids; curve X = equilibrium_db + (start moisture − "
                        "equilibrium_db) × "
                        "ratio at the time since the first weighing\n"
                        ": the parameters and the start moisture are those with the least sum of (X − "
                        "curve)² over all "
                        "weighings, the first one too; rmse in kg/kg\n"
                        ": standard errors by the covariance (JᵀJ)⁻¹ Jᵀ diag(e² ÷ (1 − h)) J (JᵀJ)⁻¹",
             .checks =
                 {{{"Page", times, weighings, 100.0, 0.066}, 0.157008872, 1e-7, kHemlock, "k"},
                  {{"Page", times, weighings, 100.0, 0.066}, 0.944278836, 1e-7, kHemlock, "n"},
                  {{"Page", times, weighings, 100.0, 0.066}, 1.27783285, 1e-8, kHemlock, "start moisture"},
                  {{"Page", times, weighings, 100.0, 0.066}, 0.00970854563, 1e-7, kHemlock, "rmse"},
                  {{"Page", times, weighings, 100.0, 0.066}, -146.248125, 1e-8, kHemlock, "aicc"},
                  {{"Page", times, weighings, 100.0, 0.066}, 17.0, 0, "by counting", "readings"},
                  {{"Lewis", times, weighings, 100.0, 0.066}, 0.137563581, 1e-7, kHemlock, "k"}},
             .refusals = {{{"Page", column(0.0, 1.0, 2.0), column(500.0, 400.0, 330.0), 75.0}, "masses"},
                          {{"Lewis", column(0.0, 2.0, 1.0), column(500.0, 400.0, 330.0), 75.0}, "times"},
                          {{"Lewis", column(0.0, 1.0, 2.0), column(500.0, 400.0, 330.0), 350.0}, "masses"},
                          {{"Lewis", column(0.0, 1.0, 2.0), column(500.0, 400.0, 330.0), 75.0, 6.0},
                           "equilibrium_db"}},
             .see_also = {"CURVEFIT", "CURVE", "RUNCHECK"},
             .show = run_table}),
        function<curve_rank>({.name = "CURVERANK",
                              .topic = topic,
                              .summary = "All drying curves fitted to the points, the best first",
                              .params = {{kTimes, kRatios}},
                              .result = "ranking",
                              .range = "The least AICc is best: it weighs closeness against the number of "
                                       "parameters; a difference below 2 says nothing. Page and Weibull are "
                                       "one curve. Models that the points do not determine come last.",
                              .source = kFitSource,
                              .working = ": every model fitted as by DRY.CURVEFIT, sorted by aicc",
                              .checks = {{{times, ratios}, -160.389095, 1e-8, kHemlock, "Midilli"},
                                         {{times, ratios}, -144.549512, 1e-8, kHemlock, "Page"},
                                         {{times, ratios}, -137.036134, 1e-8, kHemlock, "Lewis"}},
                              .refusals = {{{column(0.0, 1.0), column(1.0)}, "ratios"},
                                           {{column(0.0, 1.0, 2.0), column(0.5, 0.5, 0.5)}, "ratios"}},
                              .see_also = {"CURVEFIT", "CURVEMODELS"},
                              .show = rank_table}),
        function<models_table>(
            {.name = "CURVEMODELS",
             .topic = topic,
             .summary = "The drying curves: name, formula, parameters in order, source",
             .result = "models",
             .source = "Each in its row.",
             .working = ": MR moisture ratio, t time in h",
             .checks = {{{}, "MR = exp(−k t^n)", 0, "Page (1949)", "Page"},
                        {{}, "MR = a exp(−k t^n) + b t", 0, "Midilli, Kucuk and Yapar (2002)", "Midilli"}},
             .see_also = {"CURVE", "CURVEFIT"}}),
        function<drying_time>(
            {.name = "DRYINGTIME",
             .topic = topic,
             .summary = "Time from a start to a target moisture on a fitted drying curve",
             .params = {{{arg::start, "moisture at the start, wet basis"},
                         {arg::target, "moisture to reach, wet basis"},
                         {.name = arg::equilibrium,
                          .text =
                              "moisture to which this air would dry it, wet basis; 0 is a common assumption",
                          .zero = true},
                         kModel,
                         kParameters}},
             .result = "time",
             .range = "The same material, thickness, load and air as in the run to which the curve was "
                      "fitted, from the same start.",
             .source = "Definition of the moisture ratio; the models' own publications, DRY.CURVEMODELS.",
             .caution = kDryEnough,
             .workings = drying_time_workings(),
             .checks = {{{0.8, 0.2, 0.0, "Lewis", column(0.4)}, 6.9314718056, 1e-10, "by hand: 4 ln 2 ÷ 0.4"},
                        {{0.8, 0.2, 0.05, "Lewis", column(0.4)},
                         7.4893306839,
                         1e-10,
                         "by hand: ratio 0.05, ln 20 ÷ 0.4"},
                        {{0.8, 0.2, 0.0, "Page", column(0.4, 0.5)},
                         48.0453013918,
                         1e-10,
                         "by hand: (4 ln 2 ÷ 0.4)²"}},
             .refusals = {{{0.8, 0.85, 0.0, "Lewis", column(0.4)}, "target"},
                          {{0.8, 0.04, 0.05, "Lewis", column(0.4)}, "target"},
                          {{0.8, 0.1, 0.0, "logarithmic", column(0.9, 0.4, 0.1)}, "target"},
                          {{0.8, 0.2, 0.0, "Page", column(0.4)}, "parameters"}},
             .see_also = {"CURVETIME", "CURVEFIT"}}),
        function<slab_ratio>(
            {.name = "SLABRATIO",
             .topic = topic,
             .summary = "Mean moisture ratio of a slab that dries by diffusion inside",
             .params = {{{arg::fourier,
                          "Fourier number D t ÷ L², L half the thickness of a slab drying from both sides",
                          at_least(0)}}},
             .result = "ratio",
             .range = "Uniform at the start, surface at equilibrium, constant diffusivity, no shrinkage.",
             .source =
                 "Crank (1975) The Mathematics of Diffusion, 2nd ed., eq. 4.18 and, for short times, 4.20.",
             .working =
                 ": ratio = 8 ÷ π² × the sum of exp(−odd² π² fourier ÷ 4) ÷ odd² over the odd numbers\n"
                 "if fourier ≤ 0.03: : for so short a time all but the start of eq. 4.20 is nothing\n"
                 "if fourier ≤ 0.03: ratio = 1 − 2 × sqrt(fourier ÷ pi)\n"
                 "if fourier > 0.03: odd ~ odd : as many as matter\n"
                 "if fourier > 0.03: each term = exp(−(odd × pi)^2 × fourier ÷ 4) ÷ odd^2\n"
                 "if fourier > 0.03: ratio = 8 ÷ pi^2 × sum(term)",
             .working_ranges = ranges_by<odd_numbers>,
             .checks = {{{0.25},
                         1 - 0.562233541762138,
                         1e-13,
                         "polykin documentation, uptake_sheet: 0.562233541762138"},
                        {{0.001}, 0.964317517676945, 1e-13, "20000 terms of Crank's eq. 4.18 in Python"},
                        {{0.56}, 0.20, 0.02, "Geankoplis (1993) example 9.9-1, read off the chart"},
                        {{0.0}, 1.0, 1e-15, "by definition"}},
             .refusals = {{{-0.1}, "fourier"}},
             .see_also = {"DIFFUSIVITY", "THICKNESSTIME"},
             .slips = {{"only the first term of the series was taken", "8 ÷ pi^2 × exp(−pi^2 × fourier ÷ 4)"},
                       {"the whole thickness was taken for the half", "SLABRATIO(fourier ÷ 4)"},
                       {"the half thickness was halved again", "SLABRATIO(fourier × 4)"}}}),
        function<diffusivity>(
            {.name = "DIFFUSIVITY",
             .topic = topic,
             .summary = "Effective diffusivity from the moisture ratios of a slab, by the whole series",
             .params = {{kTimes,
                         kRatios,
                         {arg::thickness, "of the full slab", positive},
                         {.name = arg::sides,
                          .text = "2 when both faces dry, 1 when it lies on a closed tray",
                          .otherwise = 2.0}}},
             .result = "fit",
             .range = "The first mass, a ratio of 1 at time 0, is a reading like the rest, whether its row "
                      "is given or "
                      "not. No shrinkage. The equilibrium effect is the change of the diffusivity if the "
                      "equilibrium moisture "
                      "were higher by 0.01 of the free moisture at the start.",
             .source = "Least squares of Crank (1975) eq. 4.18 and 4.20 on the moisture ratios.",
             .working = ": D and a are those with the least sum of (ratio − a E(D t ÷ L²))², E the slab of "
                        "DRY.SLABRATIO, L = "
                        "thickness ÷ sides; a is "
                        "1 but for the error of the first mass",
             .checks = {{{times, ratios, 7.5},
                         0.0482952124 * 0.00375 * 0.00375 / 3600,
                         1e-6,
                         "SciPy 1.10.1, 2000 terms and a height, on the hemlock board: D/L² = 0.0482952124 "
                         "per hour",
                         "diffusivity"},
                        {{times, ratios, 7.5},
                         0.00374916971 * 0.00375 * 0.00375 / 3600,
                         1e-5,
                         "the same, HC2: D/L² ± 0.00374916971 per hour",
                         "standard error"},
                        {{times, ratios, 7.5}, 0.0294969438, 1e-6, "the same", "rmse"},
                        {{times, ratios, 7.5, 1.0},
                         0.0482952124 * 0.0075 * 0.0075 / 3600,
                         1e-6,
                         "the same from one side: four times as much",
                         "diffusivity"},
                        {{times, ratios, 7.5}, 17.0, 0, "by counting", "points"}},
             .refusals = {{{times, ratios, 7.5, 3.0}, "sides"},
                          {{times, ratios, 0.0}, "thickness"},
                          {{column(0.0, 1.0), column(1.0, 0.5), 7.5}, "times"},
                          {{column(0.0, 1.0, 2.0), column(1.0, 1.1, 1.2), 7.5}, "ratios"}},
             .see_also = {"SLABRATIO", "ACTIVATIONENERGY"},
             .show = [](const DiffusivityFit& fit) -> Outcome {
                 return quantities({{"diffusivity", amount(fit.diffusivity)},
                                    {"standard error", amount(fit.standard_error)},
                                    {"points", amount(static_cast<double>(fit.points))},
                                    {"r2", amount(fit.r2)},
                                    {"rmse", amount(fit.rmse)},
                                    {"equilibrium effect", amount(fit.equilibrium_effect)},
                                    {"verdict", misfit_in_words(fit.misfit, fit.at)}});
             }}),
    };
}

}  // namespace drysheet
