// SPDX-License-Identifier: MPL-2.0
// The review as a sheet: written, and read again.
#pragma once

#include <array>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "addin/office/sheets.hpp"
#include "addin/text/texts.hpp"
#include "addin/workbook/findings.hpp"

namespace drysheet {

inline constexpr char kReviewName[] = "DRYSHEET_REVIEW";
inline constexpr char kFolderName[] = "DRYSHEET_FOLDER";
inline constexpr std::array kReviewHeader{"Cell",      "Finding",    "Why",      "Shows",   "Formula",
                                          "Suggested", "Would show", "Evidence", "Settled", "By"};

/// What stands in one row of the sheet.
struct ReviewRow {
    std::string cell;       ///< "Run.B2:B200, Run.C3, 200 cells"
    workbook::Place first;  ///< where the link leads
    workbook::Verdict verdict = workbook::Verdict::not_judged;
    std::string why;
    com::sun::star::uno::Any shows;
    std::string formula, suggested;
    std::optional<double> would_show;
    std::string evidence, settled, by;
};

/// A row a finding, in the order of the sheet: what people settled stands last.
std::vector<ReviewRow> rows_of(const workbook::Review& review, const workbook::Picture& picture,
                               const Document& document);

/// What the counts and the rows come to, in one sentence.
std::string summary_of(const workbook::Review& review, const std::vector<ReviewRow>& rows,
                       const Texts& texts);

/// Fills an empty sheet: the summary, an empty line, the table. `linked`: the cells are in the same workbook.
void write_review(const Sheet& sheet, const std::vector<ReviewRow>& rows, const std::string& summary,
                  const std::vector<std::string>& sheet_names, bool linked,
                  const std::function<void()>& alive);

/// Where a column of the table is, counted from 0.
sal_Int32 review_column(std::string_view name);

/// The table of a review's sheet without its header row; empty where it is none.
Range review_table(const Sheet& sheet);

/// The areas that a row's first column names, in this workbook; sheets that are gone are left out.
std::vector<com::sun::star::table::CellRangeAddress> areas_named(const std::string& cell,
                                                                 const Document& document);

}  // namespace drysheet
