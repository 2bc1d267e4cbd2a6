// SPDX-License-Identifier: MPL-2.0
// The words of one language: English from the catalogue, others from addin/extension/texts/LANGUAGE.tsv.
#pragma once

#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace drysheet {

/// A translator's file: a line for each text, the English and its translation parted by a tab; lines that
/// start with # are notes. {} stands for a value; numbers are written with a point and shown with the
/// reader's decimal sign. Where one English text means two things, a key of its own goes before it:
///   menu.…, pattern.…, example.…                      entries of the menu
///   FUNCTION, FUNCTION.argument, FUNCTION.caution     texts of the catalogue
class Texts {
  public:
    Texts() = default;  ///< English
    explicit Texts(const std::string& file);

    std::string_view language() const { return language_; }
    bool decimal_comma() const { return language_ != "en"; }
    /// The text of a key, or of the English itself, which English has anyway.
    std::optional<std::string> of(std::string_view key, std::string_view english) const;
    /// The same, or else the English one.
    std::string text(std::string_view key, std::string_view english) const {
        return of(key, english).value_or(std::string(english));
    }
    std::string text(std::string_view english) const { return text(english, english); }
    /// Words of words() in this language, each {} filled in its turn.
    std::string word(std::string_view english, std::initializer_list<std::string_view> values = {}) const;

    const std::vector<std::pair<std::string, std::string>>& lines() const { return lines_; }

  private:
    std::string language_ = "en";
    std::vector<std::pair<std::string, std::string>> lines_;
    std::map<std::string, std::string, std::less<>> by_key_;
};

/// Every phrase that is put around the texts of the catalogue, or that the menu says.
std::span<const std::string_view> words();

}  // namespace drysheet
