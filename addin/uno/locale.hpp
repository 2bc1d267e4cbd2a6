// How the office's locale writes a decimal number.
#pragma once

#include <com/sun/star/uno/XComponentContext.hpp>

#include "addin/catalogue/cell.hpp"

namespace drysheet {

/// Asked once, when the component is made: the locale of the office's settings, or the system's when none is
/// set.
Reading reading_of(const com::sun::star::uno::Reference<com::sun::star::uno::XComponentContext>& context);

}  // namespace drysheet
