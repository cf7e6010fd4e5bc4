#pragma once
// A dough that has been read: what the readings say and what comes of it now.
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <vector>

#include "estimation/belief.h"
#include "estimation/learn.h"
#include "estimation/lessons.h"
#include "estimation/outlook.h"
#include "estimation/readings.h"
#include "estimation/suspect.h"
#include "service/bake/foresee.h"

namespace barm::service {

struct ReadRequest {
  std::string file;                        ///< of readings; may be empty
  std::vector<std::string> typed;          ///< "14:30 52 mm"
  std::vector<estimation::Reading> known;  ///< of a daybook; then no file
  std::string zone;                        ///< IANA name; empty: the machine's
  bool keep_good_rows = false;
  std::optional<Length> start_mark;
  std::string culture;  ///< file of a culture's memory; empty: a typical starter
};

struct ReadAnswer {
  BowlAnswer bowl;
  time::WallClock clock;  ///< by which its times are read and said
  estimation::Readings readings;
  estimation::Outlook before;  ///< the same dough without its readings
  estimation::Outlook after;
  estimation::Learned learned;  ///< the draws that agree
  std::vector<estimation::Lesson> lessons;
  std::vector<estimation::Suspicion> suspicions;
  Temperature temperature;                      ///< of the bulk, its mean up to ready
  std::vector<std::pair<double, double>> seen;  ///< hours, height over the start mark
  std::string culture;                          ///< its name, when one was given
  std::optional<Time> now;  ///< after mixing; of the last look where it was not said
  std::optional<OvenAnswer>
      oven;  ///< where the bake has an [oven]; its stages are in after.timeline
};

/// Errors: those of foresee() and of estimation::read_readings().
[[nodiscard]] Result<ReadAnswer> read(const formula::Bake& bake,
                                      const ReadRequest& request,
                                      const forecast::Options& options);
[[nodiscard]] Result<ReadAnswer> read(const std::string& path,
                                      const ReadRequest& request,
                                      const forecast::Options& options);

/// What was foreseen of a dough, told by the doughs that agree with what was read of it.
void tell_as_read(ForeseeAnswer& foreseen, const ReadAnswer& read);

/// The readings of a request, put together. Errors: as read().
[[nodiscard]] Result<estimation::Readings> readings_of(const formula::Bake& bake,
                                                       const ReadRequest& request);

/// A bake as it is to be read: its belief, its bulk, its sample beside it, its logged temperatures.
/// Errors: those of forecast::draw_of() and forecast::Warmth.
[[nodiscard]] Result<estimation::Batch> batch_of(const formula::Bake& bake,
                                                 const estimation::Belief& belief,
                                                 const estimation::Readings& readings,
                                                 const forecast::Options& options);

/// `barm.read/2`, docs/json.md.
[[nodiscard]] nlohmann::json to_json(const ReadAnswer& answer);

}  // namespace barm::service
