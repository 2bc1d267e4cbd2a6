#include "drysheet/sorption.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "drysheet/numeric/roots.hpp"
#include "drysheet/runs.hpp"
#include "drysheet/sorption_formulas.hpp"

namespace drysheet {
namespace {

constexpr std::string_view kXmCK[] = {"Xm", "C", "K"}, kXmC[] = {"Xm", "C"}, kab[] = {"a", "b"},
                           kPeleg[] = {"k1", "n1", "k2", "n2"}, kABC[] = {"A", "B", "C"};
constexpr std::string_view kStandard = "ASAE D245.5 (1995)";

// M is moisture in % dry basis and t in °C there: constants are printed for those units.
constexpr IsothermModelInfo kModels[] = {
    {"GAB", "X = Xm C K aw / ((1 - K aw)(1 - K aw + C K aw))", kXmCK, false,
     "van den Berg & Bruin (1981) in Water Activity: Influences on Food Quality"},
    {"BET", "X = Xm C aw / ((1 - aw)(1 - aw + C aw))", kXmC, false,
     "Brunauer, Emmett & Teller (1938) J. Am. Chem. Soc. 60:309"},
    {"Oswin", "X = a (aw / (1 - aw))^b", kab, false, "Oswin (1946) J. Soc. Chem. Ind. 65:419"},
    {"Halsey", "aw = exp(-a / X^b)", kab, false, "Halsey (1948) J. Chem. Phys. 16:931"},
    {"Henderson", "1 - aw = exp(-a X^b)", kab, false, "Henderson (1952) Agric. Eng. 33:29"},
    {"Peleg", "X = k1 aw^n1 + k2 aw^n2", kPeleg, false, "Peleg (1993) J. Food Process Eng. 16:21"},
    {"modified Henderson", "1 - aw = exp(-A (t + C) M^B); M = 100 X, t in °C", kABC, true, kStandard},
    {"modified Chung-Pfost", "aw = exp(-A / (t + C) exp(-B M)); M = 100 X, t in °C", kABC, true, kStandard},
    {"modified Halsey", "aw = exp(-exp(A + B t) M^-C); M = 100 X, t in °C", kABC, true, kStandard},
    {"modified Oswin", "aw = 1 / (((A + B t) / M)^C + 1); M = 100 X, t in °C", kABC, true, kStandard},
};

void must_be_positive(double p) {
    if (!(p > 0))
        throw BadInput(arg::parameters, "holds {}, where this model needs a number above 0", {amount(p)});
}

constexpr double kNone = 2;  // for a water activity where there is none; the caller refuses

/// Parameters that passed the model's own conditions, and the temperature in °C where the model uses one.
struct Checked {
    std::span<const double> p;
    double t = 0;
};

Checked checked(IsothermModel model, std::span<const double> p, std::optional<Temperature> temp) {
    const IsothermModelInfo& about = info(model);
    if (p.size() != about.parameters.size())
        throw BadInput(arg::parameters, "must be as many numbers as this model has, {}",
                       {count(about.parameters.size())});
    for (const double value : p)
        if (!std::isfinite(value))
            throw BadInput(arg::parameters, "holds {}, which is no number", {amount(value)});
    Checked c{p};
    if (about.needs_temperature) {
        if (!temp) throw BadInput(arg::temp, "is missing: this model depends on temperature");
        c.t = to_si(*temp) - 273.15;
    }
    switch (model) {
        case IsothermModel::modified_halsey:
            must_be_positive(p[2]);
            break;
        case IsothermModel::modified_oswin:
            must_be_positive(p[2]);
            if (!(p[0] + p[1] * c.t > 0))
                throw OutOfRange(arg::temp, "makes A + B t of this model {}, which must be above 0",
                                 {amount(p[0] + p[1] * c.t)});
            break;
        case IsothermModel::modified_henderson:
        case IsothermModel::modified_chung_pfost:
            must_be_positive(p[0]);
            must_be_positive(p[1]);
            if (!(c.t + p[2] > 0))
                throw OutOfRange(arg::temp, "makes t + C of this model {}, which must be above 0",
                                 {amount(c.t + p[2])});
            break;
        default:
            for (const double value : p) must_be_positive(value);
    }
    return c;
}

/// The root 0 ≤ u < 1 of (C − 1) u² + b u − 1 = 0, with b = Xm C / X − (C − 2), by the form without
/// cancellation.
double gab_inverse(double X, double Xm, double C) {
    if (X == 0) return 0;
    const double b = Xm * C / X - (C - 2);
    const double root = std::sqrt(b * b + 4 * (C - 1));
    return b >= 0 ? 2 / (b + root) : (root - b) / (2 * (C - 1));
}

/// ln(X(aw)/X) over ln aw rises and is convex, so that Newton's steps from above do not overshoot.
double peleg_inverse(double X, std::span<const double> p) {
    if (X == 0) return 0;
    if (X >= p[0] + p[2]) return X == p[0] + p[2] ? 1 : kNone;
    const auto balance = [&](double u) {
        const double first = p[0] * std::exp(p[1] * u), second = p[2] * std::exp(p[3] * u);
        return std::pair(std::log((first + second) / X), (p[1] * first + p[3] * second) / (first + second));
    };
    // Where one term alone is X, and where each is no more than half of it.
    const double high = std::fmin(std::log(X / p[0]) / p[1], std::log(X / p[2]) / p[3]),
                 low = std::fmin(std::log(X / p[0] / 2) / p[1], std::log(X / p[2] / 2) / p[3]);
    return std::exp(newton_root(balance, high, low, high, 40, "moisture_db"));
}

double moisture(IsothermModel model, double aw, const Checked& c) {
    return detail::moisture(model, aw, c.t, c.p);
}

double activity_of(IsothermModel model, double X, const Checked& c) {
    const auto p = c.p;
    const double M = 100 * X;
    switch (model) {
        case IsothermModel::gab:
            return gab_inverse(X, p[0], p[1]) / p[2];
        case IsothermModel::bet:
            return gab_inverse(X, p[0], p[1]);
        case IsothermModel::oswin:
            return X == 0 ? 0 : 1 / (1 + std::pow(p[0] / X, 1 / p[1]));
        case IsothermModel::halsey:
            return std::exp(-p[0] * std::pow(X, -p[1]));
        case IsothermModel::henderson:
            return -std::expm1(-p[0] * std::pow(X, p[1]));
        case IsothermModel::modified_henderson:
            return -std::expm1(-p[0] * (c.t + p[2]) * std::pow(M, p[1]));
        case IsothermModel::modified_chung_pfost:
            return std::exp(-p[0] / (c.t + p[2]) * std::exp(-p[1] * M));
        case IsothermModel::modified_halsey:
            return std::exp(-std::exp(p[0] + p[1] * c.t) * std::pow(M, -p[2]));
        case IsothermModel::modified_oswin:
            return M == 0 ? 0 : 1 / (std::pow((p[0] + p[1] * c.t) / M, p[2]) + 1);
        case IsothermModel::peleg:
            return peleg_inverse(X, p);
    }
    return kNone;
}

}  // namespace

std::span<const IsothermModelInfo> isotherm_models() { return kModels; }
const IsothermModelInfo& info(IsothermModel model) { return kModels[static_cast<std::size_t>(model)]; }

MoistureDry equilibrium_moisture(IsothermModel model, WaterActivity activity,
                                 std::span<const double> parameters, std::optional<Temperature> temp) {
    const Checked c = checked(model, parameters, temp);
    const double aw = activity.value();
    const bool gab = model == IsothermModel::gab;
    if (gab && c.p[2] * aw >= 1)
        throw OutOfRange(arg::activity,
                         "is at or past {}, where GAB with these parameters has its pole (1/K)",
                         {amount(1 / c.p[2])});
    if (aw == 1 && !gab && model != IsothermModel::peleg)
        throw OutOfRange(arg::activity, "gives no finite moisture in this model");
    const double X = moisture(model, aw, c);
    if (!(X >= 0))  // only Chung–Pfost, which is below 0 near aw = 0
        throw OutOfRange(arg::activity, "is below {}, where this model gives a moisture of 0",
                         {amount(activity_of(model, 0, c))});
    if (!std::isfinite(X)) throw OutOfRange(arg::activity, "gives no finite moisture with these parameters");
    return MoistureDry(X);
}

WaterActivity water_activity(IsothermModel model, MoistureDry moisture_db, std::span<const double> parameters,
                             std::optional<Temperature> temp) {
    const Checked c = checked(model, parameters, temp);
    const double aw = activity_of(model, moisture_db.value(), c);
    if (!(aw <= 1))
        throw OutOfRange(arg::moisture_db,
                         "is above {}, the moisture of this isotherm at a water activity of 1",
                         {amount(MoistureDry(moisture(model, 1, c)))});
    return WaterActivity(aw);
}

SpecificEnergy isosteric_heat(WaterActivity activity1, Temperature temp1, WaterActivity activity2,
                              Temperature temp2) {
    constexpr double R = kMolarGasConstant, M = 18.015268e-3;  // kg/mol, IAPWS
    if (activity1.value() == 0) throw BadInput(arg::activity1, "must be above 0");
    if (activity2.value() == 0) throw BadInput(arg::activity2, "must be above 0");
    const double T1 = to_si(temp1), T2 = to_si(temp2);
    if (T1 == T2) throw BadInput(arg::temp2, "equals temp1: two different temperatures are needed");
    return from_si<SpecificEnergy>(R / M * std::log(activity2.value() / activity1.value()) /
                                   (1 / T1 - 1 / T2));
}

namespace {
constexpr GrowthBandInfo kBands[] = {
    {0.00, GrowthBand::none},
    {0.60, GrowthBand::osmophilic_yeasts},
    {0.65, GrowthBand::xerophilic_moulds},
    {0.75, GrowthBand::halophilic_bacteria},
    {0.80, GrowthBand::most_moulds},
    {0.87, GrowthBand::many_yeasts},
    {0.91, GrowthBand::many_bacteria},
    {0.95, GrowthBand::spoilage_bacteria},
};
}

std::span<const GrowthBandInfo> growth_bands() { return kBands; }

ActivityBand activity_band(WaterActivity activity) {
    const auto next = std::ranges::upper_bound(kBands, activity.value(), {}, &GrowthBandInfo::low);
    return {std::prev(next)->band, activity.value() > 0.85, activity.value() <= 0.25};
}

}  // namespace drysheet
