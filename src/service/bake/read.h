#pragma once
// A dough that has been read: what the readings say and what comes of it now.
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <vector>

#include "estimation/learn.h"
#include "estimation/lessons.h"
#include "estimation/outlook.h"
#include "estimation/readings.h"
#include "estimation/suspect.h"
#include "forecast/in_the_way.h"
#include "service/bake/batch.h"
#include "service/bake/foresee.h"

namespace barm::service {

struct ReadAnswer {
  BowlAnswer bowl;
  time::WallClock clock;  ///< by which its times are read and said
  estimation::Readings readings;
  estimation::Outlook before;  ///< the same dough without its readings
  estimation::Outlook after;
  estimation::Learned learned;    ///< the draws that agree
  forecast::InTheWay in_the_way;  ///< of those draws
  std::vector<estimation::Lesson> lessons;
  std::vector<estimation::Suspicion> suspicions;
  Temperature temperature;                      ///< of the bulk, its mean up to ready
  std::vector<std::pair<double, double>> seen;  ///< hours, height over the start mark
  std::string culture;                          ///< its name; empty where it taught nothing
  std::optional<Time> now;  ///< after mixing; of the last look where it was not said
  std::optional<OvenAnswer>
      oven;  ///< where the bake has an [oven]; its stages are in after.timeline
};

/// Errors: those of foresee().
[[nodiscard]] Result<ReadAnswer> read(const Batch& batch, const forecast::Options& options);

/// What was foreseen of a dough, told by the doughs that agree with what was read of it.
void tell_as_read(ForeseeAnswer& foreseen, const ReadAnswer& read);

/// `barm.read/2`, docs/json.md.
[[nodiscard]] nlohmann::json to_json(const ReadAnswer& answer);

}  // namespace barm::service
