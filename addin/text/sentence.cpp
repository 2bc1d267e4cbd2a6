// SPDX-License-Identifier: MPL-2.0
#include "addin/text/sentence.hpp"

#include "addin/text/texts.hpp"
#include "addin/text/words.hpp"

namespace drysheet {
namespace {

std::string written(const Sentence::Part& part, const Reading& reading) {
    if (part.digits > 0)
        return in_words(part.number, reading.texts != nullptr ? reading.texts->text(part.text) : part.text,
                        part.digits, reading);
    if (!part.inner.empty()) return written(part.inner, reading);
    return part.text;
}

}  // namespace

std::string written(const Sentence& sentence, const Reading& reading) {
    const std::string form = formula_in_words(
        reading.texts != nullptr ? reading.texts->text(sentence.form) : std::string(sentence.form), reading);
    std::string text;
    std::size_t next = 0;
    for (std::size_t i = 0; i < form.size(); ++i) {
        if (form.compare(i, 2, "{}") == 0 && next < sentence.parts.size()) {
            text += written(sentence.parts[next++], reading);
            ++i;
        } else {
            text += form[i];
        }
    }
    return text;
}

}  // namespace drysheet
