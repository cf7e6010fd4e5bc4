#pragma once
// A plain dough with the beliefs of the published figures, doughs drawn from them, and how often
// what was learned of those holds the truth.
#include <gtest/gtest.h>

#include <vector>

#include "estimation/learn.h"
#include "estimation/outlook.h"
#include "numerics/random.h"
#include "support/doughs.h"

namespace barm::estimation {

inline constexpr double six_hours[] = {1, 2, 3, 4, 5, 6};

inline forecast::Proving bulk() {
  forecast::Proving proving;
  proving.horizon = 72.0 * hour;
  return proving;
}

inline DoughToRead plain() { return prepare(test::plain_dough(), published_belief(), bulk()); }

inline std::vector<double> unknowns(const DoughToRead& batch, std::uint64_t seed) {
  numerics::Random random(seed, 1000);
  std::vector<double> z(batch.dimension());
  for (double& x : z) x = random.normal();
  return z;
}

/// Of so many doughs drawn from the belief itself and read for six hours: for how many the range of
/// 4 of 5 holds the hour at which they are ready.
inline int held_of_own_doughs(std::uint64_t doughs, int draws) {
  const DoughToRead batch = plain();
  int held = 0;
  for (std::uint64_t seed = 0; seed < doughs; ++seed) {
    const std::vector<double> z = unknowns(batch, seed);
    numerics::Random random(seed, 2000);
    const auto readings =
        simulated(batch, z, six_hours, 40.0 * millimetre, [&] { return random.normal(); });
    LearnOptions options;
    options.draws = draws;
    const auto learned = learn(batch, readings.value(), options).value();
    const auto seen = outlook(batch, *readings, learned, options).value();
    // The truth is one more draw of weight one: its own dough and the pace it had, which goes on
    // wandering as each draw's does.
    Learned truth = learned;
    truth.z = z;
    truth.weight = {1};
    LearnOptions other = options;
    other.seed = seed + 77;
    const auto true_end = outlook(batch, *readings, truth, other).value();
    const double ready = true_end.ready_hours.front();
    held += ready >= seen.ready.p10.value_or(72.0 * hour).in(hour) &&
            ready <= seen.ready.p90.value_or(1000.0 * hour).in(hour);
  }
  return held;
}

}  // namespace barm::estimation
