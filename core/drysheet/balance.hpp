// SPDX-License-Identifier: MPL-2.0
// Do the weights of a run agree? Closure, losses stage by stage, reconciliation.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "drysheet/quantity.hpp"

namespace drysheet {

enum class ClosureVerdict : std::uint8_t {
    closes,   ///< |gap| is within 2 u
    loss,     ///< less came out than went in, by more than 2 u
    gain,     ///< more came out than went in, by more than 2 u
    unjudged  ///< no uncertainty was given (all 0)
};

struct Closure {
    Mass gap;                          ///< in - outs; below 0 when more came out
    double gap_share = 0;              ///< gap over the mass in
    Mass u;                            ///< combined standard uncertainty of gap
    std::optional<double> gap_over_u;  ///< none when u is 0
    ClosureVerdict verdict = ClosureVerdict::unjudged;
};

/// Does a mass balance close within its uncertainty?
///   gap = in - sum out; u^2 = u_in^2 + sum u_out^2; it closes when |gap| <= 2 u
/// in: the mass that went in, above 0. u_in: its standard uncertainty. outs: what came out, one or more.
/// u_outs: one for each, or a single one for all. Errors are taken as independent. Errors: BadInput(arg::in)
/// unless above 0; BadInput(arg::outs) when there is none; BadInput(arg::u_outs) of another number;
/// BadInput(arg::u_in), BadInput(arg::u_outs) below 0.
/// Source: JCGM 100:2008 (GUM) 5.1.2, k = 2.
Closure closure(Mass in, Mass u_in, std::span<const Mass> outs, std::span<const Mass> u_outs);

struct Stage {
    Mass loss;                    ///< in - out - kept; below 0 when mass was gained
    double loss_share = 0;        ///< loss over in - kept
    double yield = 0;             ///< out over in - kept, as step_yield has it
    double cumulative_yield = 0;  ///< product of the yields up to here: what a run without samples would keep
};

/// Losses and yields stage by stage. A sample kept back is left out of account: it neither went through its
/// stage nor was lost in it.
/// in, out: mass into and out of each stage, what goes on to the next. kept: samples kept back; empty means
/// none. Errors: BadInput(arg::in) when empty or not above 0; BadInput(arg::out), BadInput(arg::kept) of
/// another number, or below 0; BadInput(arg::kept) when the samples are all that went in. Source: mass
/// balance.
std::vector<Stage> stages(std::span<const Mass> in, std::span<const Mass> out, std::span<const Mass> kept);

/// One measured value before and after reconciliation.
template <class T, class U>
struct Reconciled {
    T given{};
    T adjusted{};
    U u{};  ///< standard uncertainty of the adjusted value
    std::optional<double>
        correction_over_u;        ///< (adjusted - given) / u given; none for an exactly known value
    std::optional<U> noticeable;  ///< none where no possible error of this value is as large
};

enum class ReconcileVerdict : std::uint8_t {
    agree,     ///< p is 0.05 or more
    doubtful,  ///< p is 0.01 or more
    disagree   ///< p is below 0.01
};

struct Reconciliation {
    Reconciled<Mass, Mass> fresh;
    Reconciled<MoistureWet, Fraction> start;
    Reconciled<Mass, Mass> dried;
    Reconciled<MoistureWet, Fraction> final;
    Mass solids, u_solids;  ///< dry solids, after adjustment
    Mass water, u_water;    ///< water removed, after adjustment
    Mass lost, u_lost;      ///< dried product that would explain the gap by itself; below 0: too much of it
    double chi2 = 0;        ///< one degree of freedom
    double p = 1;           ///< chance of a chi2 as large when nothing is wrong
    ReconcileVerdict verdict = ReconcileVerdict::agree;
};

/// Two weights and two moistures made to agree: the smallest corrections, in units of each value's standard
/// uncertainty, that close the solids balance exactly.
///   minimise sum ((x - given)/u)^2  subject to  F (1 - w0) = D (1 - w1)
/// The balance is bilinear; it is solved exactly by its multiplier, not linearised once. The reduced
/// uncertainties are first order, at the solution: V - V A' (A V A')^-1 A V. fresh: F. start: w0. dried: D.
/// final: w1. u_...: standard uncertainties, moistures in fraction wet basis; 0 means known exactly. Errors
/// are taken as independent. With one balance every standardised adjustment |a|/sqrt(var a) is the same,
/// sqrt(chi2), so the data cannot single out a value. noticeable: the smallest error of that value alone for
/// which p is below 0.05 in 9 of 10 runs, first order: (1.960 + 1.282) sqrt(A V A') / |A_i|, the sum of the
/// normal quantiles of 0.975 and 0.9. lost: F (1 - w0)/(1 - w1) - D of the values as given. Errors:
/// BadInput(arg::fresh), ("dried") unless above 0; BadInput of any u_ below 0, or of "u_fresh" when all are
/// 0; BadInput(arg::start), ("final"), ("fresh"),
/// ("dried") when its adjusted value would be impossible. Source: Kuehn & Davidson (1961) Chem. Eng. Prog.
/// 57(6):44-47; Mah & Tamhane (1982) AIChE J. 28:828-830; Narasimhan & Jordache, Data Reconciliation and
/// Gross Error Detection (2000), ch. 3, 7.
Reconciliation reconcile(Mass fresh, Mass u_fresh, MoistureWet start, Fraction u_start, Mass dried,
                         Mass u_dried, MoistureWet final, Fraction u_final);

}  // namespace drysheet
