// SPDX-License-Identifier: MPL-2.0
#include "addin/workbook/carry.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "addin/call/call.hpp"
#include "addin/call/lookup.hpp"
#include "addin/text/words.hpp"
#include "addin/workbook/compute.hpp"
#include "addin/workbook/formula.hpp"

namespace drysheet::workbook {
namespace {

using What = Formula::What;
using State = Carried::State;

constexpr Dimension kNone{}, kKelvin{0, 0, 0, 1}, kMass{1}, kTime{0, 0, 1};
constexpr std::size_t kMostScales = 24;
constexpr std::size_t kMostCells = 100;  // of a range that are looked at

bool near(double a, double b) { return std::abs(a - b) <= 2e-3 * std::abs(b); }
bool holds(const std::vector<double>& scales, double scale) {
    return std::ranges::any_of(scales, [scale](double x) { return near(x, scale); });
}

bool near_factor(double c, double known) {
    return std::abs(c / known - 1) < 5e-4 || std::abs(c * known - 1) < 5e-4;
}

// Numbers that usually convert: powers of ten, and those between units of time, energy, mass, length.
bool converts(double c) {
    if (!(c > 0)) return false;
    const double power = std::log10(c);
    if (std::abs(power - std::round(power)) < 1e-9 && std::abs(power) <= 9) return true;
    for (const double known :
         {60.0, 24.0, 3600.0, 1440.0, 86400.0, 7.0, 168.0, 4.1868, 6.894757, 101.325, 1.8})
        if (near_factor(c, known)) return true;
    return is_unit_factor(c);
}
bool small_count(double c) { return c >= 2 && c <= 50 && std::abs(c - std::round(c)) < 1e-12; }

Dimension times(const Dimension& a, const Dimension& b, int power) {
    Dimension made{};
    for (std::size_t i = 0; i < made.size(); ++i) made[i] = static_cast<std::int8_t>(a[i] + power * b[i]);
    return made;
}

void add_places(std::vector<Place>& to, const std::vector<Place>& more) {
    for (const Place& place : more)
        if (to.size() < 4 && std::ranges::find(to, place) == to.end()) to.push_back(place);
}

// Two cells of one column, as a rule.
bool alike(const Carried& a, const Carried& b) {
    return a.dimension == b.dimension && a.kind == b.kind && a.basis == b.basis && a.weak == b.weak &&
           a.text == b.text && a.scales == b.scales;
}

Carried a_number(double x) { return {.state = State::number, .number = x}; }

bool is_share(const Carried& x) { return x.known() && x.dimension == kNone; }

double scale_of(const Unit& unit) { return unit.numerator / unit.denominator; }

Carried by_label(const Meaning& meaning, const Place& place) {
    Carried made{.kind = meaning.kind, .basis = meaning.basis, .says = meaning.says, .from = {place}};
    if (meaning.unit) {
        made.state = State::known;
        made.dimension = meaning.unit->dimension;
        made.scales = {scale_of(*meaning.unit)};
        made.exact = meaning.unit;
        made.of_percent = meaning.percent_format;
        if (meaning.unit_by_value) {
            made.scales.clear();
            made.weak = true;
        }
        // a price in EUR may be for a kilogram
        if (!meaning.contradiction.empty() || made.dimension == Dimension{0, 0, 0, 0, 0, 1}) made.weak = true;
    } else if (meaning.kind) {
        made.state = State::known;
        made.dimension = default_unit(*meaning.kind).dimension;
        // "after heater", "fan" alone name things as often as amounts
        static constexpr std::array<Kind, 5> plain{Kind::mass, Kind::time, Kind::temperature, Kind::pressure,
                                                   Kind::area};
        made.weak = std::ranges::find(plain, *meaning.kind) == plain.end();
    } else if (meaning.has(Say::count)) {
        made.state = State::known;
        made.scales = {1};
        made.weak = made.counted = true;
    }
    return made;
}

}  // namespace

bool is_unit_factor(double x) {
    return std::ranges::any_of(
        std::to_array({3.6, 453.59237, 28.349523, 2.54, 25.4, 0.3048, 30.48, 3.785411784, 28.3168, 3.412}),
        [x](double known) { return near_factor(x, known) || near_factor(x, known / 1000); });
}

std::string unit_name(const Dimension& dimension, double scale) {
    static const auto names = [] {
        std::vector<std::pair<std::string_view, Unit>> made;
        for (const std::string_view name :
             {"kg",       "g",        "mg",     "t",        "lb",      "h",         "min",       "s",
              "d",        "fraction", "%",      "kg/h",     "g/h",     "g/min",     "kg/min",    "kg/s",
              "kg/d",     "g/s",      "kg/m²",  "g/m²",     "kJ",      "kWh",       "MJ",        "J",
              "Wh",       "kW",       "W",      "kJ/h",     "kJ/kg",   "kWh/kg",    "MJ/kg",     "J/g",
              "m²",       "cm²",      "m³",     "L",        "mL",      "m",         "mm",        "cm",
              "m³/h",     "m³/s",     "m³/min", "L/min",    "kg/m³",   "kg/L",      "g/L",       "kg/(m²·h)",
              "g/(m²·h)", "1/h",      "1/min",  "h/kg",     "m³/kg",   "kPa",       "Pa",        "°C",
              "m/s",      "mm/h",     "money",  "money/kg", "money/h", "money/kWh", "kJ/(kg·K)", "kg·h",
              "kg²",      "1/kg",     "kg·m²",  "h²",       "kg·°C"})
            if (const auto unit = read_unit(name)) made.emplace_back(name, *unit);
        return made;
    }();
    for (const auto& [name, unit] : names)
        if (unit.dimension == dimension && near(scale_of(unit), scale)) return std::string(name);
    return {};
}

namespace {

Sentence named(const Carried& x) {
    if (x.exact && x.exact->dimension == kKelvin)
        return x.exact->offset > 400 || near(scale_of(*x.exact), 1.0) ? "°C" : "°F";
    if (!x.scales.empty())
        for (const double scale : x.scales)
            if (auto name = unit_name(x.dimension, scale); !name.empty())
                return name == "fraction" ? Sentence("a plain fraction") : as_it_is(std::move(name));
    for (const KindRow& row : kKinds)
        if (row.forms == Forms::with_dimension && default_unit(row.kind).dimension == x.dimension)
            return {"a {}", {Sentence(row.name)}};
    return x.dimension == kNone ? "a share" : "another unit";
}

Sentence a_kind(Kind kind) {
    switch (kind) {
        case Kind::moisture_wet:
            return "a moisture on the wet basis";
        case Kind::moisture_dry:
            return "a moisture on the dry basis";
        case Kind::relative_humidity:
            return "a relative humidity";
        case Kind::water_activity:
            return "a water activity";
        case Kind::humidity_ratio:
            return "a humidity ratio";
        default:
            return {"a {}", {Sentence(row_of(kind).name)}};
    }
}

Sentence::Part factor_in_words(double factor) { return {factor, {}, 4}; }

// What is done with two values, as a form for both; turned: the second is said first.
struct Deed {
    std::string_view form{};
    bool turned = false;
};

}  // namespace

// One formula, from its leaves up.
class Carrier::Walk {
  public:
    Walk(Carrier& carrier, const Place& at, std::vector<Clash>* clashes)
        : carrier_(carrier), at_(at), clashes_(clashes) {}

