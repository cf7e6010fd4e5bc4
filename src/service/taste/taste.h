#pragma once
// What of a bake's drink comes through, what would bring more of it, and both over its share.
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <vector>

#include "forecast/options.h"
#include "formula/bake.h"
#include "service/now.h"
#include "taste/corridor.h"
#include "taste/routes.h"
#include "taste/tasting.h"

namespace barm::service {

struct ThroughRequest {
  taste::OvenSays oven;
  forecast::Options options;
  std::vector<std::string> tasted;  ///< what panels found, as taste::parse_tasting() reads it
};

/// What is smelt and tasted in the bread.
struct ThroughAnswer {
  formula::Bake bake;
  taste::Situation situation;
  taste::Tasted tasted;
  std::string line;                     ///< all of it in a sentence; empty without a drink
  std::optional<taste::Judged> judged;  ///< where a panel has tasted
  std::vector<std::string> doubts;      ///< what it rests on and nobody has looked up
  std::vector<std::string> cautions;
  int draws = 0;
};

/// Errors: as forecast::foresee_middle(); bad_input (a loss that no crust explains, a tasting that
/// cannot be read).
[[nodiscard]] Result<ThroughAnswer> comes_through(const formula::Bake& bake,
                                                  const ThroughRequest& request);

struct MoreTasteRequest {
  taste::RoutesQuestion question;
  std::optional<double> money;  ///< at most so much more a loaf, in the bake's currency
  std::string by;               ///< as much taste, ready no later than this moment ("30h", "08:00")
};

/// The routes, best first.
struct MoreTasteAnswer {
  formula::Bake bake;
  time::WallClock clock;
  taste::RoutesAnswer routes;
  std::optional<double> money;
  std::optional<Time> by;
  std::optional<taste::InTime> in_time;  ///< where `by` was asked; its routes are `routes`
  std::vector<std::string> cautions;     ///< of all routes, each once
  int draws = 0;
};

/// Errors: as taste::routes(); bad_input where money and by are both asked.
[[nodiscard]] Result<MoreTasteAnswer> more_taste(const formula::Bake& bake,
                                                 const MoreTasteRequest& request);

struct TasteAcrossAnswer {
  formula::Bake bake;
  taste::CorridorQuestion question;
  taste::Corridor corridor;
};

/// Errors: as taste::corridor().
[[nodiscard]] Result<TasteAcrossAnswer> taste_across(const formula::Bake& bake,
                                                     const taste::CorridorQuestion& question);

[[nodiscard]] nlohmann::json to_json(const ThroughAnswer& answer);
[[nodiscard]] nlohmann::json to_json(const MoreTasteAnswer& answer);
[[nodiscard]] nlohmann::json to_json(const TasteAcrossAnswer& answer);

}  // namespace barm::service
