// SPDX-License-Identifier: MPL-2.0
#include "addin/workbook/replay.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace drysheet::workbook {

using What = Formula::What;

namespace {

constexpr double kNone = std::numeric_limits<double>::quiet_NaN();

double as_number(const Given& given) {
    if (given.fault) return kNone;
    if (given.value.form == Input::Form::missing) return 0;
    return given.value.form == Input::Form::number ? given.value.number : kNone;
}

}  // namespace

struct Replay::Node {
    enum class Does : unsigned char {
        number,
        slot,
        add,
        subtract,
        multiply,
        divide,
        power,
        negate,
        hundredth,
        one,
        sum,
        product,
        average,
        least,
        most
    };
    Does does = Does::number;
    double number = 0;
    std::size_t slot = 0;
    OfOne* one = nullptr;
    std::vector<Node> parts{};
};

struct Replay::Step {
    Place place;
    const Formula* formula;
    std::optional<Node> node;  ///< none: by compute()
    std::size_t slot;
};

Replay::Replay(const Picture& picture, const Graph& graph, std::span<const Place> inputs,
               std::span<const Place> results)
    : picture_(picture) {
    for (const Place& place : inputs) {
        slots_.emplace(place, given_.size());
        given_.push_back(shown(picture, place));
    }
    for (const Place& place : results) results_.push_back(add(place, graph));
    for (const Given& given : given_) numbers_.push_back(as_number(given));
}
Replay::~Replay() = default;
std::size_t Replay::formulas() const { return steps_.size(); }

// Depth first without recursion: workbooks have chains of thousands of cells.
std::size_t Replay::add(const Place& wanted, const Graph& graph) {
    std::vector<std::pair<Place, bool>> open{{wanted, false}};
    while (!open.empty()) {
        const auto [place, ready] = open.back();
        open.pop_back();
        if (slots_.contains(place) || still_.contains(place)) continue;
        const Cell* cell = picture_.at(place);
        if (cell == nullptr || !cell->formula) continue;
        if (!ready) {
            open.emplace_back(place, true);
            for (const Place& below : graph.refers_to(place))
                if (!slots_.contains(below)) open.emplace_back(below, false);
            continue;
        }
        const std::vector<Place> below = graph.refers_to(place);
        if (std::ranges::none_of(below, [this](const Place& at) { return slots_.contains(at); })) {
            still_.insert(place);
            continue;
        }
        slots_.emplace(place, given_.size());
        given_.push_back(shown(picture_, place));
        steps_.push_back({place, &*cell->formula, compiled(*cell->formula, false), given_.size() - 1});
    }
    const auto found = slots_.find(wanted);
    if (found != slots_.end()) return found->second;
    slots_.emplace(wanted, given_.size());
    given_.push_back(shown(picture_, wanted));
    return given_.size() - 1;
}

