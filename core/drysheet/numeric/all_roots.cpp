// SPDX-License-Identifier: MPL-2.0
#include "drysheet/numeric/all_roots.hpp"

#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <limits>

namespace drysheet::numeric {
namespace {

constexpr int kTowardsEdge = 8, kTowardsMinimum = 14, kFromOneSide = 14;
constexpr double kNarrow = 1e-13;  // of a bracket, relative
constexpr double kSmall = 1e-7;    // of a value at a root, to those around it
constexpr double kBeside =
    1e-6;  // where a root is looked at for a flat stretch, of the distance to its bracket's end
constexpr double kShort = 0.99;  // of a step that went past the edge

struct Point {
    double x = 0;
    std::optional<double> y;
};

struct NoStepsLeft {};
struct NoValueWithin {};

class Search {
  public:
    Search(const Curve& f, std::size_t steps) : f_(f), left_(steps) {}

    Roots run(std::span<const double> grid) {
        try {
            for (const double x : grid) points_.push_back(at(x));
            for (std::size_t i = 0; i < points_.size(); ++i) look_at(i);
        } catch (const NoStepsLeft&) {
            found_.unfinished = true;
        }
        std::ranges::sort(found_.at);
        const auto same = [](double a, double b) { return std::abs(b - a) <= kBeside * std::abs(b); };
        found_.at.erase(std::unique(found_.at.begin(), found_.at.end(), same), found_.at.end());
        return std::move(found_);
    }

  private:
    Point at(double x) {
        if (left_ == 0) throw NoStepsLeft();
        --left_;
        const Point point{x, f_(x)};
        if (point.y) {
            found_.least = found_.somewhere ? std::min(found_.least, *point.y) : *point.y;
            found_.most = found_.somewhere ? std::max(found_.most, *point.y) : *point.y;
            found_.somewhere = true;
        }
        return point;
    }
    static bool opposite(const Point& a, const Point& b) {
        return a.y && b.y && *a.y != 0 && *b.y != 0 && (*a.y < 0) != (*b.y < 0);
    }

    void look_at(std::size_t i) {
        const Point none, &here = points_[i], &before = i > 0 ? points_[i - 1] : none,
                          &after = i + 1 < points_.size() ? points_[i + 1] : none;
        if (!here.y) return;
        if (*here.y == 0) {
            found_.flat = found_.flat || before.y == 0.0 || after.y == 0.0;
            return add(here.x, i > 0 ? here.x - before.x : after.x - here.x);
        }
        if (opposite(here, after)) within(here, after);
        if (i > 0 && !before.y) towards_edge(here, before, after);
        if (i + 1 < points_.size() && !after.y) towards_edge(here, after, before);
        if (before.y && after.y && !opposite(here, before) && !opposite(here, after) &&
            std::abs(*here.y) < std::abs(*before.y) && std::abs(*here.y) < std::abs(*after.y))
            towards_minimum(before, here, after);
    }

    void add(double x, double reach) {
        const double beside = kBeside * std::max(std::abs(x), reach);
        found_.flat = found_.flat || at(x - beside).y == 0.0 || at(x + beside).y == 0.0;
        found_.at.push_back(x);
    }

    // share: of the steps that are left, where another root waits; such a one may end less precise.
    void within(const Point& a, const Point& b, std::size_t share = 1) {
        const auto value = [this](double x) {
            const Point point = at(x);
            if (!point.y) throw NoValueWithin();
            return *point.y;
        };
        try {
            if (left_ < 2 * share) throw NoStepsLeft();
            auto steps = static_cast<std::uintmax_t>(left_ / share - 1);
            const auto narrow = [](double low, double high) {
                return std::abs(high - low) <= kNarrow * std::min(std::abs(low), std::abs(high));
            };
            const auto [low, high] =
                boost::math::tools::toms748_solve(value, a.x, b.x, *a.y, *b.y, narrow, steps);
            const double x = low + (high - low) / 2;
            if (low != high && !narrow(low, high) && (low > 0 || high < 0)) {
                if (share == 1) throw NoStepsLeft();
                found_.at.push_back(x);
                return;
            }
            const double y = low == high ? 0 : value(x);
            if (std::abs(y) > kSmall * std::max(std::abs(*a.y), std::abs(*b.y))) return;  // a jump, or a pole
            if (y == 0) return add(x, b.x - a.x);
            found_.at.push_back(x);
        } catch (const NoValueWithin&) {  // a hole: what lies beside it cannot be told
        }
    }

