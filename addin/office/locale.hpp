// SPDX-License-Identifier: MPL-2.0
// How the office's locale writes a decimal number, and the language of its menus.
#pragma once

#include <com/sun/star/uno/XComponentContext.hpp>
#include <string>

#include "addin/text/sentence.hpp"

namespace drysheet {

/// Asked once, when the component is made: the decimal sign the office writes into a cell; the texts of its
/// menus' language.
Reading reading_of(const com::sun::star::uno::Reference<com::sun::star::uno::XComponentContext>& context);

/// The language of the menus: "de".
std::string menu_language(
    const com::sun::star::uno::Reference<com::sun::star::uno::XComponentContext>& context);

}  // namespace drysheet
