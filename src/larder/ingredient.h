#pragma once
#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "data/source.h"
#include "larder/property.h"

namespace barm::larder {

/// Where an ingredient belongs; decides what is flour, what is liquid, and what is asked of it.
enum class Group {
  flour,
  starter,
  yeast,
  water,
  drink,
  dairy,
  egg,
  salt,
  sugar,
  fat,
  seed,
  fruit,
  acid,
  malt,
  other
};

[[nodiscard]] std::string_view name(Group group);

/// One thing known of an ingredient, in the unit of larder/property.h, with its range.
/// `low` and `high` enclose about nine of ten such products; equal to `typical` when exact.
struct Known {
  double typical = 0;
  double low = 0;
  double high = 0;
  const data::Source* source = nullptr;
  std::string_view at;
};

/// What a label says of an ingredient of the baker's own, as the bake file has it.
struct OnLabel {
  std::string name;                    ///< the name of its kind; what stands in braces is set off
  std::string list;                    ///< what it is made of: "cocoa mass, sugar, {milk} powder"
  std::string like;                    ///< key of the larder's ingredient that it is like
  std::optional<double> saturates;     ///< [kg/kg]
  std::optional<double> added_sugars;  ///< [kg/kg]
  bool own = false;                    ///< none of the larder's
  bool allergens_said = false;         ///< the file names its allergens, or says that it has none
};

/// What a bottle states of one scent (data/tables/scents.csv).
struct StatedScent {
  std::string name;
  double share = 0;  ///< [kg/kg]
};

/// An ingredient as the larder knows it. A property without a value is unknown, which is not zero.
/// The starch, protein, ash … of a starter are those of its flour, before `hydration` thins them.
struct Ingredient {
  std::string key;                ///< "dry_mead"
  std::string name;               ///< "dry mead"
  std::vector<std::string> also;  ///< other names
  Group group = Group::other;
  std::vector<std::string> allergens;
  std::string note;
  std::string from;  ///< row of data/tables/ingredients_*.csv, "usda:wine_white"; may be empty
  std::array<std::optional<Known>, property_count> known;
  OnLabel on_label;
  std::vector<StatedScent> scents;  ///< what the bake file states; the rest as what it smells like
  std::string smells_like;          ///< a drink of data/tables/drinks_scents.csv; empty: by its key

  [[nodiscard]] const std::optional<Known>& operator[](Property property) const {
    return known[static_cast<std::size_t>(property)];
  }

  [[nodiscard]] std::optional<Known>& operator[](Property property) {
    return known[static_cast<std::size_t>(property)];
  }

  /// Counts towards the liquid a baker speaks of (drinks, water, dairy that pours, juices).
  [[nodiscard]] bool is_liquid() const;

  [[nodiscard]] bool is_flour() const { return group == Group::flour; }
};

}  // namespace barm::larder
