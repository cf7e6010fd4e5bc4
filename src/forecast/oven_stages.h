#pragma once
// The last stages of a timeline, in the oven and on the rack: what an oven says of a loaf, laid
// behind the draws that got there, load by load.
#include <cstddef>
#include <limits>
#include <vector>

#include "forecast/timeline.h"

namespace barm::forecast {

/// Done::stage of what stands behind a file's stages: of the first load, or of a later one.
[[nodiscard]] constexpr std::size_t went_in(int load = 1) {
  return std::numeric_limits<std::size_t>::max() - 2 * static_cast<std::size_t>(load) + 1;
}

[[nodiscard]] constexpr std::size_t came_out(int load = 1) { return went_in(load) + 1; }

/// What the oven and the rack take, of so many loaves drawn.
struct InTheOven {
  std::vector<double> bakes;  ///< [h] from the door to the rack
  std::vector<double> cut;    ///< [h] from the rack on; infinite: not within what was looked at
  std::vector<double> bag;
  int loads = 1;                    ///< one after the other
  double between = 0;               ///< [h] from one load's rack to the next one's door
  std::vector<double> longer = {};  ///< [h] that each load behind the first takes more; empty: none
};

/// Adds the stages oven and cooling of each load, and what hands do then. Dough k goes into the
/// oven of loaf k and round again, each load of it alike: how late a dough is says nothing of its
/// oven. What is `done`, went_in() and came_out(), was then in every draw, and all before it is
/// done.
///
///     out_k = in_k + bakes_k + longer of its load,   cut_k = out_k + c_k,   bag_k = out_k + b_k
///     in_k of the next load = out_k + between
///
/// Checked against: tests/forecast/oven_stages_test.cpp.
void add_oven_stages(Timeline& timeline, const InTheOven& oven, const std::vector<Done>& done = {});

}  // namespace barm::forecast
