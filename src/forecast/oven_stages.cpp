#include "forecast/oven_stages.h"

#include <algorithm>
#include <cmath>

#include "base/require.h"

namespace barm::forecast {

namespace {

using formula::Step;
using Hours = std::vector<double>;

// The last time counts.
std::optional<double> ticked_at(const std::vector<Done>& done, std::size_t stage) {
  std::optional<double> at;
  for (const Done& one : done) {
    if (one.stage == stage) at = std::max(one.at.in(hour), at.value_or(0));
  }
  return at;
}

Hours later(const Hours& from, const Hours& by) {
  Hours out;
  out.reserve(from.size());
  for (std::size_t k = 0; k < from.size(); ++k) out.push_back(from[k] + by[k % by.size()]);
  return out;
}

Probability share_there(const Hours& hours, const std::vector<double>& weight) {
  double there = 0;
  for (std::size_t k = 0; k < hours.size(); ++k) {
    const double one = weight.empty() ? 1 / static_cast<double>(hours.size()) : weight[k];
    if (std::isfinite(hours[k])) there += one;
  }
  return Probability(std::clamp(there, 0.0, 1.0));
}

StageTimes stage_of(Step step, const Spread& begin, const Hours& end, const Timeline& timeline) {
  StageTimes out;
  out.step = step;
  out.begin = begin;
  out.end = spread(end, timeline.weight);
  out.reached = share_there(end, timeline.weight);
  return out;
}

// What came before is done too, ticked off or not.
void all_done(Timeline& timeline) {
  for (StageTimes& stage : timeline.stages) stage.done = true;
  for (ToDo& one : timeline.to_do) one.done = true;
}

}  // namespace

void add_oven_stages(Timeline& timeline, const InTheOven& oven, const std::vector<Done>& done) {
  require(!oven.bakes.empty() && !oven.cut.empty() && !oven.bag.empty(), "an oven has loaves");
  const auto out_at = ticked_at(done, came_out);
  const auto in_at = ticked_at(done, went_in);
  const std::size_t place = timeline.stages.size();
  if (in_at || out_at) all_done(timeline);
  if (in_at) {
    std::fill(timeline.oven_hours.begin(), timeline.oven_hours.end(), *in_at);
    timeline.oven = spread(timeline.oven_hours, timeline.weight);
  }
  Hours out = later(timeline.oven_hours, oven.bakes);
  if (out_at) std::fill(out.begin(), out.end(), *out_at);
  const Hours cut = later(out, oven.cut);
  const Hours bag = later(out, oven.bag);
  timeline.stages.push_back(stage_of(Step::oven, timeline.oven, out, timeline));
  timeline.stages.back().done = out_at.has_value();
  const Spread left = timeline.stages.back().end;
  timeline.stages.push_back(stage_of(Step::cooling, left, bag, timeline));
  timeline.bread = Bread{left, spread(cut, timeline.weight), timeline.stages.back().end};
  for (ToDo& one : timeline.to_do) {
    if (one.act == Act::into_the_oven) one.at = timeline.oven;
  }
  timeline.to_do.push_back({Act::out_of_the_oven, place, out_at.has_value(), timeline.bread->out});
  timeline.to_do.push_back({Act::cut, place + 1, false, timeline.bread->cut});
  timeline.to_do.push_back({Act::bag, place + 1, false, timeline.bread->bag});
}

}  // namespace barm::forecast
