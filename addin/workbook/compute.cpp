// SPDX-License-Identifier: MPL-2.0
#include "addin/workbook/compute.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <map>
#include <numbers>
#include <numeric>

#include "addin/call/call.hpp"
#include "addin/call/lookup.hpp"
#include "addin/text/words.hpp"

namespace drysheet::workbook {

OfOne* function_of_one(std::string_view name) {
    static const std::map<std::string_view, OfOne*> known{
        {"ABS", std::abs},   {"EXP", std::exp},   {"LN", std::log},   {"LOG10", std::log10},
        {"SQRT", std::sqrt}, {"INT", std::floor}, {"SIN", std::sin},  {"COS", std::cos},
        {"TAN", std::tan},   {"TANH", std::tanh}, {"ATAN", std::atan}};
    const auto found = known.find(name);
    return found == known.end() ? nullptr : found->second;
}

namespace {

using What = Formula::What;
using Parts = std::span<const Formula>;

constexpr std::size_t kMostCells = 200'000;  // of a range: whole sheets are not gone through

struct Unknown {};  // no answer without an office
struct Fault {};    // the formula's answer is an error

constexpr int kMostNames = 30;  // within one another

double checked(double x) {
    if (!std::isfinite(x)) throw Fault();
    return x;
}

// A number as the office's texts have it; a text that is none is an error in a sum.
double number_in_text(const std::string& text) {
    const auto plain = trimmed(text);
    double value = 0;
    const auto [end, error] = std::from_chars(plain.data(), plain.data() + plain.size(), value);
    if (error != std::errc() || end != plain.data() + plain.size()) throw Fault();
    return value;
}

double as_number(const Input& x) {
    switch (x.form) {
        case Input::Form::missing:
            return 0;
        case Input::Form::number:
            return x.number;
        case Input::Form::text:
            return number_in_text(x.text);
        case Input::Form::grid:
            if (x.cells.size() == 1) return as_number(x.cells.front());
            throw Unknown();  // the office would take the cell of its own row
    }
    throw Unknown();
}

std::string as_text(const Input& x) {
    if (x.form == Input::Form::grid) {
        if (x.cells.size() == 1) return as_text(x.cells.front());
        throw Unknown();
    }
    return x.form == Input::Form::number ? in_words(x.number, 15) : x.text;
}

bool as_truth(const Input& x) { return std::abs(as_number(x)) > 0; }

Input truth(bool x) { return {x ? 1.0 : 0.0}; }

class Computer {
  public:
    Computer(const Place& at, const Picture& picture, const std::function<Given(const Place&)>& cell)
        : at_(at), picture_(picture), cell_(cell) {}

    Input value(const Formula& f) {
        switch (f.what) {
            case What::number:
            case What::truth:
                return f.number;
            case What::text:
                return f.text;
            case What::blank:
                return {};
            case What::cell:
                return cell(f.from);
            case What::range:
                return range(f);
            case What::name:
                return named(f);
            case What::array:
                return array(f);
            case What::operation:
                return operation(f);
            case What::call:
                return call(f);
            case What::fault:
                throw Fault();
            case What::unreadable:
                break;
        }
        throw Unknown();
    }

  private:
    Input cell(const Reference& from) {
        if (from.gone) throw Fault();
        if (!from.file.empty()) throw Unknown();
        return cell(from.cell);
    }
    Input cell(const Place& place) {
        Given given = cell_ ? cell_(place) : shown(picture_, place);
        if (given.fault) throw Fault();
        return std::move(given.value);
    }

