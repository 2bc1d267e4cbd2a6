// SPDX-License-Identifier: MPL-2.0
// What the numbers of a workbook are: read from their own text, their format, the unit beside them, their
// labels and headings, notes and names. Words of the trade in four languages are in words/lexicon.inc.
#pragma once

#include <bitset>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "addin/workbook/picture.hpp"
#include "drysheet/units.hpp"

namespace drysheet::workbook {

// What a label may say, each word of the lexicon one or more of them: first the quantities, then of which
// thing, when and how.
// clang-format off
#define DRYSHEET_SAYS(ROW)                                                                                            \
    ROW(mass) ROW(moisture) ROW(dry_matter) ROW(activity) ROW(humidity) ROW(humidity_ratio) ROW(temperature)          \
    ROW(pressure) ROW(time) ROW(volume) ROW(area) ROW(length) ROW(energy) ROW(power) ROW(enthalpy) ROW(density)       \
    ROW(speed) ROW(flow) ROW(rate) ROW(yield) ROW(ratio) ROW(share) ROW(loss) ROW(price) ROW(count)                   \
    ROW(moisture_ratio) ROW(difference) ROW(deviation) ROW(specific_heat) ROW(efficiency) ROW(date)                   \
    ROW(fresh) ROW(dried) ROW(start) ROW(final) ROW(target) ROW(equilibrium) ROW(critical) ROW(tare) ROW(gross)       \
    ROW(net) ROW(dish) ROW(sample) ROW(whole) ROW(parts_off) ROW(kept) ROW(solids) ROW(water) ROW(wet) ROW(dry)       \
    ROW(wet_basis) ROW(dry_basis) ROW(wet_bulb) ROW(dry_bulb) ROW(dew_point) ROW(saturation) ROW(latent) ROW(inlet)   \
    ROW(outlet) ROW(ambient) ROW(bulk) ROW(tapped) ROW(total) ROW(mean) ROW(tray) ROW(batch) ROW(air) ROW(per)
// clang-format on

#define DRYSHEET_SAY(name) name,
enum class Say : unsigned char { DRYSHEET_SAYS(DRYSHEET_SAY) count_of };
#undef DRYSHEET_SAY
inline constexpr std::size_t kSays = static_cast<std::size_t>(Say::count_of);
using Says = std::bitset<kSays>;

/// A label's text, taken apart.
struct Label {
    Says says;
    std::optional<Unit> unit;
    std::string unit_text;     ///< as written: "kg", "% w.b."
    bool only_unit = false;    ///< nothing but a unit: "kg", "[%]"
    bool in_brackets = false;  ///< the unit is set apart from the words

    bool has(Say say) const { return says[static_cast<std::size_t>(say)]; }
    bool empty() const { return says.none() && !unit; }
};
Label read_label(std::string_view text);
/// "Green per kg of dried", "roh : trocken": what stands before the word and behind it. None where there is
/// no such word.
std::optional<std::pair<Label, Label>> read_quotient(std::string_view text);

/// What a cell's number is.
struct Meaning : Label {
    std::string label;         ///< the words it was read from, as written: "Fresh mass (kg)"
    std::string evidence;      ///< in words: `headed "Fresh mass (kg)"`, `its format shows kg`
    std::optional<Kind> kind;  ///< a moisture without a stated basis is moisture_wet with `basis` unsaid
    Basis basis = Basis::unsaid;
    bool unit_by_value =
        false;  ///< "%" or a fraction by the size of the number only: no ground for a verdict
    bool percent_format = false;  ///< the number is a fraction that is shown as per cent
    bool clock_format = false;    ///< the number is in days, shown as a clock time or a date
    std::string contradiction;    ///< what the label and the format say against one another; empty: nothing
};

/// The meanings of all numbers and formulas of a picture, worked out once.
class Labels {
  public:
    explicit Labels(const Picture& picture);
    ~Labels();
    Labels(Labels&&) noexcept;
    Labels& operator=(Labels&&) = delete;
    Labels(const Labels&) = delete;
    Labels& operator=(const Labels&) = delete;

    /// Of a cell that says nothing: an empty meaning.
    const Meaning& at(const Place& place) const;

  private:
    struct Reader;
    std::map<Place, Meaning> meanings_;
};

}  // namespace drysheet::workbook
