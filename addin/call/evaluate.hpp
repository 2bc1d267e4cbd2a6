// From cells to a quantity, or to a refusal with its sentence.
#pragma once

#include <span>
#include <stdexcept>
#include <string>
#include <vector>

#include "addin/functions/function.hpp"

namespace drysheet {

/// A call that has no value. `what()` is the sentence that DRY.WHY shows.
class Refusal : public std::runtime_error {
  public:
    enum class Reason : unsigned char { argument, no_solution };

    Refusal(Reason reason, std::string argument, const std::string& sentence)
        : std::runtime_error(sentence), reason_(reason), argument_(std::move(argument)) {}

    Reason reason() const { return reason_; }
    const std::string& argument() const {
        return argument_;
    }  ///< the parameter's name, empty when it is none

  private:
    Reason reason_;
    std::string argument_;
};

/// A scalar argument as read: the value and its standard uncertainty, both in the parameter's own unit.
struct Measured {
    double value = 0;
    double uncertainty = 0;
    bool given = false;  ///< false: left out, and `value` is the usual value, if there is one
};

/// Reads one scalar argument, in the unit in which a plain number is read. Throws Refusal.
Measured read_measured(const Parameter& param, const Input& input, const Reading& reading);

/// The arguments as the function gets them. Throws Refusal.
std::vector<Value> read_arguments(const Function& function, std::span<const Input> given,
                                  const Reading& reading);

/// The place of a choice's name among its choices. Throws Refusal.
int read_choice(const Parameter& param, const Input& given);

/// Reads the arguments and calls the function. Throws Refusal, and nothing else of ours.
Outcome evaluate(const Function& function, std::span<const Input> given, const Reading& reading);

/// The parameter that an argument falls on; the last one may repeat.
const Parameter& parameter_at(const Function& function, std::size_t argument);

}  // namespace drysheet
