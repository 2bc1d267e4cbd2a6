// SPDX-License-Identifier: MPL-2.0
// Values of the office to and from plain ones.
#pragma once

#include <com/sun/star/uno/Any.hxx>
#include <rtl/ustring.hxx>
#include <string_view>

#include "addin/text/cell.hpp"

namespace drysheet {

Input input_from(const com::sun::star::uno::Any& value);
com::sun::star::uno::Any any_from(const Outcome& outcome);
rtl::OUString ustring_from(std::string_view utf8);
std::string utf8_from(const rtl::OUString& text);

}  // namespace drysheet
