#include "oven/cavity.h"

#include <algorithm>
#include <cmath>

#include "chemistry/vapour.h"
#include "generated/constants.h"

namespace barm::oven {

namespace {

// Volume of gas that a mass of a substance makes in the cavity [m3/kg].
double volume_of(double molar_mass, double celsius) {
  return constants::physics::gas_constant.value.si() * (celsius + 273.15) / (molar_mass * 101325);
}

struct Highest {
  double share = 0, seconds = 0;
};

Highest highest(const std::vector<Minute>& course, int loaves, double cavity, double vent) {
  Highest out;
  double y = 0;
  for (std::size_t i = 1; i < course.size(); ++i) {
    const Minute& now = course[i];
    const double lasts = now.seconds - course[i - 1].seconds;
    const double ethanol =
        loaves * now.alcohol_rate * volume_of(constants::molar_mass::ethanol.value.si(), now.air);
    const double water =
        loaves * now.steam_rate * volume_of(constants::molar_mass::water.value.si(), now.air);
    const double away = vent + ethanol + water;
    const double settles = away > 0 ? ethanol / away : y;
    y = settles + (y - settles) * std::exp(-away * lasts / cavity);
    if (y > out.share) out = {y, now.seconds};
  }
  return out;
}

}  // namespace

Flow vent_of(double luck) {
  namespace c = constants::cavity;
  return std::exp(c::vent.doubt * luck) * c::vent.value;
}

double vented_share(const Oven& oven, const std::vector<Minute>& course, Flow vent) {
  return highest(course, oven.loaves, oven.cavity.si(), vent.si()).share;
}

Vapour vapour_in(const Oven& oven,
                 const std::vector<Minute>& course,
                 Mass ethanol_of_loaf,
                 Flow vent) {
  Vapour out;
  out.limit = constants::ethanol_in_air::lower_limit_iec.value.si();
  out.warn_from = constants::cavity::warn_share.value.si() * out.limit;
  double hottest = 0;
  for (const Minute& minute : course) hottest = std::max(hottest, minute.air);
  out.closed =
      std::min(1.0,
               chemistry::vapour_share_bound(
                   oven.loaves * ethanol_of_loaf, oven.cavity, Temperature::from_celsius(hottest)));
  const double cavity = oven.cavity.si();
  const Highest here = highest(course, oven.loaves, cavity, vent.si());
  out.vented = here.share;
  out.vented_at = Time::from_si(here.seconds);
  constexpr int most = 1000;
  int low = 0;
  int high = most + 1;  // the share rises with the loaves
  while (high - low > 1) {
    const int middle = (low + high) / 2;
    (highest(course, middle, cavity, vent.si()).share < out.warn_from ? low : high) = middle;
  }
  out.loaves_at_once = low;
  return out;
}

}  // namespace barm::oven
