// SPDX-License-Identifier: MPL-2.0
#include "addin/call/expression.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <limits>
#include <numbers>
#include <numeric>
#include <span>
#include <stdexcept>
#include <vector>

#include "addin/text/words.hpp"
#include "drysheet/moist_air.hpp"

namespace drysheet {
namespace {

constexpr int kGiven = 10;  // digits of what was given
constexpr double kDegree = std::numbers::pi / 180;

bool letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_'; }
bool digit(char c) { return c >= '0' && c <= '9'; }

// 0 for a difference of equal numbers that rounding left unequal.
double unless_rounding(double difference, double largest) {
    return std::abs(difference) <= 4 * std::numeric_limits<double>::epsilon() * largest ? 0 : difference;
}

// sum     = product { ("+" | "−") product }
// product = sign { ("×" | "÷") sign }
// sign    = ["−"] power            power = atom ["^" sign]
// atom    = number | name | name "(" … ")" | "(" sum ")"
// Everything read is copied to `shown_`, names as their numbers.
class Expression {
  public:
    Expression(std::string_view text, const Names& names) : rest_(text), names_(names) {}

    Computed whole() {
        const double value = sum();
        spaces();
        if (!rest_.empty()) wrong();
        return {value, shown_};
    }

  private:
    [[noreturn]] void wrong() const {
        throw std::logic_error("a working cannot be computed at: " + std::string(rest_));
    }

    void spaces() {
        while (rest_.starts_with(' ')) {
            rest_.remove_prefix(1);
            shown_ += ' ';
        }
    }
    bool take(std::string_view token, std::string_view as) {
        if (!rest_.starts_with(token)) return false;
        rest_.remove_prefix(token.size());
        shown_ += as;
        return true;
    }

    double sum() {
        double value = product(), largest = std::abs(value);
        for (;;) {
            spaces();
            const bool plus = take("+", "+");
            if (!plus && !take("−", "−") && !take("-", "−")) return value;
            const double term = product();
            largest = std::max(largest, std::abs(term));
            value = unless_rounding(plus ? value + term : value - term, largest);
        }
    }
    double product() {
        double value = sign();
        for (;;) {
            spaces();
            if (take("×", "×") || take("*", "×"))
                value *= sign();
            else if (take("÷", "÷") || take("/", "÷"))
                value /= sign();
            else
                return value;
        }
    }
    double sign() {
        spaces();
        if (take("−", "−") || take("-", "−")) return -sign();
        const double base = atom();
        spaces();
        return take("^", "^") ? std::pow(base, sign()) : base;
    }
    double atom() {
        spaces();
        if (take("(", "(")) {
            const double value = sum();
            spaces();
            if (!take(")", ")")) wrong();
            return value;
        }
        if (!rest_.empty() && digit(rest_.front())) return number();
        std::size_t end = 0;
        while (end < rest_.size() && (letter(rest_[end]) || digit(rest_[end]))) ++end;
        if (end == 0) wrong();
        const std::string_view name = rest_.substr(0, end);
        rest_.remove_prefix(end);
        if (rest_.starts_with('(')) return called(name);
        if (name == "pi") {
            shown_ += "π";
            return std::numbers::pi;
        }
        const Input& value = named(name);
        if (value.form != Input::Form::number) wrong();
        show(value.number, unit_of(name), digits_of(name));
        return value.number;
    }
    double number() {
        double value = 0;
        const auto end = std::from_chars(rest_.data(), rest_.data() + rest_.size(), value).ptr;
        const auto length = static_cast<std::size_t>(end - rest_.data());
        shown_ += formula_in_words(rest_.substr(0, length), names_.reading);
        rest_.remove_prefix(length);
        return value;
    }

    const Input& named(std::string_view name) const {
        const auto found = names_.values.find(name);
        if (found == names_.values.end())
            throw std::logic_error("a working uses the unknown name " + std::string(name));
        return found->second;
    }
    std::string_view unit_of(std::string_view name) const {
        const auto found = names_.units.find(name);
        return found == names_.units.end() ? std::string_view{} : std::string_view(found->second);
    }
    int digits_of(std::string_view name) const { return names_.computed.contains(name) ? 6 : kGiven; }
    std::string word(double x, std::string_view unit = {}, int digits = kGiven) const {
        return number_in_working(x, unit, names_.reading, digits);
    }
    void show(double x, std::string_view unit = {}, int digits = 6) {
        const std::string text = word(x, unit, digits);
        const bool bracket = x < 0 || text.find("10^") != std::string::npos;
        shown_ += bracket ? "(" + text + ")" : text;
    }

    struct Argument : Input {
        using Input::Input;
        Argument(const Input& input, int shown) : Input(input), digits(shown) {}
        int digits = kGiven;
    };

    // A bare name stands for whatever it is, a range or a model's name included; anything else is computed.
    Argument argument() {
        spaces();
        std::size_t end = 0;
        while (end < rest_.size() && (letter(rest_[end]) || digit(rest_[end]))) ++end;
        const std::string_view name = rest_.substr(0, end);
        if (end > 0 && !digit(name.front()) && end < rest_.size() &&
            (rest_[end] == ';' || rest_[end] == ')') && names_.values.contains(name)) {
            const Input& value = named(name);
            rest_.remove_prefix(end);
            if (value.form == Input::Form::number) {
                shown_ += word(value.number, unit_of(name), digits_of(name));
                // as a text, since the number 0 may be taken for a blank cell
                return value.number == 0 ? Argument("0") : Argument(value, kGiven);
            }
            shown_ += value.form == Input::Form::grid && value.cells.size() <= 6 ? listed(value)
                      : value.form == Input::Form::text                          ? "\"" + value.text + "\""
                                                                                 : std::string(name);
            return {value, digits_of(name)};
        }
        const double value = sum();
        return value == 0 ? Argument("0") : Argument(value);
    }
    std::string listed(const Input& range) const {
        std::string text;
        for (const Input& cell : range.cells) text.append(text.empty() ? "" : "; ").append(word(cell.number));
        return text;
    }

