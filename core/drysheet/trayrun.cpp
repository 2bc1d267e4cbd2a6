// SPDX-License-Identifier: MPL-2.0
#include "drysheet/trayrun.hpp"

#include <algorithm>
#include <boost/math/differentiation/finite_difference.hpp>
#include <cmath>

#include "drysheet/air.hpp"
#include "drysheet/energy.hpp"
#include "drysheet/moist_air.hpp"
#include "drysheet/moisture.hpp"
#include "drysheet/numeric/edge.hpp"
#include "drysheet/numeric/ode.hpp"
#include "drysheet/numeric/roots.hpp"
#include "drysheet/renamed.hpp"
#include "drysheet/require.hpp"
#include "drysheet/runs.hpp"
#include "drysheet/water.hpp"
#include "drysheet/yield.hpp"

namespace drysheet {
namespace {

constexpr double kFreezing = 273.15;  // K
constexpr double kHeat = 1e5;         // J/kg, so that the enthalpy of the product is of the order of 1
constexpr double kLatest = 10000;     // h
// Least time constant of the product's warming, far below what shows in a run, for long enough steps: a share
// of the time constant of its drying, but no more than so many hours, or a share of the time since the start.
constexpr double kSoon = 0.005, kShortest = 0.2, kSince = 0.002;
constexpr double kTop = 1e-6;    // of a curve's fall, at its start, where the slope may be 0 or infinite
constexpr double kJoined = 0.1;  // share of the fall that joins 1 to a curve that does not begin there

// ---- a thin layer: how fast the moisture ratio falls, by the moisture ratio itself

class ThinLayer {
  public:
    explicit ThinLayer(const TrayOptions& options) : options_(options) {
        if (options.model == TrayModel::falling_rate) return;
        if (options.model == TrayModel::diffusion) {
            if (!options.diffusivity) throw BadInput(arg::diffusivity, "is missing; the model wants it");
            if (!options.thickness) throw BadInput(arg::thickness, "is missing; the model wants it");
            if (options.sides != 1 && options.sides != 2) throw BadInput(arg::sides, "must be 1 or 2");
            const Length L = *options.thickness / options.sides;
            require_positive(L, arg::thickness);
            require_positive(*options.diffusivity, arg::diffusivity);
            per_hour_ = options.diffusivity->value() / (L.value() * L.value()) * kHour;
        }
        const double start = at(0);
        top_ = std::min(1.0, start) - kTop;
        if (!(top_ > kTop) || !reaches(top_))
            throw BadInput(arg::parameters, "give a curve that does not fall");
        if (!reaches(kTop))
            least_ = numeric::edge([this](double ratio) { return reaches(ratio); }, kTop, top_);
        join_ = top_;
        if (std::abs(start - 1) > 1e-9) join_ -= kJoined * (top_ - least_);
        join_time_ = curve_time_at(join_);
    }

    /// The least ratio that is reached: 0, or where a curve levels off.
    double least() const { return least_; }

    /// −dMR/dt, 1/h, where the layer has that ratio.
    double rate(double ratio) const {
        if (ratio <= least_ + kTop * (top_ - least_)) return 0;
        if (ratio > join_ && join_ < top_) return (1 - join_) / join_time_;
        const double t = curve_time_at(std::min(ratio, top_));
        const auto by_log = [&](double ln_t) { return at(std::exp(ln_t)); };
        const double slope =
            boost::math::differentiation::finite_difference_derivative(by_log, std::log(t)) / t;
        return std::max(0.0, -slope);
    }
    /// The mean rate of the fastest tenth of the fall, 1/h.
    double fastest() const {
        double fastest = 0, earlier = time(top_);
        for (int i = 1; i < 10; ++i) {
            const double ratio = top_ * (1 - 0.1 * i);
            if (ratio <= least_ + kTop) break;
            const double later = time(ratio);
            fastest = std::max(fastest, 0.1 * top_ / (later - earlier));
            earlier = later;
        }
        return fastest > 0 ? fastest : rate(top_);
    }

