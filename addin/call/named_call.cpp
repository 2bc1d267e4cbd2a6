// SPDX-License-Identifier: MPL-2.0
#include "addin/call/named_call.hpp"

#include "addin/call/lookup.hpp"
#include "addin/text/words.hpp"

namespace drysheet {

NamedCall named_call(std::span<const Input> typed) {
    if (typed.empty() || typed[0].blank()) refuse("function", "is missing; give a function's name in quotes");
    const Input& name =
        typed[0].form == Input::Form::grid && typed[0].cells.size() == 1 ? typed[0].cells[0] : typed[0];
    const Function* found = name.form == Input::Form::text ? find_function(name.text) : nullptr;
    if (found != nullptr) return {*found, typed.subspan(1)};
    if (const auto meant = probably_meant(name.text))
        refuse("function", {"{} is not a function of ours; perhaps \"{}\"", {in_a_sentence(name), *meant}});
    refuse("function", {"{} is not a function of ours", {in_a_sentence(name)}});
}

Parameter as_it_stands(std::string_view name, std::string_view text) {
    Parameter param;
    param.name = name;
    param.text = text;
    param.shape = Shape::anything;
    return param;
}

Parameter any_more(std::string_view name, std::string_view text) {
    Parameter param = as_it_stands(name, text);
    param.repeats = true;
    param.may_be_missing = true;
    return param;
}

Parameter function_named() { return as_it_stands("function", "its name in quotes, such as \"DRIEDMASS\""); }
Parameter arguments_of_it() {
    return any_more("argument", "the arguments exactly as that function gets them");
}

}  // namespace drysheet
