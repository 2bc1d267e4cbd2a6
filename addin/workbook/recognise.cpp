// SPDX-License-Identifier: MPL-2.0
#include "addin/workbook/recognise.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>
#include <span>
#include <utility>
#include <vector>

#include "addin/call/lookup.hpp"
#include "addin/call/slips.hpp"
#include "addin/text/words.hpp"
#include "addin/workbook/carry.hpp"
#include "addin/workbook/compute.hpp"
#include "addin/workbook/formula.hpp"
#include "addin/workbook/sums.hpp"
#include "drysheet/error.hpp"

namespace drysheet::workbook {
namespace {

using What = Formula::What;
using enum Say;

// ---- what a label says of an argument or a result

// The words that bear a role out, and those that speak against it.
struct Role {
    std::string_view name;
    std::vector<Say> wanted, against;
};
const Role* role_of(std::string_view name) {
    static const std::vector<Role> roles{
        {"fresh",
         {fresh, wet, start, whole, net, sample},
         {dried, dry, solids, water, tare, final, parts_off, loss}},
        {"dried",
         {dried, dry, final},
         {fresh, wet, start, solids, water, tare, gross, whole, parts_off, loss, dry_matter}},
        {"rehydrated", {}, {dry, solids, tare}},
        {"start", {start, fresh}, {final, dried, target, equilibrium}},
        {"start_db", {start, fresh}, {final, dried, target, equilibrium}},
        {"final", {final, dried, target}, {start, fresh, equilibrium}},
        {"target", {target, final, dried}, {start, fresh}},
        {"equilibrium_db", {equilibrium}, {start, final, fresh, dried}},
        {"moisture_db", {}, {equilibrium}},
        {"tare", {tare, tray, dish}, {fresh, dried, net, wet, dry}},
        {"dish", {dish, tare}, {wet, dry, fresh, dried, final, start}},
        {"dish_wet", {wet, fresh, gross, start}, {dry, dried, final, tare}},
        {"dish_dry", {dry, dried, final}, {wet, fresh, start, tare}},
        {"mass", {}, {tare, solids, dry_matter}},
        {"whole", {whole, fresh}, {parts_off, tare, dried, loss, water}},
        {"loss", {parts_off}, {whole, dried, fresh, final, water}},
        {"in", {fresh, start, whole}, {dried, final, loss, tare}},
        {"out", {dried, final, kept, parts_off}, {start, tare}},
        {"yield", {yield}, {loss, moisture, efficiency}},
        {"drying_ratio", {ratio}, {moisture, yield}},
        {"bulk", {bulk}, {tapped}},
        {"tapped", {tapped}, {bulk}},
        {"water", {water, loss}, {solids, dried, fresh}},
        {"solids", {solids, dry_matter}, {water, loss, dried, fresh}},
        {"reading", {gross}, {water, solids, loss}},
        {"raw", {whole, fresh}, {dried, solids, water}},
        {"chain", {yield}, {loss, mean}},
        {"gap", {loss}, {water, moisture}},
        {"cost", {price}, {}},
        {"ratio", {ratio}, {moisture, yield, water}}};
    const auto found = std::ranges::find(roles, name, &Role::name);
    return found == roles.end() ? nullptr : &*found;
}

bool any_of(const Meaning& meaning, const std::vector<Say>& says) {
    return std::ranges::any_of(says, [&](Say say) { return meaning.has(say); });
}

// How a label stands to the role that a reading gives its cell.
struct Bearing {
    bool against = false;
    bool borne = false;  ///< by unit, kind or words
    bool named = false;  ///< by words that say this role and no other
    int score = 0;
    Sentence odd;  ///< what the label says against the way in which the formula takes the number
};

bool moisture_kind(Kind kind) { return kind == Kind::moisture_wet || kind == Kind::moisture_dry; }
bool a_share(Kind kind) {
    return kind == Kind::moisture_wet || kind == Kind::relative_humidity || kind == Kind::water_activity ||
           kind == Kind::fraction || kind == Kind::moisture_ratio;
}
bool in_percent(Taken how) {
    return how == Taken::percent || how == Taken::rest_of_percent || how == Taken::percent_on_other_basis;
}
bool rest_of(Taken how) { return how == Taken::rest || how == Taken::rest_of_percent; }
bool turned(Taken how) { return how == Taken::other_basis || how == Taken::percent_on_other_basis; }

bool says_dry_matter(const Meaning& meaning) {
    return meaning.has(dry_matter) ||
           (meaning.has(solids) && !meaning.has(mass) && meaning.kind != Kind::mass &&
            !meaning.has(moisture) && meaning.kind.has_value() && a_share(*meaning.kind));
}
bool per_cent_unit(const Meaning& meaning) {
    return meaning.unit && meaning.unit->form == RatioForm::percent && !meaning.percent_format;
}
bool fraction_unit(const Meaning& meaning) {
    return meaning.percent_format || (meaning.unit && meaning.unit->dimension == Dimension{} &&
                                      meaning.unit->form != RatioForm::percent);
}

// ---- the formula and its variables

struct Variable {
    Formula term;  ///< a cell, SUM(…) of a range, or a number typed in
    const Meaning* meaning = nullptr;
    std::optional<double> value;
    bool typed = false;
    std::string said;  ///< "B2"
};

constexpr std::size_t kUsual = 5;     // points at which a formula is held against a function
constexpr int kDeepest = 6;           // cells within one another
constexpr int kStandInRow = 1 << 20;  // no sheet has such a row
Formula stand_in(std::size_t i) {
    Formula made;
    made.what = What::cell;
    made.from.cell = {0, kStandInRow, static_cast<int>(i)};
    return made;
}

// Without what only rounds, guards or signs.
const Formula& bare(const Formula& formula) {
    const auto empty = [](const Formula& f) {
        return f.what == What::blank || f.what == What::text || f.what == What::fault ||
               f.what == What::truth || (f.what == What::number && f.number == 0) ||
               (f.what == What::call && f.text == "NA");
    };
    if (formula.what == What::call && !formula.parts.empty()) {
        for (const std::string_view name : {"ROUND", "IFERROR", "IFNA", "TRUNC"})
            if (formula.text == name) return bare(formula.parts.front());
        if (formula.text == "IF" && formula.parts.size() >= 2) {
            if (formula.parts.size() == 2 || empty(formula.parts[2])) return bare(formula.parts[1]);
            if (empty(formula.parts[1])) return bare(formula.parts[2]);
        }
    }
    if (formula.what == What::operation && formula.text == "+" && formula.parts.size() == 1)
        return bare(formula.parts.front());
    return formula;
}

bool usual_constant(double x) {
    for (const double usual :
         {0.0, 1.0, 2.0, 10.0, 24.0, 60.0, 100.0, 1000.0, 1440.0, 3600.0, 273.15, 273.16})
        if (std::abs(x) == usual) return true;
    return is_unit_factor(x);
}

class Split {
  public:
    /// typed: numbers typed in are variables too. through: what other cells work out is worked out here, so
    /// that the variables are inputs; so many cells deep.
    Split(const Picture& picture, const Place& at, const Labels& labels, bool typed, int through = 0)
        : picture_(picture), at_(at), labels_(labels), typed_(typed), through_(through) {}

