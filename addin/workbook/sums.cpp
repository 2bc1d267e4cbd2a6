// SPDX-License-Identifier: MPL-2.0
#include "addin/workbook/sums.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <deque>
#include <functional>
#include <numeric>
#include <unordered_map>

#include "addin/call/lookup.hpp"
#include "addin/call/slips.hpp"

namespace drysheet::workbook {
namespace {

bool share(Kind kind) {
    return kind == Kind::moisture_wet || kind == Kind::relative_humidity || kind == Kind::water_activity ||
           kind == Kind::fraction;
}

// Arithmetic throughout: no function of ours within, so that it holds for any numbers.
bool arithmetic(std::string_view expression) {
    for (std::size_t i = 0; i + 1 < expression.size(); ++i)
        if (expression[i] >= 'A' && expression[i] <= 'Z' && expression[i + 1] >= 'A' &&
            expression[i + 1] <= 'Z')
            return false;
    return true;
}

// few: no change of basis, where one would undo another.
std::vector<Taken> ways(Kind kind, bool few) {
    using enum Taken;
    if (kind == Kind::moisture_wet)
        return few ? std::vector{as_it_stands, percent, rest, rest_of_percent}
                   : std::vector{as_it_stands,    percent,     rest,
                                 rest_of_percent, other_basis, percent_on_other_basis};
    if (kind == Kind::moisture_dry && few) return {as_it_stands, percent};
    if (kind == Kind::moisture_dry) return {as_it_stands, percent, other_basis, percent_on_other_basis};
    if (kind == Kind::fraction) return {as_it_stands, percent, rest, rest_of_percent};
    if (share(kind)) return {as_it_stands, percent};
    return {as_it_stands};
}

// The same in per cent throughout, or not at all.
bool percent(Taken how) {
    return how == Taken::percent || how == Taken::rest_of_percent || how == Taken::percent_on_other_basis;
}

using Change = std::function<void(std::vector<Value>&)>;

struct Formed {
    Sum sum;
    std::string_view expression;  ///< empty: the function's working
    Change change;
};

std::string key_of(std::size_t variables, const std::array<double, kSamples>& values) {
    std::string key = std::to_string(variables);
    for (std::size_t i = 1; i < kSamples; ++i) {
        char text[32];
        std::snprintf(text, sizeof text, " %.5e", values[i] / values[0]);
        key += text;
    }
    return key;
}

class Table {
  public:
    static const Table& get() {
        static const Table made;
        return made;
    }
    const std::vector<SumReading>* find(const std::string& key) const {
        const auto found = all_.find(key);
        return found == all_.end() ? nullptr : &found->second;
    }

  private:
    Table() {
        for (const Function& function : functions()) {
            if (!function.scalar || function.raw || function.count || !function.workings.empty() ||
                !arithmetic(function.working) || function.name == "SATPRESSURE")
                continue;
            if (std::ranges::any_of(function.params, [](const Parameter& p) {
                    return p.shape != Shape::scalar && !p.repeats;
                }))
                continue;
            const bool repeats = function.params.back().repeats;
            for (std::size_t times = 1; times <= (repeats ? 3U : 1U); ++times) add(function, times);
        }
    }

    void add(const Function& function, std::size_t times) {
        std::vector<std::size_t> params;
        for (std::size_t i = 0; i < function.params.size(); ++i)
            if (!function.params[i].may_be_missing)
                for (std::size_t k = 0; k < (function.params[i].repeats ? times : 1); ++k)
                    params.push_back(i);
        if (params.empty() || params.size() > kMostVariables) return;
        enter({{&function, "", params}, {}, {}});
        for (const ToldSlip& slip : function.slips)
            if (arithmetic(slip.answer) && !(function.params.back().repeats && times == 1))
                enter({{&function, slip.sentence, params}, slip.answer, {}});
        for (std::size_t i = 0; i < function.params.size(); ++i) {
            const Parameter& param = function.params[i];
            if (param.kind != Kind::moisture_wet || param.name.find("moisture") != std::string_view::npos)
                continue;
            enter({{&function, {"{} was left out", {in_a_sentence(param)}}, params},
                   {},
                   [i](std::vector<Value>& v) { v[i].si = 0; }});
        }
        for (std::size_t i = 0; i < function.params.size(); ++i)
            for (std::size_t j = i + 1; j < function.params.size(); ++j)
                if (const Parameter& a = function.params[i], &b = function.params[j];
                    a.kind == b.kind && a.kind != Kind::number && !a.repeats && !b.repeats &&
                    !b.may_be_missing)
                    enter({{&function,
                            {"{} and {} were swapped", {in_a_sentence(a), in_a_sentence(b)}},
                            params},
                           {},
                           [i, j](std::vector<Value>& v) { std::swap(v[i].si, v[j].si); }});
        for (std::size_t i = 0; i < function.params.size(); ++i)
            if (function.params[i].kind == Kind::mass && !function.params[i].repeats &&
                function.params[i].range.hold(0) && function.params.size() > 1)
                enter({{&function, {"{} was left out", {in_a_sentence(function.params[i])}}, params},
                       {},
                       [i](std::vector<Value>& v) { v[i].si = 0; }});
    }

