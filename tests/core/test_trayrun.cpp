#include <gtest/gtest.h>
#include "core/trayrun.hpp"
#include <chrono>
#include <cstdio>
namespace drysheet { namespace {
TEST(Probe, Run) {
    TrayOptions o; o.target=MoistureWet(0.10); o.model=TrayModel::page; o.parameters={0.45,1.1};
    o.isotherm=IsothermModel::gab; o.isotherm_parameters={0.08,10,0.95}; o.trays=10;
    for (double tray : {1.0, 10.0}) { o.tray=tray;
    auto t0=std::chrono::steady_clock::now();
    auto run = tray_run(Mass::from_value(2), MoistureWet(0.85), Area::from_value(0.5), from_si<Temperature>(333.15), RelativeHumidity(0.12), VolumeFlow::from_value(1000/3600.), o);
    printf("%g s\n", std::chrono::duration<double>(std::chrono::steady_clock::now()-t0).count());
    for (auto& r: run.rows) printf("%7.3f h X %8.5f Tp %7.3f Ta %7.3f rh %6.4f\n", r.time.value()/3600, r.moisture.value(), r.product.value()-273.15, r.leaving.value()-273.15, r.leaving_rh.value());
    printf("water %.9g %.9g heat %.9g %.9g\n", run.water_lost.value(), run.water_taken.value(), run.heat_given.value(), run.heat_in_product.value()); }
}
}}