    Input range(const Formula& f) {
        if (f.from.gone || f.to.gone) throw Fault();
        if (!f.from.file.empty() || f.from.cell.sheet != f.to.cell.sheet || f.from.cell.sheet < 0 ||
            static_cast<std::size_t>(f.from.cell.sheet) >= picture_.sheets.size())
            throw Unknown();
        const auto& cells = picture_.sheets.at(static_cast<std::size_t>(f.from.cell.sheet)).cells;
        const auto [top, bottom] = std::minmax(f.from.cell.row, f.to.cell.row);
        const auto [left, right] = std::minmax(f.from.cell.column, f.to.cell.column);
        int last_row = bottom, last_column = right;
        if (bottom - top > 2000)
            last_row = std::clamp(cells.empty() ? top : cells.rbegin()->first.first, top, bottom);
        if (right - left > 200) {
            last_column = left;
            for (const auto& [place, unused] : cells)
                if (place.second <= right) last_column = std::max(last_column, place.second);
        }
        const auto height = static_cast<std::size_t>(last_row - top) + 1,
                   width = static_cast<std::size_t>(last_column - left) + 1;
        if (height * width > kMostCells) throw Unknown();
        std::vector<Input> made;
        for (int row = top; row <= last_row; ++row)
            for (int column = left; column <= last_column; ++column) {
                Input one = cell(Place{f.from.cell.sheet, row, column});
                made.push_back(one.form == Input::Form::missing ? Input("") : std::move(one));
            }
        return {std::move(made), static_cast<std::size_t>(last_column - left) + 1};
    }

    Input named(const Formula& f) {
        const Formula* means = meaning(picture_, f);
        if (means == nullptr || ++names_ > kMostNames) throw Unknown();
        Input made = value(*means);
        --names_;
        return made;
    }

    Input array(const Formula& f) {
        std::vector<Input> cells;
        for (const Formula& part : f.parts) cells.push_back(value(part));
        return {std::move(cells), static_cast<std::size_t>(f.number)};
    }

    template <class Each>
    static Input each(const Input& x, Each change) {
        if (x.form != Input::Form::grid || x.cells.size() == 1)
            return change(x.form == Input::Form::grid ? x.cells[0] : x);
        std::vector<Input> made;
        made.reserve(x.cells.size());
        for (const Input& cell : x.cells) made.push_back(change(cell));
        return {std::move(made), x.columns};
    }
    template <class Join>
    static Input pairs(const Input& a, const Input& b, Join join) {
        const auto grid = [](const Input& x) { return x.form == Input::Form::grid && x.cells.size() > 1; };
        const auto one = [](const Input& x) -> const Input& {
            return x.form == Input::Form::grid ? x.cells.at(0) : x;
        };
        if (!grid(a) && !grid(b)) return join(one(a), one(b));
        if (!grid(a)) return each(b, [&](const Input& y) { return join(one(a), y); });
        if (!grid(b)) return each(a, [&](const Input& x) { return join(x, one(b)); });
        const std::size_t rows = std::max(a.rows(), b.rows()), columns = std::max(a.columns, b.columns);
        const auto at = [](const Input& x, std::size_t row, std::size_t column) -> const Input& {
            row = x.rows() == 1 ? 0 : row;
            column = x.columns == 1 ? 0 : column;
            if (row >= x.rows() || column >= x.columns) throw Fault();
            return x.cells[row * x.columns + column];
        };
        std::vector<Input> made;
        for (std::size_t row = 0; row < rows; ++row)
            for (std::size_t column = 0; column < columns; ++column)
                made.push_back(join(at(a, row, column), at(b, row, column)));
        return {std::move(made), columns};
    }

    Input operation(const Formula& f) {
        const std::string& sign = f.text;
        if (f.parts.size() == 1) {
            Input x = value(f.parts[0]);
            if (sign == "+") return x;
            return each(x, [&](const Input& one) {
                return Input(sign == "%" ? as_number(one) / 100 : -as_number(one));
            });
        }
        if (f.parts.size() != 2 || sign == ":" || sign == "~" || sign == "!") throw Unknown();
        return pairs(value(f.parts[0]), value(f.parts[1]),
                     [&](const Input& a, const Input& b) { return joined(sign, a, b); });
    }

    static Input joined(const std::string& sign, const Input& a, const Input& b) {
        if (sign == "&") return as_text(a) + as_text(b);
        if (sign == "=" || sign == "<>" || sign[0] == '<' || sign[0] == '>')
            return truth(compared(sign, a, b));
        const double x = as_number(a), y = as_number(b);
        switch (sign[0]) {
            case '+':
                return checked(x + y);
            case '-':
                return checked(x - y);
            case '*':
                return checked(x * y);
            case '/':
                return checked(x / y);
            case '^':
                return checked(std::pow(x, y));
            default:
                throw Unknown();
        }
    }