    Formula tree(const Formula& formula) {
        switch (formula.what) {
            case What::number:
                if (typed_ && !usual_constant(formula.number))
                    return variable(formula, nullptr, formula.number, true);
                return formula;
            case What::cell:
                if (formula.from.gone || !formula.from.file.empty()) break;
                if (const Cell* cell = picture_.at(formula.from.cell);
                    cell != nullptr && cell->formula && depth_ < through_) {
                    ++depth_;
                    Formula made = tree(bare(*cell->formula));
                    --depth_;
                    return made;
                }
                return variable(formula, &labels_.at(formula.from.cell),
                                number_in(picture_, formula.from.cell));
            case What::name:
                if (const Formula* means = meaning(picture_, formula);
                    means != nullptr && means->what == What::cell) {
                    return variable(formula, &labels_.at(means->from.cell),
                                    number_in(picture_, means->from.cell));
                }
                break;
            case What::call:
                if (formula.parts.size() == 1 && formula.parts[0].what == What::range)
                    return over_range(formula);
                break;
            default:
                break;
        }
        Formula made = formula;
        for (Formula& part : made.parts) part = tree(part);
        return made;
    }

    std::vector<Variable> variables;

  private:
    Formula variable(const Formula& term, const Meaning* meaning, std::optional<double> value,
                     bool typed = false) {
        const std::string said = typed ? drysheet::in_words(term.number, 10) : written(term, at_, picture_);
        for (std::size_t i = 0; i < variables.size(); ++i)
            if (!typed && variables[i].said == said) return stand_in(i);
        variables.push_back({term, meaning, value, typed, said});
        return stand_in(variables.size() - 1);
    }
    // SUM(B2:B4) is one number; AVERAGE or PRODUCT of a few cells is made of them.
    Formula over_range(const Formula& call) {
        const Formula& range = call.parts[0];
        const std::vector<Place> filled = filled_cells(picture_, range.from, range.to);
        if (call.text != "SUM" && (filled.size() < 2 || filled.size() > kMostVariables)) return call;
        if (call.text == "SUM")
            return variable(call, filled.empty() ? nullptr : &labels_.at(filled.front()),
                            number_of(call, at_, picture_));
        Formula made = call;
        made.parts.clear();
        for (const Place& place : filled) {
            Formula cell;
            cell.what = What::cell;
            cell.from.cell = place;
            cell.from.sheet_named = place.sheet != at_.sheet;
            made.parts.push_back(tree(cell));
        }
        return made;
    }

    const Picture& picture_;
    const Place& at_;
    const Labels& labels_;
    bool typed_;
    int through_;
    int depth_ = 0;
};

std::optional<double> value_at(const Formula& tree, const Place& at, const Picture& picture,
                               std::span<const double> x) {
    return number_of(tree, at, picture, [&](const Place& place) {
        Given given;
        if (place.row == kStandInRow) given.value = x[static_cast<std::size_t>(place.column)];
        return given;
    });
}

// ---- one reading, judged

struct Judged {
    const SumReading* reading = nullptr;
    std::vector<Bearing> arguments;
    Bearing result;
    std::string call;  ///< "DRY.DRIEDMASS(B2;C2;D2)"
    std::optional<double> would_show;
    std::optional<double> scale;  ///< what the formula gives now over what the call gives
    std::optional<double> expected_scale;
    bool refused = false;
    int score = 0;

    bool all_borne() const { return std::ranges::all_of(arguments, &Bearing::borne); }
    bool fits() const {
        return !result.against && result.odd.empty() &&
               std::ranges::none_of(arguments, [](const Bearing& b) { return b.against || !b.odd.empty(); });
    }
    std::vector<Sentence> odd() const {
        std::vector<Sentence> all;
        for (const Bearing& b : arguments)
            if (!b.odd.empty()) all.push_back(b.odd);
        if (!result.odd.empty()) all.push_back(result.odd);
        return all;
    }
};

class Recogniser {
  public:
    Recogniser(const Picture& picture, const Place& at, const Labels& labels, const Reading& reading)
        : picture_(picture), at_(at), labels_(labels), reading_(reading), label_(labels.at(at)) {}

    std::optional<Recognised> made() {
        const Cell* cell = picture_.at(at_);
        if (cell == nullptr || !cell->formula) return {};
        const Formula& formula = bare(*cell->formula);
        bool ours = false;
        for_each_part(formula, [&](const Formula& part) {
            ours = ours || (part.what == What::call && part.text.starts_with("DRY."));
        });
        if (ours) return {};
        shows_ = number_of(formula, at_, picture_);  // without the rounding
        for (const bool typed : {false, true}) {
            Split split(picture_, at_, labels_, typed);
            const Formula tree = split.tree(formula);
            variables_ = std::move(split.variables);
            if (variables_.empty() || variables_.size() > kMostVariables) continue;
            if (typed && std::ranges::none_of(variables_, &Variable::typed)) continue;
            if (auto found = by_algebra(tree)) return found;
            if (!typed)
                if (auto found = by_value(tree)) return found;
        }
        for (const int through : {1, 2, kDeepest}) {
            Split split(picture_, at_, labels_, false, through);
            const Formula tree = split.tree(formula);
            variables_ = std::move(split.variables);
            if (variables_.empty() || variables_.size() > kMostVariables) continue;
            if (auto found = by_algebra(tree, true)) return found;
            if (through == kDeepest) {
                auto found = by_value(tree);  // a slip may be in a formula that this one rests on
                return found && found->what != Recognised::What::slip ? found : std::nullopt;
            }
        }
        return {};
    }

