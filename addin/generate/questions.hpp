// SPDX-License-Identifier: MPL-2.0
// What people ask, and the call that answers it: the front of the function reference.
#pragma once

#include <string_view>

namespace drysheet {

struct Question {
    std::string_view question, call;
};

// clang-format off
inline constexpr Question kQuestions[] = {
    {"How moist is it, by the oven?", R"(DRY.OVENMOISTURE("24.32 g"; "29.74 g"; "25.28 g"))"},
    {"How moist is it usually, before I can measure?", R"(DRY.TYPICAL("ginger"; "moisture"))"},
    {"How much is left after peeling?", R"(DRY.STEPYIELD("2.5 kg"; "2.2 kg"))"},
    {"How much dried product will 60 kg give?", R"(DRY.DRIEDMASS("60 kg"; "82 %"; "10 %"))"},
    {"And from the whole roots, peeled and milled?", R"(DRY.DRIEDFROM("60 kg"; DRY.DRYINGRATIO("82 %"; "10 %"); 0.88; 0.95))"},
    {"How much must I buy for 10 kg dried?", R"(DRY.RAWFOR("10 kg"; DRY.DRYINGRATIO("82 %"; "10 %"); 0.88))"},
    {"How much water must go?", R"(DRY.WATERREMOVED("60 kg"; "82 %"; "10 %"))"},
    {"What will the scale show when it is dry enough?", R"(DRY.STOPMASS("612 g"; "744 g"; "82 %"; "10 %"))"},
    {"How moist is it by now, by its weight?", R"(DRY.FINALMOISTURE("744 g"; "82 %"; "150 g"))"},
    {"When did my run pass 10 %?", R"(DRY.TIMEAT({0|4|8|12}; {744|301|175|143}; 134; "10 %"))"},
    {"Do my weights and moistures agree?", R"(DRY.PICK(DRY.RECONCILE("744 g"; "1 g"; "82 %"; 0.005; "149 g"; "1 g"; "10 %"; 0.005); "verdict"))"},
    {"Did more go astray than weighing explains?", R"(DRY.PICK(DRY.CLOSURE(2500; 1; {2215|273}; {1|1}); "verdict"))"},
    {"How sure is that?", R"(DRY.PICK(DRY.UNCERTAINTY("DRIEDMASS"; "60 ± 0.1 kg"; "82 ± 3 %"; "10 ± 1 %"); "u"))"},
    {"How much longer do thicker slices take?", R"(DRY.THICKNESSTIME(8; 4; 6))"},
    {"How dry is the air that my heater makes?", R"(DRY.HEATEDRH(17; "80 %"; 55; DRY.ALTITUDEPRESSURE(1200)))"},
    {"How much air do I need?", R"(DRY.AIRNEEDED("40 kg"; 10; 55; "12 %"; "40 %"))"},
    {"How much heat does it take at least?", R"(DRY.HEATDEMAND("60 kg"; "82 %"; "10 %"; 17; 55))"},
    {"What does a kilogram cost?", R"(DRY.UNITCOST("12 kg"; 66; 95; 0.18; 8; 2.5))"},
    {"When does the powder cake?", R"(DRY.CAKINGMOISTURE(30; 62; 5.42))"},
    {"What may grow at the water activity that I measured?", "DRY.ACTIVITYBAND(0.46)"},
    {"Why is it refused?", R"(DRY.WHY("DRIEDMASS"; 60; 82; 0.1))"},
    {"How is it worked out?", R"(DRY.WORKING("DRIEDMASS"; "60 kg"; "82 %"; "10 %"))"},
};
// clang-format on

}  // namespace drysheet
