#pragma once
// The levain, fermented by the same model as the dough: what it brings, and when it is at its best.
#include <functional>
#include <optional>
#include <vector>

#include "base/result.h"
#include "forecast/course.h"
#include "formula/bake.h"
#include "larder/composition.h"

namespace barm::forecast {

/// A kilogram of freshly fed levain as a dough of its own: ripe starter, flour and water.
/// `starter` and `flour` are their compositions.
/// Errors: bad_input when the starter holds no culture.
[[nodiscard]] Result<kinetics::Dough> freshly_fed(const formula::Levain& levain,
                                                  const larder::Composition& starter,
                                                  const larder::Composition& flour);

/// One levain of many that a baker's may be: what it was fed with, and how it ferments.
struct LevainDraw {
  larder::Composition starter, flour;
  kinetics::Parameters<double> parameters;
};

/// On so many threads, 0 for all of the machine's; `cancelled` is asked now and then.
struct Together {
  int threads = 0;
  std::function<bool()> cancelled = nullptr;
};

/// Levains at the moment they go into their doughs, run in lanes (many.h): each one's composition
/// with the acids, alcohol, gas, cells, lag and gluten that its hours have made of it. Without
/// `since_feeding` it is taken at its peak.
///
/// From its peak on it goes hungry, hour by hour as warmth has it, and in the cold too:
///     u = hunger ( hours past the peak 2^((t-24)/10) + hours in the cold 2^((t_cold-24)/10) )
///     cells exp(-death u),   h0 = asleep - (asleep - at_peak) exp(-u/sleep) (data/growth.toml)
/// Errors: those of freshly_fed(), no_convergence, cancelled.
[[nodiscard]] Result<std::vector<larder::Composition>> fermented(const formula::Levain& levain,
                                                                 const std::vector<LevainDraw>& fed,
                                                                 const Together& together);

/// How long past its peak the levain goes into the dough, by its typical starter and flour; below
/// zero before the peak. Empty where that is not known: no hours since feeding, days in the cold,
/// no peak within two days.
[[nodiscard]] Result<std::optional<Time>> past_peak(const formula::Levain& levain,
                                                    const kinetics::Parameters<double>& parameters);

/// h0 of a levain so long past its peak at 24 C.
[[nodiscard]] double lag_past_peak(Time past);

/// How a levain rises after feeding.
[[nodiscard]] Result<Course> levain_course(const formula::Levain& levain,
                                           const larder::Composition& starter,
                                           const larder::Composition& flour,
                                           const kinetics::Parameters<double>& parameters,
                                           Time horizon);

}  // namespace barm::forecast
