// SPDX-License-Identifier: MPL-2.0
#include "drysheet/units.hpp"

#include <algorithm>
#include <charconv>
#include <unordered_map>
#include <utility>
#include <vector>

#include "drysheet/quantity.hpp"

namespace drysheet {
namespace {

constexpr Dimension mass{1}, length{0, 1}, volume{0, 3}, time_{0, 0, 1}, kelvin{0, 0, 0, 1},
    mole{0, 0, 0, 0, 1}, money{0, 0, 0, 0, 0, 1}, pressure{1, -1, -2}, energy{1, 2, -2}, power{1, 2, -3},
    volume_flow{0, 3, -1}, none{};

constexpr std::string_view kSi = "SI Brochure 9th ed. (BIPM 2019)";
constexpr std::string_view kSp811 = "NIST SP 811 (2008) App. B";

// Factors are written as exact fractions so that "80 %" is 0.8 and "412.5 g" is 0.4125 kg to the last bit.
constexpr double kPound = 0.45359237, kFoot = 0.3048, kInch = 0.0254, kGallon = 231 * kInch * kInch * kInch;
constexpr double kGravity = 9.80665;
constexpr NamedUnit kVocabulary[] = {
    {"kg kilogram kilograms kilo kilos Kg KG", 1, 1, mass, kSi},
    {"g gram grams gm", 1, 1000, mass, kSi},
    {"mg milligram milligrams", 1, 1e6, mass, kSi},
    {"µg μg ug mcg microgram micrograms", 1, 1e9, mass, kSi},
    {"ng nanogram nanograms", 1, 1e12, mass, kSi},
    {"t tonne tonnes", 1000, 1, mass, kSi},
    {"lb lbs pound pounds", kPound, 1, mass, kSp811},
    {"oz ounce ounces", kPound, 16, mass, kSp811},
    {"grain grains", kPound, 7000, mass, kSp811},
    {"m metre metres meter meters", 1, 1, length, kSi},
    {"cm centimetre centimetres centimeter centimeters", 1, 100, length, kSi},
    {"mm millimetre millimetres millimeter millimeters", 1, 1000, length, kSi},
    {"µm μm um micron microns micrometre micrometer", 1, 1e6, length, kSi},
    {"nm nanometre nanometer", 1, 1e9, length, kSi},
    {"km", 1000, 1, length, kSi},
    {"in inch inches", kInch, 1, length, kSp811},
    {"ft foot feet", kFoot, 1, length, kSp811},
    {"yd yard yards", 3 * kFoot, 1, length, kSp811},
    {"L l litre litres liter liters", 1, 1000, volume, kSi},
    {"mL ml cc millilitre millilitres milliliter milliliters", 1, 1e6, volume, kSi},
    {"gal gallon gallons", kGallon, 1, volume, kSp811},
    {"s sec second seconds", 1, 1, time_, kSi},
    {"min minute minutes", 60, 1, time_, kSi},
    {"h hr hrs hour hours", 3600, 1, time_, kSi},
    {"d day days", 86400, 1, time_, kSi},
    {"week weeks", 604800, 1, time_, kSi},
    {"K kelvin kelvins", 1, 1, kelvin, kSi},
    {"°C ºC ℃ degC C celsius Celsius", 1, 1, kelvin, kSi, 273.15},
    {"°F ºF ℉ degF F fahrenheit Fahrenheit", 5, 9, kelvin, kSp811, 459.67 * 5 / 9},
    {"mol mole moles", 1, 1, mole, kSi},
    {"kmol", 1000, 1, mole, kSi},
    {"Pa pascal pascals", 1, 1, pressure, kSi},
    {"hPa", 100, 1, pressure, kSi},
    {"kPa KPa kpa", 1000, 1, pressure, kSi},
    {"MPa", 1e6, 1, pressure, kSi},
    {"bar", 1e5, 1, pressure, kSp811},
    {"mbar", 100, 1, pressure, kSp811},
    {"atm", 101325, 1, pressure, kSp811},
    {"psi psia", kPound* kGravity, kInch* kInch, pressure, kSp811},
    {"mmHg", 13.5951 * kGravity, 1, pressure, kSp811},
    {"Torr torr", 101325, 760, pressure, kSp811},
    {"inHg", 13595.1 * kGravity* kInch, 1, pressure, kSp811},
    {"J joule joules", 1, 1, energy, kSi},
    {"kJ KJ kj", 1000, 1, energy, kSi},
    {"MJ", 1e6, 1, energy, kSi},
    {"Wh", 3600, 1, energy, kSi},
    {"kWh kwh KWh KWH", 3.6e6, 1, energy, kSi},
    {"MWh", 3.6e9, 1, energy, kSi},
    {"Btu BTU btu", 1055.05585262, 1, energy, kSp811},
    {"kcal", 4186.8, 1, energy, kSp811},
    {"cal", 4.1868, 1, energy, kSp811},
    {"W watt watts", 1, 1, power, kSi},
    {"kW kw KW", 1000, 1, power, kSi},
    {"MW", 1e6, 1, power, kSi},
    {"hp HP", 550 * kFoot* kPound* kGravity, 1, power, kSp811},
    {"CFM cfm", kFoot* kFoot* kFoot, 60, volume_flow, kSp811},
    {"money", 1, 1, money, "the sheet's own currency"},
};

struct SmallText {
    std::string_view spelling;
    RatioForm form;
    double denominator;
};
constexpr SmallText kRatioNames[] = {{"%", RatioForm::percent, 100},
                                     {"percent", RatioForm::percent, 100},
                                     {"pct", RatioForm::percent, 100},
                                     {"fraction", RatioForm::fraction, 1},
                                     {"ppm", RatioForm::ppm, 1e6}};

using Names = std::unordered_map<std::string_view, const NamedUnit*>;
const Names& names() {
    static const Names all = [] {
        Names map;
        for (const NamedUnit& unit : kVocabulary) {
            std::string_view rest = unit.spellings;
            while (!rest.empty()) {
                const auto end = std::min(rest.find(' '), rest.size());
                map.emplace(rest.substr(0, end), &unit);
                rest.remove_prefix(std::min(end + 1, rest.size()));
            }
        }
        return map;
    }();
    return all;
}

bool ends_with_word(std::string_view text, std::string_view word) {
    return text.size() >= word.size() && text.substr(text.size() - word.size()) == word &&
           (text.size() == word.size() || text[text.size() - word.size() - 1] == ' ' ||
            text[text.size() - word.size() - 1] == '%');
}
std::string_view trimmed(std::string_view text) {
    while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
    while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
    return text;
}
bool take_suffix(std::string_view& text, std::string_view word) {
    if (!ends_with_word(text, word)) return false;
    text = trimmed(text.substr(0, text.size() - word.size()));
    return true;
}
bool take(std::string_view& text, std::string_view token) {
    if (!text.starts_with(token)) return false;
    text.remove_prefix(token.size());
    return true;
}
/// The first letter of a name: a letter, or one of the signs names are made of. Its length in bytes; 0: none.
std::size_t name_letter(std::string_view text) {
    const char c = text.empty() ? ' ' : text.front();
    if ((c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z')) return 1;
    for (const std::string_view sign : {"°", "º", "µ", "μ", "℃", "℉"})
        if (text.starts_with(sign)) return sign.size();
    return 0;
}

double power_of(double base, int n) {
    double result = 1;
    for (int i = 0; i < (n < 0 ? -n : n); ++i) result *= base;
    return result;
}

/// Names of two words made one.
std::string join_names(std::string_view text) {
    constexpr std::pair<std::string_view, std::string_view> kJoined[] = {
        {"deg C", "°C"},   {"deg F", "°F"},  {"° C", "°C"},    {"° F", "°F"},    {"mm Hg", "mmHg"},
        {"in Hg", "inHg"}, {"cu ft", "ft³"}, {"sq ft", "ft²"}, {"sq in", "in²"}, {"sq m", "m²"}};
    std::string joined(text);
    for (const auto& [two, one] : kJoined)
        if (const auto at = joined.find(two); at != std::string::npos) joined.replace(at, two.size(), one);
    return joined;
}

// unit    = factor { (product | "/") factor }      a product directly behind a quotient is refused
// factor  = "1" | ["100"] name [exponent] | "(" unit ")"
class UnitReader {
  public:
    explicit UnitReader(std::string_view text) : rest_(text) {}

    std::optional<Unit> whole() {
        Unit unit;
        if (!unit_into(unit, 1, 0) || !rest_.empty()) return std::nullopt;
        if (alone_ != nullptr && factors_ == 1) unit.offset = alone_->offset;
        return unit;
    }

  private:
    bool unit_into(Unit& unit, int sign, int depth) {
        if (depth > 4 || !factor_into(unit, sign, depth)) return false;
        bool divided = false;
        for (;;) {
            rest_ = trimmed(rest_);
            if (rest_.empty() || rest_.front() == ')') return true;
            if (take(rest_, "/") || take(rest_, "per ")) {
                divided = true;
                rest_ = trimmed(rest_);
                if (!factor_into(unit, -sign, depth)) return false;
            } else {
                if (divided) return false;
                (void)(take(rest_, "·") || take(rest_, "⋅") || take(rest_, "*") || take(rest_, "."));
                rest_ = trimmed(rest_);
                if (!factor_into(unit, sign, depth)) return false;
            }
        }
    }

    bool factor_into(Unit& unit, int sign, int depth) {
        if (take(rest_, "(")) {
            rest_ = trimmed(rest_);
            if (!unit_into(unit, sign, depth + 1) || !take(rest_, ")")) return false;
            return true;
        }
        if (rest_.starts_with("1/")) return take(rest_, "1");
        // Films are rated in g/(100 in²·day) and g/(m²·24h); above the solidus it is a number torn apart.
        for (const auto& [digits, number] : {std::pair("100", 100.0), std::pair("24", 24.0)}) {
            if (sign > 0 || !take(rest_, digits)) continue;
            unit.denominator *= number;
            rest_ = trimmed(rest_);
            break;
        }
        std::size_t end = 0;
        while (const std::size_t letter = name_letter(rest_.substr(end))) end += letter;
        const auto found = names().find(rest_.substr(0, end));
        if (found == names().end()) return false;
        rest_.remove_prefix(end);
        const auto exponent = exponent_here();
        if (!exponent) return false;
        if (++factors_ > kMostFactors) return false;
        if (factors_ == 1 && *exponent == 1 && sign == 1) alone_ = found->second;
        multiply(unit, *found->second, sign * *exponent);
        return true;
    }

    std::optional<int> exponent_here() {
        if (take(rest_, "²")) return 2;
        if (take(rest_, "³")) return 3;
        if (take(rest_, "⁻¹")) return -1;
        if (take(rest_, "⁻²")) return -2;
        if (take(rest_, "⁻³")) return -3;
        const bool marked = take(rest_, "^");
        int value = 1;
        const auto [end, failed] = std::from_chars(rest_.data(), rest_.data() + rest_.size(), value);
        if (failed != std::errc{}) return marked ? std::nullopt : std::optional(1);
        if (value == 0 || value > 3 || value < -3) return std::nullopt;
        rest_.remove_prefix(static_cast<std::size_t>(end - rest_.data()));
        return value;
    }

    static void multiply(Unit& unit, const NamedUnit& by, int exponent) {
        const double up = power_of(by.numerator, exponent), down = power_of(by.denominator, exponent);
        unit.numerator *= exponent > 0 ? up : down;
        unit.denominator *= exponent > 0 ? down : up;
        for (std::size_t i = 0; i < unit.dimension.size(); ++i)
            unit.dimension[i] = static_cast<std::int8_t>(unit.dimension[i] + exponent * by.dimension[i]);
    }

    static constexpr int kMostFactors = 8;  // keeps every exponent within its eight bits
    std::string_view rest_;
    const NamedUnit* alone_ = nullptr;
    int factors_ = 0;
};

}  // namespace

std::span<const NamedUnit> vocabulary() { return kVocabulary; }

std::optional<Unit> read_unit(std::string_view text) {
    text = trimmed(text);
    std::string joined;
    if (text.find(' ') != std::string_view::npos) text = joined = join_names(text);
    Unit unit;
    for (const std::string_view word : {"wb", "WB", "w.b.", "(wb)", "(w.b.)", "wet basis"})
        if (take_suffix(text, word)) unit.basis = Basis::wet;
    if (unit.basis == Basis::unsaid)
        for (const std::string_view word : {"db", "DB", "d.b.", "(db)", "(d.b.)", "dry basis"})
            if (take_suffix(text, word)) unit.basis = Basis::dry;
    for (const std::string_view word : {"RH", "rh", "r.h."})
        if (take_suffix(text, word)) unit.humidity = true;
    for (const std::string_view word : {"dry air", "da"})
        if (take_suffix(text, word)) unit.dry_air = true;
    if (text.empty()) return unit;
    for (const SmallText& ratio : kRatioNames)
        if (text == ratio.spelling) {
            unit.form = ratio.form;
            unit.denominator = ratio.denominator;
            return unit;
        }
    auto read = UnitReader(text).whole();
    if (!read) return std::nullopt;
    if (read->dimension == none) read->form = RatioForm::mass_ratio;
    read->basis = unit.basis;
    read->humidity = unit.humidity;
    read->dry_air = unit.dry_air;
    return read;
}

const Unit& default_unit(Kind kind) {
    static const auto all = [] {
        std::array<Unit, kKinds.size()> units;
        for (const KindRow& row : kKinds)
            units[static_cast<std::size_t>(row.kind)] = read_unit(row.default_unit).value();
        return units;
    }();
    return all[static_cast<std::size_t>(kind)];
}

bool fits(const Unit& unit, Kind kind) {
    if (unit.humidity && kind != Kind::relative_humidity) return false;
    if (unit.dry_air && kind != Kind::humidity_ratio && kind != Kind::specific_energy &&
        kind != Kind::specific_volume)
        return false;
    if (unit.basis != Basis::unsaid && kind != Kind::moisture_wet && kind != Kind::moisture_dry) return false;
    const Forms forms = row_of(kind).forms;
    if (forms == Forms::with_dimension) return unit.dimension == default_unit(kind).dimension;
    if (unit.dimension != none) return false;
    switch (forms) {
        case Forms::bare:
            return unit.form == RatioForm::none;
        case Forms::share:
            return unit.form != RatioForm::mass_ratio;
        case Forms::share_or_on_basis:
            return unit.form != RatioForm::mass_ratio || unit.basis != Basis::unsaid;
        case Forms::mass_ratio:
            return unit.form != RatioForm::percent && unit.form != RatioForm::ppm;
        case Forms::with_dimension:
        case Forms::any:
            break;
    }
    return true;
}

}  // namespace drysheet
