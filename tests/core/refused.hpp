// A call that must be refused, and the argument that must be named.
#pragma once

#include <gtest/gtest.h>

#include "core/error.hpp"

namespace drysheet {

void expect_refused(const auto& call, std::string_view argument) {
    try {
        call();
        ADD_FAILURE() << "no refusal naming " << argument;
    } catch (const Refused& refused) {
        EXPECT_EQ(refused.argument(), argument) << refused.what();
    }
}

}  // namespace drysheet

#define EXPECT_REFUSED(argument, ...) drysheet::expect_refused([&] { __VA_ARGS__; }, argument)
