// SPDX-License-Identifier: MPL-2.0
// The office may calculate in several threads: results must not depend on it. Preset "threads" runs this
// under the thread sanitizer.
#include <gtest/gtest.h>

#include <thread>

#include "addin/call/call.hpp"
#include "addin/call/lookup.hpp"
#include "addin/call/working.hpp"

namespace drysheet {
namespace {

const Reading kReading{};

std::vector<Outcome> every_check() {
    std::vector<Outcome> outcomes;
    for (const Function& function : functions())
        for (const Check& check : function.checks) {
            outcomes.push_back(evaluate(function, check.given, {}));
            if (!function.raw)
                outcomes.emplace_back(
                    static_cast<double>(working(read(function, check.given, kReading)).lines.size()));
        }
    return outcomes;
}

TEST(Threads, GiveWhatOneGives) {
    std::vector<std::vector<Outcome>> by_thread(4);
    std::vector<std::thread> threads;
    for (auto& outcomes : by_thread) threads.emplace_back([&outcomes] { outcomes = every_check(); });
    for (std::thread& thread : threads) thread.join();
    const std::vector<Outcome> alone = every_check();
    for (const auto& outcomes : by_thread) {
        ASSERT_EQ(outcomes.size(), alone.size());
        for (std::size_t i = 0; i < alone.size(); ++i) {
            ASSERT_EQ(outcomes[i].index(), alone[i].index());
            if (const auto* number = std::get_if<double>(&alone[i])) {
                EXPECT_EQ(std::get<double>(outcomes[i]), *number);
            } else if (const auto* text = std::get_if<std::string>(&alone[i])) {
                EXPECT_EQ(std::get<std::string>(outcomes[i]), *text);
            } else {
                EXPECT_EQ(std::get<Table>(outcomes[i]).cells, std::get<Table>(alone[i]).cells);
            }
        }
    }
}

}  // namespace
}  // namespace drysheet