  private:
    CurveModel curve_model() const {
        static_assert(static_cast<int>(TrayModel::lewis) == static_cast<int>(CurveModel::lewis) &&
                      static_cast<int>(TrayModel::verma) == static_cast<int>(CurveModel::verma));
        return static_cast<CurveModel>(options_.model);
    }
    double at(double hours) const {
        if (options_.model == TrayModel::diffusion) return slab_ratio(per_hour_ * hours).value();
        return curve(curve_model(), Time::from_value(hours * kHour), options_.parameters).value();
    }
    double curve_time_at(double ratio) const {
        if (options_.model != TrayModel::diffusion)
            return curve_time(curve_model(), MoistureRatio(ratio), options_.parameters).value() / kHour;
        return slab_fourier(MoistureRatio(ratio)) / per_hour_;
    }
    double time(double ratio) const {
        if (ratio > join_ && join_ < top_) return join_time_ * (1 - ratio) / (1 - join_);
        return curve_time_at(ratio);
    }
    bool reaches(double ratio) const {
        try {
            curve_time_at(ratio);
            return true;
        } catch (const NoConvergence&) {
            return false;
        }
    }

    const TrayOptions& options_;
    double per_hour_ = 0;  // Fo in an hour
    double top_ = 1;
    double least_ = 0;
    double join_ = 1, join_time_ = 0;  // from where on the curve itself is followed: below top_ where the
                                       // curve does not begin at 1
};

// ---- the stack

struct Stream {
    detail::Air air;
    double x_s;

    double rh() const { return air.x / x_s; }
    double humid_heat() const { return air.h_and_slopes().by_T; }  // J/(kg K)
    double wet_bulb() const { return rh() < 1 ? detail::wet_bulb_of(air, x_s) : air.T; }
    Temperature temp() const { return from_si<Temperature>(air.T); }
    RelativeHumidity humidity() const { return detail::humidity_from(air.x, x_s); }
};
Stream stream(Temperature temp, RelativeHumidity rh, Pressure pressure) {
    const detail::Air saturated = detail::saturated_air(temp, pressure);
    return {saturated.with(rh.value() * saturated.x), saturated.x};
}

double latent(double T) { return latent_heat(from_si<Temperature>(T)).value(); }

/// Heat capacity of product per kg of dry solids, J/(kg K); linear in X.
double capacity(double X) {
    const MoistureDry moisture{X};
    return (1 + X) * specific_heat(wet_basis(moisture)).value();
}

class Stack {
  public:
    Stack(Mass fresh, MoistureWet start, Area area, Temperature temp, RelativeHumidity rh, VolumeFlow flow,
          const TrayOptions& options)
        : options_(options),
          layer_(options),
          inlet_(stream(temp, rh, options.pressure)),
          solids_(solids_mass(fresh, start).value()),
          start_(dry_basis(start).value()),
          target_(dry_basis(options.target).value()),
          air_(flow.value() / inlet_.air.v() * kHour),
          water_heat_(capacity(1) - capacity(0)),
          inlet_bulb_(inlet_.wet_bulb()),
          inlet_ratio_(ratio(inlet_)),
          inlet_heat_(heat(inlet_)) {
        require_positive(solids_, arg::fresh);
        require_positive(area, arg::area);
        require_positive(flow, arg::flow);
        if (!(options.target < start))
            throw BadInput(arg::target, "is not below the {} at the start", {amount(start)});
        if (options.equilibrium && options.isotherm)
            throw BadInput(arg::equilibrium, "is given beside an isotherm; give one of them");
        if (!options.equilibrium && !options.isotherm)
            throw BadInput(arg::equilibrium, "is missing; give it or an isotherm");
        if (options.critical) critical_ = dry_basis(*options.critical).value();
        if (falling_rate() && !options.critical)
            throw BadInput(arg::critical, "is missing; the model wants it");
        if (options.activation_energy && !options.test_temp)
            throw BadInput(arg::row::test_temp, "is missing; the activation energy wants it");
        if (!(inlet_bulb_ < inlet_.air.T)) throw BadInput(arg::rh, "leaves the air nothing to take up");
        const double end = ends_at();
        if (target_ <= end)
            throw BadInput(arg::target, "is never reached: in this air the run would end at {}",
                           {amount(wet_basis(MoistureDry{end}))});
        if (falling_rate() && !(critical_ > end))
            throw BadInput(arg::critical, "is not above the equilibrium moisture, {}",
                           {amount(wet_basis(MoistureDry{end}))});
        heat_per_kelvin_ = latent(inlet_bulb_) / (inlet_.air.T - inlet_bulb_);
        surface_ = wet_rate(area) * heat_per_kelvin_;
    }

