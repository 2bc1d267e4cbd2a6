// SPDX-License-Identifier: MPL-2.0
// The sentences of the sources: every string literal, and which of them are surely forms to translate.
#include <cctype>
#include <fstream>
#include <iterator>
#include <stdexcept>

#include "addin/generate/described.hpp"

namespace drysheet {
namespace {

// A source from its beginning: past comments and characters, literals that follow one another as one.
class Source {
  public:
    explicit Source(std::string text) : text_(std::move(text)) {}

    std::vector<Literal> literals() && {
        while (at_ < text_.size()) {
            if (starts("//")) {
                at_ = std::min(text_.find('\n', at_), text_.size());
            } else if (starts("/*")) {
                at_ = text_.find("*/", at_) + 2;
            } else if (starts("R\"")) {
                raw();
            } else if (text_[at_] == '"') {
                ++at_;
                add(escaped('"'));
            } else if (text_[at_] == '\'' && (at_ == 0 || std::isalnum(uchar(at_ - 1)) == 0)) {
                ++at_;
                (void)escaped('\'');
            } else {
                code(text_[at_++]);
            }
        }
        return std::move(found_);
    }

  private:
    unsigned char uchar(std::size_t i) const { return static_cast<unsigned char>(text_[i]); }
    bool starts(std::string_view with) const { return text_.compare(at_, with.size(), with) == 0; }

    void code(char c) {
        if (std::isspace(static_cast<unsigned char>(c)) != 0) return;
        joined_ = false;
        statement_ = c == ';' || c == '}' ? std::string() : statement_ + c;
    }
    std::string escaped(char end) {
        std::string text;
        for (; at_ < text_.size() && text_[at_] != end; ++at_) {
            if (text_[at_] == '\\') ++at_;
            text += text_[at_];
        }
        ++at_;
        return text;
    }
    void raw() {
        const auto open = text_.find('(', at_);
        const std::string end = ")" + text_.substr(at_ + 2, open - at_ - 2) + "\"";
        const auto close = text_.find(end, open);
        add(text_.substr(open + 1, close - open - 1));
        at_ = close + end.size();
    }
    void add(std::string text) {
        if (joined_) {
            found_.back().text += text;
        } else {
            found_.push_back({std::move(text), false});
        }
        joined_ = true;
        Literal& last = found_.back();
        for (const char* thrown :
             {"BadInput(", "OutOfRange(", "NoConvergence(", "refuse(", "NoResultInWords("})
            last.form = last.form || statement_.find(thrown) != std::string::npos;
        last.form = (last.form && last.text.find(' ') != std::string::npos) ||
                    (last.text.find("{}") != std::string::npos &&
                     last.text.find_first_of("abcdefghijklmnopqrstuvwxyz") != std::string::npos);
    }

    std::string text_, statement_;
    std::size_t at_ = 0;
    bool joined_ = false;
    std::vector<Literal> found_;
};

}  // namespace

std::vector<Literal> literals_of(const std::string& source) {
    std::ifstream in(source);
    if (!in) throw std::runtime_error(source + " cannot be read");
    return Source(std::string(std::istreambuf_iterator<char>(in), {})).literals();
}

}  // namespace drysheet