  private:
    // ---- labels

    void judge_share(Bearing& b, const Variable& v, Kind kind, Taken how) const {
        const Meaning& m = *v.meaning;
        const std::string who = v.said;
        if (moisture_kind(kind)) {
            const bool dry_matter_said = says_dry_matter(m);
            if (dry_matter_said != rest_of(how) && m.kind) {
                if (dry_matter_said)
                    b.odd = {"{} is the dry matter and is used as if it were the moisture", {who}};
                else if (!moisture_kind(*m.kind))
                    b.against = true;
                else
                    b.odd = {"{} is the moisture and is used as if it were the dry matter", {who}};
            } else if (m.kind && !dry_matter_said) {
                if (!moisture_kind(*m.kind)) {
                    b.against = true;
                } else {
                    const bool dry_used = (kind == Kind::moisture_dry) != turned(how);
                    const bool dry_said = *m.kind == Kind::moisture_dry || m.basis == Basis::dry;
                    const bool wet_said = m.basis == Basis::wet;
                    if (dry_said && !dry_used)
                        b.odd = {"{} is on the dry basis and is used as on the wet basis", {who}};
                    if (wet_said && dry_used)
                        b.odd = {"{} is on the wet basis and is used as on the dry basis", {who}};
                }
            }
        } else if (rest_of(how)) {
            if (m.has(Say::yield) || (m.kind && *m.kind != Kind::fraction)) b.against = true;
            if (!m.has(loss) && !m.has(parts_off)) b.against = true;
        } else if (m.kind && *m.kind != kind &&
                   !(kind == Kind::water_activity && *m.kind == Kind::relative_humidity) &&
                   !(kind == Kind::relative_humidity && *m.kind == Kind::water_activity)) {
            b.against = true;
        }
        const bool percent_taken = in_percent(how);
        const double size = std::abs(v.value.value_or(0));
        if (per_cent_unit(m) && !percent_taken) {
            if (m.unit_by_value) b.against = true;
            if (b.odd.empty() && !b.against) b.odd = {"{} is in per cent and is used as a fraction", {who}};
        } else if (fraction_unit(m) && percent_taken) {
            if (m.unit_by_value)
                b.against = true;
            else if (b.odd.empty())
                b.odd = {"{} is a fraction and is divided by 100 as if it were in per cent", {who}};
        } else if (!m.unit && size > 1.5 && kind != Kind::moisture_dry && !percent_taken) {
            b.against = true;
        } else if (!m.unit && size > 0 && size <= 1 && percent_taken) {
            b.against = true;
        }
        if (m.kind && !b.against) {
            b.borne = true;
            b.score += 1;
        }
    }

    Bearing judge(const Parameter& param, const Variable& v, Taken how) const {
        Bearing b;
        if (v.typed) {
            const double x = *v.value;
            if (a_share(param.kind)) {
                b.borne = in_percent(how) ? x > 1.5 && x < 100 : x > 0 && x < 1;
                b.against = !b.borne;
                if (turned(how)) b.against = true;
            } else if (param.kind != Kind::mass && param.kind != Kind::number) {
                b.borne = true;
            } else {
                b.against = param.kind == Kind::mass && x < 1 && x > 0;
            }
            return b;
        }
        if (v.meaning == nullptr) return b;
        const Meaning& m = *v.meaning;
        if (m.has(deviation)) b.against = true;
        if (a_share(param.kind) || param.kind == Kind::moisture_dry) {
            judge_share(b, v, param.kind, how);
        } else if (m.kind) {
            if (*m.kind != param.kind && param.kind != Kind::number) b.against = true;
            if (param.kind == Kind::number && m.unit && m.unit->dimension != Dimension{}) b.against = true;
            b.borne = !b.against && param.kind != Kind::number;
            b.score += b.borne ? 1 : 0;
        }
        words(b, param.name, m);
        return b;
    }
    static void words(Bearing& b, std::string_view name, const Meaning& m) {
        const Role* role = role_of(name);
        if (role == nullptr) return;
        const bool wanted = any_of(m, role->wanted), against = any_of(m, role->against);
        if (against && !wanted) b.against = true;
        if (wanted) {
            b.named = !against;
            b.borne = true;
            b.score += against ? 1 : 2;
        }
    }

    Bearing judge_result(const Function& function, bool rest) const {
        Bearing b;
        const Meaning& m = label_;
        const Kind kind = function.gives.value_or(Kind::number);
        if (m.has(deviation)) b.against = true;
        if (m.kind) {
            if (rest) {
                b.against = b.against || !(kind == Kind::moisture_wet ? says_dry_matter(m) : m.has(loss));
            } else if (kind == Kind::moisture_wet && says_dry_matter(m)) {
                b.against = true;
            } else if (moisture_kind(kind) && moisture_kind(*m.kind)) {
                const Basis own = kind == Kind::moisture_wet ? Basis::wet : Basis::dry;
                if (m.basis != Basis::unsaid && m.basis != own)
                    b.odd = own == Basis::wet ? "the label says dry basis, and this is the wet basis"
                                              : "the label says wet basis, and this is the dry basis";
                else if (own == Basis::dry && m.basis == Basis::unsaid)
                    b.against = false;
            } else if (*m.kind != kind && kind != Kind::number &&
                       !(kind == Kind::fraction && *m.kind == Kind::moisture_ratio)) {
                b.against = true;
            } else if (kind == Kind::number && m.unit && m.unit->dimension != Dimension{}) {
                b.against = true;
            }
            if (kind == Kind::number && (moisture_kind(*m.kind) || *m.kind == Kind::relative_humidity))
                b.against = true;
            b.borne = !b.against;
            b.score += b.borne ? 1 : 0;
            b.named = b.borne && (moisture_kind(kind) || kind == Kind::moisture_ratio ||
                                  kind == Kind::humidity_ratio || kind == Kind::relative_humidity ||
                                  kind == Kind::energy || kind == Kind::money_per_mass);
        }
        // what the function is for, by the name of its result
        const std::string_view name = function.result;
        if (role_of(name) != nullptr) {
            b.named = false;
            words(b, name, m);
        }
        if (rest && m.has(loss)) b.named = true;
        return b;
    }

