#include "drink/prepare.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "generated/constants.h"
#include "larder/larder.h"
#include "units/units.h"

namespace barm::drink {

using larder::Composition;
using larder::Ingredient;
using larder::Known;
using larder::Property;

namespace {

using enum Property;

/// What water and alcohol draw out of leaves, grounds and fruit.
constexpr Property soluble[] = {glucose,
                                fructose,
                                sucrose,
                                maltose,
                                lactose,
                                salt,
                                ash,
                                lactic_acid,
                                acetic_acid,
                                tartaric_acid,
                                malic_acid,
                                citric_acid,
                                succinic_acid,
                                gluconic_acid,
                                iso_alpha_acids,
                                caffeine,
                                calcium,
                                potassium,
                                buffering};

/// Per kilogram, so that it thins and thickens with the whole.
bool goes_by_mass(Property property) {
  return property <= carbon_dioxide || property == buffering || property == calcium ||
         property == potassium;
}

bool has_no_mass_of_its_own(Property property) {
  return property == buffering || property == calcium || property == potassium;
}

Known scaled(const Known& known, double factor) {
  Known out = known;
  out.typical *= factor;
  out.low *= factor;
  out.high *= factor;
  return out;
}

/// What is guessed of the sulphite in a pan: the free may be gone or all there.
void let_sulphite_go(Ingredient& ingredient) {
  auto& free = ingredient[free_sulphite];
  auto& total = ingredient[total_sulphite];
  if (!free || !total) return;
  const double kept = constants::simmer::free_sulphite_kept.value.si();
  total->low = std::max(0.0, total->low - free->low);
  total->typical -= (1 - kept) * std::min(free->typical, total->typical);
  free->low = 0;
  free->typical *= kept;
}

}  // namespace

Composition flat(Composition drink) {
  drink[carbon_dioxide] = std::min(drink[carbon_dioxide], constants::flat::left.value.si());
  return drink;
}

Result<Prepared> steeped(const Composition& drink, const Composition& what, double dose) {
  const double drawn = constants::steep::drawn.value.si();
  const double liquid = 1 - dose * constants::steep::held.value.si();
  if (!(liquid > 0.1)) {
    return failure(ErrorCode::cannot_be_met,
                   "",
                   fmt::format("{:.0f} g in a litre would hold nearly all of it back: take less",
                               1000 * dose));
  }
  double brought = 0;
  for (const Property property : soluble) {
    if (!has_no_mass_of_its_own(property)) brought += dose * drawn * what[property];
  }
  Prepared out{drink, 1 / (liquid * (1 + brought))};
  for (std::size_t i = 0; i < larder::property_count; ++i) {
    if (goes_by_mass(static_cast<Property>(i))) out.composition.value.at(i) /= 1 + brought;
  }
  for (const Property property : soluble)
    out.composition[property] += dose * drawn * what[property] / (1 + brought);
  return out;
}

Prepared thinned(const Composition& drink, double share) {
  Prepared out{drink, share};
  for (std::size_t i = 0; i < larder::property_count; ++i) {
    if (goes_by_mass(static_cast<Property>(i))) out.composition.value.at(i) *= share;
  }
  out.composition[water] += 1 - share;
  return out;
}

Ingredient remade(const Ingredient& drink,
                  const Composition& before,
                  const Composition& after,
                  bool simmered) {
  Ingredient out = drink;
  for (std::size_t i = 0; i < larder::property_count; ++i) {
    const auto property = static_cast<Property>(i);
    if (!goes_by_mass(property) || property == water) continue;
    auto& known = out[property];
    if (!known) known = larder::assumed(drink, property);
    const double had = before[property];
    const double has = after[property];
    if (!known || had <= 0) {
      if (has > 0) known = Known{has, has, has, nullptr, "as it was prepared"};
      continue;
    }
    *known = scaled(*known, has / had);
  }
  out[water].reset();
  out[strength].reset();
  out[density].reset();
  const double e = after[ethanol];
  const double doubt = drink[strength] && drink[strength]->typical > 0
                           ? drink[strength]->high / drink[strength]->typical
                           : 1;
  out[ethanol] = Known{e, e / doubt, e * doubt, nullptr, "as it was prepared"};
  if (simmered) let_sulphite_go(out);
  return out;
}

}  // namespace barm::drink