    Carried of(const Formula& f) {
        switch (f.what) {
            case What::number:
            case What::truth:
                return a_number(f.number);
            case What::cell:
                return f.from.gone || !f.from.file.empty() ? Carried{} : carrier_.of(f.from.cell);
            case What::range:
                return joined_range(f, "");
            case What::name:
                if (const Formula* means = meaning(carrier_.picture_, f); means != nullptr && depth_ < 30) {
                    ++depth_;
                    Carried made = of(*means);
                    --depth_;
                    return made;
                }
                return {};
            case What::operation:
                return f.parts.size() == 1 ? one(f) : f.parts.size() == 2 ? two(f) : Carried{};
            case What::call:
                return call(f);
            default:
                return {};
        }
    }

  private:
    void clash(Verdict verdict, const Sentence& why, const std::vector<Place>& cells) const {
        if (clashes_ != nullptr)
            clashes_->push_back({verdict, carrier_.picture_.say(why), carrier_.said_of(cells, at_)});
    }
    std::string name(const Carried& x) const {
        return x.from.size() == 1 ? carrier_.name_of(x.from.front(), at_) : std::string();
    }
    Sentence what(const Carried& x) const {
        const std::string cell = name(x);
        return cell.empty() ? named(x) : Sentence("{} ({})", {named(x), cell});
    }

    // ---- operators

    Carried scaled(Carried x, double c, bool divide) const {  // x·c or x/c
        if (c < 0) c = -c;
        if (x.of_percent && x.dimension != kNone && near(divide ? c : 1 / c, 100)) {
            clash(Verdict::wrong,
                  "a percentage is divided by 100 twice: what is shown as per cent is a fraction already",
                  x.from);
            return {};
        }
        x.exact.reset();
        if (std::abs(c - 1) < 1e-12) return x;
        const double factor = divide ? 1 / c : c;
        if (converts(c)) {
            const bool share = x.dimension == kNone && (near(c, 100) || near(c, 0.01));
            std::vector<double> more;
            for (const double scale : x.scales) {
                if (!share) more.push_back(scale);
                more.push_back(scale / factor);
            }
            if (share && x.weak) x.kind.reset();
            x.scales = more.size() > kMostScales ? std::vector<double>{} : more;
            return x;
        }
        if (!small_count(c)) return {};
        x.weak = true;
        x.kind.reset();
        return x;
    }