    // ---- the call

    std::string argument(const Parameter& param, const Variable& v, Taken how, bool join) const {
        std::string x = v.said;
        const double c = v.value.value_or(0);
        switch (how) {
            case Taken::as_it_stands:
                break;
            case Taken::percent:
                return v.typed ? drysheet::in_words(c / 100, 10) : x + "/100";
            case Taken::rest:
                return v.typed ? drysheet::in_words(1 - c, 10) : "1-" + x;
            case Taken::rest_of_percent:
                return v.typed ? drysheet::in_words(1 - c / 100, 10) : "1-" + x + "/100";
            case Taken::other_basis:
                return x + (param.kind == Kind::moisture_dry ? "&\" wb\"" : "&\" db\"");
            case Taken::percent_on_other_basis:
                return x + (param.kind == Kind::moisture_dry ? "&\" % wb\"" : "&\" % db\"");
        }
        if (join && !v.typed && v.meaning != nullptr && v.meaning->unit)
            return x + "&\" " + v.meaning->unit_text + "\"";
        return x;
    }

    static bool has_dimension(Kind kind) { return row_of(kind).forms == Forms::with_dimension; }

    void write_call(Judged& j) const {
        const SumReading& r = *j.reading;
        const Function& f = *r.sum->function;
        // masses of one unit come back in it
        std::set<std::string> mass_units;
        bool all_known = true;
        for (std::size_t k = 0; k < r.sum->params.size(); ++k) {
            const Parameter& param = f.params[r.sum->params[k]];
            const Variable& v = variables_[r.variable[k]];
            if (!has_dimension(param.kind)) continue;
            const bool known = v.meaning != nullptr && v.meaning->unit &&
                               v.meaning->unit->dimension == param.read_in.dimension;
            all_known = all_known && known;
            if (param.kind == Kind::mass && known) mass_units.insert(v.meaning->unit_text);
        }
        const bool plain_masses = f.mass_in_a_unit.empty() && mass_units.size() <= 1;
        std::string call = "DRY." + std::string(f.name) + "(";
        std::size_t next = 0;
        for (std::size_t i = 0; i < f.params.size(); ++i) {
            bool first = true;
            for (std::size_t k = 0; k < r.sum->params.size(); ++k) {
                if (r.sum->params[k] != i) continue;
                const Parameter& param = f.params[i];
                const Variable& v = variables_[r.variable[k]];
                const bool known = v.meaning != nullptr && v.meaning->unit &&
                                   v.meaning->unit->dimension == param.read_in.dimension;
                const bool same =
                    known && std::abs(v.meaning->unit->to_si(1) / param.read_in.to_si(1) - 1) < 1e-9;
                const bool join =
                    has_dimension(param.kind) && known && (param.kind == Kind::mass ? !plain_masses : !same);
                call += next++ == 0 ? "" : ";";
                call += argument(param, v, r.how[k], join);
                first = false;
            }
            if (first && !f.params[i].may_be_missing) {  // what the slip left out
                j.call.clear();
                return;
            }
        }
        j.call = call + ")";
        if (r.rest) j.call = "1-" + j.call;
        j.would_show = number_of(parse("=" + j.call, at_, picture_), at_, picture_);
        if (!j.would_show) {
            j.refused =
                std::ranges::all_of(variables_, [](const Variable& v) { return v.value && *v.value != 0; });
            return;
        }
        if (shows_ && *j.would_show != 0) j.scale = *shows_ / *j.would_show;
        if (!label_.unit) return;
        const Kind kind = f.gives.value_or(Kind::number);
        if (a_share(kind)) {
            if (!label_.unit_by_value) j.expected_scale = per_cent_unit(label_) ? 100 : 1;
        } else if (has_dimension(kind) && all_known && kind != Kind::temperature) {
            std::optional<Unit> out = read_unit(f.result_unit);
            if (kind == Kind::mass && plain_masses && mass_units.size() == 1)
                for (const Variable& v : variables_)
                    if (v.meaning != nullptr && v.meaning->unit &&
                        v.meaning->unit_text == *mass_units.begin())
                        out = v.meaning->unit;
            if (out && out->dimension == label_.unit->dimension)
                j.expected_scale = out->to_si(1) / label_.unit->to_si(1);
        }
    }

    std::string suggestion(const Judged& j, double scale) const {
        if (j.call.empty()) return {};
        if (std::abs(scale - 1) < 1e-9) return "=" + j.call;
        const bool large = std::abs(scale) > 1;
        return "=" + (j.reading != nullptr && j.reading->rest ? "(" + j.call + ")" : j.call) +
               (large ? "*" : "/") + drysheet::in_words(large ? scale : 1 / scale, 10);
    }

    std::string evidence_of() const {
        std::string all;
        const auto add = [&](const std::string& who, const Meaning* m) {
            if (m == nullptr || m->evidence.empty()) return;
            all.append(all.empty() ? "" : "; ").append(who).append(" ").append(m->evidence);
        };
        for (const Variable& v : variables_)
            if (!v.typed) add(v.said, v.meaning);
        add(picture_.say("this cell"), &label_);
        return all;
    }

    Recognised say(Recognised::What what, Verdict verdict, const Sentence& why, const Judged& j,
                   double scale) const {
        Recognised made{.what = what,
                        .verdict = verdict,
                        .why = picture_.say(why),
                        .suggested = suggestion(j, scale),
                        .would_show = {},
                        .evidence = evidence_of()};
        if (j.would_show) made.would_show = *j.would_show * scale;
        return made;
    }

