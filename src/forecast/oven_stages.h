#pragma once
// The last two stages of a timeline, in the oven and on the rack: what an oven says of a loaf, laid
// behind the draws that got there.
#include <limits>
#include <vector>

#include "forecast/timeline.h"

namespace barm::forecast {

/// Done::stage of what stands behind a file's stages.
inline constexpr std::size_t went_in = std::numeric_limits<std::size_t>::max() - 1;
inline constexpr std::size_t came_out = std::numeric_limits<std::size_t>::max();

/// What the oven and the rack take, of so many loaves drawn.
struct InTheOven {
  std::vector<double> bakes;  ///< [h] from the door to the rack
  std::vector<double> cut;    ///< [h] from the rack on; infinite: not within what was looked at
  std::vector<double> bag;
};

/// Adds the stages oven and cooling, and what hands do then. Dough k goes into the oven of loaf k
/// and round again: how late a dough is says nothing of its oven. What is `done`, went_in and
/// came_out, was then in every draw, and all before it is done.
///
///     out_k = oven_k + bakes_k,   cut_k = out_k + c_k,   bag_k = out_k + b_k
///
/// Checked against: tests/forecast/oven_stages_test.cpp.
void add_oven_stages(Timeline& timeline, const InTheOven& oven, const std::vector<Done>& done = {});

}  // namespace barm::forecast
