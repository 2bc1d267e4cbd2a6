#include "core/kinetics.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>

#include "addin/catalogue/curve_choice.hpp"
#include "addin/catalogue/topics.hpp"

namespace drysheet {
namespace {

// ---- words used again and again

constexpr Param kModel{"model", "name of the curve; DRY.CURVEMODELS lists formula and parameters"};
constexpr Param kParameters{
    .name = "parameters", .text = "its parameters in the order of DRY.CURVEMODELS, time in h", .alone = true};
constexpr Param kTimes{"times", "times of the readings", at_least(0)};
constexpr Param kClock{"times", "times of the readings, rising; any clock will do"};
constexpr Param kRatios{"ratios", "moisture ratios of the readings, from DRY.RATIOS"};
constexpr Param kMasses{"masses", "masses of the readings, without the tray"};
constexpr Param kSolids{"solids", "dry solids in them, from DRY.SOLIDSMASS", positive};
constexpr Param kStartDb{"start_db", "moisture at the start, dry basis"};
constexpr Param kEndDb{"end_db", "moisture at the end, dry basis"};
constexpr Param kArea{"area", "area of the drying surface", positive};
constexpr Param kRate{"rate", "drying rate in the constant-rate period", positive};

constexpr std::string_view kModelSource =
    "Each model's own publication, in the last column of DRY.CURVEMODELS.";
constexpr std::string_view kFitSource =
    "Least squares (Levenberg-Marquardt, Moré 1978, Lecture Notes in Mathematics 630) on the moisture ratio; "
    "AICc of "
    "Burnham and Anderson (2002) Model Selection and Multimodel Inference, 2nd ed.";
constexpr std::string_view kUndetermined =
    "Points that do not determine every parameter are refused; two-term and Verma need a curve with two "
    "clearly "
    "different rates.";

// Each model's curve with the cells of `parameters` under their names …
const std::vector<std::string_view> kCurveWorkings{
    "k ← parameters\nratio = exp(−k × time)",
    "k, n ← parameters\nratio = exp(−k × time^n)",
    "a, k ← parameters\nratio = a × exp(−k × time)",
    "a, k, c ← parameters\nratio = a × exp(−k × time) + c",
    "a, k0, b, k1 ← parameters\nratio = a × exp(−k0 × time) + b × exp(−k1 × time)",
    "a, k, n, b ← parameters\nratio = a × exp(−k × time^n) + b × time",
    "alpha, beta ← parameters\nratio = exp(−(time ÷ alpha)^beta)",
    "a, k, g ← parameters\nratio = a × exp(−k × time) + (1 − a) × exp(−g × time)"};
// … and the time of a ratio.
const std::vector<std::string_view> kTimeWorkings{
    "k ← parameters\ntime = −ln(ratio) ÷ k",
    "k, n ← parameters\ntime = (−ln(ratio) ÷ k)^(1 ÷ n)",
    "a, k ← parameters\ntime = ln(a ÷ ratio) ÷ k",
    "a, k, c ← parameters\ntime = ln(a ÷ (ratio − c)) ÷ k",
    ": searched from time 0: a exp(−k0 time) + b exp(−k1 time) = ratio",
    ": searched from time 0: a exp(−k time^n) + b time = ratio",
    "alpha, beta ← parameters\ntime = alpha × (−ln(ratio))^(1 ÷ beta)",
    ": searched from time 0: a exp(−k time) + (1 − a) exp(−g time) = ratio"};
/// The same with the ratio worked out from wet-basis moistures before.
std::vector<std::string_view> drying_time_workings() {
    static const std::vector<std::string> texts = [] {
        std::vector<std::string> made;
        for (const auto model : kTimeWorkings)
            made.push_back(
                "X0 = start ÷ (1 − start)\nX = target ÷ (1 − target)\nXe = equilibrium ÷ (1 − equilibrium)\n"
                "ratio = (X − Xe) ÷ (X0 − Xe)\n" +
                std::string(model));
        return made;
    }();
    return {texts.begin(), texts.end()};
}

// ---- tables

void add_row(Table& table, std::initializer_list<Cell> cells) {
    table.cells.insert(table.cells.end(), cells.begin(), cells.end());
}
Cell name_cell(std::string_view name) { return std::string(name); }
Cell aicc_cell(double aicc) { return std::isfinite(aicc) ? Cell(aicc) : Cell("too few points"); }

Table models_table() {
    Table table{.columns = 4};
    for (const CurveModelInfo& model : curve_models()) {
        std::string parameters;
        for (const auto name : model.parameters)
            parameters.append(parameters.empty() ? "" : ", ").append(name);
        add_row(table,
                {name_cell(model.name), name_cell(model.formula), parameters, name_cell(model.source)});
    }
    return table;
}

struct NamedFit {
    CurveModel model;
    numeric::Fit fit;
};
NamedFit fitted(CurveModel model, std::span<const Time> times, std::span<const MoistureRatio> ratios) {
    return {model, curve_fit(model, times, ratios)};
}
Outcome fit_table(const NamedFit& named) {
    Table table{.columns = 3};
    const auto& fit = named.fit;
    for (std::size_t k = 0; k < fit.parameters.size(); ++k)
        add_row(table,
                {name_cell(info(named.model).parameters[k]), fit.parameters[k], fit.standard_errors[k]});
    add_row(table, {"r2", fit.r2, ""});
    add_row(table, {"rmse", fit.rmse, ""});
    add_row(table, {"chi2", fit.reduced_chi2, ""});
    add_row(table, {"aicc", aicc_cell(fit.aicc), ""});
    add_row(table, {"n", static_cast<double>(fit.points), ""});
    return table;
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
            cells[1] = "not determined";
        }
        table.cells.insert(table.cells.end(), cells.begin(), cells.end());
    }
    return table;
}

