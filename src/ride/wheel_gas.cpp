#include "ride/wheel_gas.h"

#include <algorithm>

#include "physics/gas_mix.h"
#include "physics/permeation.h"
#include "scenario/leak.h"

namespace flattail::ride {

namespace {

static_assert(kGases == static_cast<int>(physics::kGasCount));
static_assert(kLeakReferenceK == physics::kPermeationReferenceTemperature);

double value_of(const sampling::DayBlock& days, InputId id, int lane) {
    return id.is_set() ? days.of(id)[lane] : 0.0;
}

}  // namespace

Waits find_waits(const scenario::Model& model, const Road& road, const LaneTerms& t) {
    const scenario::Preparation& preparation = model.preparation;
    const Forecast& f = road.forecast;
    const bool waits = preparation.before_s > 0.0;
    const double pump_s = model.race.start_clock_s - preparation.before_s;
    const double forecast_k = read_forecast(f, f.temperature_k, pump_s);
    Waits w;
    for (int j = 0; j < kLanes; ++j) {
        const double error_k = t.temperature_error_k[j];
        const double start_s = t.start_clock_s[j];
        w.start_k[j] = read_forecast(f, f.temperature_k, start_s) + error_k;
        const double usual_k = waits ? forecast_k + error_k : w.start_k[j];
        w.pump_k[j] = preparation.pumped_at_k.value_or(usual_k);
        w.waiting_s[j] = waits ? std::max(start_s - pump_s, 0.0) : 0.0;
    }
    return w;
}

namespace {

physics::GasMix make_filling(scenario::FillGas gas, double absolute_pa) {
    return gas == scenario::FillGas::kAir
               ? physics::make_air(absolute_pa)
               : physics::make_pure(physics::Gas::kCarbonDioxide, absolute_pa);
}

void put_gas(const physics::GasMix& mix, double ratio, int wheel, int lane,
             LaneTerms& t) {
    for (int g = 0; g < kGases; ++g) {
        t.gas_pa[wheel][g][lane] = mix.partial_pa[static_cast<std::size_t>(g)] * ratio;
    }
}

}  // namespace

void set_wheel_leak(const scenario::Model& model, int inner, int wheel,
                    const sampling::DayBlock& days, LaneRange range, LaneTerms& t) {
    const scenario::Leak& leak = model.inners[static_cast<std::size_t>(inner)].leak;
    const physics::PerGas activation_k =
        physics::find_activation_temperatures_k(leak.wall.material);
    const scenario::LeakRates rates(leak);
    for (int j = range.begin; j < range.end; ++j) {
        t.leak_at_k[j] = 0.0;
        const physics::PerGas rate =
            rates.at({value_of(days, leak.air_loss_pa, j),
                      value_of(days, leak.carbon_dioxide_loss_pa, j)});
        for (int g = 0; g < kGases; ++g) {
            const auto gas = static_cast<std::size_t>(g);
            t.leak_per_s[wheel][g][j] = rate[gas];
            t.activation_k[wheel][g][j] = activation_k[gas];
        }
    }
}

void pump_wheels(const scenario::Model& model, const Road& road, const Traits& traits,
                 const sampling::DayBlock& days, LaneTerms& t) {
    const double* error = days.of(model.preparation.gauge_error_pa);
    const Waits waits = find_waits(model, road, t);
    for (int j = 0; j < kLanes; ++j) {
        t.gas_k[j] = waits.start_k[j];
        t.leak_clock_s[j] = -waits.waiting_s[j];
        t.half_way_s[j] = 0.0;
    }
    for (int w = 0; w < kWheelCount; ++w) {
        const auto wheel = static_cast<std::size_t>(w);
        const double stated = traits.rolling->wheels[wheel].gauge_pa;
        for (int j = 0; j < kLanes; ++j) {
            const double gauge =
                std::max(stated + error[j], road.refresh.softest_gauge_pa);
            put_gas(
                make_filling(model.preparation.gas, gauge + model.weather.pressure_pa),
                t.gas_k[j] / waits.pump_k[j], w, j, t);
        }
        set_wheel_leak(model, traits.leak->wheels[wheel].inner, w, days, LaneRange{}, t);
    }
}

void wait_for_start(const scenario::Model& model, const Road& road, const Kernel& kernel,
                    LaneTerms& t) {
    if (model.preparation.before_s <= 0.0) return;
    const Waits waits = find_waits(model, road, t);
    double half_s[kLanes], start_s[kLanes];
    for (int j = 0; j < kLanes; ++j) {
        half_s[j] = -0.5 * waits.waiting_s[j];
        start_s[j] = 0.0;
    }
    kernel.leak(road.refresh, waits.pump_k, half_s, t, LaneRange{});
    kernel.leak(road.refresh, waits.start_k, start_s, t, LaneRange{});
}

void fill_wheel(const RefreshTerms& refresh, const Filling& filling, int wheel, int lane,
                LaneTerms& t) {
    const double absolute_pa = filling.gauge_pa + refresh.air_pressure_pa;
    const double from_cartridge_pa = std::min(filling.carbon_dioxide_pa, absolute_pa);
    const physics::GasMix mix = physics::add_gas(
        physics::make_air(absolute_pa - from_cartridge_pa),
        physics::make_pure(physics::Gas::kCarbonDioxide, from_cartridge_pa));
    put_gas(mix, t.gas_k[lane] / filling.temperature_k, wheel, lane, t);
}

void let_out(double air_pressure_pa, double lost_pa, int wheel, int lane, LaneTerms& t) {
    const double absolute_pa = t.gauge_pa[wheel][lane] + air_pressure_pa;
    const double left = 1.0 - lost_pa / absolute_pa;
    for (int g = 0; g < kGases; ++g) t.gas_pa[wheel][g][lane] *= left;
}

}  // namespace flattail::ride
