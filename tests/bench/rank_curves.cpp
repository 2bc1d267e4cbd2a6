// SPDX-License-Identifier: MPL-2.0
// Times the ranking of all curve models on points read from standard input (time in h, moisture ratio).
// Prints the least time of one ranking in seconds, then a line a model: name, residual sum, parameters.
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <iostream>
#include <vector>

#include "drysheet/kinetics.hpp"

int main() {
    using namespace drysheet;
    std::vector<Time> times;
    std::vector<MoistureRatio> ratios;
    for (double t = 0, y = 0; std::cin >> t >> y;) {
        times.push_back(Time::from_value(3600 * t));
        ratios.emplace_back(y);
    }
    double least = 1e9;
    for (int repeat = 0; repeat < 30; ++repeat) {
        const auto start = std::chrono::steady_clock::now();
        const auto ranked = curve_rank(times, ratios);
        const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - start;
        least = std::min(least, taken.count());
    }
    std::printf("%.9g\n", least);
    for (const auto& [model, fit] : curve_rank(times, ratios)) {
        std::printf("%s", std::string(info(model).name).c_str());
        if (fit) {
            std::printf(" %.12g", fit->residual_sum);
            for (double p : fit->parameters) std::printf(" %.10g", p);
        }
        std::printf("\n");
    }
}
