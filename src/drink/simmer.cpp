#include "drink/simmer.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <span>

#include "base/require.h"
#include "chemistry/acids.h"
#include "chemistry/ethanol_water.h"
#include "chemistry/mixing_heat.h"
#include "chemistry/vapour.h"
#include "generated/constants.h"
#include "generated/tables.h"

namespace barm::drink {

using chemistry::BoilingPoint;
using larder::Composition;
using larder::Property;

namespace {

// How finely a batch is divided: each step takes this share of what the pan holds.
constexpr double step_share = 0.004;
// Less water than this for each kilogram of solids is no liquid: it burns on.
constexpr double least_water = 0.15;

// What is in the pan [kg], and the state of its acetic acid as ln of what is kept.
struct InPan {
  double water, ethanol, solids, ln_acetic;

  [[nodiscard]] double mass() const { return water + ethanol + solids; }

  [[nodiscard]] MassFraction share() const { return MassFraction(ethanol / (ethanol + water)); }
};

BoilingPoint boiling(const InPan& pan) {
  const auto point = chemistry::boiling_point(chemistry::mole_fraction(pan.share()), atmosphere);
  require(point.has_value(), "a drink has a boiling point at 1 atm");
  return *point;
}

// Water and ethanol that leave with a kilogram of vapour, and how fast acetic acid follows.
struct Leaving {
  double ethanol, water, ln_acetic;
};

Leaving leaving(const InPan& pan, double undissociated) {
  const double y = chemistry::mass_fraction(boiling(pan).vapour).value();
  const double volatility = constants::simmer::acetic_volatility.value.si();
  return {y, 1 - y, -volatility * undissociated * (1 - y) / pan.water};
}

InPan after(const InPan& pan, const Leaving& rate, double mass) {
  return {pan.water - mass * rate.water,
          std::max(0.0, pan.ethanol - mass * rate.ethanol),
          pan.solids,
          pan.ln_acetic + mass * rate.ln_acetic};
}

// Runge and Kutta of fourth order in the mass that leaves.
InPan boil_off(const InPan& pan, double undissociated, double mass) {
  const Leaving k1 = leaving(pan, undissociated);
  const Leaving k2 = leaving(after(pan, k1, mass / 2), undissociated);
  const Leaving k3 = leaving(after(pan, k2, mass / 2), undissociated);
  const Leaving k4 = leaving(after(pan, k3, mass), undissociated);
  const auto mean = [](double a, double b, double c, double d) {
    return (a + 2 * b + 2 * c + d) / 6;
  };
  return after(pan,
               {mean(k1.ethanol, k2.ethanol, k3.ethanol, k4.ethanol),
                mean(k1.water, k2.water, k3.water, k4.water),
                mean(k1.ln_acetic, k2.ln_acetic, k3.ln_acetic, k4.ln_acetic)},
               mass);
}

// Heat that the vapour takes along, and that warms what stays to its higher boiling point [J].
double heat_for(const InPan& before, const InPan& then) {
  const double latent = constants::boiling::ethanol.value.si() * (before.ethanol - then.ethanol) +
                        constants::boiling::water.value.si() * (before.water - then.water);
  const double warmer = boiling(then).temperature.celsius() - boiling(before).temperature.celsius();
  return latent + 0.5 * (before.mass() + then.mass()) *
                      chemistry::liquid_capacity(then.share()).si() * warmer;
}

AlcoholByVolume strength_of(const InPan& pan) { return chemistry::strength(pan.share()); }

// What is left to go, with both ends looked at; 0: done.
bool done(const InPan& pan, double begun, const Until& until) {
  if (until.strength.value() > 0 && strength_of(pan) <= until.strength) return true;
  return pan.mass() <= until.share * begun * (1 + 1e-12);
}

Composition composition_of(const Composition& drink, double begun, const InPan& pan) {
  Composition out = drink;
  const double thicker = begun / pan.mass();
  for (std::size_t i = 0; i <= static_cast<std::size_t>(Property::caffeine); ++i)
    out.value.at(i) *= thicker;
  out[Property::buffering] *= thicker;
  out[Property::calcium] *= thicker;
  out[Property::potassium] *= thicker;
  out[Property::water] = pan.water / pan.mass();
  out[Property::ethanol] = pan.ethanol / pan.mass();
  out[Property::acetic_acid] *= std::exp(pan.ln_acetic);
  out[Property::carbon_dioxide] = 0;
  return out;
}

Result<bool> check(const Pan& pan, const Until& until) {
  if (!(pan.drink.si() > 0) || !(pan.heat.si() > 0))
    return failure(ErrorCode::bad_input, "", "simmering needs a drink in the pan and a fire");
  if (!(until.share >= 0 && until.share <= 1))
    return failure(ErrorCode::bad_input, "", "a share of the weight is from 0 % to 100 %");
  if (until.share == 0 && until.strength.value() <= 0)
    return failure(ErrorCode::bad_input, "", "say how far: a share of the weight, or a strength");
  return true;
}

}  // namespace

Result<Simmered> simmer(const Composition& drink, const Pan& pan, const Until& until) {
  if (const auto fits = check(pan, until); !fits) return failure(fits);
  const double begun = pan.drink.si();
  InPan now{begun * drink[Property::water],
            begun * drink[Property::ethanol],
            begun * (1 - drink[Property::water] - drink[Property::ethanol]),
            0};
  if (!(now.water > 0))
    return failure(ErrorCode::bad_input, "", "what holds no water does not simmer");
  if (until.strength.value() > 0 && until.strength >= strength_of(now))
    return failure(ErrorCode::bad_input,
                   "",
                   fmt::format("it has {:.1f} % vol as it is: name a lower strength",
                               strength_of(now).percent()));
  const InPan start = now;
  const double undissociated =
      1 - chemistry::dissociated(chemistry::Acid::acetic, drink.ph(), Molality{});
  Simmered out;
  const double to_warm = begun * chemistry::liquid_capacity(now.share()).si() *
                         (boiling(now).temperature.celsius() - pan.start.celsius());
  out.to_the_boil = Time::from_si(std::max(0.0, to_warm / pan.heat.si()));
  out.lasts = out.to_the_boil;
  const auto note = [&] {
    out.course.push_back(
        {out.lasts, now.mass() * kilogram, boiling(now).temperature, strength_of(now)});
  };
  note();
  while (!done(now, begun, until)) {
    double mass = step_share * (now.water + now.ethanol);
    InPan then = boil_off(now, undissociated, mass);
    if (until.strength.value() > 0 && strength_of(then) < until.strength) {
      // The last step by halving: the strength falls all the way.
      double low = 0;
      double high = mass;
      for (int i = 0; i < 50; ++i) {
        mass = 0.5 * (low + high);
        then = boil_off(now, undissociated, mass);
        (strength_of(then) > until.strength ? low : high) = mass;
      }
      then = boil_off(now, undissociated, high);
    }
    if (then.mass() < until.share * begun) {
      mass = now.mass() - until.share * begun;
      then = boil_off(now, undissociated, mass);
    }
    if (then.water < least_water * then.solids)
      return failure(ErrorCode::cannot_be_met,
                     "",
                     fmt::format("at {:.0f} % of the weight it is no liquid any more: stop above",
                                 100 * then.mass() / begun));
    out.lasts = out.lasts + Time::from_si(heat_for(now, then) / pan.heat.si());
    now = then;
    note();
    if (now.water < 1e-6 * begun)
      return failure(ErrorCode::cannot_be_met, "", "nothing would be left of it");
  }
  out.left = composition_of(drink, begun, now);
  out.mass = now.mass() * kilogram;
  out.alcohol_out = (start.ethanol - now.ethanol) * kilogram;
  out.water_out = (start.water - now.water) * kilogram;
  out.acetic_kept = std::exp(now.ln_acetic);
  return out;
}

Power usual_heat() { return constants::simmer::heat.value; }

std::optional<Temperature> flash_point(MassFraction ethanol) {
  const std::span rows(tables::ethanol_water_flash_points);
  const double percent_now = 100 * ethanol.value();
  if (percent_now < rows.front().percent) return std::nullopt;
  for (std::size_t i = 1; i < rows.size(); ++i) {
    if (percent_now > rows[i].percent) continue;
    const double part =
        (percent_now - rows[i - 1].percent) / (rows[i].percent - rows[i - 1].percent);
    return Temperature::from_celsius(rows[i - 1].flash_point_c +
                                     part * (rows[i].flash_point_c - rows[i - 1].flash_point_c));
  }
  return Temperature::from_celsius(rows.back().flash_point_c);
}

}  // namespace barm::drink
