#pragma once
// The hours of a bake's bulk, drawn: of its file, of what its culture has taught, of its readings.
#include "base/result.h"
#include "dayplan/day.h"
#include "forecast/options.h"
#include "service/day_file.h"

namespace barm::service {

/// What the forecast says of the bulk of one way of a bake, one value a dough.
struct BulkDraws {
  dayplan::Draws ready;  ///< [min] since mixing; infinite when never
  dayplan::Draws lasts;  ///< [min] it is good then
};

/// The bake as another way makes it: its levain. Its bulk's temperature is asked of the forecast.
[[nodiscard]] formula::Bake made_by(const formula::Bake& bake, const OtherWay& way);

/// Of the bake left in its first bulk, at another temperature and with other levain where `way`
/// says so: the same doughs, ready and past their best (forecast/timeline.h). A dough under way
/// that was read is drawn as it agrees with its readings (estimation/outlook.h), by its own way
/// alone. Errors: those of forecast::foresee() and estimation::learn(); cannot_be_met where more
/// than half never get ready.
[[nodiscard]] Result<BulkDraws> bulk_draws(const DayBake& bake,
                                           const OtherWay& way,
                                           const forecast::Options& options);

}  // namespace barm::service