    Carried product(const Carried& a, const Carried& b, bool divide) const {
        if (a.state == State::unknown || b.state == State::unknown) return {};
        if (a.state == State::number && b.state == State::number)
            return a_number(divide ? a.number / b.number : a.number * b.number);
        if (b.state == State::number) return scaled(a, b.number, divide);
        if (a.state == State::number) {
            if (!divide) return scaled(b, a.number, false);
            Carried inverse = b;
            inverse.dimension = times(kNone, b.dimension, -1);
            for (double& scale : inverse.scales) scale = 1 / scale;
            inverse.kind.reset();
            inverse.exact.reset();
            inverse.basis = Basis::unsaid;
            return scaled(inverse, a.number, false);
        }
        Carried made{.state = State::known,
                     .dimension = times(a.dimension, b.dimension, divide ? -1 : 1),
                     .weak = (a.weak && !a.counted) || (b.weak && !b.counted) || (a.counted && b.counted),
                     .counted = a.counted || b.counted,
                     .of_percent = (a.of_percent || b.of_percent) && !divide,
                     .from = a.from};
        for (const double x : a.scales)
            for (const double y : b.scales) made.scales.push_back(divide ? x / y : x * y);
        if (made.scales.size() > kMostScales) made.scales.clear();
        add_places(made.from, b.from);
        return made;
    }

    Carried sum(const Carried& a, const Carried& b, const std::string& sign) {
        if (a.state == State::number && b.state == State::number)
            return a_number(sign == "-" ? a.number - b.number : a.number + b.number);
        if (!a.known() && !b.known()) return {};
        if (a.state == State::number || b.state == State::number) return with_number(a, b, sign);
        if (!a.known() || !b.known()) {
            Carried made = a.known() ? a : b;
            made.weak = true;
            made.exact.reset();
            return made;
        }
        return met(a, b, {sign == "-" ? "it takes {} from {}" : "it adds {} to {}", true});
    }

    // Two values that must have one unit.
    Carried met(const Carried& a, const Carried& b, const Deed& deed) {
        const auto clash_of = [&](std::string_view form, const std::vector<Place>& cells) {
            const Carried &first = deed.turned ? b : a, &second = deed.turned ? a : b;
            clash(Verdict::wrong, {form, {Sentence(deed.form, {what(first), what(second)})}}, cells);
        };
        Carried made = a;
        made.exact.reset();
        made.weak = a.weak || b.weak;
        made.counted = a.counted || b.counted;
        add_places(made.from, b.from);
        made.says.reset();
        if (a.kind != b.kind) made.kind.reset();
        if (a.basis != b.basis) {
            if (a.basis != Basis::unsaid && b.basis != Basis::unsaid && !made.weak &&
                (a.kind == Kind::moisture_wet || a.kind == Kind::moisture_dry) &&
                (b.kind == Kind::moisture_wet || b.kind == Kind::moisture_dry)) {
                clash_of("{}: a moisture on the wet basis and one on the dry basis cannot meet", made.from);
                return {};
            }
            made.basis = Basis::unsaid;
        }
        if (a.dimension != b.dimension) {
            if (a.dimension[5] == 0 && b.dimension[5] == 0)
                if (!made.weak) clash_of("{}: these cannot meet", made.from);
            return {};
        }
        if (a.scales.empty() || b.scales.empty()) {
            if (made.scales.empty()) made.scales = b.scales;
            return made;
        }
        made.scales.clear();
        for (const double x : a.scales)
            if (holds(b.scales, x)) made.scales.push_back(x);
        if (!made.scales.empty()) return made;
        if (!made.weak) clash_of("{}: one must be converted first", made.from);
        return {};
    }

    Carried with_number(const Carried& a, const Carried& b, const std::string& sign) {
        const bool first = a.state == State::number;
        const double c = first ? a.number : b.number;
        Carried x = first ? b : a;
        const bool minus = sign == "-";
        x.exact.reset();
        if (is_share(x)) {
            const bool percent = x.scales.size() == 1 && near(x.scales[0], 0.01),
                       fraction = x.scales.size() == 1 && near(x.scales[0], 1);
            static constexpr std::array<Kind, 4> shares{Kind::moisture_wet, Kind::fraction,
                                                        Kind::relative_humidity, Kind::water_activity};
            const bool share = x.kind && std::ranges::find(shares, *x.kind) != shares.end();
            if (near(c, 1)) {
                if (percent && !x.weak && share && minus) {
                    clash(Verdict::wrong,
                          {first ? "1 − a percentage: {} is in per cent, so 100 stands for the whole"
                                 : "a percentage − 1: {} is in per cent, so 100 stands for the whole",
                           {what(x)}},
                          x.from);
                    return {};
                }
                if (!x.scales.empty() || share) x.scales = {1};
            } else if (near(c, 100)) {
                if (fraction && !x.weak && share && minus) {
                    clash(Verdict::wrong,
                          {first ? "100 − a fraction: {} is a fraction of 1, so 1 stands for the whole"
                                 : "a fraction − 100: {} is a fraction of 1, so 1 stands for the whole",
                           {what(x)}},
                          x.from);
                    return {};
                }
                if (!x.scales.empty() || share) x.scales = {0.01};
            } else {
                x.weak = true;
            }
            if (minus && first && x.kind == Kind::moisture_dry && x.basis == Basis::dry && !x.weak) {
                clash(Verdict::doubtful,
                      {"{} − a moisture on the dry basis, {}, is no share of dry solids: that would be 1 ÷ "
                       "(1 + it)",
                       {{c, {}, 4}, what(x)}},
                      x.from);
                return {};
            }
            if (minus || near(c, 1) || near(c, 100)) {
                x.kind = x.kind == Kind::moisture_dry ? std::optional<Kind>() : Kind::fraction;
                x.basis = Basis::unsaid;
            }
            x.says.reset();
            return x;
        }
        if (x.dimension == kKelvin) {
            x.scales.clear();
            return x;
        }
        x.weak = true;
        return x;
    }

