#include "larder/property.h"

#include <algorithm>
#include <array>

namespace barm::larder {

namespace {

// In the order of Property.
constexpr std::array<std::string_view, property_count> names = {
    "water",
    "ethanol",
    "starch",
    "glucose",
    "fructose",
    "sucrose",
    "maltose",
    "lactose",
    "other_carbohydrate",
    "protein",
    "fat",
    "fibre",
    "ash",
    "salt",
    "glycerol",
    "lactic_acid",
    "acetic_acid",
    "tartaric_acid",
    "malic_acid",
    "citric_acid",
    "succinic_acid",
    "gluconic_acid",
    "total_sulphite",
    "free_sulphite",
    "sorbate",
    "iso_alpha_acids",
    "caffeine",
    "carbon_dioxide",
    "ph",
    "buffering",
    "strength",
    "density",
    "lactic_bacteria",
    "wild_yeast",
    "bakers_yeast",
    "lag",
    "gluten_strength",
    "hydration",
    "protease",
    "rise_limit",
    "pentosan_share",
    "calcium",
    "potassium",
};
static_assert(!names.back().empty(), "every property has a name");

}  // namespace

std::string_view name(Property property) { return names[static_cast<std::size_t>(property)]; }

std::optional<Property> property_named(std::string_view name) {
  const auto found = std::find(names.begin(), names.end(), name);
  if (found == names.end()) return std::nullopt;
  return static_cast<Property>(found - names.begin());
}

}  // namespace barm::larder
