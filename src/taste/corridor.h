#pragma once
// Taste and rise in one picture: over the share of the drink the chance to be ready in time and how
// many would notice the drink.
#include <optional>
#include <string>
#include <vector>

#include "taste/situation.h"

namespace barm::taste {

struct CorridorQuestion {
  OvenSays oven;
  forecast::Options options;  ///< draws, seed, prior, threads, target
  std::string drink;          ///< empty: as in RoutesQuestion
  Time within = 14.0 * hour;
  double chance = 0.8;   ///< wanted, of being ready
  double noticed = 0.5;  ///< wanted, of tasters
  int shares = 21;       ///< points from none to all that drink and water are of the liquid
};

struct CorridorPoint {
  double share = 0;    ///< of the liquid
  double ready = 0;    ///< chance
  double noticed = 0;  ///< share of tasters
  Range strength;
};

struct Corridor {
  std::string drink;
  std::vector<CorridorPoint> points;
  double now = 0;              ///< the bake's own share
  std::optional<double> from;  ///< where both hold, straight between the points; empty: nowhere
  std::optional<double> to;
};

/// The same doughs and the same tasters at every share, so that both curves are smooth. Of the
/// dough that taste needs, acids and pH go straight from those without the drink to those with all
/// of it. Errors: not_found (no drink), bad_input (a number outside its range), as foresee_many().
/// Checked against: tests/taste/corridor_test.cpp.
[[nodiscard]] Result<Corridor> corridor(const formula::Bake& bake,
                                        const CorridorQuestion& question);

}  // namespace barm::taste
