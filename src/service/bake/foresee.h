#pragma once
// Whether and when the dough is ready, how sure that is, what holds it back.
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <vector>

#include "forecast/ensemble.h"
#include "forecast/in_the_way.h"
#include "forecast/ready_for.h"
#include "forecast/why_never.h"
#include "service/bake/bowl.h"
#include "service/oven/oven.h"

namespace barm::service {

struct ForeseeAnswer {
  BowlAnswer bowl;
  forecast::Forecast forecast;
  forecast::InTheWay in_the_way;
  std::optional<forecast::WhyNever> why_never;  ///< where fewer than half of the doughs get there
  std::optional<forecast::ReadyFor>
      ready_for;            ///< how far the bulk may go; empty when nothing comes after it
  Temperature temperature;  ///< of the dough in this run, or of its place
  std::optional<Time>
      look_again;  ///< when a look tells most: the first of the doughs have risen by a fifth
  std::vector<std::string> cautions;  ///< of time and temperature
  std::optional<Time> now;            ///< after mixing; empty: it is not mixed yet, or not said
  std::optional<OvenAnswer> oven;  ///< where the bake has an [oven]; its stages are in the timeline
};

[[nodiscard]] Result<ForeseeAnswer> foresee(const formula::Bake& bake,
                                            const forecast::Options& options);
[[nodiscard]] Result<ForeseeAnswer> foresee(const std::string& path,
                                            const forecast::Options& options);

/// `barm.foresee/2`, docs/json.md.
[[nodiscard]] nlohmann::json to_json(const ForeseeAnswer& answer);

}  // namespace barm::service
