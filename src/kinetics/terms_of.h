#pragma once
// The templates behind terms.h, for the files that instantiate them with their own number type.
#include <cmath>
#include <numbers>

#include "chemistry/acids.h"
#include "chemistry/ethanol_water.h"
#include "chemistry/gas.h"
#include "chemistry/sulphite.h"
#include "generated/constants.h"
#include "generated/tables.h"
#include "kinetics/growth.h"
#include "kinetics/terms.h"
#include "units/units.h"

namespace barm::kinetics {

namespace detail {

/// Straight lines between the rows of a table, flat beyond its ends.
template <class Row, std::size_t N>
double between_rows(const Row (&rows)[N], double Row::* x, double Row::* y, double at) {
  if (at <= rows[0].*x) return rows[0].*y;
  for (std::size_t i = 1; i < N; ++i) {
    if (at > rows[i].*x) continue;
    const double part = (at - rows[i - 1].*x) / (rows[i].*x - rows[i - 1].*x);
    return rows[i - 1].*y + part * (rows[i].*y - rows[i - 1].*y);
  }
  return rows[N - 1].*y;
}

inline constexpr double salt_gram_per_millimole =
    constants::molar_mass::salt.value.in(gram / millimole);

/// Next to nothing at 4 C, slow at 8 C (eq. 7).
inline double not_too_cold(double celsius) {
  namespace stress = constants::stress;
  return 1 / (1 + std::exp(-(celsius - stress::cold_middle.value.celsius()) /
                           stress::cold_width.value.si()));
}

/// Half-speed doses and ends of ethanol shrink with warmth above 24 C (eq. 8).
template <class T>
T warm_weakness(const Parameters<T>& p, double celsius) {
  const double above = std::max(0.0, celsius - constants::stress::warm_from.value.celsius());
  return numerics::larger(T(0.2), T(T(1.0) - p[Parameter::warm_toxicity] * above));
}

/// [Pa]
inline double dry_pressure(double celsius) {
  return atmosphere.si() -
         chemistry::water_vapour_pressure(Temperature::from_celsius(celsius)).si();
}

inline constexpr double litres_per_kg =
    1 / constants::gas::gas_free_density.value.in(gram / millilitre);

template <class T>
GasTerms<T> gas_terms_at_mixing(const Parameters<T>& p, double start_celsius) {
  const double r = constants::physics::gas_constant.value.si();
  GasTerms<T> terms;
  terms.gas_free_volume = T(litres_per_kg);
  const T& void_at_start = p[Parameter::void_at_start];
  const T air_volume = T(litres_per_kg) * void_at_start / (T(1.0) - void_at_start);  // [L]
  // P V = n R T with V in litres and n in millimoles: both factors of a thousand cancel.
  terms.air = air_volume * (dry_pressure(start_celsius) / (r * (start_celsius + 273.15)));
  return terms;
}

/// What a temperature makes of them.
template <class T>
void warm(GasTerms<T>& terms, const DoughOf<T>& dough, const Parameters<T>& p, double celsius) {
  const double r = constants::physics::gas_constant.value.si();
  const double pressure = dry_pressure(celsius);
  terms.volume_per_gas = T(r * (celsius + 273.15) / pressure);
  const double solubility =
      chemistry::carbon_dioxide_solubility(Temperature::from_celsius(celsius));  // mol/(kg Pa)
  terms.capacity = dough.water * p[Parameter::dissolving] * (1000 * solubility * pressure);
}

/// What decides a yeast's gas at one temperature: with growth, without it, and what growth would
/// still make where it is colder than growth likes. Below `cold_from` gas falls by
/// Q10^((t - cold_from)/10) (eq. 10a).
template <class T>
void warm(YeastTerms<T>& yeast,
          const T& growth_at_best,
          const T& upkeep_at_best,
          const T& per_ten,
          double celsius,
          double (*growing)(double),
          double (*keeping)(double)) {
  const double grows = growing(celsius);
  yeast.growth = growth_at_best * grows;
  constexpr double at = constants::stress::cold_from.value.celsius();
  if (celsius >= at) {
    yeast.upkeep_gas = upkeep_at_best * keeping(celsius);
    yeast.cold_gas = T(0.0);
    return;
  }
  const T fall = numerics::power(per_ten, (celsius - at) / 10);
  yeast.upkeep_gas = upkeep_at_best * fall * keeping(at);
  yeast.cold_gas = growth_at_best * yeast.gas_of_growth * (fall * growing(at) - grows);
}

template <class T>
AcidTerms<T> acid_terms(chemistry::Acid acid, const T& total, Molality ionic_strength) {
  const auto steps = chemistry::pka(acid, ionic_strength);
  const auto constant = [&](std::size_t i) {
    return T(i < steps.size() ? std::pow(10.0, -steps[i]) : 0.0);
  };
  return {total, constant(0), constant(1), constant(2)};
}

/// The day and the place: all that lives and works in the dough goes so many times as fast.
template <class T>
void keep_pace(Terms<T>& t, const T& pace) {
  for (YeastTerms<T>* yeast : {&t.wild, &t.bakers}) {
    yeast->growth = yeast->growth * pace;
    yeast->upkeep_gas = yeast->upkeep_gas * pace;
    yeast->cold_gas = yeast->cold_gas * pace;
  }
  for (T* rate : {&t.bacteria.growth,
                  &t.bacteria.upkeep,
                  &t.amylase,
                  &t.death,
                  &t.fading,
                  &t.fading_by_acid,
                  &t.pentosan_fading})
    *rate = *rate * pace;
}

template <class T>
double plain(const T& x) {
  using numerics::value_of;
  return value_of(x);
}

}  // namespace detail

template <class T>
Present present(const DoughOf<T>& dough) {
  using detail::plain;
  Present present;
  present.wild_yeast = plain(dough.wild_yeast) > 0;
  present.bakers_yeast = plain(dough.bakers_yeast) > 0;
  present.sulphite = plain(dough.free_sulphite) > 0;
  present.sorbate = plain(dough.sorbate) > 0;
  present.hops = plain(dough.iso_alpha_acids) > 0;
  present.added_sugar = plain(dough.added_hexose) > 0 || plain(dough.slow_hexose) > 0;
  present.pentosans = plain(dough.pentosan_rise) > 0;
  present.whole_fruit = plain(dough.slow_hexose) > 0 || plain(dough.slow_acid) != 0;
  for (const T& total : dough.acid) present.acids += plain(total) > 0 ? 1 : 0;
  return present;
}

template <class T>
DoughTerms<T> dough_terms(const DoughOf<T>& dough,
                          const Parameters<T>& p,
                          double start_celsius,
                          const Vessel& vessel) {
  using P = Parameter;
  namespace gluten = constants::gluten;

  DoughTerms<T> out;
  Terms<T>& t = out.still;
  t.per_litre = T(1.0) / dough.water_phase;
  const T salt = dough.salt * t.per_litre;  // [g/L]

  out.wild_salt = dose(salt, p[P::wild_salt_half], constants::wild_yeast::salt_power.value.si());
  t.wild.gas_of_growth = p[P::wild_gas_of_growth];
  t.wild.sugar_half = p[P::wild_sugar_half];
  t.wild.sulphite_half = p[P::wild_sulphite_half];
  t.wild.acetic_half = p[P::wild_acetic_half];
  t.wild.sorbate_half = p[P::wild_sorbate_half];

  out.bakers_salt =
      dose(salt, p[P::bakers_salt_half], constants::bakers_yeast::salt_power.value.si());
  t.bakers.gas_of_growth = p[P::bakers_gas_of_growth];
  t.bakers.sugar_half = p[P::bakers_sugar_half];
  t.bakers.sulphite_half = p[P::bakers_sulphite_half];
  t.bakers.acetic_half = p[P::bakers_acetic_half];
  t.bakers.sorbate_half = p[P::bakers_sorbate_half];

  out.bacteria_salt =
      dose(salt, p[P::bacteria_salt_half], constants::bacteria::salt_power.value.si());
  t.bacteria.acid_shift = p[P::acid_stop_ph] - constants::bacteria::acid_stop_ph.value.value();
  t.bacteria.hexose_per_cells = T(1.0) / p[P::bacteria_cells_per_hexose];
  t.bacteria.sugar_half = p[P::bacteria_sugar_half];
  t.bacteria.sulphite_half = p[P::bacteria_sulphite_half];
  t.bacteria.acetic_half = p[P::bacteria_acetic_half];
  t.bacteria.hops_half = p[P::bacteria_hops_half];

  t.gas = detail::gas_terms_at_mixing(p, start_celsius);
  GasTerms<T> at_start = t.gas;
  detail::warm(at_start, dough, p, start_celsius);
  t.volume_at_start = volume(dough.carbon_dioxide, at_start);

  t.death = p[P::death];
  t.sulphite_loss = T(std::numbers::ln2) / p[P::sulphite_half_life];
  t.ethanol_brought = dough.ethanol * t.per_litre;
  t.lactate_brought = dough.lactate;
  t.acetate_brought = dough.acetate;
  t.flour_hexose = p[P::free_sugar] * dough.flour;
  t.sorbate = dough.sorbate * t.per_litre;
  t.hops = dough.iso_alpha_acids * t.per_litre;

  const Molality ionic = Molality::from_si(detail::plain(dough.salt) /
                                           constants::molar_mass::salt.value.in(gram / mole) /
                                           detail::plain(dough.water));
  t.lactic_k = detail::acid_terms(chemistry::Acid::lactic, T(0.0), ionic).k1;
  t.acetic_k = detail::acid_terms(chemistry::Acid::acetic, T(0.0), ionic).k1;
  t.sorbic_k = T(std::pow(10.0, -constants::sorbic_acid::pk.value.value()));
  const double ethanol_density = chemistry::ethanol_per_volume(AlcoholByVolume(1)).in(gram / litre);
  out.strength = AlcoholByVolume(detail::plain(t.ethanol_brought) / ethanol_density);
  std::size_t used = 0;
  for (std::size_t a = 0; a < chemistry::acid_count; ++a) {
    if (!(detail::plain(dough.acid[a]) > 0)) continue;
    t.acid[used++] = detail::acid_terms(static_cast<chemistry::Acid>(a), dough.acid[a], ionic);
  }
  t.buffering = dough.buffering;
  t.flour_buffering = dough.flour_buffering;

  t.surface_leak = p[P::surface_leak] * vessel.surface;
  t.pore_leak = p[P::pore_leak];
  using Wet = tables::gluten_and_water_row;
  const double wet = detail::between_rows(
      tables::gluten_and_water, &Wet::hydration, &Wet::held, detail::plain(dough.hydration));
  t.rise_above_start = (dough.rise_limit - T(1.0)) * p[P::rise_limit] * wet;
  using Row = tables::gluten_and_acid_row;
  t.floor = T(detail::between_rows(tables::gluten_and_acid,
                                   &Row::hydration,
                                   &Row::held_at_floor,
                                   detail::plain(dough.hydration)));
  const T sugar = dough.added_hexose * t.per_litre *
                  (detail::salt_gram_per_millimole / 2);  // as salt of so many ions [g/L]
  out.shield = T(1.0) + (salt + sugar) * (1 / gluten::salt_shield.value.in(gram / litre));
  t.pentosan_rise = dough.pentosan_rise * p[P::rise_limit];
  t.leaching = p[P::leaching];
  t.slow_hexose = dough.slow_hexose;
  t.slow_acid = dough.slow_acid;
  t.ethanol_scale = T(100 / ethanol_density) / p[P::ethanol_scale];
  return out;
}

template <class T>
Terms<T> terms_at(double celsius,
                  const DoughTerms<T>& of,
                  const DoughOf<T>& dough,
                  const Parameters<T>& p) {
  using P = Parameter;
  namespace wild = constants::wild_yeast;
  namespace bakers = constants::bakers_yeast;
  namespace lab = constants::bacteria;
  namespace gluten = constants::gluten;

  Terms<T> t = of.still;
  const T weak = detail::warm_weakness(p, celsius);
  detail::warm(
      t.wild,
      T(p[P::wild_growth] * of.wild_salt),
      T(p[P::wild_gas_of_upkeep] * of.wild_salt),
      p[P::cold_gas],
      celsius,
      [](double at) {
        return detail::not_too_cold(at) * cardinal_warmth(at,
                                                          wild::t_min.value.celsius(),
                                                          wild::t_opt.value.celsius(),
                                                          wild::t_max.value.celsius());
      },
      [](double at) {
        return cardinal_warmth(at,
                               wild::upkeep_t_min.value.celsius(),
                               wild::upkeep_t_opt.value.celsius(),
                               wild::upkeep_t_max.value.celsius());
      });
  t.wild.ethanol_half = p[P::wild_ethanol_half] * weak;
  t.wild.ethanol_end = p[P::wild_ethanol_end] * weak;

  if (detail::plain(dough.bakers_yeast) > 0) {
    detail::warm(
        t.bakers,
        T(p[P::bakers_growth] * of.bakers_salt),
        T(p[P::bakers_gas_of_upkeep] * of.bakers_salt),
        p[P::cold_gas],
        celsius,
        [](double at) {
          return detail::not_too_cold(at) * cardinal_warmth(at,
                                                            bakers::t_min.value.celsius(),
                                                            bakers::t_opt.value.celsius(),
                                                            bakers::t_max.value.celsius());
        },
        [](double at) {
          return cardinal_warmth(at,
                                 bakers::upkeep_t_min.value.celsius(),
                                 bakers::upkeep_t_opt.value.celsius(),
                                 bakers::upkeep_t_max.value.celsius());
        });
  }
  t.bakers.ethanol_half = p[P::bakers_ethanol_half] * weak;
  t.bakers.ethanol_end = p[P::bakers_ethanol_end] * weak;

  const double bacteria_warmth = detail::not_too_cold(celsius) * warmth(celsius,
                                                                        lab::t_max.value.celsius(),
                                                                        lab::t_opt.value.celsius(),
                                                                        lab::t_shape.value.si());
  t.bacteria.growth = p[P::bacteria_growth] * of.bacteria_salt * bacteria_warmth;
  t.bacteria.upkeep = p[P::bacteria_upkeep] * of.bacteria_salt * bacteria_warmth;
  t.bacteria.ethanol_half = p[P::bacteria_ethanol_half] * weak;
  t.bacteria.ethanol_end = p[P::bacteria_ethanol_end] * weak;

  detail::warm(t.gas, dough, p, celsius);
  t.amylase =
      p[P::amylase] * std::exp2((celsius - 25) / constants::flour::amylase_doubling.value.si());
  if (detail::plain(dough.free_sulphite) > 0)
    t.sulphite_k =
        T(std::pow(10.0, -chemistry::sulphite_pk(of.strength, Temperature::from_celsius(celsius))));
  const double doubled = std::exp2((celsius - 25) / gluten::fading_doubling.value.si());
  const T fade = T(doubled) / of.shield;
  t.fading = (p[P::fading] + p[P::fading_by_fruit] * dough.protease) * fade;
  t.fading_by_acid = p[P::fading_by_acid] * fade;
  t.pentosan_fading = p[P::pentosan_fading] * doubled;
  detail::keep_pace(t, p[P::pace]);
  return t;
}

template <class T>
Terms<T> terms(const DoughOf<T>& dough,
               const Parameters<T>& p,
               double celsius,
               double start_celsius,
               const Vessel& vessel) {
  return terms_at(celsius, dough_terms(dough, p, start_celsius, vessel), dough, p);
}

}  // namespace barm::kinetics