    static bool compared(const std::string& sign, const Input& a, const Input& b) {
        int order = 0;
        const auto text = [](const Input& x) { return x.form == Input::Form::text; };
        if (text(a) || text(b)) {
            if (a.form == Input::Form::number || b.form == Input::Form::number)
                order = text(a) ? 1 : -1;  // a text stands behind every number
            else
                order = lower(as_text(a)).compare(lower(as_text(b)));
        } else {
            const double x = as_number(a), y = as_number(b);
            order = x < y ? -1 : x > y ? 1 : 0;
        }
        if (sign == "=") return order == 0;
        if (sign == "<>") return order != 0;
        if (sign == "<") return order < 0;
        if (sign == "<=") return order <= 0;
        return sign == ">" ? order > 0 : order >= 0;
    }

    // The numbers among the arguments: of a range only its numbers, of the rest every one.
    std::vector<double> numbers(Parts parts) {
        std::vector<double> made;
        for (const Formula& part : parts) {
            const Input x = value(part);
            if (x.form == Input::Form::grid) {
                for (const Input& cell : x.cells)
                    if (cell.form == Input::Form::number) made.push_back(cell.number);
            } else if (part.what == What::cell) {
                if (x.form == Input::Form::number) made.push_back(x.number);
            } else if (x.form != Input::Form::missing) {
                made.push_back(as_number(x));
            }
        }
        return made;
    }
    double number(const Formula& f) { return as_number(value(f)); }
    double number_or(Parts parts, std::size_t i, double otherwise) {
        return i < parts.size() && parts[i].what != What::blank ? number(parts[i]) : otherwise;
    }

    Input call(const Formula& f) {
        const Parts parts = f.parts;
        const std::string& name = f.text;
        if (name.starts_with("DRY.")) return ours(f);
        if (name == "IF") {
            if (parts.empty()) throw Fault();
            const bool holds = as_truth(value(parts[0]));
            if (holds) return parts.size() > 1 ? value(parts[1]) : truth(true);
            return parts.size() > 2 ? value(parts[2]) : truth(false);
        }
        if (name == "IFERROR" || name == "IFNA" || name == "ISERROR" || name == "ISERR") {
            try {
                const Input x = value(parts[0]);
                return name.starts_with("IS") ? truth(false) : x;
            } catch (const Fault&) {
                if (name.starts_with("IS")) return truth(true);
                if (parts.size() < 2) throw;
                return value(parts[1]);
            }
        }
        if (name == "AND" || name == "OR") {
            bool all = true, any = false;
            for (const double x : numbers(parts)) {
                all = all && std::abs(x) > 0;
                any = any || std::abs(x) > 0;
            }
            return truth(name == "AND" ? all : any);
        }
        if (name == "ISNUMBER" || name == "ISBLANK" || name == "ISTEXT") {
            const Input x = value(parts.front());
            if (name == "ISBLANK") return truth(x.form == Input::Form::missing);
            return truth(x.form == (name == "ISTEXT" ? Input::Form::text : Input::Form::number));
        }
        if (name == "COUNT") return static_cast<double>(numbers(parts).size());
        if (name == "PI") return std::numbers::pi;
        if (name == "NA") throw Fault();
        if (name == "CONCATENATE") {
            std::string text;
            for (const Formula& part : parts) text += as_text(value(part));
            return text;
        }
        if (name == "TRIM") {  // no spaces at the ends, single ones within
            const std::string whole = as_text(value(parts.front()));
            std::string text(trimmed(whole));
            text.erase(
                std::unique(text.begin(), text.end(), [](char a, char b) { return a == ' ' && b == ' '; }),
                text.end());
            return text;
        }
        if (name == "LEN") {  // characters, not bytes
            const std::string text = as_text(value(parts.front()));
            return static_cast<double>(
                std::ranges::count_if(text, [](char c) { return (c & 0xC0) != 0x80; }));
        }
        if (name == "SUMPRODUCT") {
            Input all = value(parts.front());
            for (const Formula& part : parts.subspan(1))
                all =
                    pairs(all, value(part), [](const Input& a, const Input& b) { return joined("*", a, b); });
            double sum = 0;
            if (all.form != Input::Form::grid) return as_number(all);
            for (const Input& cell : all.cells) sum += cell.form == Input::Form::number ? cell.number : 0;
            return sum;
        }
        if (name == "INDEX") return index(parts);
        if (const auto made = of_numbers(name, parts)) return checked(*made);
        if (const auto made = of_one(name, parts)) return checked(*made);
        throw Unknown();
    }