    std::size_t trays() const { return static_cast<std::size_t>(options_.trays); }
    double solids() const { return solids_; }
    double target() const { return target_; }
    Temperature product(double X, double H) const { return from_si<Temperature>(product_temp(X, H)); }

    /// Moisture and enthalpy (in kHeat) of each tray, then water taken and heat given by the air; all per dry
    /// solids of one tray.
    numeric::State begin() const {
        numeric::State x;
        for (std::size_t i = 0; i < trays(); ++i)
            x.insert(x.end(), {start_, capacity(start_) * (inlet_bulb_ - kFreezing) / kHeat});
        x.insert(x.end(), {0, 0});
        return x;
    }
    void slopes(const numeric::State& x, numeric::State& slope, double t) const {
        const Stream air = through(trays(), x, slope, t);
        slope[2 * trays()] = air_ / solids_ * (ratio(air) - inlet_ratio_);
        slope[2 * trays() + 1] = air_ / solids_ * (inlet_heat_ - heat(air)) / kHeat;
    }
    /// The air that leaves a tray, counted from 0.
    Stream leaving(const numeric::State& x, double t, std::size_t tray) const {
        numeric::State unused(x.size());
        return through(tray + 1, x, unused, t);
    }

  private:
    bool falling_rate() const { return options_.model == TrayModel::falling_rate; }

    double ratio(const Stream& s) const {
        return humidity_ratio(s.temp(), s.humidity(), options_.pressure).value();
    }
    double heat(const Stream& s) const {
        return air_enthalpy(s.temp(), s.humidity(), options_.pressure).value();
    }
    /// The air behind so many trays, and the slopes of each.
    Stream through(std::size_t count, const numeric::State& x, numeric::State& slope, double t) const {
        Stream air = inlet_;
        double bulb = inlet_bulb_;
        for (std::size_t i = 0; i < 2 * count; i += 2) {
            if (i > 0) bulb = air.wet_bulb();
            air = pass(air, bulb, t, x[i], x[i + 1], slope[i], slope[i + 1]);
        }
        return air;
    }

    /// What `call` gives, or nothing where the isotherm ends before that argument; other refusals stand.
    template <class Call>
    static auto unless_past(std::string_view argument, Call call) -> std::optional<decltype(call().value())> {
        try {
            return renamed({{arg::parameters, arg::row::isotherm_parameters}}, call).value();
        } catch (const OutOfRange& refusal) {
            if (refusal.argument() != argument) throw;
            return std::nullopt;
        }
    }
    std::optional<double> activity(double X, Temperature temp) const {
        return unless_past(arg::moisture_db, [&] {
            return water_activity(*options_.isotherm, MoistureDry(X), options_.isotherm_parameters, temp);
        });
    }
    /// Xe in that air, 0 in air below all of the isotherm; nothing in air above all of it, which dries
    /// nothing.
    std::optional<double> equilibrium(const Stream& air) const {
        if (options_.equilibrium) return dry_basis(*options_.equilibrium).value();
        const WaterActivity aw(air.humidity().value());
        const auto Xe = unless_past(arg::activity, [&] {
            return equilibrium_moisture(*options_.isotherm, aw, options_.isotherm_parameters, air.temp());
        });
        if (!Xe && aw.value() < activity(0, air.temp()).value_or(0)) return 0;
        return Xe;
    }
    /// What that air can take up from the product, kg/kg, until it is in equilibrium with it.
    double uptake(const Stream& air, double bulb, double X) const {
        if (options_.isotherm) {
            const double aw = activity(X, air.temp()).value_or(1);
            if (aw <= air.rh()) return 0;
            if (aw < 1)
                return air_pickup(air.temp(), air.humidity(), RelativeHumidity(aw), options_.pressure)
                    .value();
        }
        return saturated(bulb).W() - air.air.W();
    }
    /// The moisture at which a run in the entering air ends, however long.
    double ends_at() const {
        const auto Xe = equilibrium(inlet_);
        if (!Xe || *Xe >= start_) return start_;
        return *Xe + (start_ - *Xe) * layer_.least();
    }
    double by_temperature(double T) const {
        if (!options_.activation_energy) return 1;
        return std::exp(-options_.activation_energy->value() / kMolarGasConstant *
                        (1 / T - 1 / options_.test_temp->value()));
    }

