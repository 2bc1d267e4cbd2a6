# SPDX-License-Identifier: MPL-2.0
# One interface target that every target of ours links: warnings, which the gate makes errors. A reason for each flag beyond -Wall -Wextra.
add_library(drysheet_warnings INTERFACE)
if(MSVC)  # clang-cl too; not tried
    target_compile_options(drysheet_warnings INTERFACE /utf-8 /bigobj)
    return()
endif()
target_compile_options(drysheet_warnings INTERFACE
    -Wall -Wextra
    $<$<BOOL:${DRYSHEET_WERROR}>:-Werror>
    -Wconversion        # a double cut to an int, an int to a smaller one: silent wrong results
    -Wshadow            # a parameter hiding a member or an outer name
    -Wnon-virtual-dtor  # deleting through a base
    -Wold-style-cast    # casts that can be searched for
    -Wdouble-promotion  # float has no place here
    -Wno-missing-field-initializers  # entries name only what differs from the usual
    $<$<CXX_COMPILER_ID:GNU>:-Wno-restrict>  # false alarm of GCC 12 on std::string (GCC bug 105651)
)