    static double value(const Formed& form, std::span<const double> x) {
        const Function& function = *form.sum.function;
        std::vector<Value> values(function.params.size());
        for (std::size_t i = 0; i < values.size(); ++i)
            if (const Parameter& param = function.params[i]; param.otherwise)
                values[i] = {.given = true, .si = param.read_in.to_si(*param.otherwise)};
        for (std::size_t k = 0; k < x.size(); ++k) {
            const std::size_t i = form.sum.params[k];
            const double si = function.params[i].read_in.to_si(x[k]);
            values[i].given = true;
            if (function.params[i].repeats)
                values[i].column.push_back(si);
            else
                values[i].si = si;
        }
        if (form.change) form.change(values);
        const auto made = form.expression.empty() ? as_written(function, values)
                                                  : as_written(function, values, form.expression);
        return made.value_or(std::nan(""));
    }

    // Which arguments the form uses at all: those whose change changes it.
    static std::vector<std::size_t> used(const Formed& form) {
        std::vector<double> x(form.sum.params.size());
        for (std::size_t k = 0; k < x.size(); ++k) x[k] = sample(0, k);
        const double before = value(form, x);
        std::vector<std::size_t> found;
        for (std::size_t k = 0; k < x.size(); ++k) {
            std::vector<double> y = x;
            y[k] = sample(1, k);
            if (!(value(form, y) == before)) found.push_back(k);
        }
        return found;
    }

    void enter(Formed form) {
        const std::vector<std::size_t> slots = used(form);
        if (slots.empty() || copies(form, slots)) return;
        const std::size_t n = slots.size();
        const std::vector<std::size_t> all = form.sum.params;
        std::vector<std::size_t> params;
        params.reserve(n);
        for (const std::size_t k : slots) params.push_back(all[k]);
        const Function& function = *form.sum.function;
        // The values of the form over its own slots, taken as each way has it.
        const std::size_t shares = static_cast<std::size_t>(
            std::ranges::count_if(params, [&](std::size_t i) { return share(function.params[i].kind); }));
        Sum& sum = sums_.emplace_back(form.sum);
        sum.params = params;
        sum.common = common(form, slots);
        std::vector<std::size_t> order(n);
        std::iota(order.begin(), order.end(), std::size_t{0});
        do {
            std::vector<Taken> how(n, Taken::as_it_stands);
            each_way(function, params, shares > 2 || function.params.size() == 1, 0, how, [&] {
                std::array<double, kSamples> values{};
                for (std::size_t s = 0; s < kSamples; ++s) {
                    std::vector<double> x(all.size());
                    for (std::size_t k = 0; k < x.size(); ++k) x[k] = sample(s, k);
                    for (std::size_t k = 0; k < n; ++k)
                        x[slots[k]] = taken(sample(s, order[k]), how[k], function.params[params[k]].kind);
                    values[s] = value(form, x);
                }
                put(n, values, {&sum, order, how, false, 1});
                if (sum.slip.empty() && function.gives && share(*function.gives)) {
                    for (double& x : values) x = 1 - x;
                    put(n, values, {&sum, order, how, true, 1});
                }
            });
        } while (std::ranges::next_permutation(order).found);
    }

    void put(std::size_t n, const std::array<double, kSamples>& values, SumReading reading) {
        if (!std::ranges::all_of(values, [](double x) { return std::isfinite(x) && x != 0; })) return;
        reading.factor = values[0];
        std::vector<SumReading>& there = all_[key_of(n, values)];
        there.push_back(std::move(reading));
    }