    /// Evaporation of a wet tray in the entering air, kg/h.
    double wet_rate(Area area) const {
        if (options_.rate && options_.speed)
            throw BadInput(arg::rate, "is given beside a speed; give one of them");
        if (options_.rate) {
            require_positive(*options_.rate, arg::rate);
            return options_.rate->value() * area.value() * kHour;
        }
        if (options_.speed) {
            const double T = inlet_.air.T;
            const double G =
                options_.speed->value() * (1 + inlet_.air.W()) / inlet_.air.v() * kHour;  // kg/(h m²)
            if (!(G >= 2450 && G <= 29300) || !(T >= 318.15))
                throw OutOfRange(arg::speed, "is outside its equation: {} to {} of air of {} and more",
                                 {Amount{2450 / kHour, Kind::mass_flux},
                                  Amount{29300 / kHour, Kind::mass_flux}, Amount{318.15, Kind::temperature}});
            const double h = 0.0204 * std::pow(G, 0.8);  // W/(m² K)
            return h * area.value() / heat_per_kelvin_ * kHour;
        }
        if (falling_rate()) throw BadInput(arg::rate, "is missing; the model wants it, or a speed");
        return layer_.fastest() * by_temperature(inlet_.air.T) * (start_ - equilibrium(inlet_).value()) *
               solids_;
    }
    bool surface_known() const { return options_.rate || options_.speed; }

    double product_temp(double X, double H) const { return kFreezing + H * kHeat / capacity(X); }
    /// Share of an exchange that is left when the air changes along the tray.
    static double spread(double u) { return u > 0 ? -std::expm1(-u) / u : 1; }

    /// One tray: the air that leaves it, and the slopes of moisture and enthalpy per h.
    Stream pass(const Stream& in, double bulb, double t, double X, double H, double& dX, double& dH) const {
        const double T = in.air.T, Tp = product_temp(X, H);
        const auto Xe = equilibrium(in);
        const double free = Xe ? X - *Xe : 0;
        double hA = surface_, N0 = 0;  // J/(h K), kg/h
        if (free > 0 && bulb < T) {
            if (falling_rate()) {
                N0 = critical_ > *Xe ? std::min(1.0, free / (critical_ - *Xe)) : 1;
                N0 *= hA * (T - bulb) / latent(bulb);
            } else if (*Xe < start_) {
                N0 = solids_ * (start_ - *Xe) * layer_.rate(free / (start_ - *Xe)) * by_temperature(T);
                if (!surface_known()) hA = std::max(hA, N0 * heat_per_kelvin_);
                N0 = std::min(N0, hA * (T - bulb) / latent(bulb));
            }
        }
        double N = 0;
        if (N0 > 0) {
            const double most = uptake(in, bulb, X);
            if (most > 0) N = N0 * spread(N0 / (air_ * most));
        }
        const double reach = hA * spread(hA / (air_ * in.humid_heat()));
        const double boil_off = N * latent(Tp);
        const double own = solids_ * capacity(X) / reach;
        const double drying = N > 0 ? std::min(kShortest, kSoon * free * solids_ / N) : kShortest;
        const double shortest = std::max(drying, kSince * t);
        const double heat = boil_off + (reach * (T - Tp) - boil_off) * std::min(1.0, own / shortest);
        dX = -N / solids_;
        dH = (heat - boil_off - N * water_heat_ * (Tp - kFreezing)) / solids_ / kHeat;
        Stream out = stream_of(detail::air_from_enthalpy(in.air.h() - dH * kHeat * solids_ / air_,
                                                         in.air.W() + N / air_, inlet_.air.p));
        if (out.air.x > out.x_s) {  // it would fog: it stays saturated and gives the product less heat
            const double x = out.air.x, T_out = out.air.T;
            const double T_s =
                bracketed_root([&](double at) { return saturated(at).x - x; }, T_out, T_out + 10);
            out = stream_of(saturated(T_s).with(x));
            dH = air_ / solids_ * (in.air.h() - out.air.h()) / kHeat;
        }
        return out;
    }
    detail::Air saturated(double T) const {
        return detail::saturated_air(from_si<Temperature>(T), options_.pressure);
    }
    Stream stream_of(const detail::Air& air) const { return {air, saturated(air.T).x}; }

