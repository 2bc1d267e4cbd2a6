#include "core/numeric/first_fall.hpp"

#include <boost/math/tools/toms748_solve.hpp>
#include <cstdint>

namespace drysheet::numeric {

std::optional<double> first_fall(const std::function<double(double)>& f, double level, double from,
                                 double to) {
    const auto above = [&](double x) { return f(x) - level; };
    double left = 0;
    double at_left = above(left);
    if (at_left == 0) return 0.0;
    if (!(at_left > 0)) return std::nullopt;
    for (double right = from; right <= to; right *= 1.03) {
        const double at_right = above(right);
        if (at_right <= 0) {
            if (at_right == 0) return right;
            std::uintmax_t most = 200;
            const auto close = [](double a, double b) { return b - a <= 1e-14 * b; };
            const auto [a, b] =
                boost::math::tools::toms748_solve(above, left, right, at_left, at_right, close, most);
            return (a + b) / 2;
        }
        left = right;
        at_left = at_right;
    }
    return std::nullopt;
}

}  // namespace drysheet::numeric
