// SPDX-License-Identifier: MPL-2.0
// A workbook judged: every formula, ours or not, and every label against its number.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "addin/functions/function.hpp"
#include "addin/workbook/findings.hpp"
#include "addin/workbook/graph.hpp"
#include "addin/workbook/labels.hpp"
#include "addin/workbook/picture.hpp"

namespace drysheet::workbook {

/// Reads and judges all. `alive` hears how much is done, from 0 to 1, and may throw to stop.
Review review(const Picture& picture, const std::function<void(double)>& alive = nullptr);

/// An argument of a call of ours as a cell holds it.
struct AboutArgument {
    std::string name;     ///< "fresh"
    std::string written;  ///< "B2"
    std::string shown;  ///< what it gives, in words, with the unit of its label, or as the function reads it
    std::string label;  ///< of the cell, where it is one
};
struct AboutCall {
    const Function* function = nullptr;
    std::string written;  ///< "DRY.DRIEDMASS(B2;C2;D2)"
    std::vector<AboutArgument> arguments;
    std::vector<std::optional<Input>> given;  ///< the arguments' values; nothing where one cannot be known
    std::string refusal;                      ///< why it has no value; empty: it has one
};

/// A value in words: in a percent format as a percentage, another number with the unit, a text as it stands.
std::string with_unit(const Input& value, const Meaning& meaning, std::string_view unit,
                      const Reading& reading);

/// What there is to say of one cell.
struct About {
    Place cell;
    Meaning meaning;
    std::string unit;      ///< by its label, or carried from its inputs; empty: not known
    std::string evidence;  ///< how that is known
    std::optional<Finding> finding;
    std::vector<AboutCall> calls;  ///< of our functions, the outer before the inner ones
    std::vector<Place> inputs;     ///< typed values that it rests on
    std::vector<Place> results;    ///< formulas that rest on it and that nothing else refers to
};

/// A picture with all that was found out about it, for the panel: questions about one cell are quick.
class Reviewed {
  public:
    explicit Reviewed(Picture picture, const std::function<void(double)>& alive = nullptr);

    Reviewed(const Reviewed&) = delete;
    Reviewed& operator=(const Reviewed&) = delete;

    const Picture& picture() const { return picture_; }
    const Review& review() const { return review_; }
    const Labels& labels() const { return labels_; }
    const Graph& graph() const { return graph_; }
    About about(const Place& place) const;

  private:
    Picture picture_;
    Labels labels_;
    Graph graph_;
    Review review_;
};

/// The calls of our functions in a formula, names taken as what they mean, with what they are given.
std::vector<AboutCall> calls_in(const Formula& formula, const Place& at, const Picture& picture,
                                const Labels& labels);

}  // namespace drysheet::workbook
