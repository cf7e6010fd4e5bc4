#include <algorithm>
#include <cmath>

#include "generated/constants.h"
#include "taste/internal/offer.h"

namespace barm::taste::internal {

using larder::Property;

const tables::taste_routes_row& route_row(std::string_view means) {
  return *std::find_if(std::begin(tables::taste_routes),
                       std::end(tables::taste_routes),
                       [&](const auto& one) { return one.means == means; });
}

larder::Ingredient boiled_down(const larder::Ingredient& drink, double left, double ph) {
  larder::Ingredient out = drink;
  const double alcohol = std::pow(left, scents()[*scent_named("ethanol")].volatility - 1);
  for (std::size_t i = 0; i < larder::property_count; ++i) {
    const auto property = static_cast<Property>(i);
    auto& known = out[property];
    if (!known) continue;
    double factor = 1 / left;
    switch (property) {
      case Property::ethanol:
      case Property::strength:
        factor = alcohol;
        break;
      case Property::acetic_acid:
        factor = left_in_pan(scents()[*scent_named("acetic acid")], left, ph) / left;
        break;
      case Property::free_sulphite:
      case Property::carbon_dioxide:
        factor = property == Property::carbon_dioxide
                     ? 0
                     : constants::simmer::free_sulphite_left.value.si() / left;
        break;
      case Property::ph:
        factor = 1;
        break;
      case Property::water:
      case Property::density:
        known.reset();
        continue;
      default:
        break;
    }
    *known = {factor * known->typical,
              factor * known->low,
              factor * known->high,
              known->source,
              known->at};
  }
  return out;
}

larder::Ingredient frozen_out(const larder::Ingredient& drink) {
  larder::Ingredient out = drink;
  for (std::size_t i = 0; i < larder::property_count; ++i) {
    const auto property = static_cast<Property>(i);
    auto& known = out[property];
    if (!known || property == Property::ph) continue;
    if (property == Property::water || property == Property::density) {
      known.reset();
      continue;
    }
    const double factor = frozen_factor;
    *known = {factor * known->typical,
              factor * known->low,
              factor * known->high,
              known->source,
              known->at};
  }
  return out;
}

void change_scents(const Route& route, const Asked& drink, Situation& situation) {
  for (Brought& one : situation.contents.scents) {
    if (one.portion != drink.portion) continue;
    const std::string_view name = scents()[one.scent].name;
    const bool of_larder = name == "ethanol" || name == "acetic acid";
    double factor = 1;
    if (route.means == "simmer" && !of_larder)
      factor = left_in_pan(scents()[one.scent], boiled_to, drink.ph) / boiled_to;
    if (route.means == "freeze" && !of_larder) factor = frozen_factor;
    one.amount = {factor * one.amount.low, factor * one.amount.middle, factor * one.amount.high};
  }
  for (const auto& added : tables::added_scents) {
    if (added.means != route.means) continue;
    const double grams = route_row(route.means).other_g / (1e3 * usual_piece);  // a gram of dough
    const auto scent = scent_named(added.compound);
    situation.contents.scents.push_back(
        {.scent = *scent,
         .portion = drink.portion,
         .amount = {added.low * grams, added.typical * grams, added.high * grams},
         .kinship = Kinship::same,
         .source = added.source});
  }
}

}  // namespace barm::taste::internal
