// SPDX-License-Identifier: MPL-2.0
#include "addin/text/csv.hpp"

#include "addin/text/words.hpp"

namespace drysheet {

std::string csv(const Table& table) {
    std::string out;
    for (std::size_t row = 0; row < table.rows(); ++row) {
        for (std::size_t i = 0; i < table.columns; ++i) {
            const Cell& cell = table.at(row, i);
            if (i > 0) out += ',';
            if (const auto* number = std::get_if<double>(&cell)) out += in_words(*number, 15);
            const auto* text = std::get_if<std::string>(&cell);
            if (text == nullptr) continue;
            if (text->find_first_of("\",\r\n") == std::string::npos) {
                out += *text;
                continue;
            }
            out += '"';
            for (const char c : *text) out.append(c == '"' ? 2 : 1, c);
            out += '"';
        }
        out += "\r\n";
    }
    return out;
}

}  // namespace drysheet
