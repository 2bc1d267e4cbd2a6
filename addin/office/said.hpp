// SPDX-License-Identifier: MPL-2.0
// A sentence in the status bar.
#pragma once

#include <com/sun/star/frame/XFrame.hpp>
#include <string>

namespace drysheet {

/// It stays until another cell is selected. Does nothing where there is no status bar.
void say(const com::sun::star::uno::Reference<com::sun::star::frame::XFrame>& frame,
         const std::string& words);

}  // namespace drysheet
