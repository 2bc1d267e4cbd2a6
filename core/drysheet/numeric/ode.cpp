// SPDX-License-Identifier: MPL-2.0
#include "drysheet/numeric/ode.hpp"

#include <algorithm>
#include <boost/numeric/odeint/stepper/generation/generation_dense_output_runge_kutta.hpp>
#include <boost/numeric/odeint/stepper/generation/generation_runge_kutta_dopri5.hpp>
#include <boost/numeric/odeint/stepper/runge_kutta_dopri5.hpp>
#include <cmath>
#include <exception>

#include "drysheet/error.hpp"
#include "drysheet/numeric/roots.hpp"

namespace drysheet::numeric {
namespace {

namespace odeint = boost::numeric::odeint;
using Stepper = odeint::result_of::make_dense_output<odeint::runge_kutta_dopri5<State>>::type;

constexpr double kTolerance = 1e-6;
constexpr std::size_t kMostSteps = 6000;
constexpr double kSteep = 1e30;  // so steep that the step is tried shorter

State state_at(Stepper& stepper, double t) {
    State x(stepper.current_state().size());
    stepper.calc_state(t, x);
    return x;
}

}  // namespace

Trace run_until(const Slopes& slopes, const State& start, const std::function<double(const State&)>& left,
                double first, double latest, int intervals) {
    std::exception_ptr refused;
    const auto system = [&](const State& x, State& slope, double t) {
        try {
            slopes(x, slope, t);
        } catch (const NoResult&) {
            refused = std::current_exception();
            std::ranges::fill(slope, kSteep);
        }
    };
    std::vector<Stepper> steps;  // each remembers how to give the state between its ends
    Stepper stepper = odeint::make_dense_output(kTolerance, kTolerance, odeint::runge_kutta_dopri5<State>());
    stepper.initialize(start, 0, first);
    do {
        try {
            stepper.do_step(system);
        } catch (const odeint::odeint_error&) {
            if (refused) std::rethrow_exception(refused);
            throw NoConvergence("", "cannot be followed: the steps become too short");
        }
        refused = nullptr;
        steps.push_back(stepper);
        if (stepper.current_time() > latest) return {};
        if (steps.size() >= kMostSteps || !std::isfinite(left(stepper.current_state())))
            throw NoConvergence("", "cannot be followed: the steps become too many");
    } while (left(stepper.current_state()) > 0);

    Trace trace;
    trace.end = bracketed_root([&](double t) { return left(state_at(stepper, t)); }, stepper.previous_time(),
                               stepper.current_time());
    std::size_t step = 0;
    for (int i = 0; i <= intervals; ++i) {
        const double t = trace.end * i / intervals;
        while (step + 1 < steps.size() && steps[step].current_time() < t) ++step;
        trace.states.push_back(i == 0 ? start : state_at(steps[step], t));
    }
    return trace;
}

}  // namespace drysheet::numeric
