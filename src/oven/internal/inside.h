#pragma once
#include <algorithm>
#include <cmath>

#include "generated/constants.h"
#include "oven/oven.h"

namespace barm::oven {

/// The oven inside: its walls, as the dial says or by its own power, and its air, of which the door
/// lets out what comes back by halves. Walls and stone keep their heat while the door stands open.
///
///     T_air = T_walls - drop 2^(-t/halves),   C dT_walls/dt = P - losses - what the loaves take
class Inside {
 public:
  Inside(const Oven& oven, const Luck& luck)
      : oven_(oven), dial_(constants::oven_heat::dial.doubt * luck.dial) {
    const double full = oven.holds ? static_cast<double>(oven.loaves) / *oven.holds : 0;
    drop_ = constants::oven_heat::door_drop.value.si() *
            (1 + (constants::oven_heat::full_drop.value.si() - 1) * full);
    walls_ = oven.walls ? oven.walls->celsius() : set_at(oven, 0) + dial_;
  }

  [[nodiscard]] double walls() const { return walls_; }

  [[nodiscard]] double air() const { return walls_ - drop_; }

  [[nodiscard]] double energy() const { return energy_; }

  // After a step in which all loaves together took so much heat [J].
  void follow(double seconds, double now, double taken) {
    namespace o = constants::oven_heat;
    const double set = set_at(oven_, now) + dial_;
    const double litres = oven_.cavity.in(litre);
    const double losing = o::wall_loss.value.in(watt / (kelvin * litre)) * litres * (walls_ - 20);
    const double holds = o::wall_heat.value.in(joule / (kelvin * litre)) * litres;
    drop_ *= std::exp2(-seconds / o::door_halves.value.si());
    if (!oven_.power) {
      // The dial falls at the pace of the walls.
      const double cooling = losing / holds * seconds;
      walls_ = std::max(set, walls_ - std::max(cooling, 0.0));
      energy_ += std::max(0.0, taken + losing * seconds);
      return;
    }
    const double wanted = (set - walls_) * holds + taken + losing * seconds;
    const double given = std::clamp(wanted, 0.0, oven_.power->si() * seconds);
    energy_ += given;
    walls_ += (given - taken - losing * seconds) / holds;
  }

 private:
  const Oven& oven_;
  double dial_, drop_ = 0, walls_ = 0, energy_ = 0;
};

}  // namespace barm::oven
