#include "oven/bake.h"

#include <algorithm>
#include <cmath>

#include "base/require.h"
#include "chemistry/gas.h"
#include "generated/constants.h"
#include "oven/internal/inside.h"
#include "oven/internal/lucky.h"
#include "oven/internal/steam_table.h"

namespace barm::oven {

namespace {

constexpr double pressure = 101325;
constexpr double kelvin_at_0 = 273.15;

double gas_constant() { return constants::physics::gas_constant.value.si(); }

// What a minute of heat does to starch and to a crust's colour [1/s].
double starch_rate(double celsius) {
  namespace b = constants::baking;
  return b::starch_rate.value.si() *
         std::exp(-b::starch_energy.value.si() / (gas_constant() * (celsius + kelvin_at_0)));
}

double brown_rate(double celsius) {
  namespace b = constants::baking;
  return b::brown_rate.value.si() *
         std::exp(-b::brown_energy.value.si() / (gas_constant() * (celsius + kelvin_at_0)));
}

// The dough as bread: dry matter, water and alcohol over it, and the volume it will have.
struct Stuff {
  double dry_mass, water, ethanol, volume;  // [kg], [kg/kg dry], [m3] at going in
  double cold;                              // [W/(m K)]
};

Stuff stuff_of(const Loaf& loaf) {
  const heat::Makeup& m = loaf.makeup;
  const double all = m.water + m.protein + m.fat + m.carbohydrate + m.fibre + m.ash + m.ethanol;
  const double dry = 1 - (m.water + m.ethanol) / all;
  const auto material = heat::material(m, Temperature::from_celsius(30), loaf.gas);
  return {dry * loaf.mass.si(),
          m.water / all / dry,
          m.ethanol / all / dry,
          loaf.mass.si() / material.density.si(),
          material.conductivity.si()};
}

// What the gas could do for the loaf by the time its crumb has set, halved: the shape it mostly
// has.
double usual_spring(const Loaf& loaf) {
  namespace b = constants::baking;
  const double could = b::kept_gas.value.si() * loaf.gas *
                       (swells(loaf.temperature.celsius(), b::opens.value.celsius()) - 1);
  return 0.5 * std::min(loaf.room, could);
}

Passing passing_of(double cold, const Luck& luck) {
  namespace h = constants::hot;
  Passing passing;
  passing.cold = cold * std::exp(h::dough_doubt.value.si() * luck.cold);
  passing.gain = lucky(h::crumb_gain, luck.conduction);
  passing.crust = lucky(h::crust, luck.crust);
  passing.gain_at = h::crumb_middle.value.celsius() + h::crumb_middle.doubt * luck.begins;
  passing.gain_slope = h::crumb_slope.value.si();
  passing.pump = lucky(constants::baking::alcohol_pump, luck.pump);
  return passing;
}

Around around_of(const Oven& oven, const Luck& luck, double now, const Inside& inside) {
  namespace o = constants::oven_heat;
  const bool covered = now < oven.lid.si();
  const bool steamed = now < oven.steam.si();
  Around around;
  around.air = inside.air();
  around.walls = around.stone = inside.walls();
  around.convection =
      (covered || !oven.fan ? lucky(o::still, luck.transfer) : lucky(o::fan, luck.transfer));
  around.emissivity = o::emissivity.value.si() * std::exp(0.3 * o::still.doubt * luck.transfer);
  around.on_stone = oven.on_stone;
  around.contact = o::contact.value.si();
  around.dew_point = o::dew_point.value.celsius();
  around.steam = steamed ? o::steam.value.si() : 0;
  around.vapour = o::oven_vapour.value.si();
  around.drying = covered || steamed ? 0 : o::drying.value.si() * around.convection;
  return around;
}

// Volume of carbon dioxide dissolved in a volume of water at 1 atm: k(T) rho R T.
double dissolved(double celsius) {
  const double moles =
      chemistry::carbon_dioxide_solubility(Temperature::from_celsius(celsius)) * pressure;
  return 1000 * moles * gas_constant() * (celsius + kelvin_at_0) / pressure;
}

// How far the gas has swollen the loaf, until its crust holds it.
class Spring {
 public:
  Spring(const Loaf& loaf, double water_over_volume)
      : loaf_(loaf), water_(loaf.fermented ? water_over_volume : 0) {}

  [[nodiscard]] double with_room() const { return could_; }

  [[nodiscard]] double rise() const { return 1 + std::min(loaf_.room, could_); }

  void see(const Bread& bread) {
    namespace b = constants::baking;
    held_ = held_ || bread.crust() > b::crust_sets.value.si();
    if (held_) return;
    const auto& celsius = bread.celsius();
    const auto& volume = bread.volumes();
    double gas = 0;
    double all = 0;
    for (std::size_t i = 0; i < celsius.size(); ++i) {
      const double warm = std::min(celsius[i], b::opens.value.celsius());
      const double start = loaf_.temperature.celsius();
      const double swollen = swells(start, warm);
      // Dissolved gas comes out as the water warms, and swells with the rest.
      const double out = water_ * std::max(0.0, dissolved(start) - dissolved(warm));
      gas += volume[i] * (loaf_.gas * (swollen - 1) + out * swollen);
      all += volume[i];
    }
    could_ = std::max(could_, b::kept_gas.value.si() * gas / all);
  }

