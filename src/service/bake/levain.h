#pragma once
// Feeding the levain.
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>

#include "base/result.h"
#include "forecast/feeding.h"
#include "forecast/options.h"
#include "time/wall_clock.h"

namespace barm::service {

/// Feeding the levain: a ratio and an hour of feeding, or the ratio for a peak after so many hours.
struct LevainRequest {
  std::string starter = "stiff ripe levain";
  std::string flour = "white bread flour";
  std::string ratio =
      "1:2:1";  ///< ripe : flour : water; also sets the hydration of a solved feeding
  Mass wanted = 300.0 * gram;
  Temperature temperature = Temperature::from_celsius(26);
  std::optional<Time> peak_in;  ///< solve the ratio for a peak so long after feeding
  std::string fed_at;           ///< local time of feeding, or empty
  std::string peak_at;          ///< local time wanted for the peak, or empty
};

struct LevainAnswer {
  LevainRequest request;
  forecast::Feeding feeding;
  time::WallClock clock;  ///< from feeding on; without a time where that is not said
  std::string feed_at;    ///< local time to feed, when peak_at is given without fed_at
  int draws = 0;
  bool yeasted = false;  ///< a poolish or biga: the starter is baker's yeast
};

/// Errors: bad_input (a ratio that is none, an unknown starter), cannot_be_met.
[[nodiscard]] Result<LevainAnswer> levain(const LevainRequest& request,
                                          const forecast::Options& options);

/// `barm.levain/1`, docs/json.md.
[[nodiscard]] nlohmann::json to_json(const LevainAnswer& answer);

}  // namespace barm::service
