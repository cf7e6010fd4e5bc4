#pragma once
// What to do with a dough that is late or ahead, in a baker's words.
#include <functional>
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <vector>

#include "forecast/rescue.h"
#include "formula/bake.h"
#include "service/bake/read.h"
#include "service/words.h"

namespace barm::service {

/// Moments are hours after mixing ("30h") or, where the bake says when it was mixed, local time
/// ("06:00", "2026-11-29T06:00").
struct RescueRequest {
  std::string now;              ///< empty: the hour of the last reading
  std::string by;               ///< empty: twelve hours from now
  std::string not_before;       ///< empty: as soon as it is ready
  std::optional<double> risen;  ///< volume ratio judged by eye now: one more reading
  const estimation::Learned* learned = nullptr;  ///< what the readings teach, by read(), where it
                                                 ///< is known already and no look beside
  std::vector<Temperature> places;
  std::optional<Temperature> temperature;
  int draws = 400;
  unsigned long long seed = 1;
  int threads = 0;
  std::function<bool()> cancelled = nullptr;  ///< asked now and then; true stops the work
};

/// One way out, said.
struct ToldWay {
  forecast::WayOut way;
  std::string what;             ///< "warm it to 28 °C"
  std::string reason;           ///< one sentence
  std::string cost;             ///< in words
  std::optional<double> money;  ///< of what is kneaded in, where the bake knows the prices
  bool advised = false;
};

struct RescueAnswer {
  formula::Bake bake;
  time::WallClock clock;  ///< by which its times are read and said
  forecast::Rescue rescue;
  std::vector<ToldWay> ways;          ///< best first; of each kind the best one
  std::vector<forecast::WayOut> all;  ///< every one that was tried
  std::string giving_up;
  std::string culture;              ///< whose memory it starts from; empty: none
  std::string rests_on;             ///< which doughs the answer rests on
  std::optional<double> asked_for;  ///< the bake's target, where most such doughs cannot hold it
  std::string currency;
  std::optional<double> bowl_money;  ///< of what is in the bowl, as far as priced
  std::vector<std::string> cautions;
};

/// Whether nearly all doughs are ready within minutes.
[[nodiscard]] bool ready_now(const forecast::WayOut& way, Time now);

/// Errors: bad_input (a moment that is none, hours in the wrong order, no dough that agrees),
/// not_found, cancelled and what reading a bake says.
[[nodiscard]] Result<RescueAnswer> rescue(const Batch& batch, const RescueRequest& request);

[[nodiscard]] std::string_view name(forecast::Remedy remedy);

[[nodiscard]] nlohmann::json to_json(const RescueAnswer& answer);

}  // namespace barm::service