    Carried power(const Carried& a, const Carried& b) {
        if (b.state != State::number) return {};
        if (a.state == State::number) return a_number(std::pow(a.number, b.number));
        if (!a.known()) return {};
        const double twice = 2 * b.number;
        if (std::abs(twice - std::round(twice)) > 1e-9 || std::abs(b.number) > 4) return {};
        Carried made{.state = State::known, .weak = a.weak, .from = a.from};
        for (std::size_t i = 0; i < made.dimension.size(); ++i) {
            const int exponent = a.dimension[i] * static_cast<int>(std::lround(twice));
            if (exponent % 2 != 0) return {};
            made.dimension[i] = static_cast<std::int8_t>(exponent / 2);
        }
        for (const double scale : a.scales) made.scales.push_back(std::pow(scale, b.number));
        return made;
    }

    Carried one(const Formula& f) {
        Carried x = of(f.parts[0]);
        if (f.text == "%")
            return x.state == State::number ? a_number(x.number / 100) : x.known() ? scaled(x, 100, true) : x;
        if (f.text == "-") {
            if (x.state == State::number) x.number = -x.number;
            x.kind.reset();
        }
        return x;
    }

    Carried two(const Formula& f) {
        if (f.text == "&") return joined_text(f);
        const Carried a = of(f.parts[0]), b = of(f.parts[1]);
        if (f.text == "+" || f.text == "-") return sum(a, b, f.text);
        if (f.text == "*" || f.text == "/") return product(a, b, f.text == "/");
        if (f.text == "^") return power(a, b);
        return {};
    }

    // B5 & " kg": a quantity with the unit that is joined on.
    Carried joined_text(const Formula& f) {
        Carried left = of(f.parts[0]);
        const auto right = compute(f.parts[1], at_, carrier_.picture_);
        if (!right || right->fault || right->value.form != Input::Form::text) return {};
        std::string text(trimmed(right->value.text));
        if (text.empty()) {
            if (!left.known()) left = {.from = left.from};
            left.text = true;
            return left;
        }
        const Label label = read_label(text);
        if (!label.unit) return {};
        if (left.known() && !left.weak && left.exact) {
            const Unit& is = *left.exact;
            const bool same = is.dimension == label.unit->dimension &&
                              near(scale_of(is), scale_of(*label.unit)) &&
                              std::abs(is.offset - label.unit->offset) < 1e-6;
            if (!same) {
                clash(Verdict::wrong,
                      {label.unit->form == RatioForm::percent && is.form == RatioForm::fraction
                           ? "it joins {} to {}: the number is a fraction already, the % is taken twice"
                           : "it joins {} to {}",
                       {text, what(left)}},
                      left.from);
                return {};
            }
        }
        const Basis basis = label.unit->basis != Basis::unsaid ? label.unit->basis : left.basis;
        if (label.unit->basis != Basis::unsaid && left.basis != Basis::unsaid &&
            label.unit->basis != left.basis) {
            clash(Verdict::wrong, {"it joins {} to {}, whose label says the other basis", {text, name(left)}},
                  left.from);
            return {};
        }
        return {.state = State::known,
                .dimension = label.unit->dimension,
                .scales = {scale_of(*label.unit)},
                .weak = false,
                .kind = left.kind,
                .basis = basis,
                .exact = label.unit,
                .text = true,
                .says = left.says,
                .from = left.from};
    }

    // ---- functions

