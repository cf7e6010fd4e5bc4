#include "larder/composition.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "chemistry/ethanol_water.h"
#include "generated/constants.h"
#include "larder/larder.h"
#include "units/temperature.h"

namespace barm::larder {

namespace {

using enum Property;

/// What comes with a starter's flour.
constexpr Property of_flour[] = {starch,
                                 glucose,
                                 fructose,
                                 sucrose,
                                 maltose,
                                 lactose,
                                 other_carbohydrate,
                                 protein,
                                 fat,
                                 fibre,
                                 ash,
                                 salt,
                                 calcium,
                                 potassium};

/// Everything with mass but water and ethanol. Free sulphite is part of the total.
constexpr Property dry[] = {starch,
                            glucose,
                            fructose,
                            sucrose,
                            maltose,
                            lactose,
                            other_carbohydrate,
                            protein,
                            fat,
                            fibre,
                            ash,
                            salt,
                            glycerol,
                            lactic_acid,
                            acetic_acid,
                            tartaric_acid,
                            malic_acid,
                            citric_acid,
                            succinic_acid,
                            gluconic_acid,
                            total_sulphite,
                            sorbate,
                            iso_alpha_acids,
                            caffeine,
                            carbon_dioxide};

double dry_matter(const Composition& c) {
  return std::accumulate(std::begin(dry), std::end(dry), 0.0, [&](double sum, Property property) {
    return sum + c[property];
  });
}

/// V = (w + e) / rho(e / (w + e)) + v_s (dry - fat) + v_f fat, per kilogram
Density computed_density(const Composition& c) {
  const double liquid = c[water] + c[ethanol];
  double volume = constants::larder::fat_volume.value.si() * c[fat] +
                  constants::larder::solute_volume.value.si() * (dry_matter(c) - c[fat]);
  if (liquid > 0) {
    const MassFraction share(std::clamp(c[ethanol] / liquid, 0.0, 1.0));
    volume += liquid / chemistry::density(share, Temperature::from_celsius(20))->si();
  }
  return Density::from_si(1 / volume);
}

/// beta = 8 + 20 ash% mmol/(kg pH), where nothing better is known.
double buffering_by_ash(double ash_share) {
  return constants::larder::flour_buffering.value.si() +
         constants::larder::flour_buffering_by_ash.value.si() * 100 * ash_share;
}

void fill_buffering(const Ingredient& ingredient, Composition& c) {
  const bool of_cereal = ingredient.is_flour() || ingredient.group == Group::starter ||
                         ingredient.group == Group::malt;
  if (of_cereal && !ingredient[buffering]) c[buffering] = buffering_by_ash(c[ash]);
}

/// A starter is stated by its flour: each part, and the buffering, times 1 / (1 + hydration).
void thin_by_hydration(Composition& c) {
  const double flour_share = 1 / (1 + c[hydration]);
  for (const Property property : of_flour) c[property] *= flour_share;
  c[buffering] *= flour_share;
}

tl::unexpected<Error> too_much(const Ingredient& ingredient) {
  return failure(
      ErrorCode::bad_input,
      "",
      "\"" + ingredient.name + "\" cannot hold so much: its parts weigh more than the whole");
}

/// Water is what the rest leaves. Ethanol and density depend on one another,
///     e = strength 789.24 kg/m3 / rho,   rho = rho(1 - dry - e, e, dry),
/// and are found by repetition, which contracts.
Result<Composition> fill_with_water(const Ingredient& ingredient, Composition c) {
  const double rest = dry_matter(c);
  const bool by_strength = ingredient[strength].has_value();
  const double ethanol_per_volume =
      by_strength ? chemistry::ethanol_per_volume(AlcoholByVolume(c[strength])).si() : 0;
  double rho = ingredient[density] ? c[density] : 1000;
  for (int step = 0; step < 100; ++step) {
    if (by_strength) c[ethanol] = ethanol_per_volume / rho;
    c[water] = std::max(0.0, 1 - rest - c[ethanol]);
    c[density] = ingredient[density] ? rho : computed_density(c).si();
    if (std::abs(c[density] - rho) <= 1e-10 * rho) break;
    rho = c[density];
  }
  if (rest + c[ethanol] > 1 + 1e-9) return too_much(ingredient);
  return c;
}

/// The water of what is not poured stands, and its dry matter fills the rest in proportion.
Result<Composition> fill_with_dry_matter(const Ingredient& ingredient, Composition c) {
  const double rest = 1 - c[water] - c[ethanol];
  const double sum = dry_matter(c);
  if (rest < -1e-9) return too_much(ingredient);
  if (sum > 0) {
    const double scale = std::max(0.0, rest) / sum;
    for (const Property property : dry) c[property] *= scale;
    for (const Property mineral : {calcium, potassium}) c[mineral] *= scale;
  }
  if (!ingredient[density]) c[density] = computed_density(c).si();
  return c;
}

Result<Composition> settled(const Ingredient& ingredient, Composition c) {
  if (ingredient.group == Group::drink && !ingredient[strength] && !ingredient[ethanol]) {
    return failure(
        ErrorCode::bad_input, "", "\"" + ingredient.name + "\" is a drink without a strength");
  }
  fill_buffering(ingredient, c);
  if (ingredient.group == Group::starter) thin_by_hydration(c);
  c[total_sulphite] = std::max(c[total_sulphite], c[free_sulphite]);
  const bool poured = ingredient.is_liquid() || ingredient.group == Group::starter;
  auto filled = poured ? fill_with_water(ingredient, c) : fill_with_dry_matter(ingredient, c);
  if (!filled) return filled;
  Composition& whole = *filled;
  whole[free_sulphite] = std::min(whole[free_sulphite], whole[total_sulphite]);
  whole[strength] =
      chemistry::strength_of(Concentration::from_si(whole[ethanol] * whole[density])).value();
  return filled;
}

std::optional<Known> known_or_assumed(const Ingredient& ingredient, Property property) {
  return ingredient[property] ? ingredient[property] : assumed(ingredient, property);
}

/// Half the width of the range that holds nine of ten, in standard deviations.
constexpr double nine_of_ten = 1.6448536269514722;
/// Nothing is known of the tails, so no draw goes further out than this.
constexpr double furthest = 3;
/// A positive quantity whose range spans more than this ratio is drawn on a logarithmic scale.
constexpr double wide = 3;

/// Already logarithms, or bounded on both sides.
bool always_linear(Property property) {
  return property == ph || property == lactic_bacteria || property == wild_yeast ||
         property == gluten_strength || property == protease || property == pentosan_share ||
         property == strength;
}

/// z = 0 gives typical, z = -+1.645 gives low and high; each side has its own width.
double value_at(const Known& known, Property property, double z) {
  const double steps = std::clamp(z, -furthest, furthest) / nine_of_ten;
  const double end = steps < 0 ? known.low : known.high;
  if (known.low > 0 && known.high > wide * known.low && !always_linear(property)) {
    return known.typical * std::pow(end / known.typical, std::abs(steps));
  }
  const double value = std::max(0.0, known.typical + std::abs(steps) * (end - known.typical));
  return property == gluten_strength || property == protease || property == pentosan_share ||
                 property == strength
             ? std::min(value, 1.0)
             : value;
}

/// One bottle is sweet or dry in all its sugars, free sulphite goes with the total, minerals with
/// the ash.
Property drawn_with(Property property) {
  switch (property) {
    case fructose:
    case sucrose:
    case maltose:
    case lactose:
      return glucose;
    case free_sulphite:
      return total_sulphite;
    case calcium:
    case potassium:
      return ash;
    default:
      return property;
  }
}

/// Each property at the draw that `normal` gives for it, before they are made to agree.
Composition unsettled(const Ingredient& ingredient, const std::function<double()>& normal) {
  Composition c;
  c[ph] = Ph().value();
  Composition draws;
  for (std::size_t i = 0; i < property_count; ++i) {
    const auto property = static_cast<Property>(i);
    const Property with = drawn_with(property);
    if (with == property) draws[property] = normal();
    if (const auto known = known_or_assumed(ingredient, property))
      c[property] = value_at(*known, property, draws[with]);
  }
  return c;
}

}  // namespace

Result<Composition> drawn(const Ingredient& ingredient, const std::function<double()>& normal) {
  return settled(ingredient, unsettled(ingredient, normal));
}

Result<Composition> typical(const Ingredient& ingredient) {
  return drawn(ingredient, [] { return 0.0; });
}

std::vector<Property> assumed_properties(const Ingredient& ingredient) {
  std::vector<Property> properties;
  for (std::size_t i = 0; i < property_count; ++i) {
    const auto property = static_cast<Property>(i);
    if (!ingredient[property] && assumed(ingredient, property)) properties.push_back(property);
  }
  return properties;
}

}  // namespace barm::larder
