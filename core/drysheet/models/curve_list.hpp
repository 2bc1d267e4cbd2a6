// SPDX-License-Identifier: MPL-2.0
// The drying curves in their order: CurveModel, DRY.CURVEMODELS and all that goes over them follow from it.
#pragma once

/// A row a curve: its name among CurveModel, and its struct in curves/NAME.hpp.
#define DRYSHEET_CURVES(ROW)             \
    ROW(lewis, Lewis)                    \
    ROW(page, Page)                      \
    ROW(henderson_pabis, HendersonPabis) \
    ROW(logarithmic, Logarithmic)        \
    ROW(two_term, TwoTerm)               \
    ROW(midilli, Midilli)                \
    ROW(weibull, Weibull)                \
    ROW(verma, Verma)
