// SPDX-License-Identifier: MPL-2.0
// Any cells for any function: a value, a table or a refusal with its sentence; never a crash, and no number
// that is not one.
#include <cmath>
#include <cstdlib>
#include <cstring>

#include "addin/call/call.hpp"
#include "addin/call/lookup.hpp"

using namespace drysheet;

namespace {

class Bytes {
  public:
    Bytes(const std::uint8_t* data, std::size_t size) : data_(data), size_(size) {}

    std::uint8_t byte() { return next_ < size_ ? data_[next_++] : std::uint8_t{0}; }
    double number() {
        switch (byte() % 8) {
            case 0:
                return byte();
            case 1:
                return byte() / 256.0;
            case 2:
                return -byte() / 16.0;
            case 3: {
                std::uint64_t bits = 0;
                for (int i = 0; i < 8; ++i) bits = bits << 8 | byte();
                double x = 0;
                std::memcpy(&x, &bits, sizeof x);
                return x;
            }
            default:
                return (byte() + 1) / 257.0;
        }
    }
    std::string text() {
        std::string word;
        for (std::size_t length = byte() % 12; length > 0; --length) word += static_cast<char>(byte());
        return word;
    }

  private:
    const std::uint8_t* data_;
    std::size_t size_, next_ = 0;
};

Input any_input(Bytes& bytes, const Parameter* param, int depth) {
    const std::uint8_t form = bytes.byte();
    if (param != nullptr && param->shape == Shape::choice && form % 4 != 0 && !param->choices.empty())
        return std::string(param->choices[form % param->choices.size()]);
    if (param != nullptr && param->shape == Shape::anything && depth == 0 && form % 2 == 0)
        return std::string(functions()[form % functions().size()].name);
    if (param != nullptr && param->shape == Shape::table && depth == 0 && form % 8 != 0) {
        std::vector<Input> cells;
        for (const Parameter& row : param->rows) {
            if (bytes.byte() % 4 == 0) continue;
            cells.emplace_back(std::string(row.name));
            cells.push_back(any_input(bytes, &row, depth + 1));
        }
        return {std::move(cells), 2};
    }
    if (form % 16 == 0) return {};
    if (form % 16 == 1) return bytes.text();
    const bool range = param != nullptr && (param->shape == Shape::column || param->shape == Shape::names);
    if (depth == 0 && (range ? form % 16 > 2 : form % 16 == 2)) {
        const std::size_t rows = bytes.byte() % 12, columns = form % 32 == 2 ? 1 + bytes.byte() % 3 : 1;
        std::vector<Input> cells;
        for (std::size_t i = 0; i < rows * columns; ++i)
            cells.push_back(any_input(bytes, nullptr, depth + 1));
        return {std::move(cells), columns};
    }
    return bytes.number();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    Bytes bytes(data, size);
    const Function& function = functions()[bytes.byte() % functions().size()];
    std::vector<Input> given;
    const std::size_t count = function.params.size() + (bytes.byte() % 8 == 0 ? 1 : 0);
    for (std::size_t i = 0; i < count; ++i)
        given.push_back(any_input(bytes, i < function.params.size() ? &function.params[i] : nullptr, 0));
    try {
        const Outcome outcome = evaluate(function, given, {.decimal_comma = size % 2 == 1});
        if (const auto* number = std::get_if<double>(&outcome); number != nullptr && !std::isfinite(*number))
            std::abort();
    } catch (const Refusal& refusal) {
        if (std::strlen(refusal.what()) < 5) std::abort();
    }
    return 0;
}
