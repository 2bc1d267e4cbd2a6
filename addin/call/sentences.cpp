#include "addin/call/sentences.hpp"

#include <algorithm>
#include <cmath>

#include "addin/call/tables.hpp"
#include "addin/text/words.hpp"

namespace drysheet {
namespace {

bool share(Kind kind) {
    return kind == Kind::moisture_wet || kind == Kind::relative_humidity || kind == Kind::water_activity ||
           kind == Kind::fraction;
}

// "12.5 g", a quantity as it may be written.
std::string example(const Parameter& param) {
    if (share(param.kind)) return "12.5 %";
    return in_words(param.kind == Kind::moisture_dry ? 0.5 : 12.5, param.shown_unit);
}

// The bounds in words: "above 0 g", "from 0 to 1".
std::string bounds(const Limits& limits, std::string_view unit) {
    const auto word = [&](double x) { return in_words(x, unit); };
    const bool low = std::isfinite(limits.low), high = std::isfinite(limits.high);
    if (low && high)
        return (limits.low_open ? "above " : "from ") + in_words(limits.low) +
               (limits.high_open ? " to below " : " to ") + word(limits.high);
    if (low) return (limits.low_open ? "above " : "at least ") + word(limits.low);
    if (high) return (limits.high_open ? "below " : "at most ") + word(limits.high);
    return "any number";
}

// A number, or a text with nothing but a number.
bool is_plain(const Input& input) {
    return input.form == Input::Form::number ||
           (input.form == Input::Form::text &&
            input.text.find_first_not_of("0123456789.,+-± ") == std::string::npos);
}

// What was probably meant by a number that is refused.
std::string hint(const Parameter& param, const Input& input, double x) {
    const bool plain = is_plain(input);
    const auto is = [](double given, std::string_view unit, double meant) {
        return in_words(given, 10) + " " + std::string(unit) + " is " + in_words(meant, 10);
    };
    std::string text;
    if (share(param.kind) && x > 1 && x <= 100) {
        text = "a fraction is wanted";
        if (plain && x >= 2) text += "; " + is(x, "%", x / 100);
        if (param.kind == Kind::moisture_wet && x <= 20)
            text += plain ? "; a dry basis of " + in_words(x) + " kg/kg is written \"" + in_words(x) + " db\""
                          : "; a dry basis is written \"" + in_words(100 * x) + " % db\"";
    } else if (param.kind == Kind::moisture_wet && x == 1) {
        text = "nothing but water has no solids to dry";
    } else if (plain && share(param.kind) && x > param.range.high) {
        text = "a fraction is wanted; " + is(x, "%", x / 100);
    } else if (plain && x >= 2 && param.kind == Kind::moisture_dry && x > param.range.high) {
        text = "kg of water to a kg of solids is wanted; " + is(x, "%", x / 100);
    } else if (plain && x >= 1 && x <= 500 && param.kind == Kind::humidity_ratio) {
        text = "kg of water to a kg of dry air is wanted; " + is(x, "g/kg", x / 1000);
    } else if (plain && x >= 300 && x <= 1200 && param.kind == Kind::pressure) {
        text = "kPa is wanted; " + is(x, "hPa", x / 10);
    } else if (plain && x >= 30000 && x <= 120000 && param.kind == Kind::pressure) {
        text = "kPa is wanted; " + is(x, "Pa", x / 1000);
    } else if (plain && x > 2 && param.kind == Kind::moisture_ratio) {
        text = "it is 1 at the start; weights become ratios by DRY.RATIOS";
    } else if (x == 0 && input.form == Input::Form::number) {
        text = "a blank cell reads as 0";
    } else if (x < 0 && param.kind != Kind::temperature) {
        text = "a minus sign too many, or two cells changed places";
    }
    return text;
}

}  // namespace

std::string allowed(const Parameter& param) {
    if (!std::isfinite(param.range.low) && !std::isfinite(param.range.high)) return {};
    return bounds(param.range, share(param.kind) ? std::string_view{} : param.shown_unit);
}

void refuse(std::string_view argument, const std::string& sentence) {
    throw Refusal(Refusal::Reason::argument, std::string(argument), std::string(argument) + ": " + sentence);
}
void refuse(const Parameter& param, const std::string& sentence) { refuse(param.name, sentence); }

void refuse_outside(const Parameter& param, const Input& input, double x, double si) {
    const std::string given =
        input.form == Input::Form::number ? in_words(input.number, 10) : in_words(input);
    if (!std::isfinite(x)) refuse(param, given + " is not a number.");
    const Limits& possible = row_of(param.kind).limits;
    std::string meant = hint(param, input, x);
    if (!meant.empty()) meant.insert(0, ": ");
    if (possible.hold(si))
        refuse(param, given + " is outside the range; allowed is " + allowed(param) + meant + ".");
    if (share(param.kind) && x > 1) refuse(param, given + " is above 1" + meant + ".");
    const Limits in_unit{.low = param.read_in.from_si(possible.low),
                         .high = param.read_in.from_si(possible.high),
                         .low_open = possible.low_open,
                         .high_open = possible.high_open};
    refuse(param, given + " is impossible; allowed is " +
                      bounds(in_unit, share(param.kind) ? std::string_view{} : param.shown_unit) + meant +
                      ".");
}

void refuse_text(const Parameter& param, const Input& input, TextFault what) {
    const std::string given = in_words(input);
    switch (what) {
        case TextFault::none:
            break;
        case TextFault::no_number:
            if (read_unit(input.text))
                refuse(param, given + " has no number: a heading, or a unit whose cell before it is blank.");
            refuse(param, given + " does not begin with a number; write it like \"" + example(param) + "\".");
        case TextFault::comma:
            refuse(param, given +
                              " is ambiguous: a comma is not this locale's decimal sign; write a point, and "
                              "no thousands separators.");
        case TextFault::thousands:
            refuse(param,
                   given + " is ambiguous: it may hold a thousands separator; write the number without one.");
        case TextFault::uncertainty:
            break;
    }
    refuse(param, given + " has no readable uncertainty; write it like \"412.5 ± 0.1 g\".");
}

void refuse_unknown_unit(const Parameter& param, std::string_view unit) {
    std::string why = "\"" + std::string(unit) + "\" is not a unit known here; ";
    if (unit == "gr")
        why += "write g for a gram, grain for a grain.";
    else if (unit.starts_with(":"))
        why += "half past six is written \"6.5 h\".";
    else if (unit.find('/') != std::string_view::npos && unit.find("·") != std::string_view::npos)
        why += "a product below the line is written in brackets, as in \"g/(m²·day)\".";
    else
        why += "a plain number is read in " +
               (param.shown_unit.empty() ? "no unit" : std::string(param.shown_unit)) + ".";
    refuse(param, why);
}

void refuse_unit(const Parameter& param, const Input& input, const Unit& unit) {
    const std::string_view name = row_of(param.kind).name;
    const bool vowel = std::string_view("aeiou").find(name.front()) != std::string_view::npos;
    std::string why = in_words(input) + (vowel ? " is not an " : " is not a ") + std::string(name);
    if (param.kind == Kind::humidity_ratio && unit.form == RatioForm::percent)
        why += " (a percentage looks like a relative humidity)";
    if (param.kind == Kind::relative_humidity && unit.form == RatioForm::mass_ratio)
        why += " (grams per kilogram look like a humidity ratio)";
    if (param.kind == Kind::moisture_wet && unit.form == RatioForm::mass_ratio && unit.basis == Basis::unsaid)
        refuse(param, why + "; a dry basis says so: \"" + input.text + " db\".");
    why += param.shown_unit.empty() ? "; a plain number is wanted."
                                    : "; wanted is a unit like " + std::string(param.shown_unit) + ".";
    refuse(param, why);
}

Refusal in_sentence(const Function& function, std::span<const Input> given, const Refused& refused) {
    std::string sentence, meant;
    std::string_view unit;
    Kind kind = Kind::number;
    if (refused.argument().empty()) {
        sentence = std::string(function.result.empty() ? "the result" : function.result) + ": ";
        unit = function.result_unit;
    } else {
        sentence = std::string(refused.argument()) + ": ";
        for (std::size_t i = 0; i < function.params.size(); ++i) {
            const Parameter& param = function.params[i];
            if (param.name != refused.argument()) continue;
            unit = param.shown_unit;
            kind = param.kind;
            if (i >= given.size() || given[i].form == Input::Form::missing) continue;
            if (given[i].form == Input::Form::number && param.shape == Shape::scalar) {
                sentence += in_words(given[i].number, share(kind) ? std::string_view{} : unit, 10);
                meant = hint(param, given[i], given[i].number);
            } else {
                sentence += in_words(given[i]);
            }
            sentence += " ";
        }
        for (std::size_t i = 0; i < std::min(given.size(), function.params.size()); ++i) {
            const Parameter& table = function.params[i];
            const auto param = std::ranges::find(table.rows, refused.argument(), &Parameter::name);
            if (param == table.rows.end()) continue;
            unit = param->shown_unit;
            kind = param->kind;
            sentence = std::string(table.name) + " table, " + std::string(param->name) + ": ";
            const auto rows = table_rows(table, given[i]);
            const auto row = std::ranges::find(rows, &*param, &TableRow::param);
            if (row == rows.end()) continue;
            for (const Input& cell : row->cells) sentence += in_words(cell) + " ";
        }
    }
    std::size_t next = 0;
    for (std::size_t i = 0; i < refused.reason().size(); ++i) {
        if (refused.reason().substr(i).starts_with("{}") && next < refused.amounts().size()) {
            const Amount& amount = refused.amounts()[next++];
            if (share(amount.kind) && amount.kind != Kind::moisture_wet)
                sentence += in_words(shown(amount));
            else
                sentence += in_words(amount, amount.kind == kind ? unit : std::string_view{});
            ++i;
        } else {
            sentence += refused.reason()[i];
        }
    }
    if (!meant.empty()) sentence += "; " + meant;
    sentence += ".";
    const bool search = dynamic_cast<const NoConvergence*>(&refused) != nullptr;
    return {search ? Refusal::Reason::no_solution : Refusal::Reason::argument,
            std::string(refused.argument()), sentence};
}

}  // namespace drysheet
