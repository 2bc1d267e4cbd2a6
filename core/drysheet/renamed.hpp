// A refusal under the caller's own name for the argument.
#pragma once

#include <initializer_list>
#include <string_view>

#include "drysheet/error.hpp"

namespace drysheet {

struct Rename {
    std::string_view from, to;
};

namespace detail {
template <class Refusal>
[[noreturn]] void throw_renamed(const Refusal& refusal, std::initializer_list<Rename> names) {
    std::string_view name = refusal.argument();
    for (const Rename& rename : names)
        if (rename.from == refusal.argument()) name = rename.to;
    const auto& a = refusal.amounts();
    switch (a.size()) {
        case 0:
            throw Refusal(name, refusal.reason());
        case 1:
            throw Refusal(name, refusal.reason(), {a[0]});
        case 2:
            throw Refusal(name, refusal.reason(), {a[0], a[1]});
        default:
            throw Refusal(name, refusal.reason(), {a[0], a[1], a[2]});
    }
}
}  // namespace detail

/// Calls `call`; what it refuses of the arguments in `names` is refused under their new names.
template <class Call>
auto renamed(std::initializer_list<Rename> names, Call call) {
    try {
        return call();
    } catch (const BadInput& refusal) {
        detail::throw_renamed(refusal, names);
    } catch (const OutOfRange& refusal) {
        detail::throw_renamed(refusal, names);
    } catch (const NoConvergence& refusal) {
        detail::throw_renamed(refusal, names);
    }
}

}  // namespace drysheet
