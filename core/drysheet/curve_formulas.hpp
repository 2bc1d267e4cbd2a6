// The formulas of the drying curves, once, for numbers and for numbers with derivatives. Not for users of the
// core.
#pragma once

#include <array>
#include <cmath>
#include <string_view>

#include "drysheet/kinetics.hpp"

namespace drysheet::curves {

using Names = std::array<std::string_view, 4>;

/// A time on the curve in h, and its logarithm for powers of it: t^n = exp(n ln t).
struct Instant {
    explicit Instant(double hours) : t(hours), ln_t(hours > 0 ? std::log(hours) : kLogOfZero) {}
    static constexpr double kLogOfZero = -1e6;  // finite, so that 0^n = 0 has slopes: they are 0
    double t;
    double ln_t;
};

using std::exp;
using std::log;
struct Lewis {
    static constexpr std::size_t count = 1;
    static constexpr Names names{"k"};
    static auto at(const Instant& x, const auto& p) { return exp(p[0] * -x.t); }
};
struct Page {
    static constexpr std::size_t count = 2;
    static constexpr Names names{"k", "n"};
    static auto at(const Instant& x, const auto& p) { return exp(-p[0] * exp(p[1] * x.ln_t)); }
};
struct HendersonPabis {
    static constexpr std::size_t count = 2;
    static constexpr Names names{"a", "k"};
    static auto at(const Instant& x, const auto& p) { return p[0] * exp(p[1] * -x.t); }
};
struct Logarithmic {
    static constexpr std::size_t count = 3;
    static constexpr Names names{"a", "k", "c"};
    static auto at(const Instant& x, const auto& p) { return p[0] * exp(p[1] * -x.t) + p[2]; }
};
struct TwoTerm {
    static constexpr std::size_t count = 4;
    static constexpr Names names{"a", "k0", "b", "k1"};
    static auto at(const Instant& x, const auto& p) {
        return p[0] * exp(p[1] * -x.t) + p[2] * exp(p[3] * -x.t);
    }
};
struct Midilli {
    static constexpr std::size_t count = 4;
    static constexpr Names names{"a", "k", "n", "b"};
    static auto at(const Instant& x, const auto& p) {
        return p[0] * exp(-p[1] * exp(p[2] * x.ln_t)) + p[3] * x.t;
    }
};
struct Weibull {
    static constexpr std::size_t count = 2;
    static constexpr Names names{"alpha", "beta"};
    static auto at(const Instant& x, const auto& p) { return exp(-exp(p[1] * (x.ln_t - log(p[0])))); }
};
struct Verma {
    static constexpr std::size_t count = 3;
    static constexpr Names names{"a", "k", "g"};
    static auto at(const Instant& x, const auto& p) {
        return p[0] * exp(p[1] * -x.t) + (1.0 - p[0]) * exp(p[2] * -x.t);
    }
};

/// Calls `f` with the formula of a model.
auto with_formula(CurveModel model, const auto& f) {
    switch (model) {
        case CurveModel::lewis:
            return f(Lewis());
        case CurveModel::page:
            return f(Page());
        case CurveModel::henderson_pabis:
            return f(HendersonPabis());
        case CurveModel::logarithmic:
            return f(Logarithmic());
        case CurveModel::two_term:
            return f(TwoTerm());
        case CurveModel::midilli:
            return f(Midilli());
        case CurveModel::weibull:
            return f(Weibull());
        case CurveModel::verma:
            break;
    }
    return f(Verma());
}

/// Rate constants, exponents and the time scale must be above 0; the amplitudes a, b and c are free.
constexpr bool is_positive_by_nature(std::string_view name) {
    return name != "a" && name != "b" && name != "c";
}

}  // namespace drysheet::curves
