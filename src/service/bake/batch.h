#pragma once
// What is known of one dough. A bake file and what was read beside it become one here, a bake of
// the daybook in service/daybook/kept_bake.h. What follows from it is a forecast::Timeline.
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "estimation/dough_to_read.h"
#include "estimation/readings.h"
#include "forecast/options.h"
#include "formula/bake.h"
#include "service/bake/begun.h"
#include "time/wall_clock.h"

namespace barm::service {

struct Batch {
  formula::Bake bake = {};     ///< its plan, and what was weighed
  time::WallClock clock = {};  ///< from mixing on; by it its times are read and said
  Begun start = {};            ///< its culture, and what that has taught
  estimation::Readings readings = {};
  std::vector<forecast::Done> ticked = {};  ///< which of its stages are done, and when
  std::optional<Time> now = std::nullopt;   ///< its age; empty: it is planned, finished or given up

  /// The same options for this dough: what it starts from and what is done of it. They hold while
  /// it stands where it is.
  [[nodiscard]] forecast::Options as_it_stands(forecast::Options options) const;
};

/// What is said of a dough beside its bake file.
struct ReadBeside {
  std::string file = {};                ///< of readings; may be empty
  std::vector<std::string> typed = {};  ///< "14:30 52 mm"
  std::string zone = {};                ///< IANA name; empty: the machine's
  bool keep_good_rows = false;
  std::optional<Length> start_mark = std::nullopt;
  std::string culture = {};  ///< file of a culture's memory; empty: none
};

/// `otherwise`: what it starts from where no culture is named. Errors: those of the files,
/// bad_input for a typed reading that is none, not_found for the zone.
[[nodiscard]] Result<Batch> batch_of(formula::Bake bake,
                                     const ReadBeside& beside,
                                     const kinetics::JointPrior& otherwise = kinetics::day_one());

/// What is in doubt about it, how it and the sample in its jar are kept, its logged temperatures.
/// Errors: those of forecast::draw() and forecast::Warmth.
[[nodiscard]] Result<estimation::DoughToRead> dough_to_read(const Batch& batch,
                                                            const forecast::Options& options);

}  // namespace barm::service