    Sentence is_sum(const Function& function) const {
        if (picture_.texts != nullptr) return {"DRY.{}, {}", {function.name, Sentence(function.summary)}};
        std::string summary(function.summary);
        summary.front() = lower(summary.substr(0, 1)).front();
        return {"DRY.{}, {}", {function.name, summary}};
    }

    // ---- by algebra: the same values at the sample points

    // only_right: a slip must be in the formula itself, not in one that it rests on.
    std::optional<Recognised> by_algebra(const Formula& tree, bool only_right = false) {
        std::array<double, kSamples> values{};
        for (std::size_t s = 0; s < kSamples; ++s) {
            std::array<double, kMostVariables> x{};
            for (std::size_t i = 0; i < x.size(); ++i) x[i] = workbook::sample(s, i);
            const auto value = value_at(tree, at_, picture_, x);
            if (!value) return {};
            values[s] = *value;
        }
        const std::vector<SumReading> readings = readings_of(variables_.size(), values);
        std::vector<Judged> judged;
        for (const SumReading& reading : readings) {
            if (!clean_factor(reading.factor)) continue;
            Judged j{.reading = &reading,
                     .arguments = {},
                     .result = {},
                     .call = {},
                     .would_show = {},
                     .scale = {},
                     .expected_scale = {}};
            const Function& f = *reading.sum->function;
            for (std::size_t k = 0; k < reading.sum->params.size(); ++k)
                j.arguments.push_back(
                    judge(f.params[reading.sum->params[k]], variables_[reading.variable[k]], reading.how[k]));
            j.result = judge_result(f, reading.rest);
            j.score = j.result.score - (reading.rest ? 1 : 0);
            for (const Bearing& b : j.arguments) j.score += b.score;
            for (const Taken how : reading.how)
                j.score -= how == Taken::as_it_stands || how == Taken::percent ? 0 : 1;
            write_call(j);
            judged.push_back(std::move(j));
        }
        if (auto right = right_reading(judged)) return right;
        if (only_right) return {};
        if (label_.has(mean) || label_.has(deviation) || label_.has(difference)) return {};
        if (auto slip = odd_reading(judged)) return slip;
        if (auto slip = factor_slip(judged)) return slip;
        return known_slip(judged);
    }

    static bool same_scale(double a, double b) { return std::abs(a / b - 1) < 1e-6; }

    // Right readings that nothing speaks against; the best borne out, or both where they cannot be told
    // apart.
    std::optional<Recognised> right_reading(const std::vector<Judged>& judged) {
        const Judged* best = nullptr;
        const Judged* rival = nullptr;
        for (const Judged& j : judged) {
            const SumReading& r = *j.reading;
            if (!r.sum->slip.empty() || !j.fits() || j.refused || r.factor < 0) continue;
            if (r.sum->common && !(j.all_borne() && j.result.named)) continue;
            if (j.scale && !clean_factor(*j.scale)) continue;
            if (j.scale && j.expected_scale && !same_scale(*j.scale, *j.expected_scale)) continue;
            if (best == nullptr || j.score > best->score) {
                best = &j;
                rival = nullptr;
            } else if (j.score == best->score && r.sum->function != best->reading->sum->function) {
                rival = &j;
            }
        }
        if (best == nullptr) return {};
        const Function& f = *best->reading->sum->function;
        if (rival != nullptr) {
            Recognised made = say(Recognised::What::right, Verdict::could_be_checked,
                                  {"The same sum as {}, or {}: the labels do not say which",
                                   {is_sum(f), is_sum(*rival->reading->sum->function)}},
                                  *best, 1);
            made.suggested.clear();
            made.would_show.reset();
            return made;
        }
        return say(Recognised::What::right, Verdict::could_be_checked, {"The same sum as {}", {is_sum(f)}},
                   *best, best->scale.value_or(1));
    }

    double scale_for(const Judged& j) const {
        if (j.expected_scale) return *j.expected_scale;
        return std::abs(j.reading->factor - 100) < 1e-6 &&
                       a_share(j.reading->sum->function->gives.value_or(Kind::number))
                   ? 100
                   : 1;
    }

    // A right sum, but its labels say that a number is taken for what it is not.
    std::optional<Recognised> odd_reading(const std::vector<Judged>& judged) {
        const Judged* best = nullptr;
        for (const Judged& j : judged) {
            const SumReading& r = *j.reading;
            if (!r.sum->slip.empty() || j.result.against || r.factor < 0 || r.rest) continue;
            if (std::ranges::any_of(j.arguments, &Bearing::against) || !j.all_borne()) continue;
            std::set<std::string_view> kinds;
            for (const Sentence& odd : j.odd()) kinds.insert(odd.form);
            if (kinds.size() != 1 || !(j.result.named || !j.result.odd.empty())) continue;
            if (r.sum->common && kinds.begin()->find("basis") != std::string_view::npos)
                continue;  // solids × X db
            if (best == nullptr || j.score > best->score) best = &j;
        }
        if (best == nullptr) return {};
        return as_labelled(*best);
    }

