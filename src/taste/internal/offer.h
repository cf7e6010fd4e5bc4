#pragma once
// The routes there are for a bake and its drink, before anyone has tasted them.
#include <string>
#include <vector>

#include "generated/tables.h"
#include "taste/routes.h"

namespace barm::taste::internal {

/// The drink in question and what it smells like.
struct Asked {
  std::size_t portion = 0;  ///< of the bake's bowl
  std::string name;
  SmellsLike like;
  std::vector<Brought> scents;  ///< of a kilogram [mg]
  std::string_view family;      ///< of data/tables/drink_families.csv; empty: none
  double price = 0;             ///< of a kilogram
  bool price_guessed = true;
  double ph = 3.5;  ///< of the drink
};

/// Errors: not_found.
[[nodiscard]] Result<Asked> asked_drink(const formula::Bake& bake, const std::string& words);

/// Every route that fits the drink; `amount` times the usual for those that have one.
[[nodiscard]] Result<std::vector<Route>> offers(const Situation& now,
                                                const Asked& drink,
                                                double crust_share,
                                                double amount);

inline constexpr double boiled_to = 0.5;      ///< of its weight, on the stove
inline constexpr double frozen_factor = 2.5;  ///< three times, a seventh stays in the ice
inline constexpr double usual_piece = 0.95;   ///< kg of dough: what the table's grams are for

/// The row of data/tables/taste_routes.csv.
[[nodiscard]] const tables::taste_routes_row& route_row(std::string_view means);

/// The drink boiled to `left` of its weight, as an ingredient: water, alcohol and vinegar leave,
/// other acids and sugar gather.
[[nodiscard]] larder::Ingredient boiled_down(const larder::Ingredient& drink,
                                             double left,
                                             double ph);

/// The drink frozen and its first liquid kept, two and a half times as strong.
[[nodiscard]] larder::Ingredient frozen_out(const larder::Ingredient& drink);

/// What an offer changes of the scents that the bake's drinks bring into the dough.
void change_scents(const Route& route, const Asked& drink, Situation& situation);

}  // namespace barm::taste::internal
