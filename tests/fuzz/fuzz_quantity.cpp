// SPDX-License-Identifier: MPL-2.0
// Any bytes as a quantity's text: read or refused, never a crash, never a value that is not a number.
#include <cmath>
#include <cstdlib>

#include "addin/call/call.hpp"
#include "addin/call/lookup.hpp"

using namespace drysheet;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string text(reinterpret_cast<const char*>(data), size);
    for (const bool comma : {false, true})
        for (const char* name : {"DRIEDMASS", "DRYBASIS", "MOISTURERATIO"}) {
            const Function& function = *find_function(name);
            for (const Parameter& param : function.params) {
                try {
                    const Measured read = read_measured(param, text, {.decimal_comma = comma});
                    if (!std::isfinite(read.value) || !(read.uncertainty >= 0)) std::abort();
                } catch (const Refusal&) {
                }
            }
        }
    return 0;
}
