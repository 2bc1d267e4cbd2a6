// SPDX-License-Identifier: MPL-2.0
// How often the 95 % intervals of fits hold, and their verdicts are right: the figures in FIGURES.md.
#include <cstdio>
#include <cstdlib>
#include <string>

#include "tests/simulation/fitted_runs.hpp"

using namespace drysheet;
using namespace drysheet::simulation;

namespace {

void print(const std::string& title, const Shares& s) {
    std::printf("| %-58s |", title.c_str());
    std::string held, equal;
    for (std::size_t k = 0; k < s.held.size(); ++k) {
        char text[32];
        std::snprintf(text, sizeof text, "%s%.1f", k == 0 ? "" : ", ", 100 * s.held[k]);
        held += text;
        std::snprintf(text, sizeof text, "%s%.1f", k == 0 ? "" : ", ", 100 * s.held_equal[k]);
        equal += text;
    }
    std::printf(" %-24s | %-24s | %5.1f | %5.1f |\n", held.c_str(), equal.c_str(), 100 * s.doubted,
                100 * s.refused);
}

}  // namespace

int main(int count, char** words) {
    const int runs = count > 1 ? std::atoi(words[1]) : 2000;
    const Bench lewis{CurveModel::lewis, {0.4}, every(0.5, 17)};
    const Bench page{CurveModel::page, {0.35, 1.2}, every(0.5, 17)};
    const Bench slow_page{CurveModel::page, {0.6, 0.8}, thinning()};
    Bench lewis_thin = lewis, page_short = page;
    lewis_thin.hours = thinning();
    page_short.hours = every(1, 9);
    std::printf("| case | held %% | by equal noise %% | doubted %% | refused %% |\n|---|---|---|---|---|\n");
    std::uint64_t seed = 1;
    const bool runs_too = count <= 2 || std::string(words[2]) != "isotherms";
    const auto both = [&](const std::string& title, const Bench& bench) {
        print("RUNFIT " + title, run_fits(runs, bench, ++seed));
        print("CURVEFIT " + title, curve_fits(runs, bench, ++seed));
    };
    const std::pair<const char*, const Bench*> benches[] = {{"Lewis", &lewis},
                                                            {"Lewis, thinning", &lewis_thin},
                                                            {"Page 1.2", &page},
                                                            {"Page 0.8, thinning", &slow_page},
                                                            {"Page 1.2, 9 readings", &page_short}};
    for (const auto& [name, bench] : benches) {
        if (!runs_too) break;
        const std::string title(name);
        Bench b = *bench;
        both(title, b);
        b.jitter = 1.0 / 60;
        both(title + ", clock ± 1 min", b);
        b.jitter = 0;
        b.late = 0.1;
        both(title + ", clock 6 min late", b);
        b.late = 0;
        b.spill = 8;
        both(title + ", 8 g spilled half-way", b);
    }
    const Salts gab{IsothermModel::gab, {0.1, 10, 0.85}}, oswin{IsothermModel::oswin, {0.12, 0.5}},
        peleg{IsothermModel::peleg, {0.12, 0.5, 0.25, 6}};
    Salts bet{IsothermModel::bet, {0.07, 15}};
    bet.activities = {0.08, 0.113, 0.16, 0.225, 0.328, 0.385, 0.432, 0.5};
    const std::pair<const char*, const Salts*> all[] = {
        {"GAB", &gab}, {"Oswin", &oswin}, {"Peleg", &peleg}, {"BET", &bet}};
    for (const auto& [name, salts] : all) {
        const std::string title = "SORPTIONFIT " + std::string(name);
        Salts s = *salts;
        s.equal = 0.003;
        print(title + ", 0.003 kg/kg", isotherm_fits(runs, s, ++seed));
        s.equal = 0;
        s.relative = 0.03;
        print(title + ", 3 % of each moisture", isotherm_fits(runs, s, ++seed));
        s.relative = 0.01;
        s.jar = 0.005;
        print(title + ", 1 %, each activity ± 0.005", isotherm_fits(runs, s, ++seed));
        s.jar = 0;
        s.probe = 0.005;
        print(title + ", 1 %, all activities 0.005 too high", isotherm_fits(runs, s, ++seed));
    }
}
