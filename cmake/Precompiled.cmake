# SPDX-License-Identifier: MPL-2.0
# What nearly every file includes, read once a target: for the gate's clang builds, a fifth of their time. The g++ build does without, so
# that a file which does not include what it uses is still noticed.
option(DRYSHEET_PRECOMPILED "Precompile the headers that nearly every file includes" OFF)

# drysheet_precompile(TARGET HEADERS...): these, in angle brackets, and the standard library's.
function(drysheet_precompile target)
    if(DRYSHEET_PRECOMPILED)
        target_precompile_headers(${target} PRIVATE <algorithm> <array> <charconv> <cmath> <functional> <limits> <map> <memory> <numeric>
                                  <optional> <set> <span> <string> <string_view> <utility> <variant> <vector> ${ARGN})
    endif()
endfunction()
