// SPDX-License-Identifier: MPL-2.0
// Units and kinds carried through formulas, and held against what labels say.
#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "addin/functions/function.hpp"
#include "addin/workbook/findings.hpp"
#include "addin/workbook/labels.hpp"
#include "addin/workbook/picture.hpp"

namespace drysheet::workbook {

/// A factor between units of mass, length, volume or energy, or the other way round: as a number typed into a
/// formula it is hardly ever anything else.
bool is_unit_factor(double x);

/// What a formula's value is by its inputs' units: a dimension and the scales it may have, since 60, 100 or
/// 1000 in a formula may convert, or only multiply.
struct Carried {
    enum class State : unsigned char { unknown, number, known };
    State state = State::unknown;
    double number = 0;           ///< of a number that stands in the formula
    Dimension dimension{};       ///< of a known one
    std::vector<double> scales;  ///< SI per 1 of the value; none: any
    bool weak = false;           ///< a count or a plain number has a part in it: no ground for a verdict
    bool counted = false;        ///< a number of trays or the like has a part in it: doubtful at most
    bool of_percent = false;     ///< a factor of it is shown as per cent, so is a fraction already
    std::optional<Kind> kind;
    Basis basis = Basis::unsaid;
    std::optional<Unit> exact;  ///< a cell's own unit, as it stands
    bool text = false;          ///< a text with its unit, "8.1 kg"
    Says says;                  ///< what its label says, of a cell as it stands
    std::vector<Place> from;    ///< the cells that it comes from

    bool known() const { return state == State::known; }
};

/// Something that does not fit.
struct Clash {
    Verdict verdict = Verdict::wrong;
    std::string why, evidence;
};

/// What a cell was handed to one of our functions as.
struct Use {
    Kind kind{};
    Place by;
    std::string argument;  ///< "DRY.DRIEDMASS, argument start"
};

class Carrier {
  public:
    Carrier(const Picture& picture, const Labels& labels);

    /// What a cell's value is: by its label, or else by its formula.
    Carried of(const Place& place);
    /// What a formula's value is as this cell holds it.
    Carried of(const Formula& formula, const Place& at);

    struct Judged {
        std::vector<Clash> clashes;  ///< within the formula, or between it and the cell's label
        bool agrees = false;         ///< its unit is known from its inputs, and its label says the same
        std::string evidence;
    };
    /// Holds a cell's formula against itself and against the cell's label.
    Judged judge(const Place& place);

    /// Where each cell was handed to our functions, over all formulas judged.
    const std::map<Place, std::vector<Use>>& uses() const { return uses_; }

    /// `B5 is headed "Fresh mass (kg)"`, for each cell that says something.
    std::string said_of(const std::vector<Place>& cells, const Place& at) const;

  private:
    class Walk;
    std::string name_of(const Place& cell, const Place& at) const;
    bool typed_of_label(const std::string& label, const Place& place) const;
    std::optional<Clash> against_label(const Carried& carried, const Place& place, bool& agrees) const;

    const Picture& picture_;
    const Labels& labels_;
    std::map<Place, Carried> known_;
    std::set<Place> under_way_;
    std::map<Place, std::vector<Use>> uses_;
};

/// A unit by its dimension and scale in words, "kg/h"; empty where it has no usual name.
std::string unit_name(const Dimension& dimension, double scale);

}  // namespace drysheet::workbook
