// SPDX-License-Identifier: MPL-2.0
// What the functions about functions share: the call that their arguments name.
#pragma once

#include <span>

#include "addin/call/call.hpp"

namespace drysheet {

/// The function that the first cell names, and the arguments behind it. Throws Refusal.
struct NamedCall {
    const Function& function;
    std::span<const Input> arguments;
};
NamedCall named_call(std::span<const Input> typed);

/// The source that their entries name.
inline constexpr std::string_view kAboutFunctions = "about the functions themselves";

/// A parameter of a function about functions, taken as it stands.
Parameter as_it_stands(std::string_view name, std::string_view text);
Parameter any_more(std::string_view name, std::string_view text);
/// Those that name a call.
Parameter function_named();
Parameter arguments_of_it();

}  // namespace drysheet
