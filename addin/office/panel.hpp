// SPDX-License-Identifier: MPL-2.0
// The deck Drying of the sidebar.
#pragma once

namespace drysheet {

inline constexpr char kDeck[] = "DrysheetDeck";
inline constexpr char kAboutControl[] = "about";  ///< what is said of the cell

}  // namespace drysheet
