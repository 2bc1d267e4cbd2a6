// SPDX-License-Identifier: MPL-2.0
// The formulas between some inputs and some results, worked out again and again with other inputs.
#pragma once

#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <span>
#include <vector>

#include "addin/workbook/compute.hpp"
#include "addin/workbook/graph.hpp"

namespace drysheet::workbook {

/// Formulas of plain numbers become short lists of steps; every other one is worked out by compute(). What
/// compute() does not know has no value here, so whoever relies on a replay holds it against the office
/// first.
class Replay {
  public:
    /// The picture must outlive it. inputs: cells whose formulas, if they have any, are not worked out.
    /// Formulas that rest on none of them stay what they show.
    Replay(const Picture& picture, const Graph& graph, std::span<const Place> inputs,
           std::span<const Place> results);
    ~Replay();
    Replay(const Replay&) = delete;
    Replay& operator=(const Replay&) = delete;

    /// What the results show with these contents of the inputs, in their order; nothing where it is no
    /// number.
    std::vector<std::optional<double>> operator()(std::span<const Input> inputs);

    /// How many formulas there are on the way.
    std::size_t formulas() const;

  private:
    struct Node;
    struct Step;
    std::size_t add(const Place& place, const Graph& graph);
    std::optional<Node> compiled(const Formula& formula, bool of_range) const;
    double worked_out(const Node& node) const;

    const Picture& picture_;
    std::map<Place, std::size_t> slots_;
    std::set<Place> still_;        ///< formulas that rest on no input
    std::vector<Given> given_;     ///< of each slot: the inputs first
    std::vector<double> numbers_;  ///< the same, not a number where it is none
    std::vector<Step> steps_;      ///< in an order in which each has what it needs
    std::vector<std::size_t> results_;
};

}  // namespace drysheet::workbook