    Carried joined_range(const Formula& f, std::string_view deed) {
        Carried made;
        bool begun = false;
        for (const Place& place : filled_cells(carrier_.picture_, f.from, f.to, kMostCells)) {
            const Cell* cell = carrier_.picture_.at(place);
            if (cell == nullptr || !(std::holds_alternative<double>(cell->value))) {
                if (cell == nullptr || carrier_.labels_.at(place).empty()) continue;
            }
            Carried next = carrier_.of(place);
            if (!begun) {
                made = std::move(next);
                begun = true;
            } else if (next.known() && made.known() && alike(next, made)) {
                add_places(made.from, next.from);
                made.says &= next.says;
            } else if (next.known() && made.known()) {
                if (deed.empty()) {
                    if (made.dimension != next.dimension) return {};
                    const auto exact = made.exact;
                    const Says says = made.says & next.says;
                    std::vector<Clash>* const quiet = std::exchange(clashes_, nullptr);
                    made = met(made, next, {});
                    clashes_ = quiet;
                    made.exact = exact;
                    made.says = says;
                } else {
                    made = met(made, next, {deed});
                }
                if (!made.known()) return made;
            } else if (!next.known()) {
                made.weak = true;
            }
        }
        return made;
    }

    Carried all_of(const Formula& f, std::string_view deed) {
        Carried made;
        bool begun = false;
        for (const Formula& part : f.parts) {
            Carried next = part.what == What::range ? joined_range(part, deed) : of(part);
            if (!begun) {
                made = std::move(next);
                begun = true;
                continue;
            }
            if (made.state == State::number) {  // MAX(0; B2)
                made = std::move(next);
            } else if (next.known() && made.known()) {
                made = met(made, next, {deed});
                if (!made.known()) return made;
            } else if (next.state == State::unknown && made.known()) {
                made.weak = true;
            }
        }
        if (f.parts.size() > 1 || (!f.parts.empty() && f.parts[0].what == What::range)) made.exact.reset();
        return made;
    }

    Carried call(const Formula& f) {
        const std::string& name = f.text;
        if (name.starts_with("DRY.")) return ours(f);
        if (name == "SUM") return all_of(f, "it adds up {} and {}");
        if (name == "AVERAGE" || name == "MEDIAN") return all_of(f, "it takes the mean of {} and {}");
        if (name == "MIN" || name == "MAX") return all_of(f, "it compares {} and {}");
        if (name == "STDEV" || name == "STDEV.S" || name == "STDEV.P")
            return all_of(f, "it compares {} and {}");
        if (f.parts.empty()) return name == "PI" ? a_number(std::acos(-1.0)) : Carried{};
        if (name == "ROUND" || name == "ROUNDUP" || name == "ROUNDDOWN" || name == "ABS" || name == "TRUNC" ||
            name == "INT" || name == "CEILING" || name == "FLOOR" || name == "IFERROR" || name == "N" ||
            name == "VALUE" || name == "INDEX") {
            Carried made = of(f.parts[0]);
            for (std::size_t i = 1; i < f.parts.size(); ++i) (void)of(f.parts[i]);
            return made;
        }
        if (name == "IF") {
            (void)of(f.parts[0]);
            Carried made;
            for (std::size_t i = 1; i < f.parts.size(); ++i) {
                const Carried next = of(f.parts[i]);
                if (!next.known()) continue;
                if (!made.known()) {
                    made = next;
                    continue;
                }
                std::vector<Clash>* const quiet = std::exchange(clashes_, nullptr);
                made = met(made, next, {});
                clashes_ = quiet;
                if (!made.known()) return {};
            }
            return made;
        }
        if (name == "SQRT") return power(of(f.parts[0]), a_number(0.5));
        if (name == "POWER" && f.parts.size() == 2) return power(of(f.parts[0]), of(f.parts[1]));
        if (name == "PRODUCT" || name == "SUMPRODUCT") {
            Carried made = of(f.parts[0]);
            for (std::size_t i = 1; i < f.parts.size(); ++i) made = product(made, of(f.parts[i]), false);
            return name == "PRODUCT" && f.parts[0].what == What::range ? Carried{} : made;
        }
        if (name == "COUNT" || name == "COUNTA" || name == "COUNTIF")
            return {.state = State::known, .scales = {1}, .weak = true};
        for (const Formula& part : f.parts) (void)of(part);
        return {};
    }

    // ---- our functions

