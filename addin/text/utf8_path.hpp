// SPDX-License-Identifier: MPL-2.0
// The path of a file whose name is UTF-8 on every system: of a plain string Windows takes it as its code
// page.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

namespace drysheet {

inline std::filesystem::path utf8_path(std::string_view utf8) {
    return std::u8string(utf8.begin(), utf8.end());
}

}  // namespace drysheet
