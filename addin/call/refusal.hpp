// SPDX-License-Identifier: MPL-2.0
// A call that has no value, and the sentence that says why.
#pragma once

#include <exception>
#include <string>
#include <string_view>

#include "addin/text/sentence.hpp"

namespace drysheet {

class Refusal : public std::exception {
  public:
    enum class Reason : unsigned char { argument, no_solution };

    /// `why` follows the argument's name and a colon and has no full stop: "dried: 12 g is below …".
    Refusal(Reason reason, std::string argument, Sentence why)
        : reason_(reason), argument_(std::move(argument)), why_(std::move(why)) {}

    Reason reason() const { return reason_; }
    /// The parameter's name; empty when it is none.
    const std::string& argument() const { return argument_; }
    const Sentence& why() const { return why_; }
    /// The whole sentence that DRY.WHY shows.
    std::string written(const Reading& reading = {}) const {
        const std::string subject = subject_.empty() ? argument_ : drysheet::written(subject_, reading);
        return (subject.empty() ? subject : subject + ": ") + drysheet::written(why_, reading) + ".";
    }
    /// The same in English.
    const char* what() const noexcept override {
        if (english_.empty()) english_ = written();
        return english_.c_str();
    }

    /// The same refusal, said of something that is not plainly an argument.
    Refusal under(Sentence subject) const {
        Refusal refusal = *this;
        refusal.subject_ = std::move(subject);
        return refusal;
    }
    /// The same refusal with more said.
    Refusal with(Sentence why) const {
        Refusal refusal = *this;
        refusal.why_ = std::move(why);
        return refusal;
    }

  private:
    Reason reason_;
    std::string argument_;
    Sentence subject_, why_;
    mutable std::string english_;  // an exception stays in its thread
};

[[noreturn]] inline void refuse(std::string_view argument, Sentence why) {
    throw Refusal(Refusal::Reason::argument, std::string(argument), std::move(why));
}

}  // namespace drysheet