    const TrayOptions& options_;
    ThinLayer layer_;
    Stream inlet_;
    double solids_;          // kg on one tray
    double start_, target_;  // kg/kg dry basis
    double critical_ = 0;
    double air_;         // kg dry air/h
    double water_heat_;  // J/(kg K), of the water in the product
    double inlet_bulb_;  // K
    double inlet_ratio_, inlet_heat_;
    double heat_per_kelvin_ = 0;  // λ/(T − Tw) of the entering air, J/(kg K)
    double surface_ = 0;          // hA of one tray, J/(h K)
};

}  // namespace

TrayRun tray_run(Mass fresh, MoistureWet start, Area area, Temperature temp, RelativeHumidity rh,
                 VolumeFlow flow, const TrayOptions& options) {
    const double tray = options.tray.value_or(options.trays);
    const auto whole = [](double x, double most) { return x >= 1 && x <= most && x == std::floor(x); };
    if (!whole(options.trays, 50)) throw BadInput(arg::trays, "must be a whole number from 1 to 50");
    if (!whole(tray, options.trays))
        throw BadInput(arg::tray, "must be a whole number from 1 to the number of trays");
    if (!whole(options.steps, 1000)) throw BadInput(arg::steps, "must be a whole number from 1 to 1000");

    const Stack stack(fresh, start, area, temp, rh, flow, options);
    const std::size_t trays = stack.trays(), shown = static_cast<std::size_t>(tray) - 1;
    const auto left = [&](const numeric::State& x) {
        double wettest = 0;
        for (std::size_t i = 0; i < trays; ++i) wettest = std::max(wettest, x[2 * i]);
        return wettest - stack.target();
    };
    const numeric::State begin = stack.begin();
    const int steps = static_cast<int>(options.steps);
    const numeric::Trace trace =
        numeric::run_until([&](const auto& x, auto& slope, double t) { stack.slopes(x, slope, t); }, begin,
                           left, 1e-4, kLatest, steps);
    if (trace.states.empty())
        throw NoConvergence(arg::target, "is not reached within {}", {Amount{kLatest * kHour, Kind::time}});

    TrayRun run;
    for (int i = 0; i <= steps; ++i) {
        const auto& x = trace.states[static_cast<std::size_t>(i)];
        const double t = trace.end * i / steps;
        const Stream leaving = stack.leaving(x, t, shown);
        run.rows.push_back({.time = Time::from_value(t * kHour),
                            .moisture = MoistureDry(x[2 * shown]),
                            .product = stack.product(x[2 * shown], x[2 * shown + 1]),
                            .leaving = leaving.temp(),
                            .leaving_rh = leaving.humidity()});
    }
    const auto& last = trace.states.back();
    double lost = 0, heat = 0;
    for (std::size_t i = 0; i < 2 * trays; i += 2) {
        lost += begin[i] - last[i];
        heat += last[i + 1] - begin[i + 1];
    }
    run.water_lost = Mass::from_value(stack.solids() * lost);
    run.water_taken = Mass::from_value(stack.solids() * last[2 * trays]);
    run.heat_given = Energy::from_value(stack.solids() * last[2 * trays + 1] * kHeat);
    run.heat_in_product = Energy::from_value(stack.solids() * heat * kHeat);
    return run;
}

}  // namespace drysheet
