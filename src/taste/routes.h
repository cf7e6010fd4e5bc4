#pragma once
// What would bring more of the drink through, for how much, and what it does to the dough.
#include <optional>
#include <string>
#include <vector>

#include "taste/situation.h"

namespace barm::taste {

/// One way to more taste. Money and minutes are of one loaf, beside what the bake takes already.
struct Route {
  std::string
      means;  ///< "brush", a row of data/tables/taste_routes.csv, "replace more", "another drink"
  std::string what;    ///< in words
  formula::Bake bake;  ///< the dough it makes; the bake's own where it leaves it alone
  bool changes_dough = false;
  std::vector<Applied> applied;  ///< what goes on or in beside the dough
  double coins = 0;              ///< more a loaf, in the bake's currency
  bool price_guessed = false;    ///< the bake states no price for the drink
  double minutes = 0;
  std::vector<std::string> cautions;
};

/// What comes of it, held against the bake as it is on the same draws.
struct Gain {
  Route route;
  Tasted tasted;
  Range times;                ///< strength over the bake's own
  double better = 0.5;        ///< share of draws in which it is stronger
  bool no_difference = true;  ///< within doubt
  std::optional<Time> later;  ///< ready so much later than the bake as it is, below zero earlier
  bool never = false;         ///< its middle dough is not ready within the horizon
  double alcohol = 0;         ///< [g] left on and in a loaf, beside the bread's own
};

struct RoutesAnswer {
  std::string drink;
  std::string currency;
  Tasted now;
  double alcohol = 0;       ///< [g] left in a loaf as it is
  std::vector<Gain> gains;  ///< most taste first; those without difference last
};

struct RoutesQuestion {
  OvenSays oven;
  forecast::Options options;  ///< draws and seed are those of taste as well
  std::string drink;          ///< empty: the one that brings most alcohol, else the first poured
};

/// Strengths are held against one another as
///
///     times = (0.1 + s of the route) / (0.1 + s of the bake)                     (14)
///
/// draw by draw; "no difference" where four of five draws do not agree on the direction or the
/// middle is nearer than a quarter. Errors: not_found (no drink), as situation_of().
[[nodiscard]] Result<RoutesAnswer> routes(const formula::Bake& bake,
                                          const RoutesQuestion& question);

/// The route of each kind at which a loaf costs `coins` more, most taste first: brushes, syrups,
/// butters and fruit by their amount, up to three times the usual; others where they cost no more.
/// Errors: as routes(), bad_input for no money.
[[nodiscard]] Result<RoutesAnswer> for_money(const formula::Bake& bake,
                                             const RoutesQuestion& question,
                                             double coins);

/// A smaller share of the drink in the dough and a route that makes the taste up.
struct InTime {
  double share = 0;      ///< of the liquid
  Time ready;            ///< of the middle dough
  bool no_less = false;  ///< with the best route it is as strong as the bake is now
  RoutesAnswer with;     ///< the routes from there, held against the bake as it is now
};

/// As much taste, ready within `within`: the largest share that is ready by then, to a percent, and
/// the routes from there. Errors: as routes(), cannot_be_met where even water is too late.
[[nodiscard]] Result<InTime> as_much_within(const formula::Bake& bake,
                                            const RoutesQuestion& question,
                                            Time within);

}  // namespace barm::taste
