// SPDX-License-Identifier: MPL-2.0
// The isotherms in their order: IsothermModel, DRY.SORPTIONMODELS and all that goes over them follow from it.
#pragma once

/// A row an isotherm: its name among IsothermModel, and its struct in isotherms/NAME.hpp.
#define DRYSHEET_ISOTHERMS(ROW)                   \
    ROW(gab, Gab)                                 \
    ROW(bet, Bet)                                 \
    ROW(oswin, Oswin)                             \
    ROW(halsey, Halsey)                           \
    ROW(henderson, Henderson)                     \
    ROW(peleg, Peleg)                             \
    ROW(modified_henderson, ModifiedHenderson)    \
    ROW(modified_chung_pfost, ModifiedChungPfost) \
    ROW(modified_halsey, ModifiedHalsey)          \
    ROW(modified_oswin, ModifiedOswin)