    double called(std::string_view name) {
        const std::size_t start = shown_.size();
        shown_ += name;
        take("(", "(");
        std::vector<Argument> arguments;
        for (;;) {
            arguments.push_back(argument());
            spaces();
            if (take(")", ")")) break;
            if (!take(";", ";")) wrong();
        }
        if (name.front() >= 'A' && name.front() <= 'Z') {
            const std::vector<Input> cells(arguments.begin(), arguments.end());
            const Names::Called called = names_.call(name, cells, shown_.substr(start));
            shown_.resize(start);
            show(called.value, called.unit);
            return called.value;
        }
        if (arguments.front().form == Input::Form::grid) {
            shown_.resize(start);
            return of_range(name, arguments);
        }
        std::vector<double> x;
        x.reserve(arguments.size());
        for (const Input& input : arguments) x.push_back(input.form == Input::Form::text ? 0 : input.number);
        if (name == "min") return *std::min_element(x.begin(), x.end());
        if (name == "max") return *std::max_element(x.begin(), x.end());
        if (name == "atan2" && x.size() == 2) return std::atan2(x[0], x[1]) / kDegree;
        if (name == "water_enthalpy" && x.size() == 2)
            return detail::water_enthalpy(x[0] + 273.15, 1000 * x[1]) / 1000;
        const auto settled = [](double quotient) {
            const double whole = std::round(quotient);
            return std::abs(quotient - whole) <= 1e-9 * std::abs(whole) ? whole : quotient;
        };
        if (x.size() == 1) {
            if (name == "exp") return std::exp(x[0]);
            if (name == "ln") return std::log(x[0]);
            if (name == "log10") return std::log10(x[0]);
            if (name == "sqrt") return std::sqrt(x[0]);
            if (name == "abs") return std::abs(x[0]);
            if (name == "erfc") return std::erfc(x[0]);
            if (name == "sin") return std::sin(x[0] * kDegree);
            if (name == "cos") return std::cos(x[0] * kDegree);
            if (name == "ceil") return std::ceil(settled(x[0]));
            if (name == "floor") return std::floor(settled(x[0]));
        }
        throw std::logic_error("a working calls the unknown function " + std::string(name));
    }

    // Written out cell by cell, so that each line can be followed.
    double of_range(std::string_view name, const std::vector<Argument>& arguments) {
        std::vector<double> x;
        std::string shown;
        const std::vector<Input>& cells = arguments[0].cells;
        const auto add = [&](double value, const std::string& text, std::string_view sign) {
            x.push_back(value);
            shown.append(shown.empty() ? std::string_view{} : sign).append(text);
        };
        const auto digits = [&](double value, std::size_t of) {
            return word(value, {}, arguments[of].digits);
        };
        const auto bracketed = [&](double value, std::size_t of = 0) {
            const std::string text = digits(value, of);
            return value < 0 || text.find("10^") != std::string::npos ? "(" + text + ")" : text;
        };
        if (name == "first" && !cells.empty()) {
            shown_ += bracketed(cells.front().number);
            return cells.front().number;
        }
        if (name == "sum" || name == "mean" || name == "product" || name == "count")
            for (const Input& cell : cells)
                add(cell.number, bracketed(cell.number), name == "product" ? " × " : " + ");
        else if (name == "squares" && arguments.size() == 2)
            for (const Input& cell : cells) {
                const double d = arguments[1].form == Input::Form::text ? 0 : arguments[1].number;
                add((cell.number - d) * (cell.number - d),
                    d == 0 ? bracketed(cell.number) + "^2"
                           : "(" + digits(cell.number, 0) + " − " + bracketed(d, 1) + ")^2",
                    " + ");
            }
        else if (name == "products" && arguments.size() == 2 && arguments[1].cells.size() == cells.size())
            for (std::size_t i = 0; i < cells.size(); ++i)
                add(cells[i].number * arguments[1].cells[i].number,
                    bracketed(cells[i].number) + " × " + bracketed(arguments[1].cells[i].number, 1), " + ");
        else
            throw std::logic_error("a working calls the unknown function of a range " + std::string(name));
        double largest = 0;
        for (const double term : x) largest = std::max(largest, std::abs(term));
        const double total = unless_rounding(std::accumulate(x.begin(), x.end(), 0.0), largest);
        if (name == "count") {
            shown_ += std::to_string(x.size());
            return static_cast<double>(x.size());
        }
        shown_ += shown.empty() ? "0" : x.size() == 1 && name != "mean" ? shown : "(" + shown + ")";
        if (name == "product") return std::accumulate(x.begin(), x.end(), 1.0, std::multiplies<>());
        if (name != "mean") return total;
        shown_ += " ÷ " + std::to_string(x.size());
        return total / static_cast<double>(x.size());
    }

    std::string_view rest_;
    const Names& names_;
    std::string shown_;
};

}  // namespace

std::string number_in_working(double x, std::string_view unit, const Reading& reading, int digits) {
    std::string text = in_words(x, digits, reading);
    if (const auto e = text.find('e'); e != std::string::npos) {
        std::string power = text.substr(e + 1);
        while (power.size() > 2 && power[1] == '0') power.erase(1, 1);
        text = text.substr(0, e) + " × 10^" + (power[0] == '+' ? power.substr(1) : power);
    }
    if (!unit.empty()) text.append(" ").append(unit);
    return text;
}

Computed compute(std::string_view expression, const Names& names) {
    return Expression(expression, names).whole();
}

}  // namespace drysheet
