#pragma once
#include <cstddef>
#include <optional>
#include <string_view>

namespace barm::larder {

/// What the larder can know of an ingredient. Mass fractions are kg per kg of the ingredient.
enum class Property {
  // composition [kg/kg]
  water,
  ethanol,
  starch,
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
  // acids, free and neutralised together [kg/kg]
  lactic_acid,
  acetic_acid,
  tartaric_acid,
  malic_acid,
  citric_acid,
  succinic_acid,
  gluconic_acid,
  // what slows a culture [kg/kg]
  total_sulphite,
  free_sulphite,
  sorbate,
  iso_alpha_acids,
  caffeine,
  // gas [kg/kg]
  carbon_dioxide,
  // state
  ph,         ///< of the ingredient itself
  buffering,  ///< [mol/(kg pH)] beside the acids above
  strength,   ///< alcohol by volume at 20 C [m3/m3]; stands in for `ethanol` where a bottle states
              ///< it
  density,    ///< at 20 C [kg/m3]
  // what lives in it
  lactic_bacteria,  ///< [log10 CFU/g]
  wild_yeast,       ///< [log10 CFU/g]
  bakers_yeast,     ///< dry matter of live cells [kg/kg]
  lag,              ///< h0 = lag times growth rate, dimensionless
  gluten_strength,  ///< what fermentation has left of it, 0..1
  hydration,        ///< of a starter: kg of added water per kg of flour in it
  // what else tells a baker something
  protease,        ///< 0 none, 1 weakens a dough clearly
  rise_limit,      ///< largest volume ratio a dough of this flour holds
  pentosan_share,  ///< share of that rise above the start which pentosans hold, not gluten; 0..1
  // minerals, part of the ash and the salt [kg/kg]
  calcium,
  potassium,
};

inline constexpr std::size_t property_count = static_cast<std::size_t>(Property::potassium) + 1;

/// The property's name in data files and bake files, e.g. "free_sulphite".
[[nodiscard]] std::string_view name(Property property);

/// The property of that name, if there is one.
[[nodiscard]] std::optional<Property> property_named(std::string_view name);

}  // namespace barm::larder