    template <class Then>
    static void each_way(const Function& function, const std::vector<std::size_t>& params, bool few,
                         std::size_t k, std::vector<Taken>& how, const Then& then) {
        if (k == params.size()) {
            then();
            return;
        }
        for (const Taken way : ways(function.params[params[k]].kind, few)) {
            bool mixed = false;
            for (std::size_t before = 0; few && before < k; ++before)
                mixed = mixed ||
                        (share(function.params[params[before]].kind) && percent(how[before]) != percent(way));
            if (mixed && share(function.params[params[k]].kind)) continue;
            how[k] = way;
            each_way(function, params, few, k + 1, how, then);
        }
    }

    // A chain of one stage is that stage's yield: no sum, but any cell that refers to another.
    static bool copies(const Formed& form, const std::vector<std::size_t>& slots) {
        std::vector<double> x(form.sum.params.size());
        for (std::size_t k = 0; k < x.size(); ++k) x[k] = sample(0, k);
        return slots.size() == 1 && value(form, x) == x[slots[0]];
    }

    // a·b, a/b, a − b, (a − b)/a, a·b/c …: where no argument stands twice but for one difference over one.
    static bool common(const Formed& form, const std::vector<std::size_t>& slots) {
        if (slots.size() == 1) return false;
        std::vector<double> x(form.sum.params.size());
        for (std::size_t k = 0; k < x.size(); ++k) x[k] = sample(0, k);
        const double e = value(form, x);
        // a power of every argument at most: scaling an argument scales the result by it, or by its inverse
        const bool product = std::ranges::all_of(slots, [&](std::size_t k) {
            std::vector<double> y = x;
            y[k] *= 1.5;
            const double ratio = value(form, y) / e;
            return std::abs(ratio - 1.5) < 1e-9 || std::abs(ratio * 1.5 - 1) < 1e-9;
        });
        if (product) return true;
        if (slots.size() != 2) return slots.size() == 3 && linear(form, slots, x);
        const double a = x[slots[0]], b = x[slots[1]];
        for (const double other : {a - b, b - a, a + b, (a - b) / a, (a - b) / b, (b - a) / a, (b - a) / b})
            if (std::abs(e / other - 1) < 1e-9 || std::abs(e * 1000 / other - 1) < 1e-9) return true;
        return false;
    }
    static bool linear(const Formed& form, const std::vector<std::size_t>& slots, std::vector<double> x) {
        const double e = value(form, x);
        return std::ranges::all_of(slots, [&](std::size_t k) {
            std::vector<double> y = x;
            y[k] += 0.125;
            return std::abs(std::abs(value(form, y) - e) - 0.125) < 1e-9;
        });
    }

    std::deque<Sum> sums_;
    std::unordered_map<std::string, std::vector<SumReading>> all_;
};

}  // namespace

double sample(std::size_t point, std::size_t i) {
    static constexpr double values[kSamples][kMostVariables] = {{0.61803, 0.17320, 0.38197, 0.27182},
                                                                {0.70711, 0.22361, 0.31415, 0.14142},
                                                                {0.57721, 0.33166, 0.45508, 0.24494},
                                                                {0.83666, 0.12247, 0.26458, 0.36055}};
    return values[point][i];
}

double taken(double x, Taken how, Kind kind) {
    switch (how) {
        case Taken::as_it_stands:
            return x;
        case Taken::percent:
            return x / 100;
        case Taken::rest:
            return 1 - x;
        case Taken::rest_of_percent:
            return 1 - x / 100;
        case Taken::other_basis:
            return kind == Kind::moisture_dry ? x / (1 - x) : x / (1 + x);
        case Taken::percent_on_other_basis:
            return kind == Kind::moisture_dry ? x / (100 - x) : x / (100 + x);
    }
    return x;
}

std::vector<SumReading> readings_of(std::size_t variables, const std::array<double, kSamples>& values) {
    if (variables == 0 || variables > kMostVariables ||
        !std::ranges::all_of(values, [](double x) { return std::isfinite(x) && x != 0; }))
        return {};
    const auto* found = Table::get().find(key_of(variables, values));
    if (found == nullptr) return {};
    std::vector<SumReading> all = *found;
    for (SumReading& one : all) one.factor = values[0] / one.factor;
    return all;
}

bool clean_factor(double factor) {
    for (const double number :
         {1.0, 60.0, 3600.0, 24.0, 1440.0, 1 / 60.0, 1 / 3600.0, 1 / 24.0, 1 / 1440.0}) {
        const double power = std::log10(std::abs(factor) / number);
        if (std::abs(power - std::round(power)) < 1e-6) return true;
    }
    return false;
}

}  // namespace drysheet::workbook
