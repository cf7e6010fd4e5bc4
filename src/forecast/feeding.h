#pragma once
// Feeding the levain to the hour.
#include "forecast/ensemble.h"
#include "forecast/levain.h"

namespace barm::forecast {

/// How one feeding turns out, over draws of what is not known.
struct Feeding {
  double fresh_flour = 2;  ///< parts to one part of ripe starter
  double water = 1;
  Spread peak;  ///< after feeding
  Spread tripled;
  double largest_rise = 1;  ///< of the typical run
  Ph ph_at_peak;
  Mass ripe_mass, flour_mass, water_mass;  ///< for the wanted weight
};

/// How a levain fed so turns out. Errors: as freshly_fed(), no_convergence, cancelled.
[[nodiscard]] Result<Feeding> feed(const formula::Levain& levain,
                                   Mass wanted,
                                   const Options& options = {});

/// The ratio (ripe : flour : water at the levain's own hydration of fresh flour and water) with
/// which it peaks `hours_until` after feeding: between 1:0.25 and 1:20 of flour. Errors:
/// cannot_be_met when no ratio does.
[[nodiscard]] Result<Feeding> feed_to_peak_in(const formula::Levain& levain,
                                              Mass wanted,
                                              Time hours_until,
                                              const Options& options = {});

}  // namespace barm::forecast