    Input index(Parts parts) {
        if (parts.empty()) throw Fault();
        Input grid = value(parts[0]);
        if (grid.form != Input::Form::grid) return grid;
        double row = number_or(parts, 1, 1), column = number_or(parts, 2, 1);
        if (parts.size() == 2 && grid.rows() == 1) std::swap(row, column);
        if (row < 1 || column < 1) throw Unknown();
        const auto i = static_cast<std::size_t>(row) - 1, j = static_cast<std::size_t>(column) - 1;
        if (i >= grid.rows() || j >= grid.columns) throw Fault();
        return grid.cells[i * grid.columns + j];
    }

    std::optional<double> of_numbers(const std::string& name, Parts parts) {
        static constexpr std::string_view known[] = {"SUM",   "AVERAGE", "MIN", "MAX",   "PRODUCT", "MEDIAN",
                                                     "STDEV", "STDEV.S", "VAR", "VAR.S", "STDEV.P", "STDEVP"};
        if (std::ranges::find(known, name) == std::end(known)) return {};
        std::vector<double> x = numbers(parts);
        const auto n = static_cast<double>(x.size());
        const double sum = std::accumulate(x.begin(), x.end(), 0.0);
        if (name == "SUM") return sum;
        if (name == "PRODUCT") return std::accumulate(x.begin(), x.end(), 1.0, std::multiplies());
        if (x.empty()) {
            if (name == "MIN" || name == "MAX") return 0;
            throw Fault();
        }
        if (name == "AVERAGE") return sum / n;
        std::ranges::sort(x);
        if (name == "MIN") return x.front();
        if (name == "MAX") return x.back();
        if (name == "MEDIAN") return (x[(x.size() - 1) / 2] + x[x.size() / 2]) / 2;
        double squares = 0;
        for (const double one : x) squares += (one - sum / n) * (one - sum / n);
        const double variance = squares / (name.ends_with('P') ? n : n - 1);
        return name.starts_with("VAR") ? variance : std::sqrt(variance);
    }

    std::optional<double> of_one(const std::string& name, Parts parts) {
        if (parts.empty()) return {};
        if (OfOne* const f = function_of_one(name)) return f(number(parts[0]));
        if (name == "SIGN") {
            const double x = number(parts[0]);
            return x > 0 ? 1 : x < 0 ? -1 : 0;
        }
        if (name == "VALUE" || name == "N") return number(parts[0]);
        if (name == "NOT") return as_truth(value(parts[0])) ? 0 : 1;
        if (name == "LOG") return std::log(number(parts[0])) / std::log(number_or(parts, 1, 10));
        if (name == "POWER" && parts.size() == 2) return std::pow(number(parts[0]), number(parts[1]));
        if (name == "MOD" && parts.size() == 2) {
            const double x = number(parts[0]), y = number(parts[1]);
            return x - y * std::floor(x / y);
        }
        if (name == "ROUND" || name == "ROUNDUP" || name == "ROUNDDOWN" || name == "TRUNC") {
            const double scale = std::pow(10, number_or(parts, 1, 0)), x = number(parts[0]) * scale;
            if (name == "ROUND") return std::round(x) / scale;
            const double up = x < 0 ? std::floor(x) : std::ceil(x);
            return (name == "ROUNDUP" ? up : std::trunc(x)) / scale;
        }
        if (name == "CEILING" || name == "FLOOR") {
            const double step = number_or(parts, 1, 1), x = number(parts[0]) / step;
            return (name == "CEILING" ? std::ceil(x) : std::floor(x)) * step;
        }
        return {};
    }

