#pragma once
// A dough that is late, or ahead: what can be done from here on, and what comes of each.
#include <optional>
#include <vector>

#include "base/result.h"
#include "forecast/addition.h"
#include "forecast/draw.h"
#include "forecast/ensemble.h"
#include "forecast/spread.h"
#include "formula/bake.h"
#include "heat/track.h"

namespace barm::forecast {

/// What a baker can do with a dough that is not where it should be.
enum class Remedy { wait, warm, cool, levain, yeast, thin, thin_with_levain, flatbread };
inline constexpr std::size_t remedy_count = static_cast<std::size_t>(Remedy::flatbread) + 1;

/// One thing to do, and what came of it in the doughs imagined. Times are after mixing.
struct WayOut {
  Remedy remedy = Remedy::wait;
  std::optional<Temperature> place;  ///< of the warm or cool place
  Addition addition;
  Probability in_time;    ///< ready by the hour asked, and still good from the other hour on
  Spread ready;           ///< to the target
  Spread past;            ///< back to 85 % of its largest rise
  bool too_warm = false;  ///< beyond what a levain's yeast bears: not recommended
  // In the middle dough, as it stands and once this is done:
  double alcohol_before = 0, alcohol_after = 0;  ///< [g/L] in the dough's water
  double speed = 1;  ///< rate of gas once done and come to temperature, against waiting
  double degrees_after_hour = 0;  ///< [C] how warm the dough is an hour later
};

/// The hour from which on waiting is no use: a dough that has not visibly risen by then is ready in
/// time in fewer than one of ten cases.
struct GivingUp {
  std::optional<Time> at;  ///< empty where even a late start may do, or none does
  Probability before;      ///< chance of being ready in time of those that have risen by then
};

/// A dough imagined, and how far it has come.
struct Imagined {
  Draw draw;
  std::optional<double> worked =
      std::nullopt;  ///< [h] of fermentation behind it, where its pace is known
  double pace = 1;   ///< hours of fermentation in an hour on the clock from now on
};

struct RescueOptions {
  Time now;                        ///< after mixing
  Time by;                         ///< the latest hour at which the dough can be used
  std::optional<Time> not_before;  ///< the earliest
  bool read = false;               ///< the doughs agree with readings already: none is left out
  double target = 0;               ///< 0: the bake's own
  std::optional<Temperature>
      temperature;       ///< of the dough so far and of the room, or the bake's own
  heat::Track measured;  ///< of the dough, where it was measured; empty: by the place it stands in
  std::vector<Temperature> places;        ///< warm or cool places there are; empty: the usual ones
  Probability enough = Probability(0.8);  ///< a chance good enough to prefer the cheaper way
  unsigned long long seed = 1;
  int threads = 0;
  const kinetics::JointPrior* prior = &kinetics::day_one();  ///< of the culture
  std::function<bool()> cancelled = nullptr;
};

struct Rescue {
  RescueOptions options;
  double target = 2;
  Temperature temperature;                              ///< of the dough now
  double rise_low = 1, rise_middle = 1, rise_high = 1;  ///< now, 10, 50, 90 of 100 doughs
  Mass dough;
  std::vector<WayOut> ways;  ///< best first
  GivingUp giving_up;
  int draws = 0;     ///< doughs the answer rests on
  int imagined = 0;  ///< of so many
};

/// Ways out for doughs drawn alike likely. Each is run from mixing to now, changed, and run on by
/// the same equations (kinetics/blend.h, forecast/course.h). Doughs that nobody read and that would
/// be ready by now are left out when the dough is said to be late (no `not_before`). In another
/// place the dough takes on its warmth by conduction (heat/conduction.h), in its own vessel or a
/// tub.
///
/// Best first: those with a chance of `enough` by how little they meddle, then the others by
/// chance; flatbread last. Errors: bad_input (hours that do not follow one another, fewer than 20
/// doughs left), no_convergence, cancelled. Checked against: tests/forecast/rescue_test.cpp.
[[nodiscard]] Result<Rescue> rescue(const formula::Bake& bake,
                                    const std::vector<Imagined>& doughs,
                                    const RescueOptions& options);

/// The same for draws from the prior.
[[nodiscard]] Result<Rescue> rescue(const formula::Bake& bake,
                                    const RescueOptions& options,
                                    int draws);

}  // namespace barm::forecast