    // The call with every number taken as its label says.
    Recognised as_labelled(const Judged& odd) {
        SumReading reading = *odd.reading;
        const Function& f = *reading.sum->function;
        for (std::size_t k = 0; k < reading.how.size(); ++k) {
            const Variable& v = variables_[reading.variable[k]];
            if (odd.arguments[k].odd.empty() || v.meaning == nullptr) continue;
            const Kind kind = f.params[reading.sum->params[k]].kind;
            const bool percent =
                per_cent_unit(*v.meaning) || (!v.meaning->unit && std::abs(v.value.value_or(0)) > 1.5);
            const bool dry_said = v.meaning->kind == Kind::moisture_dry || v.meaning->basis == Basis::dry;
            const bool wet_said =
                v.meaning->basis == Basis::wet || (v.meaning->kind == Kind::moisture_wet && !dry_said);
            const bool other =
                (kind == Kind::moisture_wet && dry_said) || (kind == Kind::moisture_dry && wet_said);
            if (says_dry_matter(*v.meaning) && kind == Kind::moisture_wet)
                reading.how[k] = percent ? Taken::rest_of_percent : Taken::rest;
            else if (other)
                reading.how[k] = percent ? Taken::percent_on_other_basis : Taken::other_basis;
            else
                reading.how[k] = percent ? Taken::percent : Taken::as_it_stands;
        }
        Judged mended{.reading = &reading,
                      .arguments = odd.arguments,
                      .result = odd.result,
                      .call = {},
                      .would_show = {},
                      .scale = {},
                      .expected_scale = {}};
        write_call(mended);
        Sentence why;
        for (Sentence& one : odd.odd())
            why = why.empty() ? std::move(one) : Sentence("{}; {}", {std::move(why), std::move(one)});
        if (!odd.result.odd.empty()) mended.call.clear(), mended.would_show.reset();
        return say(Recognised::What::slip, Verdict::wrong, {"{} ({})", {why, is_sum(f)}}, mended,
                   scale_for(mended));
    }

    // Right, but for a factor between units that are all known.
    std::optional<Recognised> factor_slip(const std::vector<Judged>& judged) {
        const Judged* best = nullptr;
        for (const Judged& j : judged) {
            const SumReading& r = *j.reading;
            if (!r.sum->slip.empty() || !j.fits() || !j.scale || !j.expected_scale || !clean_factor(r.factor))
                continue;
            if (!j.all_borne() || !j.result.named) continue;
            if (same_scale(*j.scale, *j.expected_scale)) continue;
            if (best == nullptr || j.score > best->score) best = &j;
        }
        if (best == nullptr) return {};
        const double off = *best->scale / *best->expected_scale;
        // a 60 or a 12 written into the formula may be so many times of something
        const Verdict verdict =
            off > 0 && off < 1000 && multiplied_by(off) ? Verdict::doubtful : Verdict::wrong;
        const Sentence why = off < 0 && same_scale(off, -1) ? Sentence("the sign is the other way round")
                                                            : times_off(std::abs(off));
        const Function& f = *best->reading->sum->function;
        return say(Recognised::What::slip, verdict, {"{} ({})", {why, is_sum(f)}}, *best,
                   *best->expected_scale);
    }

    static Sentence times_off(double off) {
        if (off > 1) return {"the result is {} times too large for its unit", {{off, {}, 4}}};
        return {"the result is {} times too small for its unit", {{1 / off, {}, 4}}};
    }

    bool multiplied_by(double number) const {
        bool found = false;
        for_each_part(*picture_.at(at_)->formula, [&](const Formula& part) {
            found = found || (part.what == What::number && same_scale(part.number, number));
        });
        return found;
    }

    // Is there a cell on the sheet that would be the argument which was left out?
    bool stands_on_sheet(const Parameter& param) const {
        for (const auto& [where, cell] : picture_.sheets[static_cast<std::size_t>(at_.sheet)].cells) {
            const auto* x = std::get_if<double>(&cell.value);
            if (x == nullptr) continue;
            const Place place{at_.sheet, where.first, where.second};
            if (place == at_ || (place.row != at_.row && place.column != at_.column)) continue;
            Variable v{.term = {}, .meaning = &labels_.at(place), .value = *x, .typed = false, .said = {}};
            const Bearing b =
                judge(param, v, per_cent_unit(*v.meaning) ? Taken::percent : Taken::as_it_stands);
            if (b.named && !b.against && b.odd.empty()) return true;
        }
        return false;
    }

    // Were the masses weighed with the dish, by their labels?
    bool dishes_weighed(const SumReading& r) const {
        return std::ranges::all_of(r.variable, [&](std::size_t i) {
            const Meaning* m = variables_[i].meaning;
            return m != nullptr && (m->has(Say::dish) || m->has(gross)) && !m->has(net);
        });
    }
    // A moisture whose label says no basis is right on either.
    bool basis_not_said(const Judged& j) const {
        const Kind kind = j.reading->sum->function->gives.value_or(Kind::number);
        if (!moisture_kind(kind) || label_.basis != Basis::unsaid || !shows_ || !j.would_show) return false;
        const double other = other_basis(*j.would_show, kind == Kind::moisture_wet ? Basis::wet : Basis::dry);
        return same_scale(*shows_, other) || same_scale(*shows_, 100 * other);
    }

    std::optional<Recognised> known_slip(const std::vector<Judged>& judged) {
        const Judged* best = nullptr;
        for (const Judged& j : judged) {
            const SumReading& r = *j.reading;
            const bool sign = r.sum->slip.empty() && r.factor < 0;
            if ((r.sum->slip.empty() && !sign) || !j.fits() || !j.all_borne() || !j.result.named) continue;
            if (r.sum->common &&
                !(drysheet::written(r.sum->slip).find("dish") != std::string::npos && dishes_weighed(r)))
                continue;
            if (basis_not_said(j)) continue;
            const Function& f = *r.sum->function;
            // every argument by words of its own, where others of its kind could stand there
            bool told_apart = true, left_out_is_there = true;
            for (std::size_t k = 0; k < r.sum->params.size(); ++k) {
                const Parameter& param = f.params[r.sum->params[k]];
                const auto same_kind = std::ranges::count_if(
                    f.params, [&](const Parameter& other) { return other.kind == param.kind; });
                if ((same_kind > 1 || r.sum->common) && role_of(param.name) != nullptr &&
                    !j.arguments[k].named && !role_of(param.name)->wanted.empty())
                    told_apart = false;
            }
            for (std::size_t i = 0; i < f.params.size(); ++i)
                if (!f.params[i].may_be_missing && std::ranges::find(r.sum->params, i) == r.sum->params.end())
                    left_out_is_there = left_out_is_there && stands_on_sheet(f.params[i]);
            if (f.name == "CHAINYIELD" && !label_.has(total)) continue;  // a mean of replicates
            if (!told_apart || !left_out_is_there) continue;
            if (best == nullptr || j.score > best->score) best = &j;
        }
        if (best == nullptr) return {};
        const Function& f = *best->reading->sum->function;
        const Sentence slip =
            best->reading->sum->slip.empty() ? "the sign is the other way round" : best->reading->sum->slip;
        return say(Recognised::What::slip, Verdict::wrong, {"{} ({})", {slip, is_sum(f)}}, *best,
                   scale_for(*best));
    }