    Input ours(const Formula& f) {
        const Function* function = find_function(f.text);
        if (function == nullptr) throw Fault();  // #NAME?
        std::vector<Input> given;
        for (const Formula& part : f.parts) {
            Input x = value(part);
            if (part.what == What::cell && x.form == Input::Form::missing)
                x = 0.0;  // so the office hands it over
            given.push_back(std::move(x));
        }
        try {
            const Outcome outcome = evaluate(*function, given, picture_.reading());
            if (const auto* table = std::get_if<Table>(&outcome)) {
                std::vector<Input> cells;
                for (const auto& one : table->cells) {
                    if (const auto* number = std::get_if<double>(&one))
                        cells.emplace_back(*number);
                    else
                        cells.emplace_back(std::holds_alternative<std::string>(one)
                                               ? std::get<std::string>(one)
                                               : std::string());
                }
                return {std::move(cells), table->columns};
            }
            if (const auto* text = std::get_if<std::string>(&outcome)) return *text;
            return checked(std::get<double>(outcome));
        } catch (const Refusal&) {
            throw Fault();
        }
    }

    Place at_;
    const Picture& picture_;
    const std::function<Given(const Place&)>& cell_;
    int names_ = 0;
};

// Of a table the first cell shows in a single cell.
Input first_of(Input x) {
    if (x.form != Input::Form::grid) return x;
    return x.cells.empty() ? Input() : x.cells.front();
}

}  // namespace

Given shown(const Picture& picture, const Place& place) {
    const Cell* cell = picture.at(place);
    if (cell == nullptr) return {};
    if (cell->error != 0) return {.value = {}, .fault = true};
    if (const auto* number = std::get_if<double>(&cell->value)) return {.value = *number};
    if (const auto* text = std::get_if<std::string>(&cell->value)) return {.value = *text};
    return {};
}

namespace {

std::optional<Given> whole(const Formula& formula, const Place& at, const Picture& picture,
                           const std::function<Given(const Place&)>& cell) {
    try {
        return Given{.value = Computer(at, picture, cell).value(formula)};
    } catch (const Fault&) {
        return Given{.value = {}, .fault = true};
    } catch (const Unknown&) {
        return {};
    }
}

}  // namespace

std::optional<Given> compute(const Formula& formula, const Place& at, const Picture& picture,
                             const std::function<Given(const Place&)>& cell) {
    auto given = whole(formula, at, picture, cell);
    if (given) given->value = first_of(std::move(given->value));
    return given;
}

std::optional<Given> compute_whole(const Formula& formula, const Place& at, const Picture& picture) {
    return whole(formula, at, picture, nullptr);
}

std::optional<double> number_of(const Formula& formula, const Place& at, const Picture& picture,
                                const std::function<Given(const Place&)>& cell) {
    const auto given = compute(formula, at, picture, cell);
    if (!given || given->fault || given->value.form != Input::Form::number) return {};
    return given->value.number;
}

std::optional<double> number_in(const Picture& picture, const Place& place) {
    const Given given = shown(picture, place);
    if (given.fault || given.value.form != Input::Form::number) return {};
    return given.value.number;
}

std::vector<Place> filled_cells(const Picture& picture, const Reference& from, const Reference& to,
                                std::size_t most) {
    std::vector<Place> made;
    if (from.gone || to.gone || !from.file.empty()) return made;
    const auto [top, bottom] = std::minmax(from.cell.row, to.cell.row);
    const auto [left, right] = std::minmax(from.cell.column, to.cell.column);
    const auto [first, last] = std::minmax(from.cell.sheet, to.cell.sheet);
    for (int sheet = std::max(first, 0);
         sheet <= last && static_cast<std::size_t>(sheet) < picture.sheets.size(); ++sheet) {
        const auto& cells = picture.sheets[static_cast<std::size_t>(sheet)].cells;
        for (auto at = cells.lower_bound({top, left});
             at != cells.end() && at->first.first <= bottom && made.size() < most;) {
            const auto [row, column] = at->first;
            if (column > right) {
                at = cells.lower_bound({row + 1, left});
            } else if (column < left) {
                at = cells.lower_bound({row, left});
            } else {
                made.push_back({sheet, row, column});
                ++at;
            }
        }
    }
    return made;
}

const Formula* meaning(const Picture& picture, const Formula& name) {
    const std::string wanted = lower(name.text);
    for (const Name& known : picture.names)
        if (known.scope == name.from.cell.sheet && lower(known.name) == wanted) return &known.means;
    return nullptr;
}

}  // namespace drysheet::workbook
