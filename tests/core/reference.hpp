// Reads the files of tests/reference.
#pragma once

#include <cctype>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

/// The rows of a file, without comments (#) and without its header row.
inline std::vector<std::vector<std::string>> read_csv(const std::string& name) {
    std::ifstream file(std::string(DRYSHEET_REFERENCE) + "/" + name);
    std::vector<std::vector<std::string>> rows;
    bool header = true;
    for (std::string line; std::getline(file, line);) {
        if (line.starts_with('#')) continue;
        if (header) {
            header = false;
            continue;
        }
        std::istringstream cells(line);
        rows.emplace_back();
        for (std::string cell; std::getline(cells, cell, ',');) rows.back().push_back(cell);
    }
    return rows;
}
