#include "heat/mixer.h"

#include <fmt/format.h>

#include <cmath>

#include "base/require.h"
#include "generated/constants.h"

namespace barm::heat {

namespace {

// Sums over what goes in [J/K], [J from 0 C], [kg].
struct Sums {
  double capacity = 0, heat = 0, mass = 0;
};

Sums sums_of(std::span<const Poured> poured) {
  Sums sums;
  for (const Poured& one : poured) {
    const double c = one.mass.si() * one.capacity.si();
    sums.capacity += c;
    sums.heat += c * one.temperature.celsius();
    sums.mass += one.mass.si();
  }
  return sums;
}

double melting() { return constants::water_heat::melting.value.si(); }

double water_capacity() { return constants::water_heat::capacity.value.si(); }

// Of the dough before the room has its share [C].
double before_room(double celsius, const Mixer& mixer) {
  return (celsius - mixer.room_share * mixer.room.celsius()) / (1 - mixer.room_share);
}

constexpr double hottest = 55;

tl::unexpected<Error> too_cold(double celsius) {
  return failure(ErrorCode::cannot_be_met,
                 "",
                 fmt::format("the liquid would have to be at {:.0f} °C, and all its water as ice "
                             "would not do: chill the flour, or mix shorter",
                             celsius));
}

}  // namespace

Warmth mixed(std::span<const Poured> poured, Mass ice, Energy heat_of_mixing, const Mixer& mixer) {
  const Sums sums = sums_of(poured);
  require(sums.capacity > 0 && mixer.room_share >= 0 && mixer.room_share < 1,
          "something is mixed, and the room does not take all of it");
  const double capacity = sums.capacity + ice.si() * water_capacity();
  const double mass = sums.mass + ice.si();
  const double friction = mixer.friction.si() * mass * mixer.runs.si();
  const double apart = sums.heat / sums.capacity;
  const double iced = (sums.heat - ice.si() * melting()) / capacity;
  const double alcohol = heat_of_mixing.si() / capacity;
  const double rubbed = friction / capacity;
  const double all = iced + alcohol + rubbed;
  const double roomed = mixer.room_share * (mixer.room.celsius() - all);
  return {Temperature::from_celsius(all + roomed),
          alcohol * kelvin,
          rubbed * kelvin,
          (iced - apart) * kelvin,
          roomed * kelvin};
}

//  C T = H_fixed + C_free T_liquid - m_ice (L + c_w T_liquid) + Q + f m t, the ice having taken the
//  place of as much water at T_liquid.
Result<LiquidWanted> liquid_for(Temperature dough,
                                std::vector<Poured> poured,
                                const std::vector<std::size_t>& free,
                                std::optional<std::size_t> water,
                                Temperature coldest,
                                Energy heat_of_mixing,
                                const Mixer& mixer) {
  double free_capacity = 0;
  for (const std::size_t at : free) {
    poured.at(at).temperature = Temperature::from_celsius(0);
    free_capacity += poured[at].mass.si() * poured[at].capacity.si();
  }
  if (!(free_capacity > 0))
    return failure(ErrorCode::bad_input, "", "no liquid is there to be chilled or warmed");
  const Sums sums = sums_of(poured);
  const double wanted = sums.capacity * before_room(dough.celsius(), mixer) - sums.heat -
                        heat_of_mixing.si() - mixer.friction.si() * sums.mass * mixer.runs.si();
  const double celsius = wanted / free_capacity;
  if (before_room(dough.celsius(), mixer) <= 0) return too_cold(celsius);
  if (celsius > hottest) {
    return failure(ErrorCode::cannot_be_met,
                   "",
                   fmt::format("the liquid would have to be at {:.0f} °C, too hot for a culture: "
                               "warm the flour or the room",
                               celsius));
  }
  if (celsius >= coldest.celsius()) return LiquidWanted{Temperature::from_celsius(celsius), {}};
  const double ice = (free_capacity * coldest.celsius() - wanted) /
                     (melting() + water_capacity() * coldest.celsius());
  if (!water || ice > poured.at(*water).mass.si()) return too_cold(celsius);
  return LiquidWanted{coldest, ice * kilogram};
}

Result<Friction> learn_friction(std::span<const MixerReading> readings, HeatCapacity capacity) {
  constexpr double thermometer = 0.3;  // K, what a kitchen's probe repeats to
  const auto n = static_cast<double>(readings.size());
  double time = 0;
  double warmth = 0;
  for (const MixerReading& one : readings) {
    time += one.after.si() / n;
    warmth += one.dough.celsius() / n;
  }
  double across = 0;
  double along = 0;
  double all = 0;
  for (const MixerReading& one : readings) {
    along += (one.after.si() - time) * (one.after.si() - time);
    across += (one.after.si() - time) * (one.dough.celsius() - warmth);
    all += (one.dough.celsius() - warmth) * (one.dough.celsius() - warmth);
  }
  if (readings.size() < 2 || !(along > 0)) {
    return failure(ErrorCode::bad_input,
                   "",
                   "friction needs two readings of the dough at two times, such as 2min 21.5C and "
                   "8min 25C");
  }
  if (across < 0) {
    return failure(ErrorCode::bad_input,
                   "",
                   "the dough grew colder while it was mixed: read it again, or in another order");
  }
  using PerMass = decltype(watt / kilogram);
  const double left = std::max(0.0, all - across * across / along);
  const double off = n > 2 ? std::sqrt(left / (n - 2)) : 0;
  return Friction{PerMass::from_si(capacity.si() * across / along),
                  PerMass::from_si(capacity.si() * std::max(thermometer, off) / std::sqrt(along)),
                  TemperatureDifference::from_si(off)};
}

}  // namespace barm::heat