using Rates = std::vector<Amount>;
Rates rates(std::span<const Time> times, std::span<const Mass> masses, Mass solids,
            std::optional<Area> area) {
    Rates column;
    if (area) {
        for (MassFlux flux : drying_fluxes(times, masses, solids, *area)) column.push_back(amount(flux));
    } else {
        for (DryingRate rate : drying_rates(times, masses, solids)) column.push_back(amount(rate));
    }
    return column;
}
Outcome rates_column(const Rates& column) {
    Table table{.columns = 1};
    for (const Amount& rate : column) table.cells.emplace_back(shown(rate));
    return table;
}

// ---- check data

Input column_of(const std::vector<double>& values) {
    return Input(std::vector<Input>(values.begin(), values.end()));
}

constexpr std::string_view kHemlock =
    "SciPy 1.10.1 on the hemlock board of Gilliland and Sherwood (Seader and Henley, 2nd ed., problem 18.4)";
constexpr std::string_view kPeriods =
    "by hand: readings made from 1 kg/(kg·h) for 3 h from 6 to 3 kg/kg, then an exponential";

}  // namespace

std::vector<Function> kinetics_entries() {
    constexpr std::string_view topic = "kinetics";
    // The hemlock board: hours, and (moisture in % − 6.6) ÷ (127 − 6.6).
    const std::vector<double> board_hours{0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 12, 14, 16, 18, 20, 22};
    std::vector<double> board_ratios;
    for (const double percent : {127., 112., 96.8, 83.5, 73.6, 64.9, 57.2, 51.7, 46.1, 41.8, 38.5, 30.8, 26.4,
                                 20.9, 16.5, 14.3, 12.1})
        board_ratios.push_back((percent - 6.6) / (127 - 6.6));
    const Input times = column_of(board_hours), ratios = column_of(board_ratios);
    // 100 g of solids: 1 kg/(kg·h) for 3 h, then falling with a time constant of 2.5 h.
    std::vector<double> bend_hours, bend_masses;
    for (int i = 0; i < 25; ++i) {
        const double t = 0.5 * i;
        bend_hours.push_back(t);
        bend_masses.push_back(100 * (1 + (t < 3 ? 6 - t : 3 - 2.5 * (1 - std::exp(-(t - 3) / 2.5)))));
    }
    const Input clock = column_of(bend_hours), masses = column_of(bend_masses);
    const Input steady_hours = column(0.0, 0.5, 1.5, 2.0), steady_masses = column(500.0, 475.0, 425.0, 400.0);

    return {
        function<curve>(
            {.name = "CURVE",
             .topic = topic,
             .summary = "Moisture ratio on a drying curve after a time",
             .params = {{kModel, {"time", "since the start of the curve", at_least(0)}, kParameters}},
             .result = "ratio",
             .range = "Within the run to which the parameters were fitted.",
             .source = kModelSource,
             .workings = kCurveWorkings,
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
             .params = {{kModel, {"ratio", "moisture ratio to reach"}, kParameters}},
             .result = "time",
             .range = "The first time at which the curve falls to the ratio; refused when it never does.",
             .source = kModelSource,
             .workings = kTimeWorkings,
             .checks =
                 {{{"Lewis", 0.5, column(0.2)}, 3.4657359028, 1e-10, "by hand: ln 2 ÷ 0.2"},
                  {{"Page", 0.36787944117144233, column(0.5, 0.5)}, 4.0, 1e-12, "by hand: exp(−0.5 × √4)"},
                  {{"Henderson-Pabis", 0.5, column(2.0, 0.5)}, 2.7725887222, 1e-10, "by hand: ln 4 ÷ 0.5"},
                  {{"logarithmic", 0.6, column(2.0, 0.5, 0.1)}, 2.7725887222, 1e-10, "by hand: ln 4 ÷ 0.5"},
                  {{"two-term", 0.43554708278974868, column(1.0, 0.5, 0.5, 1.0)},
                   2.0,
                   1e-12,
                   "by hand: exp(−1) + 0.5 exp(−2)"},
                  {{"Midilli", 1.1357588823428847, column(2.0, 0.5, 0.5, 0.1)},
                   4.0,
                   1e-10,
                   "by hand: 2 exp(−1) + 0.4"},
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
        function<fitted>(
            {.name = "CURVEFIT",
             .topic = topic,
             .summary = "Parameters of a drying curve from measured points, with standard errors",
             .params = {{kModel, kTimes, kRatios}},
             .result = "fit",
             .range = kUndetermined,
             .source = kFitSource,
             .working =
                 ": the parameters are those with the least sum of (ratio − curve)² over the points\n"
                 ": standard error = √(least sum ÷ (n − p) × the diagonal of the inverse normal matrix)\n"
                 ": chi2 = least sum ÷ (n − p); aicc = n ln(least sum ÷ n) + 2 K + 2 K (K + 1) ÷ (n − K − "
                 "1), "
                 "K = p + 1",
             .checks = {{{"Lewis", times, ratios}, 0.139375231, 1e-7, kHemlock, "k"},
                        {{"Page", times, ratios}, 0.153239492, 1e-7, kHemlock, "k"},
                        {{"Page", times, ratios}, 0.952653426, 1e-7, kHemlock, "n"},
                        {{"Page", times, ratios}, 0.00825047456, 1e-8, kHemlock, "rmse"},
                        {{"Page", times, ratios}, -155.268321, 1e-8, kHemlock, "aicc"},
                        {{"Henderson-Pabis", times, ratios}, 0.137563581, 1e-7, kHemlock, "k"},
                        {{"logarithmic", times, ratios}, 0.0167279174, 1e-5, kHemlock, "c"},
                        {{"two-term", times, ratios}, 0.397611132, 1e-4, kHemlock, "k0"},
                        {{"Midilli", times, ratios}, -0.000485038851, 1e-5, kHemlock, "b"},
                        {{"Weibull", times, ratios}, 7.16334905, 1e-7, kHemlock, "alpha"},
                        {{"Verma", times, ratios}, 0.12622313, 1e-4, kHemlock, "g"},
                        {{"Lewis", times, ratios}, 17.0, 0, "by counting", "n"}},
             .refusals = {{{"Midilli", column(0.0, 1.0, 2.0, 3.0), column(1.0, 0.7, 0.5, 0.3)}, "ratios"},
                          {{"two-term", column(0.0, 1.0, 2.0, 3.0, 4.0, 5.0),
                            column(1.0, 0.61, 0.37, 0.22, 0.135, 0.082)},
                           "ratios"},
                          {{"Page", column(-1.0, 1.0, 2.0, 3.0), column(1.0, 0.7, 0.5, 0.3)}, "times"}},
             .see_also = {"CURVERANK", "CURVE", "RATIOS"},
             .show = fit_table}),
        function<curve_rank>({.name = "CURVERANK",
                              .topic = topic,
                              .summary = "All drying curves fitted to the points, the best first",
                              .params = {{kTimes, kRatios}},
                              .result = "ranking",
                              .range = "The least AICc is best: it weighs closeness against the number of "
                                       "parameters; a difference below "
                                       "2 says nothing. Page and Weibull are one curve. Models that the "
                                       "points do not determine come "
                                       "last.",
                              .source = kFitSource,
                              .working = ": every model fitted as by DRY.CURVEFIT, sorted by aicc",
                              .checks = {{{times, ratios}, -155.268321, 1e-8, kHemlock, "Page"},
                                         {{times, ratios}, -147.005138, 1e-8, kHemlock, "Lewis"},
                                         {{times, ratios}, -149.710121, 1e-8, kHemlock, "Midilli"},
                                         {{times, ratios}, "Weibull", 0, kHemlock}},
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
             .checks = {{{}, "exp(−k t^n)", 0, "Page (1949)", "Page"},
                        {{}, "a exp(−k t^n) + b t", 0, "Midilli, Kucuk and Yapar (2002)", "Midilli"}},
             .see_also = {"CURVE", "CURVEFIT"}}),
        function<moisture_ratios>(
            {.name = "RATIOS",
             .topic = topic,
             .summary = "Moisture ratios of a weighed run, the first mass being the start",
             .params = {{kMasses,
                         kSolids,
                         {.name = "equilibrium_db",
                          .text = "moisture to which this air would dry it; 0 is a common assumption",
                          .otherwise = 0.0,
                          .zero = true}}},
             .result = "ratios",
             .source =
                 "Definition; Geankoplis (1993) Transport Processes and Unit Operations, 3rd ed., sec. 9.5.",
             .working =
                 ": X = (mass − solids) ÷ solids; ratio = (X − equilibrium_db) ÷ (first X − equilibrium_db)",
             .checks = {{{column(500.0, 300.0), 100.0}, 1.0, 1e-12, "by hand: the start is 1"},
                        {{column("4.944 kg"), "3.765 kg", 0.0505}, 1.0, 1e-12, "by hand: the start is 1"}},
             .refusals = {{{column(500.0, 90.0), 100.0, 0.0}, "masses"},
                          {{column(500.0, 300.0), 0.0, 0.0}, "solids"},
                          {{column(500.0, 300.0), 100.0, 5.0}, "equilibrium_db"}},
             .see_also = {"CURVEFIT", "RATES", "MOISTURERATIO"}}),
        function<rates>(
            {.name = "RATES",
             .topic = topic,
             .summary = "Drying rates of a weighed run, smoothed: kg/(kg·h), or kg/(m²·h) with an area",
             .params = {{kClock, kMasses, kSolids, {"area", "drying surface, for rates per area", positive}}},
             .result = "rates",
             .range =
                 "3 readings or more. A quadratic through the nearest fifth of the readings, at least 7, "
                 "rounds off a "
                 "bend shorter than that. With 6 readings or more, one in ten that stands out by more than 6 "
                 "median residuals and 0.5 % of the whole loss is left out.",
             .source = "Local quadratics of Savitzky and Golay (1964) Anal. Chem. 36:1627, for uneven steps "
                       "weighted by "
                       "distance as in Cleveland (1979) J. Am. Stat. Assoc. 74:829.",
             .working = ": at each reading, minus the slope of a weighted quadratic through its neighbours",
             .checks = {{{steady_hours, steady_masses, 100.0},
                         0.5,
                         1e-10,
                         "by hand: 50 g an hour on 100 g of solids"},
                        {{steady_hours, steady_masses, 100.0, 0.25},
                         0.2,
                         1e-10,
                         "by hand: 0.05 kg an hour from 0.25 m²"}},
             .refusals = {{{column(0.0, 1.0, 1.0), column(500.0, 450.0, 400.0), 100.0}, "times"},
                          {{column(0.0, 1.0), column(500.0, 450.0), 100.0}, "times"},
                          {{steady_hours, steady_masses, 450.0}, "masses"},
                          {{steady_hours, steady_masses, 100.0, 0.0}, "area"}},
             .see_also = {"CRITICALPOINT", "RATIOS"},
             .show = rates_column}),
        function<critical_point>(
            {.name = "CRITICALPOINT",
             .topic = topic,
             .summary =
                 "Constant drying rate, and the moisture and time at which it ends, with their uncertainties",
             .params = {{kClock, kMasses, kSolids}},
             .result = "bend",
             .range = "7 readings or more, 3 in each period. Leave out a warming-up period. Readings that "
                      "stand out are "
                      "left out as in DRY.RATES.",
             .source =
                 "Periods: Geankoplis (1993) 3rd ed., sec. 9.5 to 9.7, with a rate in proportion to the free "
                 "moisture after the bend; segmented fit: Seber and Wild (1989) Nonlinear Regression, ch. 9.",
             .working =
                 ": up to the bend X = Xc + R (tc − t), after it X = Xc − R τ (1 − exp(−(t − tc) ÷ τ))\n"
                 ": Xc, R, tc and τ are those with the least sum of squares over the readings",
             .checks = {{{clock, masses, 100.0}, 1.0, 1e-6, kPeriods, "rate"},
                        {{clock, masses, 100.0}, 3.0, 1e-6, kPeriods, "moisture"},
                        {{clock, masses, 100.0}, 3.0, 1e-6, kPeriods, "time"},
                        {{clock, masses, 100.0}, 25.0, 0, "by counting", "points"}},
             .refusals = {{{column(0.0, 1.0, 2.0), column(500.0, 450.0, 400.0), 100.0}, "times"},
                          {{column(0.0, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0),
                            column(500.0, 450.0, 400.0, 350.0, 300.0, 250.0, 200.0, 150.0), 100.0},
                           "masses"}},
             .see_also = {"RATES", "FALLRATETIME"},
             .show = [](const CriticalPoint& bend) -> Outcome {
                 return quantities({{"rate", amount(bend.rate)},
                                    {"moisture", amount(bend.moisture)},
                                    {"time", amount(bend.time)},
                                    {"u rate", amount(bend.u_rate)},
                                    {"u moisture", amount(bend.u_moisture)},
                                    {"u time", amount(bend.u_time)},
                                    {"points", amount(static_cast<double>(bend.points))}});
             }}),
        function<slab_ratio>(
            {.name = "SLABRATIO",
             .topic = topic,
             .summary = "Mean moisture ratio of a slab that dries by diffusion inside",
             .params = {{{"fourier",
                          "Fourier number D t ÷ L², L half the thickness of a slab drying from both sides",
                          at_least(0)}}},
             .result = "ratio",
             .range = "Uniform at the start, surface at equilibrium, constant diffusivity, no shrinkage.",
             .source =
                 "Crank (1975) The Mathematics of Diffusion, 2nd ed., eq. 4.18 and, for short times, 4.20.",
             .working = ": ratio = 8 ÷ π² × the sum of exp(−(2n + 1)² π² fourier ÷ 4) ÷ (2n + 1)² over n = "
                        "0, 1, 2, …",
             .checks = {{{0.25},
                         1 - 0.562233541762138,
                         1e-13,
                         "polykin documentation, uptake_sheet: 0.562233541762138"},
                        {{0.001}, 0.964317517676945, 1e-13, "20000 terms of Crank's eq. 4.18 in Python"},
                        {{0.56}, 0.20, 0.02, "Geankoplis (1993) example 9.9-1, read off the chart"},
                        {{0.0}, 1.0, 1e-15, "by definition"}},
             .refusals = {{{-0.1}, "fourier"}},
             .see_also = {"DIFFUSIVITY", "THICKNESSTIME"}}),
        function<diffusivity>(
            {.name = "DIFFUSIVITY",
             .topic = topic,
             .summary = "Effective diffusivity from the moisture ratios of a slab, by the whole series",
             .params = {{kTimes,
                         kRatios,
                         {"thickness", "of the full slab", positive},
                         {.name = "sides",
                          .text = "2 when both faces dry, 1 when it lies on a closed tray",
                          .otherwise = 2.0}}},
             .result = "fit",
             .range =
                 "All points after time 0 are used: at time 0 the ratio is 1 by definition. No shrinkage.",
             .source = "Least squares of Crank (1975) eq. 4.18 and 4.20 on the moisture ratios.",
             .working =
                 ": D is the one with the least sum of (ratio − SLABRATIO(D t ÷ L²))², L = thickness ÷ sides",
             .checks = {{{times, ratios, 7.5},
                         0.0438965398 * 0.00375 * 0.00375 / 3600,
                         1e-6,
                         "SciPy 1.10.1, 2000 terms, on the hemlock board: D/L² = 0.0438965398 per hour",
                         "diffusivity"},
                        {{times, ratios, 7.5},
                         0.00189865583 * 0.00375 * 0.00375 / 3600,
                         1e-5,
                         "SciPy 1.10.1, 2000 terms, on the hemlock board: D/L² ± 0.00189865583 per hour",
                         "standard error"},
                        {{times, ratios, 7.5, 1.0},
                         0.0438965398 * 0.0075 * 0.0075 / 3600,
                         1e-6,
                         "the same from one side: four times as much",
                         "diffusivity"},
                        {{times, ratios, 7.5}, 16.0, 0, "by counting: all but time 0", "points"}},
             .refusals = {{{times, ratios, 7.5, 3.0}, "sides"},
                          {{times, ratios, 0.0}, "thickness"},
                          {{column(0.0, 1.0), column(1.0, 0.5), 7.5}, "times"},
                          {{column(0.0, 1.0, 2.0), column(1.0, 1.1, 1.2), 7.5}, "ratios"}},
             .see_also = {"SLABRATIO", "ACTIVATIONENERGY"},
             .show = [](const DiffusivityFit& fit) -> Outcome {
                 return quantities({{"diffusivity", amount(fit.diffusivity)},
                                    {"standard error", amount(fit.standard_error)},
                                    {"points", amount(static_cast<double>(fit.points))}});
             }}),
        function<activation_energy>(
            {.name = "ACTIVATIONENERGY",
             .topic = topic,
             .summary = "Activation energy of a rate constant or diffusivity from its values at several "
                        "temperatures",
             .params = {{{"temps", "temperatures"},
                         {"values", "rate constants or diffusivities, all in one unit", positive}}},
             .result = "fit",
             .range = "3 points or more. The factor is in the unit of the values.",
             .source = "Arrhenius equation, ln value = ln factor − E ÷ (R T), a straight line in 1 ÷ T; "
                       "R = 8.314462618 J/(mol·K) (CODATA 2018).",
             .working = ": slope of the least-squares line of ln(value) over 1 ÷ (temp + 273.15)\n"
                        ": energy = −8.314462618 × slope ÷ 1000; factor = exp(intercept)",
             .checks =
                 {{{column("288 K", "298 K", "308 K", "318 K", "328 K"),
                    column(8.06e-8, 2.13e-7, 5.24e-7, 1.34e-6, 3.15e-6)},
                   71.99,
                   1e-3,
                   "acetone iodination, github.com/pkaysantana/acetone-iodination-analysis, final report",
                   "energy"},
                  {{column("288 K", "298 K", "308 K", "318 K", "328 K"),
                    column(8.06e-8, 2.13e-7, 5.24e-7, 1.34e-6, 3.15e-6)},
                   0.9995,
                   1e-4,
                   "the same report",
                   "r2"},
                  {{column(40.0, 50.0, 60.0), column(std::exp(-40000 / (8.314462618 * 313.15)),
                                                     std::exp(-40000 / (8.314462618 * 323.15)),
                                                     std::exp(-40000 / (8.314462618 * 333.15)))},
                   1.0,
                   1e-9,
                   "by hand: values made with 40 kJ/mol and factor 1",
                   "factor"}},
             .refusals = {{{column(40.0, 50.0), column(0.1, 0.2)}, "temps"},
                          {{column(40.0, 40.0, 40.0), column(0.1, 0.2, 0.3)}, "temps"},
                          {{column(40.0, 50.0, 60.0), column(0.1, 0.0, 0.3)}, "values"}},
             .see_also = {"DIFFUSIVITY", "CURVEFIT"},
             .show = [](const ArrheniusFit& fit) -> Outcome {
                 return quantities({{"energy", amount(fit.energy)},
                                    {"factor", amount(fit.factor)},
                                    {"r2", amount(fit.r2)},
                                    {"u energy", amount(fit.u_energy)}});
             }}),
        function<constant_rate_time>(
            {.name = "CONSTRATETIME",
             .topic = topic,
             .summary = "Drying time at a constant rate",
             .params = {{kSolids, kStartDb, kEndDb, kArea, kRate}},
             .result = "time",
             .source = "Geankoplis (1993) 3rd ed., eq. 9.6-2.",
             .working = "time = solids ÷ 1000 × (start_db − end_db) ÷ (area × rate)",
             .checks = {{{"21.5 kg", 0.38, 0.25, 1.0, 1.51}, 1.85, 1e-3, "Geankoplis (1993) example 9.6-2"},
                        {{"399 kg", 0.38, 0.195, 18.58, 1.51}, 2.63, 1e-3, "Geankoplis (1993) example 9.7-1"},
                        {{"40 kg", 1.0 / 3, 0.2, 1.0, 1.08},
                         17778.0 / 3600,
                         1e-4,
                         "Treybal (1980) illustration 12.3"}},
             .refusals = {{{1000.0, 0.2, 0.3, 1.0, 1.0}, "end_db"},
                          {{0.0, 0.3, 0.2, 1.0, 1.0}, "solids"},
                          {{1000.0, 0.3, 0.2, 0.0, 1.0}, "area"},
                          {{1000.0, 0.3, 0.2, 1.0, 0.0}, "rate"}},
             .see_also = {"FALLRATETIME", "RATES"}}),
        function<falling_rate_time>(
            {.name = "FALLRATETIME",
             .topic = topic,
             .summary = "Drying time with a falling rate in proportion to the free moisture, and the "
                        "constant-rate time "
                        "before it",
             .params = {{kSolids,
                         kStartDb,
                         kEndDb,
                         {"critical_db", "moisture at which the constant rate ends, dry basis"},
                         {.name = "equilibrium_db",
                          .text = "moisture to which this air would dry it; 0 is a common assumption",
                          .zero = true},
                         kArea,
                         kRate}},
             .result = "time",
             .range = "The rate falls in a straight line from the critical to the equilibrium moisture.",
             .source = "Geankoplis (1993) 3rd ed., eq. 9.6-2 and 9.7-8, on free moisture.",
             .working = "constant = max(start_db; critical_db) − max(end_db; critical_db)\n"
                        "falling = (critical_db − equilibrium_db) × ln((min(start_db; critical_db) − "
                        "equilibrium_db) ÷ "
                        "(min(end_db; critical_db) − equilibrium_db))\n"
                        "time = solids ÷ 1000 × (constant + falling) ÷ (area × rate)",
             .checks =
                 {{{"0.9 kg", 3.0, 0.25, 1.5, 0.1 / 0.9, 0.18, 2.0},
                   11.745,
                   1e-4,
                   "Anantharaman and Begum, Mass Transfer, example 6.9 (title from memory), by its formula"},
                  {{"1 kg", "30 % db", "8 % db", "15 % db", "5 % db", 1.0, "0.1 kg/(m²·h)"},
                   2.703973,
                   1e-6,
                   "Coulson and Richardson vol. 2, example 16.1: 1.5 + ln(0.10 ÷ 0.03)"},
                  {{"1 kg", 0.12, 0.08, 0.15, 0.05, 1.0, 0.1}, 0.8472979, 1e-6, "by hand: ln(0.07 ÷ 0.03)"},
                  {{"1 kg", 0.3, 0.2, 0.15, 0.05, 1.0, 0.1}, 1.0, 1e-12, "by hand: 0.1 kg at 0.1 kg/(m²·h)"}},
             .refusals = {{{1000.0, 0.3, 0.05, 0.2, 0.05, 1.0, 1.0}, "end_db"},
                          {{1000.0, 0.3, 0.4, 0.2, 0.05, 1.0, 1.0}, "end_db"},
                          {{1000.0, 0.3, 0.2, 0.04, 0.05, 1.0, 1.0}, "critical_db"}},
             .see_also = {"CONSTRATETIME", "CRITICALPOINT"}}),
        function<thickness_time>(
            {.name = "THICKNESSTIME",
             .topic = topic,
             .summary = "Drying time of another thickness",
             .params =
                 {{{"time", "drying time of the known thickness", positive},
                   {"thickness", "known", positive},
                   {"new_thickness", "wanted", positive},
                   {.name = "exponent",
                    .text = "2 where diffusion inside limits, 1 where the air limits; most foods lie between",
                    .otherwise = 2.0}}},
             .result = "new_time",
             .source = "Crank (1975) 2nd ed., sec. 4.3: time enters only as D t ÷ L².",
             .working = "new_time = time × (new_thickness ÷ thickness)^exponent",
             .checks =
                 {{{1.0, 10.0, 60.0}, 36.0, 1e-12, "Coulson and Richardson vol. 2, example 16.2: (60 ÷ 10)²"},
                  {{5.0, 4.0, 8.0, 1.0}, 10.0, 1e-12, "by hand"}},
             .refusals = {{{0.0, 4.0, 8.0}, "time"},
                          {{5.0, 0.0, 8.0}, "thickness"},
                          {{5.0, 4.0, 0.0}, "new_thickness"}},
             .see_also = {"SLABRATIO", "DRYINGTIME"}}),
        function<drying_time>(
            {.name = "DRYINGTIME",
             .topic = topic,
             .summary = "Time from a start to a target moisture on a fitted drying curve",
             .params = {{{"start", "moisture at the start, wet basis"},
                         {"target", "moisture to reach, wet basis"},
                         {.name = "equilibrium",
                          .text =
                              "moisture to which this air would dry it, wet basis; 0 is a common assumption",
                          .zero = true},
                         kModel,
                         kParameters}},
             .result = "time",
             .range = "The same material, thickness, load and air as in the run to which the curve was "
                      "fitted, from the "
                      "same start.",
             .source = "Definition of the moisture ratio; the models' own publications, DRY.CURVEMODELS.",
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
    };
}

}  // namespace drysheet