    Carried ours(const Formula& f) {
        const Function* function = find_function(f.text);
        if (function == nullptr || function->raw || function->params.empty()) {
            if (f.text == "DRY.PICK")  // of another call; not IN and WHY, which take text as it was typed
                for (const Formula& part : f.parts) (void)of(part);
            if (function != nullptr && function->unit_argument && *function->unit_argument < f.parts.size())
                return in_unit(f.parts[*function->unit_argument]);
            return {};
        }
        std::vector<Carried> masses;
        bool mass_in_text = false, all_known = true;
        for (std::size_t i = 0; i < f.parts.size(); ++i) {
            const Parameter& param = parameter_at(*function, i);
            if (param.shape != Shape::scalar && param.shape != Shape::column) continue;
            const Carried given = of(f.parts[i]);
            all_known = all_known && (given.known() || param.kind != Kind::mass);
            if (!given.known()) continue;
            const auto argument = [&] {
                return Sentence("{} takes {} as {}", {f.text, what(given), param.name});
            };
            if (f.parts[i].what == What::cell)
                carrier_.uses_[f.parts[i].from.cell].push_back(
                    {param.kind, at_, f.text + ": " + std::string(param.name)});
            if (!fits_kind(*function, param, given, argument)) continue;
            if (given.text) {
                mass_in_text = mass_in_text || param.kind == Kind::mass;
                continue;
            }
            if (param.kind == Kind::mass && function->mass_in_a_unit.empty())
                masses.push_back(given);
            else
                scale_fits(param, given, argument);
        }
        std::optional<double> scale;  // of a mass that comes out
        if (!masses.empty() && !mass_in_text) {
            const auto firm = [](const Carried& mass) { return !mass.weak && mass.scales.size() == 1; };
            const auto other = std::ranges::find_if(masses, [&](const Carried& mass) {
                return firm(mass) && firm(masses[0]) && !near(mass.scales[0], masses[0].scales[0]);
            });
            if (other != masses.end()) {
                scale = in_any_unit(*function, f);
                if (!scale) {
                    std::vector<Place> cells = masses[0].from;
                    add_places(cells, other->from);
                    clash(Verdict::wrong,
                          {"{} takes {} and {}, plain numbers of one unit are wanted",
                           {f.text, what(masses[0]), what(*other)}},
                          cells);
                    return {};
                }
            } else if (all_known && std::ranges::all_of(masses, firm)) {
                scale = masses[0].scales[0];
            }
        }
        return result(*function, masses, mass_in_text, scale);
    }

    Carried in_unit(const Formula& f) {
        const auto text = compute(f, at_, carrier_.picture_);
        const auto unit = text && !text->fault && text->value.form == Input::Form::text
                              ? read_unit(text->value.text)
                              : std::nullopt;
        if (!unit) return {};
        return {.state = State::known,
                .dimension = unit->dimension,
                .scales = {scale_of(*unit)},
                .basis = unit->basis};
    }

    template <class Argument>
    bool fits_kind(const Function& function, const Parameter& param, const Carried& given,
                   const Argument& argument) {
        const Dimension wanted = default_unit(param.kind).dimension;
        if (given.dimension != wanted) {
            if (param.kind != Kind::number && !(given.weak && given.dimension == kNone) &&
                given.dimension[5] == 0)
                clash(Verdict::wrong, {"{}, where {} is wanted", {argument(), a_kind(param.kind)}},
                      given.from);
            return false;
        }
        if (wanted == kNone && given.kind) {
            const Kind kind = *given.kind;
            const auto one_of = [](Kind what, std::initializer_list<Kind> kinds) {
                return std::ranges::find(kinds, what) != kinds.end();
            };
            const bool moisture = one_of(kind, {Kind::moisture_wet, Kind::moisture_dry});
            bool other = false;
            if (param.kind == Kind::moisture_wet)
                other = (kind == Kind::moisture_dry && given.basis == Basis::dry && !given.text) ||
                        one_of(kind, {Kind::water_activity, Kind::relative_humidity, Kind::humidity_ratio});
            if (param.kind == Kind::moisture_dry)
                other = (kind == Kind::moisture_wet && given.basis == Basis::wet && !given.text) ||
                        one_of(kind, {Kind::water_activity, Kind::relative_humidity, Kind::humidity_ratio});
            if (param.kind == Kind::water_activity) other = moisture;
            if (param.kind == Kind::relative_humidity) other = moisture || kind == Kind::humidity_ratio;
            if (param.kind == Kind::humidity_ratio) other = moisture || kind == Kind::relative_humidity;
            if (other) {
                clash(Verdict::wrong,
                      {"{}: its label says {}, and {} is wanted",
                       {argument(), a_kind(kind), a_kind(param.kind)}},
                      given.from);
                return false;
            }
            if (kind == Kind::fraction && says(given, Say::dry_matter) &&
                one_of(param.kind, {Kind::moisture_wet, Kind::moisture_dry})) {
                clash(Verdict::wrong,
                      {"{}: its label says dry matter, and {} is wanted", {argument(), a_kind(param.kind)}},
                      given.from);
                return false;
            }
        }
        static constexpr std::array<std::string_view, 8> net{
            "fresh", "dried", "mass", "masses", "test_fresh", "test_dried", "batch_fresh", "solids"};
        if (param.kind == Kind::mass && says(given, Say::gross) && !says(given, Say::net) &&
            std::ranges::find(net, param.name) != net.end() && function.name != "OVENMOISTURE") {
            clash(Verdict::wrong, {"{}: its label says gross, so the tare is still in it", {argument()}},
                  given.from);
            return false;
        }
        return true;
    }
    static bool says(const Carried& x, Say say) { return x.says[static_cast<std::size_t>(say)]; }

