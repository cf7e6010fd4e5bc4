#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "chemistry/ethanol_water.h"
#include "formula/internal/contents.h"
#include "formula/internal/say.h"
#include "formula/solve.h"
#include "larder/composition.h"

namespace barm::formula {

using larder::Composition;
using larder::Property;

namespace {

/// What a kilogram of the drink is made of.
struct Drink {
  double water, ethanol, solids, fat;
};

Drink drink_of(const Composition& c) {
  const double solids = std::max(0.0, 1 - c[Property::water] - c[Property::ethanol]);
  return {c[Property::water], c[Property::ethanol], solids, std::min(c[Property::fat], solids)};
}

/// Volume of x kg of the drink with w kg of water [m3].
double volume(const Drink& drink, double x, double w) {
  return internal::poured_volume(
      x * drink.water + w, x * drink.ethanol, x * drink.solids, x * drink.fat);
}

/// Share of the drink in a kilogram of the mixture of strength q:
///
///     x e / rho(1,20) = q V(x, 1 - x)
///
/// which rises from 0 to the drink's own strength; by halving the interval to the last bit.
double share_of_drink(const Drink& drink, double q) {
  const double pure = chemistry::ethanol_per_volume(AlcoholByVolume(1)).si();
  double low = 0;
  double high = 1;
  for (int step = 0; step < 60; ++step) {
    const double x = 0.5 * (low + high);
    (x * drink.ethanol / pure < q * volume(drink, x, 1 - x) ? low : high) = x;
  }
  return 0.5 * (low + high);
}

std::string together_words(AlcoholByVolume wanted, const Thinned& t) {
  const Volume apart = t.drink_volume + t.water_volume;
  const Volume gone = apart - t.together;
  return fmt::format("together {} at {} vol: {}, not {}: volumes do not add up, {} {}",
                     internal::grams(t.drink + t.water),
                     internal::percent(wanted.value()),
                     internal::millilitres(t.together),
                     internal::millilitres(apart),
                     internal::millilitres(gone.si() < 0 ? -gone : gone),
                     gone.si() < 0 ? "more" : "less");
}

std::vector<std::string> working(const larder::Ingredient& drink,
                                 const Composition& c,
                                 AlcoholByVolume wanted,
                                 const Thinned& t) {
  using internal::grams;
  using internal::millilitres;
  return {
      fmt::format("{} at {} vol is {} alcohol by weight",
                  drink.name,
                  internal::percent(c[Property::strength]),
                  internal::percent(c[Property::ethanol])),
      fmt::format("{} {}, that is {}; it holds {} alcohol",
                  grams(t.drink),
                  drink.name,
                  millilitres(t.drink_volume),
                  grams(c[Property::ethanol] * t.drink)),
      fmt::format("{} water, that is {}", grams(t.water), millilitres(t.water_volume)),
      together_words(wanted, t),
  };
}

}  // namespace

Result<Thinned> thin(const larder::Ingredient& drink, AlcoholByVolume wanted, Mass total) {
  if (!(wanted.value() > 0 && wanted.value() <= 1 && total.si() > 0)) {
    return failure(
        ErrorCode::bad_input, "", "thinning needs a strength above 0 % vol and a weight above 0 g");
  }
  const auto composition = larder::typical(drink);
  if (!composition) return failure(composition);
  const Drink parts = drink_of(*composition);
  const double pure = chemistry::ethanol_per_volume(AlcoholByVolume(1)).si();
  const double own = parts.ethanol / pure / volume(parts, 1, 0);
  constexpr double rounding = 1e-9;  // the larder settles densities to 1e-10
  if (wanted.value() > own * (1 + rounding)) {
    return failure(ErrorCode::cannot_be_met,
                   drink.name,
                   fmt::format("has {} vol: water cannot make {} vol of it",
                               internal::percent(own),
                               internal::percent(wanted.value())));
  }
  const double x = share_of_drink(parts, wanted.value());
  Thinned out;
  out.drink = x * total;
  out.water = total - out.drink;
  out.drink_volume = volume(parts, out.drink.si(), 0) * cubic_metre;
  out.water_volume = volume(parts, 0, out.water.si()) * cubic_metre;
  out.together = volume(parts, out.drink.si(), out.water.si()) * cubic_metre;
  out.working = working(drink, *composition, wanted, out);
  return out;
}

}  // namespace barm::formula
