#pragma once
// What the drinks of a bowl bring that smells or is tasted, and what bread has of its own.
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "formula/bake.h"
#include "formula/bowl.h"
#include "taste/passage.h"

namespace barm::taste {

/// How well a drink's scents are known.
enum class Kinship { stated, same, near, unknown };

/// One scent of one drink.
struct Brought {
  std::size_t scent = 0;    ///< place in scents()
  std::size_t portion = 0;  ///< of bake.bowl
  Between amount = {};      ///< [mg/kg dough]
  double in_drink = 0;      ///< [ug/L], the middle
  bool strong = false;      ///< the drink has 3 % vol or more: thresholds are those in wine
  Kinship kinship = Kinship::same;
  std::string_view source = {};  ///< key of data/sources.toml, or "as the bake file says"
};

/// One bitter or drying thing of the drinks.
struct Bitter {
  std::size_t taste = 0;  ///< row of data/tables/tastes.csv
  Between amount;         ///< [mg/kg dough]
  std::string_view source;
};

/// An acid as it is brought [mol/kg dough]: by drinks and acids weighed in for the taste, or the
/// rest.
struct Sour {
  chemistry::Acid acid = chemistry::Acid::lactic;
  double of_drinks = 0, of_rest = 0;
};

struct Contents {
  Phases phases;
  double flour_fat = 0;  ///< the part of phases.fat that is the flour's [kg/kg]
  std::vector<Brought> scents;
  std::vector<Bitter> bitter;
  std::vector<Sour> sour;
  double sugar = 0;                  ///< brought, but by flour [g/kg dough]
  double glycerol = 0;               ///< [g/kg dough]
  double ethanol = 0;                ///< [g/kg dough] of the drinks
  double salt_in_water = 0;          ///< [mol/kg], the ionic strength acids feel
  std::vector<std::string> unknown;  ///< drinks of which no scent is known
  std::vector<std::string> near;     ///< "rosé wine smells like dry white wine", in words
};

/// Whether the portion is a drink in the sense of taste: poured, not water, not dairy, no starter.
[[nodiscard]] bool is_drink(const formula::Portion& portion);

/// What this bowl's drinks bring; `settled` as the bowl was added up with.
[[nodiscard]] Contents contents(const formula::Bake& bake,
                                const formula::Bowl& bowl,
                                std::span<const larder::Composition> settled);

/// The scents of a kilogram of the drink [mg/kg].
[[nodiscard]] std::vector<Brought> scents_of_drink(const formula::Portion& portion,
                                                   std::size_t place,
                                                   const larder::Composition& settled);

/// Bread's own of a scent, crumb or crust [ug/kg], where the table has it.
[[nodiscard]] std::optional<Between> own_of_crumb(std::size_t scent);
[[nodiscard]] std::optional<Between> own_of_crust(std::size_t scent);

/// The drinks of drinks_scents.csv that are made as this one is (wines, beers, ciders and meads,
/// spirits, coffees, teas, juices), itself left out; none for what is not in the table.
[[nodiscard]] std::vector<std::string_view> kin_of(std::string_view drink);

/// The drink of the table that an ingredient smells like, and how near; nothing where it brings
/// none.
struct SmellsLike {
  std::string_view drink;  ///< empty: nobody knows
  Kinship kinship = Kinship::unknown;
};

[[nodiscard]] std::optional<SmellsLike> smells_like(const larder::Ingredient& ingredient);

}  // namespace barm::taste