    template <class Argument>
    void scale_fits(const Parameter& param, const Carried& given, const Argument& argument) {
        if (given.weak) return;
        const Unit& wanted = param.read_in;
        const Sentence unit =
            param.shown_unit.empty() ? Sentence("a plain number") : Sentence("{}", {param.shown_unit});
        if (wanted.dimension == kKelvin) {
            if (param.kind == Kind::temperature && given.exact &&
                std::abs(given.exact->offset - wanted.offset) > 1)
                clash(Verdict::wrong, {"{}, and reads it as {}", {argument(), unit}}, given.from);
            return;
        }
        if (given.scales.empty() || holds(given.scales, scale_of(wanted)) || param.kind == Kind::number)
            return;
        const bool clock = wanted.dimension == kTime && !given.from.empty() &&
                           carrier_.labels_.at(given.from.front()).clock_format;
        clash(Verdict::wrong,
              {clock ? "{}, shown as a clock time: its number is in days, and is read as {}"
                     : "{}, and reads it as {}",
               {argument(), unit}},
              given.from);
    }

    // Masses of two units may still be right, where only their ratios count (a test in g, a batch in kg): the
    // same comes out with all of them in grams. The scale of a mass that comes out; nothing where it differs.
    std::optional<double> in_any_unit(const Function& function, const Formula& f) {
        std::vector<Input> plain, grams;
        std::vector<double> scales;
        for (std::size_t i = 0; i < f.parts.size(); ++i) {
            const auto given = compute_whole(f.parts[i], at_, carrier_.picture_);
            if (!given || given->fault) return {};
            plain.push_back(given->value);
            grams.push_back(given->value);
            if (parameter_at(function, i).kind != Kind::mass) continue;
            const Carried mass = of(f.parts[i]);
            if (mass.weak || mass.scales.size() != 1 || given->value.form != Input::Form::number) return {};
            scales.push_back(mass.scales[0]);
            grams.back().number *= 1000 * mass.scales[0];
        }
        try {
            const Reading reading = carrier_.picture_.reading();
            const Outcome as_given = evaluate(function, plain, reading),
                          as_grams = evaluate(function, grams, reading);
            if (!std::holds_alternative<double>(as_given) || !std::holds_alternative<double>(as_grams))
                return {};
            const double ratio = std::get<double>(as_grams) / std::get<double>(as_given) / 1000;
            if (function.result_unit != "g") return near(1000 * ratio, 1) ? std::optional(1.0) : std::nullopt;
            for (const double scale : scales)
                if (near(ratio, scale)) return scale;
        } catch (const Refusal&) {
        }
        return {};
    }

    static Carried result(const Function& function, const std::vector<Carried>& masses, bool mass_in_text,
                          std::optional<double> scale) {
        if (!function.scalar) return {};
        Carried made{.state = State::known};
        const auto unit =
            function.result_unit.empty() ? std::optional<Unit>(Unit{}) : read_unit(function.result_unit);
        if (!unit) return {};
        made.dimension = unit->dimension;
        made.basis = unit->basis;
        made.weak = function.result_unit.empty();
        for (const Carried& mass : masses) add_places(made.from, mass.from);
        if (unit->dimension == kMass && !mass_in_text && function.mass_in_a_unit.empty()) {
            if (scale) made.scales = {*scale};
            made.weak = made.scales.empty();
        } else {
            made.scales = {scale_of(*unit)};
        }
        if (unit->basis != Basis::unsaid)
            made.kind = unit->basis == Basis::wet ? Kind::moisture_wet : Kind::moisture_dry;
        return made;
    }

