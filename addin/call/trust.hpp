// The functions about functions: why a call fails, where an equation comes from, what there is.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "addin/functions/function.hpp"

namespace drysheet {

std::vector<Function> trust_entries();

/// The function that a cell names, and the arguments behind it. Throws Refusal.
struct NamedCall {
    const Function& function;
    std::span<const Input> arguments;
};
NamedCall named_call(std::span<const Input> given);

/// One plain sentence: why this call is refused, or "fine: " and the value with its unit.
std::string why(const Function& function, std::span<const Input> arguments, const Reading& reading);

/// Where the equation comes from, its range and its caution.
std::string source_of(const Function& function);

/// A parameter of a function about functions, taken as it stands.
Parameter as_it_stands(std::string_view name, std::string_view text);
Parameter any_more(std::string_view name, std::string_view text);

}  // namespace drysheet
