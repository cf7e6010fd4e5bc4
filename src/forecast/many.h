#pragma once
// Many doughs at once: the same equations as run(), in lanes and threads. See docs/model/lanes.md.
//
//     ManyOptions options;
//     options.proving.stop_at_target = true;
//     const auto many = foresee_many(10000, [&](std::size_t i, Case& c) { c = …; }, options);
//     many->passed[17].ready;      // hours; infinite when never
#include <cstddef>
#include <functional>
#include <limits>
#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "base/result.h"
#include "forecast/course.h"
#include "kinetics/terms.h"
#include "numerics/lanes_dispatch.h"

namespace barm::forecast {

/// A dough that is on its way already, instead of freshly mixed.
struct UnderWay {
  kinetics::StateOf<double> state{};
  double at = 0;              ///< [h] after mixing
  double start_celsius = 24;  ///< at mixing, at which the volume at the start is worked out
};

/// One dough to be foreseen.
struct Case {
  kinetics::Dough dough;
  kinetics::Parameters<double> parameters;
  Temperature temperature = Temperature::from_celsius(24);
  heat::Track track = {};  ///< where not empty, instead of the one temperature; from mixing on
  std::optional<UnderWay> under_way = std::nullopt;
  std::optional<std::vector<Handling>> handlings = std::nullopt;  ///< instead of those of Proving
  double until = std::numeric_limits<double>::infinity();  ///< [h] the run ends there at the latest
  double target = 0;       ///< volume ratio instead of that of Proving; 0: that one
  double least_room = -1;  ///< the run ends where less room than that is left; -1: never
  std::shared_ptr<const kinetics::DoughTerms<double>> any_warmth =
      nullptr;  ///< of this dough, where they are worked out already
};

/// What one dough passed and when: hours since mixing, infinite for what did not happen before the
/// horizon.
struct Passed {
  static constexpr double never = std::numeric_limits<double>::infinity();

  double fifth = never;       ///< risen by a fifth
  double ready = never;       ///< the target reached
  double peak = never;        ///< largest volume
  double collapsed = never;   ///< back to 85 % of the largest volume
  double sour = never;        ///< pH has fallen to the one of Proving::sour_at
  double largest_rise = 1;    ///< volume over the volume at mixing
  double end = 0;             ///< where the run stopped
  double least_room = never;  ///< of the room that was left up to there, where states are asked for

  [[nodiscard]] bool is_ready() const { return ready < never; }
};

/// Numbers of 53 or of 24 binary digits. docs/model/lanes.md 4 says what the shorter ones cost.
enum class Precision { full, single };

/// How to run them; all of them alike but for what stands in Case.
struct ManyOptions {
  ManyOptions() {
    proving.sample_every = 0.0 * hour;
    proving.accuracy.relative = 1e-5;
    proving.accuracy.absolute = 1e-8;
    proving.accuracy.first_step = 0.5;
  }

  Proving proving;      ///< its temperature and track are not used: each Case has its own
  bool states = false;  ///< whether how each dough stands at the end of its run is wanted
  bool ph_too = false;  ///< whether curves of the pH are wanted beside those of the rise
  Precision precision = Precision::full;
  int threads = 0;  ///< 0: as many as the machine has
  std::function<bool()>
      cancelled;  ///< asked every few milliseconds by every thread; true stops the work
  std::function<void(double)> progress;  ///< told the share done, ascending, one call at a time
  numerics::Instructions instructions = numerics::best_instructions();
};

/// In the order of the cases. Curves are there when proving.sample_every is not zero: case i has
/// `samples` values from i * samples on, one each sample_every from mixing; not a number after the
/// run has stopped.
struct Many {
  std::vector<Passed> passed;
  std::vector<kinetics::StateOf<double>> at_end;  ///< where states are asked for
  std::size_t samples = 0;
  std::vector<float> rise;
  std::vector<float> ph;  ///< where asked for
};

/// Makes case number i in place; called from several threads at once, each i once.
using FillCase = std::function<void(std::size_t i, Case& to_fill)>;

/// Foresees `count` doughs. The answer is the same to the last bit whatever the number of threads
/// and whatever stands beside a case; between processors it may differ in the last digits. A lane
/// that does not settle is run again by run(). 56 bytes a case besides the curves. Errors:
/// no_convergence (as run()), cancelled. Checked against: tests/forecast/many_test.cpp.
[[nodiscard]] Result<Many> foresee_many(std::size_t count,
                                        const FillCase& fill,
                                        const ManyOptions& options = {});

/// The same for cases that lie ready.
[[nodiscard]] Result<Many> foresee_many(std::span<const Case> cases,
                                        const ManyOptions& options = {});

}  // namespace barm::forecast
