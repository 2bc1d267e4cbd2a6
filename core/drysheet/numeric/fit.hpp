// SPDX-License-Identifier: MPL-2.0
// Nonlinear least squares: parameters, their standard errors, and an honest "not determined".
#pragma once

#include <array>
#include <cstddef>
#include <functional>
#include <span>
#include <string_view>
#include <utility>
#include <vector>

#include "drysheet/numeric/dual.hpp"

namespace drysheet::numeric {

/// The model at every observation with parameters `p`: writes its values, one an observation, and its
/// derivatives, all of the first parameter, then all of the second, and so on. A value that is not finite
/// means "not allowed here" and is avoided.
using FitModel =
    std::function<void(std::span<const double> p, std::span<double> values, std::span<double> slopes)>;

/// Makes a FitModel of a plain formula for one observation. `formula(i, p)` takes `const std::array<T, N>& p`
/// and returns T, for T = Dual<N>:
///     auto model = differentiated<2>([&](std::size_t i, const auto& p) { return p[0] * exp(-p[1] * x[i]);
///     });
template <std::size_t N, class Formula>
FitModel differentiated(Formula formula) {
    return [formula](std::span<const double> p, std::span<double> values, std::span<double> slopes) {
        std::array<Dual<N>, N> parameters;
        for (std::size_t k = 0; k < N; ++k) parameters[k] = Dual<N>::parameter(p[k], k);
        for (std::size_t i = 0; i < values.size(); ++i) {
            const Dual<N> value = formula(i, std::as_const(parameters));
            values[i] = value.value;
            for (std::size_t k = 0; k < N; ++k) slopes[k * values.size() + i] = value.slope[k];
        }
    };
}

struct FitProblem {
    std::string_view argument;     ///< the column that a refusal names (a string literal)
    std::span<const double> data;  ///< the measured values, one an observation
    FitModel model;
    std::vector<std::vector<double>> starts;  ///< tried in turn; the least residual wins
    std::vector<double> low{};                ///< a bound for each parameter; empty: none
    std::vector<double> high{};
    double offset = 1e-8;        ///< relative offset at which the search ends
    int most_iterations = 1000;  ///< from each start, all trials of it together
    bool shares_of_one = false;  ///< the data are shares of one more reading, whose error they all have
};

struct Fit {
    std::vector<double> parameters;
    std::vector<double> standard_errors;  ///< of equal noise: sqrt(reduced chi2 · diag((JᵀJ)⁻¹))
    std::vector<double> robust_errors;    ///< that hold under unequal noise, too; never below the others
    std::vector<double> residuals;        ///< data − model
    std::vector<double> slopes;           ///< of the model, J: all of the first parameter, and so on
    std::size_t points = 0;
    double residual_sum = 0;  ///< Σ (data − model)²
    double r2 = 0;            ///< 1 − residual sum / Σ (data − mean)²
    double rmse = 0;          ///< sqrt(residual sum / n)
    double reduced_chi2 = 0;  ///< residual sum / (n − p)
    double aicc = 0;  ///< n ln(residual sum / n) + 2K + 2K(K+1)/(n−K−1), K = p + 1; infinite when n ≤ K+1
};

/// Levenberg–Marquardt with the scaling of Moré, from every start.
///
/// Stops when the relative offset (Bates and Watts 1981) is below `offset`: the parameters are then within
/// that share of their standard errors of the minimum; at most `most_iterations` a start.
/// robust_errors: the larger of the error of equal noise and that of HC2,
///   (JᵀJ)⁻¹ Jᵀ diag(e²/(1 − h)) J (JᵀJ)⁻¹, h the leverages;
/// with shares_of_one also reduced chi2 · c cᵀ, c = (JᵀJ)⁻¹ Jᵀ model: a common factor as uncertain as one
/// reading. Errors: BadInput with no more points than parameters, or data without any spread; NoConvergence
/// when no start reaches a minimum, when the data do not determine every parameter (the normal matrix is
/// singular, or a parameter's standard error exceeds the parameter while the other parameters can make up for
/// it), or when a parameter ends at its bound.
/// Source: Moré 1978, The Levenberg-Marquardt algorithm, Lecture Notes in Mathematics 630; Bates and Watts
/// 1981, Technometrics 23:179; Burnham and Anderson 2002, Model selection and multimodel inference, 2nd ed
/// (AICc); White 1980, Econometrica 48:817; MacKinnon and White 1985, J. Econometrics 29:305 (HC2); Angrist
/// and Pischke 2009, Mostly harmless econometrics, sec. 8.1 (the larger of both).
Fit fit(const FitProblem& problem);

/// Standard errors of the parameters if the noise's variances stand in the proportions D, its size out of the
/// residuals: Σ e²/Σ (1 − h) D · (JᵀJ)⁻¹ Jᵀ diag(D) J (JᵀJ)⁻¹.
std::vector<double> errors_under(const Fit& fit, std::span<const double> variances);

/// How the parameters would change if the data did by this, to first order: (JᵀJ)⁻¹ Jᵀ change.
std::vector<double> change_with(const Fit& fit, std::span<const double> change);

}  // namespace drysheet::numeric
