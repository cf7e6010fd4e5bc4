#pragma once
// What foresee_many() gives to the lanes of one thread.
#include <span>

#include "forecast/many.h"

namespace barm::forecast::internal {

/// A stretch of cases, not empty, and where their answers go.
struct LanesChunk {
  std::span<const Case> cases;
  std::span<Passed> passed;
  std::size_t samples = 0;                      ///< of each curve
  std::span<float> rise;                        ///< curve after curve
  std::span<float> ph;                          ///< empty: not wanted
  std::span<kinetics::StateOf<double>> at_end;  ///< empty: not wanted
  std::span<char> lost;                         ///< set to 1 where a lane did not settle
  const Proving* proving = nullptr;
};

void run_in_lanes(const LanesChunk& chunk,
                  Precision precision,
                  numerics::Instructions instructions);

}  // namespace barm::forecast::internal
