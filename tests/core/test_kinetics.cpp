#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <vector>

#include "core/kinetics.hpp"
using namespace drysheet;
TEST(Kinetics, x) {
    std::vector<Time> t; std::vector<MoistureRatio> y;
    for (int i=0;i<40;++i){ double h=0.25*i; t.push_back(Time::from_value(h*3600)); y.emplace_back(std::exp(-0.5*std::pow(h,0.8))+0.004*std::sin(17.0*i)); }
    for (auto& r: curve_rank(t,y)) { std::printf("%s ", std::string(info(r.model).name).c_str()); if(r.fit){ std::printf("%g rmse %g ", r.fit->aicc, r.fit->rmse); for(double p: r.fit->parameters) std::printf(" %g",p);} std::puts("");}
    // run
    std::vector<Time> tt; std::vector<Mass> m;
    for (int i=0;i<25;++i){ double h=0.5*i; double X= h<3? 6-1.0*h : 3-1.0*2.5*(1-std::exp(-(h-3)/2.5)); tt.push_back(Time::from_value(h*3600)); m.push_back(Mass::from_value(0.1*(1+X)+0.0005*std::sin(31.0*i))); }
    m[9]=m[9]+Mass::from_value(0.02);
    auto c=critical_point(tt,m,Mass::from_value(0.1));
    std::printf("R %g+-%g Xc %g+-%g tc %g+-%g n %zu\n", c.rate.value()*3600,c.u_rate.value()*3600,c.moisture.value(),c.u_moisture.value(),c.time.value()/3600,c.u_time.value()/3600,c.points);
    auto rr=drying_rates(tt,m,Mass::from_value(0.1));
    for(std::size_t i=0;i<rr.size();++i){double h=tt[i].value()/3600; std::printf("%g %g %g\n",h,rr[i].value()*3600, h<3?1:std::exp(-(h-3)/2.5));}
    for (double f: {0.001,0.05,0.1999999,0.2,0.25,1.0,2.0}) std::printf("%g %.12f\n",f,slab_ratio(f).value());
}