    // From a point with a value to one without: where the value falls towards 0 on the way there.
    void towards_edge(Point inside, const Point& outside, const Point& behind) {
        if (behind.y && std::abs(*inside.y) >= std::abs(*behind.y)) return;
        const Point start = inside;
        double edge = outside.x;
        Point last = behind;
        for (int i = 0; i < kTowardsEdge; ++i) {
            const Point middle = at(inside.x + (edge - inside.x) / 2);
            if (!middle.y) {
                edge = middle.x;
            } else if (*middle.y == 0) {
                return add(middle.x, std::abs(middle.x - inside.x));
            } else if (opposite(middle, inside)) {
                return within(std::min(inside, middle, by_x), std::max(inside, middle, by_x));
            } else {
                last = inside;
                inside = middle;
            }
        }
        if (!last.y) return;
        // A root at the edge itself: by the line through the last two points, short of the edge once it was
        // passed.
        bool passed = false;
        for (int i = 0; i < kFromOneSide; ++i) {
            const double step = -*inside.y * (inside.x - last.x) / (*inside.y - *last.y),
                         room = edge - inside.x;
            if (!std::isfinite(step) || step * room <= 0 || std::abs(step) > 4 * std::abs(room)) break;
            if (std::abs(room) <= kNarrow * std::abs(edge) || std::abs(step) <= kNarrow * std::abs(edge))
                break;
            const Point next = at(inside.x + (passed                            ? kShort * room
                                              : std::abs(step) > std::abs(room) ? room / 2
                                                                                : step));
            passed = !next.y;
            if (passed) {
                edge = next.x;
                continue;
            }
            if (*next.y == 0) return add(next.x, std::abs(room));
            if (opposite(next, inside))
                return within(std::min(inside, next, by_x), std::max(inside, next, by_x));
            last = inside;
            inside = next;
        }
        if (std::abs(*inside.y) <= kSmall * std::abs(*start.y)) found_.at.push_back(inside.x);
    }
    static bool by_x(const Point& a, const Point& b) { return a.x < b.x; }

    // Parabolas through three points around the least |f|: it may touch 0, or cross it and come back.
    void towards_minimum(Point a, Point b, Point c) {
        const double around = std::min(std::abs(*a.y), std::abs(*c.y));
        for (int i = 0; i < kTowardsMinimum; ++i) {
            const double left = (b.x - a.x) * (*b.y - *c.y), right = (b.x - c.x) * (*b.y - *a.y);
            double x = b.x - ((b.x - a.x) * left - (b.x - c.x) * right) / (2 * (left - right));
            if (!(x > a.x && x < c.x) || x == b.x || i % 2 == 1)  // not twice into the same corner
                x = b.x - a.x > c.x - b.x ? (a.x + b.x) / 2 : (b.x + c.x) / 2;
            const Point next = at(x);
            if (!next.y) return;
            if (opposite(next, b)) {
                const Point other = b;
                within(x < b.x ? a : other, next, 3);
                within(next, x < b.x ? other : c, 2);
                return;
            }
            const bool lower = std::abs(*next.y) < std::abs(*b.y);
            if (lower) {
                (x < b.x ? c : a) = b;
                b = next;
            } else {
                (x < b.x ? a : c) = next;
            }
            if (*b.y == 0) return add(b.x, c.x - a.x);
        }
        if (std::abs(*b.y) <= kSmall * around) found_.at.push_back(b.x);
    }

    const Curve& f_;
    std::size_t left_;
    std::vector<Point> points_;
    Roots found_;
};

}  // namespace

Roots all_roots(const Curve& f, std::span<const double> grid, std::size_t steps) {
    return Search(f, steps).run(grid);
}

std::vector<double> search_grid(const Limits& limits) {
    constexpr double shares[] = {1e-9, 1e-5, 1e-3, 0.01, 0.03, 0.07, 0.13, 0.2, 0.28, 0.36, 0.45};
    constexpr double first = -6, last = 12;  // powers of ten above a bound
    constexpr int powers = 26;
    const bool low = std::isfinite(limits.low), high = std::isfinite(limits.high);
    std::vector<double> grid;
    if (low && high) {
        const double width = limits.high - limits.low;
        if (!limits.low_open) grid.push_back(limits.low);
        for (const double share : shares) grid.push_back(limits.low + share * width);
        grid.push_back(limits.low + width / 2);
        for (const double share : shares) grid.push_back(limits.high - share * width);
        if (!limits.high_open) grid.push_back(limits.high);
    } else {
        const double from = low ? limits.low : high ? limits.high : 0;
        if (!(low ? limits.low_open : limits.high_open)) grid.push_back(from);
        const int count = low || high ? powers : powers / 2;
        for (int i = 0; i < count; ++i) {
            const double beyond = std::pow(10, first + (last - first) * i / (count - 1));
            if (!high) grid.push_back(from + beyond);
            if (!low) grid.push_back(from - beyond);
        }
    }
    std::ranges::sort(grid);
    grid.erase(std::unique(grid.begin(), grid.end()), grid.end());
    return grid;
}

}  // namespace drysheet::numeric