    // ---- by value: within 1 % of a function of the air or of water, over what its inputs usually are

    // What an argument usually is, in the unit of a plain number.
    static std::optional<std::array<double, kUsual>> usual(const Parameter& param) {
        if (param.name == "altitude") return {{50, 300, 800, 1500, 2500}};
        if (param.name == "wetbulb" || param.name == "dewpoint") return {{5, 15, 24, 33, 41}};
        switch (param.kind) {
            case Kind::temperature:
                return {{8, 20, 32, 45, 60}};
            case Kind::relative_humidity:
                return {{0.3, 0.55, 0.2, 0.7, 0.45}};
            case Kind::pressure:
                return {{101.325, 98, 92, 100, 95}};
            case Kind::humidity_ratio:
                return {{0.004, 0.006, 0.009, 0.012, 0.02}};
            case Kind::moisture_wet:
                return {{0.1, 0.3, 0.5, 0.7, 0.85}};
            default:
                return {};
        }
    }

    // A function whose arguments the formula's variables may be: by their labels, all of them.
    struct Candidate {
        const Function* function;
        std::vector<std::size_t> variable;  ///< for each argument, or none: its usual value
    };
    static constexpr std::size_t kNone = static_cast<std::size_t>(-1);

    bool may_be(const Parameter& param, const Variable& v, bool of_any_temperature) const {
        if (v.meaning == nullptr || !v.meaning->kind) return false;
        const Meaning& m = *v.meaning;
        if (*m.kind != param.kind || says_dry_matter(m)) return false;
        if (param.kind == Kind::temperature && !of_any_temperature)
            return m.has(wet_bulb) == (param.name == "wetbulb") &&
                   m.has(dew_point) == (param.name == "dewpoint");
        if (param.kind == Kind::pressure) return !m.has(saturation);
        return usual(param).has_value();
    }
    void assign(const Function& f, std::size_t i, std::vector<std::size_t>& so_far,
                std::vector<Candidate>& found) {
        if (i == f.params.size()) {
            for (std::size_t v = 0; v < variables_.size(); ++v)
                if (std::ranges::find(so_far, v) == so_far.end()) return;
            found.push_back({&f, so_far});
            return;
        }
        const Parameter& param = f.params[i];
        for (std::size_t v = 0; v < variables_.size(); ++v) {
            if (std::ranges::find(so_far, v) != so_far.end() ||
                !may_be(param, variables_[v], f.params.size() == 1))
                continue;
            so_far.push_back(v);
            assign(f, i + 1, so_far, found);
            so_far.pop_back();
        }
        if (param.may_be_missing) {
            so_far.push_back(kNone);
            assign(f, i + 1, so_far, found);
            so_far.pop_back();
        }
    }
    std::vector<Candidate> candidates() {
        std::vector<Candidate> found;
        for (const Function& f : functions()) {
            if (!f.scalar || f.raw || f.count || !f.gives || f.params.size() > kMostVariables) continue;
            if (f.topic != "air" && f.name != "LATENTHEAT" && f.name != "SPECIFICHEAT") continue;
            if (!std::ranges::all_of(f.params, [](const Parameter& p) { return usual(p).has_value(); }))
                continue;
            if (label_.kind && *label_.kind != *f.gives) continue;
            std::vector<std::size_t> so_far;
            assign(f, 0, so_far, found);
        }
        return found;
    }

    // The number that the cell holds for an argument of this size; as_fraction: a share that its label gives
    // in per cent is put in as a fraction all the same.
    static double in_cell(const Parameter& param, const Variable& v, double plain, bool as_fraction) {
        const Meaning& m = *v.meaning;
        if (a_share(param.kind)) {
            const bool percent = per_cent_unit(m) || (!m.unit && std::abs(v.value.value_or(0)) > 1.5);
            return percent && !as_fraction ? 100 * plain : plain;
        }
        return m.unit && m.unit->dimension == param.read_in.dimension
                   ? m.unit->from_si(param.read_in.to_si(plain))
                   : plain;
    }

    struct Near {
        double factor = 1, error = 0;
    };
    // The formula over the function at what the arguments usually are: one factor throughout, within a
    // percent.
    std::optional<Near> near(const Formula& tree, const Candidate& c, bool as_fraction) const {
        const Function& f = *c.function;
        std::vector<double> ratios;
        for (std::size_t s = 0; s < kUsual; ++s) {
            std::vector<Value> arguments(f.params.size());
            std::array<double, kMostVariables> x{};
            for (std::size_t i = 0; i < f.params.size(); ++i) {
                const Parameter& param = f.params[i];
                const std::size_t v = c.variable[i];
                const double plain = v == kNone ? param.otherwise.value_or(0) : (*usual(param))[s];
                arguments[i] = {.given = v != kNone || param.otherwise, .si = param.read_in.to_si(plain)};
                if (v != kNone) x[v] = in_cell(param, variables_[v], plain, as_fraction);
            }
            double ours = 0;
            try {
                ours = std::get<double>(f.call(arguments));
            } catch (const NoResult&) {
                continue;
            }
            const auto theirs = value_at(tree, at_, picture_, x);
            if (!theirs) return {};
            if (f.gives == Kind::temperature) {
                if (std::abs(*theirs - ours) > 0.5) return {};
                ratios.push_back(1);
            } else {
                ratios.push_back(*theirs / ours);
            }
        }
        if (ratios.size() < 4) return {};
        const auto [low, high] = std::ranges::minmax(ratios);
        if (!(low > 0) || high / low > 1 + 2 * kNear) return {};
        double factor = std::sqrt(low * high);
        const double power = std::pow(10, std::round(std::log10(factor)));
        for (const double known : {power, 7.500617, 1.0})
            if (std::abs(factor / known - 1) <= kNear) factor = known;
        const double error = std::max(std::abs(high / factor - 1), std::abs(low / factor - 1));
        if (error > kNear) return {};
        if (factor != power && factor != 7.500617) return {};
        return Near{factor, error};
    }

