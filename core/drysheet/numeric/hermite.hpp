// SPDX-License-Identifier: MPL-2.0
// Several smooth functions of one variable, tabulated together so that a costly published formula is
// evaluated once per node and not once per use.
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <vector>

namespace drysheet {

/// Cubic Hermite interpolation of N functions between equidistant nodes; value and slope are continuous.
/// The error of a value is at most step⁴/384 times the greatest fourth derivative. Outside the nodes the end
/// cubics go on.
template <std::size_t N>
class HermiteTable {
  public:
    using Values = std::array<double, N>;

    /// f: double -> Values, smooth, also a quarter step beyond the ends (slopes are five-point differences).
    template <class F>
    HermiteTable(F f, double low, double step, std::size_t intervals) : low_(low), per_step_(1 / step) {
        std::vector<Values> value, rise;  // rise: slope times step
        for (std::size_t node = 0; node <= intervals; ++node) {
            const double x = low + static_cast<double>(node) * step;
            const Values up2 = f(x + step / 4), up = f(x + step / 8), down = f(x - step / 8),
                         down2 = f(x - step / 4);
            value.push_back(f(x));
            rise.emplace_back();
            for (std::size_t i = 0; i < N; ++i)
                rise.back()[i] = (8 * (up[i] - down[i]) - (up2[i] - down2[i])) * 8 / 12;
        }
        for (std::size_t node = 0; node < intervals; ++node) {
            auto& cubics = cubics_.emplace_back();
            for (std::size_t i = 0; i < N; ++i) {
                const double rise0 = rise[node][i], rise1 = rise[node + 1][i],
                             total = value[node + 1][i] - value[node][i];
                cubics[i] = {value[node][i], rise0, 3 * total - 2 * rise0 - rise1, rise0 + rise1 - 2 * total};
            }
        }
    }

    /// The functions at one place, each evaluated when asked.
    class Place {
      public:
        double value(std::size_t i) const {
            const auto& [c0, c1, c2, c3] = (*cubics_)[i];
            return c0 + s_ * (c1 + s_ * (c2 + s_ * c3));
        }
        double slope(std::size_t i) const {
            const auto& [c0, c1, c2, c3] = (*cubics_)[i];
            return (c1 + s_ * (2 * c2 + s_ * 3 * c3)) * per_step_;
        }
        double curvature(std::size_t i) const {
            const auto& [c0, c1, c2, c3] = (*cubics_)[i];
            return (2 * c2 + s_ * 6 * c3) * per_step_ * per_step_;
        }

      private:
        friend class HermiteTable;
        using Cubics = std::array<std::array<double, 4>, N>;
        Place(const Cubics& cubics, double s, double per_step)
            : cubics_(&cubics), s_(s), per_step_(per_step) {}
        const Cubics* cubics_;
        double s_, per_step_;
    };

    Place at(double x) const {
        const double place = (x - low_) * per_step_;
        const auto left = place > 0 ? std::min(static_cast<std::size_t>(place), cubics_.size() - 1) : 0;
        return Place(cubics_[left], place - static_cast<double>(left), per_step_);
    }

  private:
    double low_, per_step_;
    std::vector<typename Place::Cubics> cubics_;
};

}  // namespace drysheet
