#pragma once
// The hours of a bake's dough, drawn: of its file, of what its culture has taught, of its readings.
#include "base/result.h"
#include "dayplan/day.h"
#include "forecast/options.h"
#include "service/day/file.h"

namespace barm::service {

/// A loaf that waits for the oven is looked at so long.
inline constexpr Time longest_wait = 3.0 * hour;

/// What the forecast says of one way of a bake, one value a dough.
struct DoughDraws {
  dayplan::Draws ready;       ///< [min] since mixing until the bulk ends; infinite when never
  dayplan::Draws lasts;       ///< [min] it is good then, left in its bulk
  dayplan::Draws proof = {};  ///< [min] of a proof that ends at a volume; empty for another
  /// [min] from the end of its last stage until it is past its best there, below zero when before;
  /// infinite where that is later than longest_wait
  dayplan::Draws stays = {dayplan::for_ever};
};

/// The bake as another way makes it: its levain. Its bulk's temperature is asked of the forecast.
[[nodiscard]] formula::Bake made_by(const formula::Bake& bake, const OtherWay& way);

/// At another temperature and with other levain where `way` says so: the same doughs, ready and
/// past their best (forecast::dough_hours()). A dough under way that was read is drawn as it agrees
/// with its readings (estimation/outlook.h), by its own way alone. Errors: those of
/// forecast::dough_hours() and estimation::learn(); cannot_be_met where more than half never get
/// ready. With a way through the fridge of the house only its bulk is drawn: the forecast knows no
/// more.
[[nodiscard]] Result<DoughDraws> dough_draws(const DayBake& bake,
                                             const OtherWay& way,
                                             const forecast::Options& options);

}  // namespace barm::service
