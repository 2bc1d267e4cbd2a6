// SPDX-License-Identifier: MPL-2.0
// A sheet as a plain description: what stands in which cell, how it looks, what may be typed there. The
// office lays it out (office/lay_out.hpp); nothing here knows an office.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace drysheet {

/// How a cell looks; each is a cell style of the workbook.
enum class Look : unsigned char {
    plain,
    title,
    sentence,  ///< a line that runs over several cells and wraps
    section,
    heading,
    label,
    input,   ///< to be typed into
    remark,  ///< small print beside
    alarm,   ///< a remark that asks for something
    result,  ///< what a person reads
    number,  ///< the same as a number, for other formulas
    working,
};

struct PlannedCell {
    std::size_t column = 0, row = 0;
    std::string content{};  ///< as a person would type it into an English sheet
    Look look = Look::plain;
    std::string format{};  ///< English number format; empty: as typed
    std::string note{};
    std::string allowed{};              ///< what may be typed: a formula, or a list "g";"kg"
    std::string refusal{};              ///< the sentence where something else is typed
    std::size_t columns = 1, rows = 1;  ///< merged
};

/// A rectangle of cells.
struct CellArea {
    std::size_t column = 0, row = 0, columns = 1, rows = 1;
};

struct PlannedName {
    std::string name;
    CellArea area;
};

/// A look taken by cells of the area where a formula, written for its first cell, is true.
struct PlannedAlarm {
    CellArea area;
    std::string where;
};

/// Points or lines, each with an x of its own and named by a cell: the one above its y where none is given.
struct PlannedChart {
    struct Series {
        std::string sheet;  ///< whose cells these are; empty: its own
        CellArea x, y;
        std::string named_by{};  ///< that cell, as $Sheet.$A$1
        enum class Line : unsigned char { points, joined, drawn, dashed } line = Line::points;
    };
    std::string title, x_title, y_title;
    std::vector<Series> series;
    CellArea over;  ///< the cells that it covers
};

struct SheetPlan {
    std::vector<PlannedCell> cells;
    std::vector<PlannedName> names;  ///< of the sheet itself
    std::vector<PlannedAlarm> alarms;
    std::vector<PlannedChart> charts;
    std::vector<double> widths;                           ///< of the columns, in mm
    double height = 0;                                    ///< of every row that is used, in mm
    std::vector<std::pair<std::size_t, double>> heights;  ///< of single rows, in mm
    CellArea print{};                                     ///< on one page in width
    bool landscape = false, one_page = false;
};

/// $B$5 and $B$5:$B$9; with a sheet's name $'My trial'.$B$5.
std::string absolute(const CellArea& area, std::string_view sheet = {});

}  // namespace drysheet