    std::optional<Recognised> by_value(const Formula& tree) {
        const std::vector<Candidate> all = candidates();
        if (all.empty()) return {};
        for (const Candidate& c : all)
            if (const auto found = near(tree, c, false)) return near_to(c, *found, {});
        if (!label_.kind) return {};
        for (const Candidate& c : all)
            for (std::size_t i = 0; i < c.variable.size(); ++i)
                if (c.variable[i] != kNone && a_share(c.function->params[i].kind) &&
                    per_cent_unit(*variables_[c.variable[i]].meaning) &&
                    !variables_[c.variable[i]].meaning->unit_by_value)
                    if (const auto found = near(tree, c, true))
                        return near_to(c, *found,
                                       {"{} is in per cent and is used as a fraction",
                                        {variables_[c.variable[i]].said}});
        // a constant with two digits exchanged, or typed for another that is known
        std::vector<const Formula*> numbers;
        for_each_part(tree, [&](const Formula& part) {
            if (part.what == What::number && !usual_constant(part.number)) numbers.push_back(&part);
        });
        for (const Formula* number : numbers)
            for (const double meant : perhaps_meant(number->number)) {
                Formula mended = tree;
                replace(mended, number->number, meant);
                for (const Candidate& c : all)
                    if (const auto found = near(mended, c, false))
                        return near_to(
                            c, *found,
                            {"the constant {} should be {}", {{number->number, {}, 8}, {meant, {}, 8}}});
            }
        return {};
    }

    static void replace(Formula& tree, double number, double by) {
        if (tree.what == What::number && tree.number == number) tree.number = by;
        for (Formula& part : tree.parts) replace(part, number, by);
    }

    static std::vector<double> perhaps_meant(double number) {
        std::vector<double> meant;
        const std::string digits = drysheet::in_words(number, 10);
        for (std::size_t i = 0; i + 1 < digits.size(); ++i) {
            const std::size_t next = digits[i + 1] == '.' ? i + 2 : i + 1;
            if (next >= digits.size() || digits[i] == '.' || digits[i] == digits[next] || digits[i] == '-')
                continue;
            std::string exchanged = digits;
            std::swap(exchanged[i], exchanged[next]);
            if (digits.size() >= 4) meant.push_back(std::stod(exchanged));
        }
        // published constants of moist air: molar ratio, Magnus-type equations, heats, the standard pressure
        for (const double known : {0.622, 0.6108, 6.108, 610.8, 17.27, 237.3, 17.62, 243.12, 101.325, 1013.25,
                                   2501.0, 1.006, 1.86, 273.15})
            if (number != known && std::abs(number / known - 1) < 0.2 && std::abs(number / known - 1) > 1e-3)
                meant.push_back(known);
        return meant;
    }

    Recognised near_to(const Candidate& c, const Near& found, const Sentence& slip) const {
        const Function& f = *c.function;
        Judged j;
        std::vector<std::string> arguments;
        for (std::size_t i = 0; i < f.params.size() && c.variable[i] != kNone; ++i) {
            const Variable& v = variables_[c.variable[i]];
            const Meaning& m = *v.meaning;
            const bool percent = a_share(f.params[i].kind) &&
                                 (per_cent_unit(m) || (!m.unit && std::abs(v.value.value_or(0)) > 1.5));
            const bool joined = m.unit && m.unit->dimension == f.params[i].read_in.dimension &&
                                m.unit->dimension != Dimension{} &&
                                std::abs(m.unit->to_si(1) - f.params[i].read_in.to_si(1)) > 1e-9;
            arguments.push_back(v.said + (percent ? "/100" : joined ? "&\" " + m.unit_text + "\"" : ""));
        }
        j.call = "DRY." + std::string(f.name) + "(";
        for (std::size_t i = 0; i < arguments.size(); ++i)
            j.call.append(i == 0 ? "" : ";").append(arguments[i]);
        j.call += ")";
        j.would_show = number_of(parse("=" + j.call, at_, picture_), at_, picture_);
        const Unit out = read_unit(f.result_unit).value_or(Unit{});
        double scale = found.factor;
        Sentence why = slip;
        const bool share_result = a_share(*f.gives);
        if (label_.unit && f.gives != Kind::temperature && !(share_result && label_.unit_by_value) &&
            (share_result || label_.unit->dimension == out.dimension)) {
            const double expected = share_result ? (per_cent_unit(label_) ? 100 : 1)
                                                 : out.step_to_si(1) / label_.unit->step_to_si(1);
            const double off = found.factor / expected;
            if (std::abs(off - 1) > 2 * kNear && clean_factor(std::pow(10, std::round(std::log10(off)))))
                why = why.empty() ? times_off(off) : Sentence("{}; {}", {std::move(why), times_off(off)});
            scale = expected;
        }
        if (!why.empty())
            return say(Recognised::What::slip, Verdict::wrong, {"{} ({})", {why, is_sum(f)}}, j, scale);
        const Sentence::Part how_near = f.gives == Kind::temperature
                                            ? Sentence::Part(0.5, "K")
                                            : Sentence::Part(100 * std::max(found.error, 1e-5), "%", 2);
        return say(Recognised::What::right, Verdict::could_be_checked,
                   {"Nearly the same as {}; within {} of it over what its inputs usually are",
                    {is_sum(f), how_near}},
                   j, scale);
    }

    static constexpr double kNear = 0.01;

    const Picture& picture_;
    const Place at_;
    const Labels& labels_;
    Reading reading_;
    const Meaning& label_;
    std::optional<double> shows_;
    std::vector<Variable> variables_;
};

}  // namespace

std::optional<Recognised> recognise(const Picture& picture, const Place& at, const Labels& labels,
                                    const Reading& reading) {
    return Recogniser(picture, at, labels, reading).made();
}

}  // namespace drysheet::workbook
