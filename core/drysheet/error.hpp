// SPDX-License-Identifier: MPL-2.0
// All that the core ever throws.
#pragma once

#include <exception>
#include <initializer_list>
#include <string_view>
#include <vector>

#include "drysheet/arguments.hpp"
#include "drysheet/kinds.hpp"

namespace drysheet {

/// Why a calculation was refused. The sentence is put together where units and words are known:
/// `reason` is English with a `{}` for each of `amounts`, in order, and follows the argument's value:
/// BadInput(arg::dried, "is below the {} of dry solids that went in", {amount(solids)}).
/// Both texts must be string literals (they are kept by reference).
class NoResult : public std::exception {
  public:
    NoResult(std::string_view argument, std::string_view reason, std::initializer_list<Amount> amounts = {})
        : argument_(argument), reason_(reason), amounts_(amounts) {}

    const char* what() const noexcept override { return reason_.data(); }
    std::string_view argument() const { return argument_; }  ///< the parameter's name; empty: the result
    std::string_view reason() const { return reason_; }
    const std::vector<Amount>& amounts() const { return amounts_; }
    void rename(std::string_view argument) { argument_ = argument; }  ///< as a caller calls it

  private:
    std::string_view argument_;
    std::string_view reason_;
    std::vector<Amount> amounts_;
};

/// A value that cannot be, alone or beside the others.
class BadInput final : public NoResult {
    using NoResult::NoResult;
};

/// A possible value, outside the range for which the equation was published.
class OutOfRange final : public NoResult {
    using NoResult::NoResult;
};

/// A search that found no solution.
class NoConvergence final : public NoResult {
    using NoResult::NoResult;
};

}  // namespace drysheet
