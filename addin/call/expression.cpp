#include "addin/call/expression.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <numbers>
#include <numeric>
#include <span>
#include <stdexcept>
#include <vector>

#include "addin/text/words.hpp"

namespace drysheet {
namespace {

bool letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_'; }
bool digit(char c) { return c >= '0' && c <= '9'; }

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
        double value = product();
        for (;;) {
            spaces();
            if (take("+", "+"))
                value += product();
            else if (take("−", "−") || take("-", "−"))
                value -= product();
            else
                return value;
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
        show(value.number);
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
    std::string word(double x) const { return in_words(x, 6, names_.reading); }
    void show(double x) { shown_ += x < 0 ? "(" + word(x) + ")" : word(x); }

    // A bare name stands for whatever it is, a range or a model's name included; anything else is computed.
    Input argument() {
        spaces();
        std::size_t end = 0;
        while (end < rest_.size() && (letter(rest_[end]) || digit(rest_[end]))) ++end;
        const std::string_view name = rest_.substr(0, end);
        if (end > 0 && !digit(name.front()) && end < rest_.size() &&
            (rest_[end] == ';' || rest_[end] == ')') && names_.values.contains(name)) {
            const Input& value = named(name);
            rest_.remove_prefix(end);
            if (value.form == Input::Form::number) {
                shown_ += word(value.number);
                // as a text, since the number 0 may be taken for a blank cell
                return value.number == 0 ? Input("0") : value;
            }
            shown_ += value.form == Input::Form::grid && value.cells.size() <= 6 ? listed(value)
                      : value.form == Input::Form::text                          ? "\"" + value.text + "\""
                                                                                 : std::string(name);
            return value;
        }
        const double value = sum();
        return value == 0 ? Input("0") : Input(value);
    }
    std::string listed(const Input& range) const {
        std::string text;
        for (const Input& cell : range.cells) text.append(text.empty() ? "" : "; ").append(word(cell.number));
        return text;
    }

    double called(std::string_view name) {
        shown_ += name;
        take("(", "(");
        std::vector<Input> arguments;
        for (;;) {
            arguments.push_back(argument());
            spaces();
            if (take(")", ")")) break;
            if (!take(";", ";")) wrong();
        }
        if (name.front() >= 'A' && name.front() <= 'Z') return names_.call(name, arguments);
        std::vector<double> x;
        for (const Input& input : arguments) {
            if (input.form != Input::Form::grid)
                x.push_back(input.form == Input::Form::text ? 0 : input.number);
            for (const Input& cell : input.cells) x.push_back(cell.number);
        }
        if (name == "sum") return std::accumulate(x.begin(), x.end(), 0.0);
        if (name == "product") return std::accumulate(x.begin(), x.end(), 1.0, std::multiplies<>());
        if (name == "count") return static_cast<double>(x.size());
        if (name == "mean") return std::accumulate(x.begin(), x.end(), 0.0) / static_cast<double>(x.size());
        if (name == "min") return *std::min_element(x.begin(), x.end());
        if (name == "max") return *std::max_element(x.begin(), x.end());
        if (x.size() == 1) {
            if (name == "exp") return std::exp(x[0]);
            if (name == "ln") return std::log(x[0]);
            if (name == "log10") return std::log10(x[0]);
            if (name == "sqrt") return std::sqrt(x[0]);
            if (name == "abs") return std::abs(x[0]);
            if (name == "ceil") return std::ceil(x[0]);
        }
        throw std::logic_error("a working calls the unknown function " + std::string(name));
    }

    std::string_view rest_;
    const Names& names_;
    std::string shown_;
};

}  // namespace

Computed compute(std::string_view expression, const Names& names) {
    return Expression(expression, names).whole();
}

}  // namespace drysheet
