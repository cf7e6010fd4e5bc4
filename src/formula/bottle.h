#pragma once
#include <optional>
#include <string>
#include <vector>

#include "formula/bake.h"
#include "formula/document.h"
#include "larder/ingredient.h"

namespace barm::formula {

/// An ingredient with what its bottle says laid over what the larder knows.
struct Labelled {
  larder::Ingredient ingredient;
  std::optional<double> price;  ///< in `currency` per kilogram
  std::string currency;
  std::string reading;  ///< how a statement was read where it left a choice
  std::vector<MadeOf> made_of;
};

/// Lays a [bottle] table over an ingredient. What the bottle says is exact. Values per litre become
/// values per kilogram by the density that follows from all of them together.
/// Stops at a key or a unit it does not know, and where a density is needed and not known.
[[nodiscard]] Labelled labelled(const larder::Ingredient& ingredient, const Node& table);

/// The density of an ingredient as the larder knows or computes it [kg/m3]; stops with "weigh it".
[[nodiscard]] double density_of(const larder::Ingredient& ingredient, const FilePlace& place);

}  // namespace barm::formula
