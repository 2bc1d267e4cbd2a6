// SPDX-License-Identifier: MPL-2.0
// A sentence that is not yet written: where it is made, neither the reader's language nor their decimal sign
// is known.
#pragma once

#include <concepts>
#include <string>
#include <string_view>
#include <vector>

#include "drysheet/error.hpp"

namespace drysheet {

class Texts;

/// How texts are to be read, and sentences written.
struct Reading {
    bool decimal_comma = false;    ///< the office's locale writes 412,5
    const Texts* texts = nullptr;  ///< of the office's language; none: English
};

/// English with a {} for each part, in order. The form is a string literal (it is kept by reference): the key
/// under which a translator finds it.
struct Sentence {
    struct Part;

    std::string_view form;
    std::vector<Part> parts;

    Sentence();
    Sentence(std::string_view english);  // NOLINT: a literal is a sentence
    Sentence(std::string_view english, std::vector<Part> with);
    Sentence(const char* english);  // NOLINT
    bool empty() const { return form.empty(); }
};

/// What stands for a {}: a text as it is, a number with its unit (which is looked up as well: "fraction"), or
/// a sentence within the sentence.
struct Sentence::Part {
    std::string text;
    Sentence inner;
    double number = 0;
    int digits = 0;  ///< 0: not a number

    Part(std::string as_it_is) : text(std::move(as_it_is)) {}  // NOLINT: parts are listed in braces
    Part(std::string_view as_it_is) : text(as_it_is) {}        // NOLINT
    Part(const char* as_it_is) : text(as_it_is) {}             // NOLINT
    Part(Sentence sentence) : inner(std::move(sentence)) {}    // NOLINT
    Part(double value, std::string_view unit, int significant = 6)
        : text(unit), number(value), digits(significant) {}
    Part(double value) : Part(value, {}) {}                          // NOLINT
    Part(std::integral auto count) : text(std::to_string(count)) {}  // NOLINT
};

inline Sentence::Sentence() = default;
inline Sentence::Sentence(std::string_view english) : form(english) {}
inline Sentence::Sentence(const char* english) : form(english) {}
inline Sentence::Sentence(std::string_view english, std::vector<Part> with)
    : form(english), parts(std::move(with)) {}

/// A text that is no form: what was typed, or a name.
inline Sentence as_it_is(std::string text) { return {"{}", {std::move(text)}}; }

/// A refusal whose sentence holds more than amounts.
class NoResultInWords final : public NoResult {
  public:
    NoResultInWords(std::string_view argument, Sentence why)
        : NoResult(argument, why.form), why_(std::move(why)) {}
    const Sentence& why() const { return why_; }

  private:
    Sentence why_;
};

/// The sentence in the reader's language, its numbers with the reader's decimal sign.
std::string written(const Sentence& sentence, const Reading& reading = {});

}  // namespace drysheet