 private:
  const Loaf& loaf_;
  double water_;  ///< [m3] a m3 of dough, with carbon dioxide in it
  double could_ = 0;
  bool held_ = false;
};

Minute noted(double now, const Bread& bread, double dough, double area, double start_ethanol) {
  Minute minute;
  minute.seconds = now;
  minute.core = bread.core();
  minute.surface = bread.surface();
  minute.crust = bread.crust();
  const double kept = start_ethanol > 0 ? bread.ethanol() / start_ethanol : 0;
  minute.alcohol = kept;
  const double strong = std::exp(constants::baking::alcohol_pump.doubt * pump_reach);
  if (start_ethanol > 0) {
    minute.alcohol_at_least = bread.ethanol_if_pumped(strong) / start_ethanol;
    minute.alcohol_at_most = bread.ethanol_if_pumped(1 / strong) / start_ethanol;
  }
  minute.alcohol_in_crust = start_ethanol > 0 ? bread.ethanol_in_crust() / start_ethanol : 0;
  minute.loss = bread.dry() * area / dough;  // of its mass now, turned round by the caller
  return minute;
}

double step_at(double now, const Method& method) {
  return std::min(method.step, 0.25 + 0.02 * now);
}

}  // namespace

double swells(double from_celsius, double to_celsius) {
  return (to_celsius + kelvin_at_0) / (from_celsius + kelvin_at_0) *
         (pressure - water_pressure(from_celsius)) / (pressure - water_pressure(to_celsius));
}

Mass ethanol_of(const Loaf& loaf) {
  const Stuff stuff = stuff_of(loaf);
  return Mass::from_si(stuff.ethanol * stuff.dry_mass);
}

Temperature walls_after(const Oven& oven, Temperature left, Time empty, const Luck& luck) {
  constexpr double step = 10;
  Oven now = oven;
  now.walls = left;
  Inside inside(now, luck);
  for (double gone = 0; gone < empty.si(); gone += step)
    inside.follow(std::min(step, empty.si() - gone), 0, 0);
  return Temperature::from_celsius(inside.walls());
}

Baked bake(const Loaf& loaf, const Oven& oven, Time lasts, const Luck& luck, const Method& method) {
  const Stuff stuff = stuff_of(loaf);
  const double volume = stuff.volume * (1 + usual_spring(loaf));
  const heat::Shape shape = shape_of(loaf.form, Volume::from_si(volume));
  const double area = volume / shape.volume_over_surface().si();
  Baked out{{},
            Bread(shape,
                  stuff.dry_mass / volume,
                  stuff.water,
                  stuff.ethanol,
                  loaf.temperature.celsius(),
                  passing_of(stuff.cold, luck),
                  method.mesh),
            0,
            0,
            area,
            0};
  Bread& bread = out.bread;
  Inside inside(oven, luck);
  Spring spring(loaf, stuff.water * stuff.dry_mass / 1000 / stuff.volume);
  const double start_heat = bread.heat();
  double through = 0;
  double water_out = 0;
  double ethanol_out = 0;
  double colour_left = 1;
  double raw = 1;
  double now = 0;
  Through step;
  double seconds = 1;
  const auto note = [&] {
    Minute minute = noted(now, bread, loaf.mass.si(), area, stuff.ethanol);
    minute.air = inside.air();
    minute.loss = area * (water_out + ethanol_out) / loaf.mass.si();
    minute.colour = 1 - colour_left;
    minute.raw_starch = raw;
    minute.rise = spring.rise();
    minute.spring = spring.with_room();
    minute.energy = inside.energy();
    minute.alcohol_rate = area * step.ethanol / seconds;
    out.course.push_back(minute);
  };
  note();
  double next_note = method.note_every;
  const double end = lasts.si();
  double water_before = bread.water();
  const double start_water = water_before;
  double condensed = 0;
  double ethanol_noted = 0;
  double water_noted = 0;
  while (now < end - 1e-9) {
    seconds = std::min({step_at(now, method), end - now, std::max(1e-6, next_note - now)});
    step = bread.step(seconds, around_of(oven, luck, now, inside));
    now += seconds;
    through += step.heat + step.with_water;
    const double water_now = bread.water();
    water_out += (water_before - water_now) * bread.dry();
    water_before = water_now;
    condensed += step.water;
    ethanol_out += step.ethanol;
    colour_left *= std::exp(-seconds * brown_rate(bread.surface()));
    raw *= std::exp(-seconds * starch_rate(bread.core()));
    inside.follow(seconds, now, oven.loaves * area * std::max(0.0, step.heat));
    spring.see(bread);
    if (now >= next_note - 1e-9 || now >= end - 1e-9) {
      note();
      const double since = out.course.back().seconds - out.course[out.course.size() - 2].seconds;
      out.course.back().alcohol_rate = area * (ethanol_out - ethanol_noted) / since;
      out.course.back().steam_rate = area * std::max(0.0, water_out - water_noted) / since;
      ethanol_noted = ethanol_out;
      water_noted = water_out;
      next_note += method.note_every;
    }
  }
  out.walls = inside.walls();
  const double gained = (bread.heat() - start_heat) * bread.dry();
  out.heat_missing = std::abs(gained - through) / std::max(1.0, std::abs(through));
  out.water_missing = std::abs(water_out - (start_water - bread.water()) * bread.dry()) /
                      (start_water * bread.dry());
  return out;
}

}  // namespace barm::oven
