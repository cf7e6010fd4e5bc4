#pragma once
// The standard forecast: what the speed of the program is measured by.
#include "base/result.h"
#include "forecast/course.h"
#include "kinetics/parameter.h"
#include "support/doughs.h"

namespace barm::bench {

inline constexpr double celsius = 24;
inline constexpr double horizon = 72;  // [h]
inline constexpr double target = 2;    // volume ratio

/// One dough with every inhibitor in it, at 24 °C, followed until it has doubled or 72 h have
/// passed.
inline kinetics::Dough standard_dough() { return test::wine_dough(); }

inline forecast::Proving standard_proving() {
  forecast::Proving proving;
  proving.temperature = Temperature::from_celsius(celsius);
  proving.horizon = horizon * hour;
  proving.target = target;
  proving.stop_at_target = true;
  proving.sample_every = 0.0 * hour;
  return proving;
}

}  // namespace barm::bench