std::optional<Replay::Node> Replay::compiled(const Formula& formula, bool of_range) const {
    using Does = Node::Does;
    const auto parts_of = [&](Does does, bool ranges) -> std::optional<Node> {
        Node node{.does = does};
        for (const Formula& part : formula.parts) {
            if (ranges && part.what == What::range) {
                for (const Place& place : filled_cells(picture_, part.from, part.to)) {
                    const Given given = shown(picture_, place);
                    if (given.fault) return {};
                    if (given.value.form != Input::Form::number) continue;
                    Formula one;
                    one.what = What::cell;
                    one.from.cell = place;
                    auto made = compiled(one, true);
                    if (!made) return {};
                    node.parts.push_back(*std::move(made));
                }
                continue;
            }
            if (ranges && part.what != What::number && part.what != What::operation &&
                part.what != What::call)
                return {};  // a cell given by itself, a name: told apart by compute()
            auto made = compiled(part, false);
            if (!made) return {};
            node.parts.push_back(*std::move(made));
        }
        return node;
    };
    switch (formula.what) {
        case What::number:
            return Node{.does = Does::number, .number = formula.number};
        case What::cell: {
            if (formula.from.gone || !formula.from.file.empty()) return {};
            const Given given = shown(picture_, formula.from.cell);
            if (given.fault || (given.value.form != Input::Form::number &&
                                (of_range || given.value.form != Input::Form::missing)))
                return {};
            if (const auto slot = slots_.find(formula.from.cell); slot != slots_.end())
                return Node{.does = Does::slot, .slot = slot->second};
            return Node{.does = Does::number, .number = as_number(given)};
        }
        case What::operation: {
            if (formula.parts.size() == 1 && formula.text == "+") return compiled(formula.parts[0], false);
            static const std::map<std::string_view, Does> one{{"-", Does::negate}, {"%", Does::hundredth}};
            static const std::map<std::string_view, Does> two{{"+", Does::add},
                                                              {"-", Does::subtract},
                                                              {"*", Does::multiply},
                                                              {"/", Does::divide},
                                                              {"^", Does::power}};
            const auto& among = formula.parts.size() == 1 ? one : two;
            const auto found = among.find(formula.text);
            return found == among.end() ? std::nullopt : parts_of(found->second, false);
        }
        case What::call: {
            if (formula.text == "PI") return Node{.does = Does::number, .number = std::numbers::pi};
            if (OfOne* const f = function_of_one(formula.text); f != nullptr && formula.parts.size() == 1) {
                auto node = parts_of(Does::one, false);
                if (node) node->one = f;
                return node;
            }
            static const std::map<std::string_view, Does> many{{"SUM", Does::sum},
                                                               {"PRODUCT", Does::product},
                                                               {"AVERAGE", Does::average},
                                                               {"MIN", Does::least},
                                                               {"MAX", Does::most}};
            const auto found = many.find(formula.text);
            if (found == many.end()) return {};
            auto node = parts_of(found->second, true);
            if (node && node->parts.empty()) return {};
            return node;
        }
        default:
            return {};
    }
}

double Replay::worked_out(const Node& node) const {
    using Does = Node::Does;
    const auto part = [&](std::size_t i) { return worked_out(node.parts[i]); };
    switch (node.does) {
        case Does::number:
            return node.number;
        case Does::slot:
            return numbers_[node.slot];
        case Does::add:
            return part(0) + part(1);
        case Does::subtract:
            return part(0) - part(1);
        case Does::multiply:
            return part(0) * part(1);
        case Does::divide:
            return part(0) / part(1);
        case Does::power:
            return std::pow(part(0), part(1));
        case Does::negate:
            return -part(0);
        case Does::hundredth:
            return part(0) / 100;
        case Does::one:
            return node.one(part(0));
        default:
            break;
    }
    double made = part(0);
    for (std::size_t i = 1; i < node.parts.size(); ++i) {
        const double next = part(i);
        switch (node.does) {
            case Does::product:
                made *= next;
                break;
            case Does::least:
                made = next < made || std::isnan(next) ? next : made;
                break;
            case Does::most:
                made = next > made || std::isnan(next) ? next : made;
                break;
            default:
                made += next;
        }
    }
    return node.does == Does::average ? made / static_cast<double>(node.parts.size()) : made;
}

std::vector<std::optional<double>> Replay::operator()(std::span<const Input> inputs) {
    for (std::size_t i = 0; i < inputs.size(); ++i) {
        given_[i] = {.value = inputs[i]};
        numbers_[i] = as_number(given_[i]);
    }
    const auto cell = [this](const Place& place) -> Given {
        const auto slot = slots_.find(place);
        if (slot == slots_.end()) return shown(picture_, place);
        Given given = given_[slot->second];
        if (!given.fault && given.value.form == Input::Form::number)
            given.value.number = numbers_[slot->second];
        return given;
    };
    for (Step& step : steps_) {
        Given& given = given_[step.slot];
        double& number = numbers_[step.slot];
        if (step.node) {
            number = worked_out(*step.node);
            given.fault = !std::isfinite(number);
            given.value.form = Input::Form::number;
            if (given.fault) number = kNone;
        } else {
            const auto made = compute(*step.formula, step.place, picture_, cell);
            given = made ? *made : Given{.value = {}, .fault = true};
            number = as_number(given);
        }
    }
    std::vector<std::optional<double>> values;
    for (const std::size_t slot : results_) {
        const bool number = !given_[slot].fault && given_[slot].value.form == Input::Form::number;
        values.push_back(number && std::isfinite(numbers_[slot]) ? std::optional(numbers_[slot])
                                                                 : std::nullopt);
    }
    return values;
}

}  // namespace drysheet::workbook