    Carrier& carrier_;
    Place at_;
    std::vector<Clash>* clashes_;
    int depth_ = 0;
};

Carrier::Carrier(const Picture& picture, const Labels& labels) : picture_(picture), labels_(labels) {}

Carried Carrier::of(const Formula& formula, const Place& at) { return Walk(*this, at, nullptr).of(formula); }

Carried Carrier::of(const Place& place) {
    const Cell* cell = picture_.at(place);
    if (cell == nullptr) return {};
    const Meaning& meaning = labels_.at(place);
    Carried made = by_label(meaning, place);
    if (!cell->formula || (made.known() && !made.scales.empty())) return made;
    if (const auto found = known_.find(place); found != known_.end()) return found->second;
    if (under_way_.size() > 300 || !under_way_.insert(place).second) return made;
    Carried worked_out = of(*cell->formula, place);
    under_way_.erase(place);
    if (made.known()) {
        if (worked_out.known() && worked_out.dimension == made.dimension && made.scales.empty())
            made.scales = worked_out.scales;
        made.weak = made.weak || worked_out.weak;
    } else {
        made = std::move(worked_out);
        if (made.known()) made.exact.reset();
    }
    return known_.emplace(place, std::move(made)).first->second;
}

std::string Carrier::name_of(const Place& cell, const Place& at) const {
    return cell.sheet == at.sheet ? in_words(cell) : in_words(cell, picture_);
}

std::string Carrier::said_of(const std::vector<Place>& cells, const Place& at) const {
    std::string text;
    for (const Place& cell : cells) {
        const Meaning& meaning = labels_.at(cell);
        if (meaning.evidence.empty()) continue;
        text += (text.empty() ? "" : "; ") + name_of(cell, at) + ": " + meaning.evidence;
    }
    return text;
}

// Whether the formula holds a number that its label names: "60 l drum, kg" over 60 times a density.
bool Carrier::typed_of_label(const std::string& label, const Place& place) const {
    const Cell* cell = picture_.at(place);
    bool found = false;
    for_each_part(*cell->formula, [&](const Formula& part) {
        if (part.what == What::number && part.number > 1)
            found = found || (" " + label + " ").find(" " + drysheet::in_words(part.number) + " ") !=
                                 std::string::npos;
    });
    return found;
}

// The unit that comes out, and the one that the label says.
std::optional<Clash> Carrier::against_label(const Carried& carried, const Place& place, bool& agrees) const {
    const Meaning& own = labels_.at(place);
    agrees = false;
    const auto value = number_in(picture_, place);
    const bool small_percent = own.unit_by_value && !own.unit_text.empty() &&
                               own.unit->form == RatioForm::percent && carried.known() &&
                               carried.dimension == kNone && carried.scales.size() == 1 &&
                               near(carried.scales[0], 1) && value && *value > 0;
    if (!carried.known() || !own.unit || (own.unit_by_value && !small_percent) ||
        !own.contradiction.empty() || carried.text || own.has(Say::deviation))
        return {};
    std::vector<Place> cells = carried.from;
    const auto clash = [&](Verdict verdict, const Sentence& why) {
        if (carried.counted) verdict = Verdict::doubtful;
        const std::string inputs = said_of(cells, place);
        return Clash{verdict, picture_.say(why), own.evidence + (inputs.empty() ? "" : "; " + inputs)};
    };
    const Sentence label = own.percent_format ? "a per cent format (a fraction)"
                           : own.clock_format ? Sentence("a clock time (days)")
                                              : as_it_is(own.unit_text);
    if (carried.dimension != own.unit->dimension) {
        // "issue per day, kg": of what the unit is, the words say
        if (own.has(Say::per) && !own.unit_text.empty() && own.unit_text.find('/') == std::string::npos)
            return {};
        if (typed_of_label(own.label, place)) return {};
        // two of one row under one label, the one over the other
        if (carried.dimension == kNone && carried.from.size() == 2 &&
            std::ranges::all_of(carried.from, [&](const Place& one) {
                return one.row == place.row && one.sheet == place.sheet && labels_.at(one).label == own.label;
            }))
            return {};
        if (carried.weak || carried.dimension[5] != 0 || own.unit->dimension[5] != 0) return {};
        return clash(Verdict::wrong, {"by the units of its inputs it is in {}, but it is {}",
                                      {named(carried), own.evidence}});
    }
    if (carried.dimension == kKelvin || carried.scales.empty()) return {};
    const double scale = scale_of(*own.unit);
    if (holds(carried.scales, scale)) {
        if (carried.basis != Basis::unsaid && own.basis != Basis::unsaid && carried.basis != own.basis)
            return clash(Verdict::wrong, carried.basis == Basis::wet
                                             ? "it comes out on the wet basis, but its label says the other"
                                             : "it comes out on the dry basis, but its label says the other");
        agrees = !carried.weak;
        return {};
    }
    if (carried.weak) return {};
    const double factor = scale / carried.scales.front();
    if (carried.dimension == kNone) {
        if (own.unit->form == RatioForm::mass_ratio || own.unit->form == RatioForm::none ||
            own.unit->form == RatioForm::ppm)
            return {};
        const bool below_one = own.unit->form == RatioForm::percent && (!value || std::abs(*value) <= 1.5);
        const Sentence is = near(carried.scales.front(), 1) ? "a fraction of 1"
                            : near(carried.scales.front(), 0.01)
                                ? Sentence("in per cent")
                                : Sentence("a share times {}", {factor_in_words(1 / carried.scales.front())});
        return clash(below_one ? Verdict::doubtful : Verdict::wrong,
                     {"it comes out as {}, but shows under {}", {is, label}});
    }
    const double times = factor < 1 ? 1 / factor : factor;
    return clash(
        Verdict::wrong,
        {factor > 1 ? "by the units of its inputs it is in {}, but its label says {}: {} times too large"
                    : "by the units of its inputs it is in {}, but its label says {}: {} times too small",
         {named(carried), label, factor_in_words(times)}});
}

Carrier::Judged Carrier::judge(const Place& place) {
    Judged made;
    const Cell* cell = picture_.at(place);
    if (cell == nullptr || !cell->formula) return made;
    const Carried carried = Walk(*this, place, &made.clashes).of(*cell->formula);
    if (!made.clashes.empty()) return made;
    if (auto clash = against_label(carried, place, made.agrees)) {
        made.clashes.push_back(std::move(*clash));
    } else if (made.agrees) {
        const std::string inputs = said_of(carried.from, place);
        made.evidence = labels_.at(place).evidence + (inputs.empty() ? "" : "; " + inputs);
    }
    return made;
}

}  // namespace drysheet::workbook
