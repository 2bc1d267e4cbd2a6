// SPDX-License-Identifier: MPL-2.0
// The commands of the menu, org.drysheet.menu:NAME. Each gives the sentence that says what it did, or throws
// NotDone with the one that says why it did nothing.
#pragma once

#include <string>
#include <string_view>

#include "addin/office/request.hpp"

namespace drysheet {

struct Command {
    std::string_view name;  ///< with "-" at its end: of every name that begins so
    std::string (*run)(const Request&);
    enum class Says : unsigned char { in_status_bar, in_box, nothing } says = Says::in_status_bar;
};

/// nullptr where there is none of this name.
const Command* find_command(std::string_view name);

std::string about(const Request&);                    // about.cpp
std::string about_cell(const Request&);               // about_cell.cpp
std::string add_trial(const Request&);                // trial.cpp
std::string adopt(const Request&);                    // adopt.cpp
std::string collect_answers(const Request&);          // class_desk.cpp
std::string hand_out_workbooks(const Request&);       // class_desk.cpp
std::string open_example(const Request&);             // example.cpp
std::string open_form(const Request&);                // example.cpp
std::string open_reference(const Request&);           // about.cpp
std::string working_as_cells(const Request&);         // working_cells.cpp
std::string put_formulas(const Request&);             // insert.cpp
std::string put_trials_side_by_side(const Request&);  // trial.cpp
std::string review_folder(const Request&);            // review_folder.cpp
std::string review(const Request&);                   // review.cpp
std::string how_sure(const Request&);                 // sure.cpp

}  // namespace drysheet
