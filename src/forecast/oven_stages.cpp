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

// What came before is done too, ticked off or not.
void all_done(Timeline& timeline) {
  for (StageTimes& stage : timeline.stages) stage.done = true;
  for (ToDo& one : timeline.to_do) one.done = true;
}

// One load behind the other.
class Loading {
 public:
  Loading(Timeline& timeline, const InTheOven& oven, const std::vector<Done>& done)
      : timeline_(timeline), oven_(oven), done_(done), in_(timeline.oven_hours) {}

  void load(int number) {
    const auto in_at = ticked_at(done_, went_in(number));
    const auto out_at = ticked_at(done_, came_out(number));
    if (in_at || out_at) all_done(timeline_);
    if (in_at) std::fill(in_.begin(), in_.end(), *in_at);
    const Spread in = spread(in_, timeline_.weight);
    goes_in(number, in, in_at || out_at);
    const auto behind = static_cast<std::size_t>(number) - 2;
    const double longer = number > 1 && behind < oven_.longer.size() ? oven_.longer[behind] : 0;
    Hours out = later(later(in_, oven_.bakes), {longer});
    if (out_at) std::fill(out.begin(), out.end(), *out_at);
    const Hours bag = later(out, oven_.bag);
    const std::size_t place = timeline_.stages.size();
    add_stage(Step::oven, number, in, out);
    timeline_.stages.back().done = out_at.has_value();
    const Spread left = timeline_.stages.back().end;
    add_stage(Step::cooling, number, left, bag);
    const Bread bread{
        in, left, spread(later(out, oven_.cut), timeline_.weight), timeline_.stages.back().end};
    timeline_.bread.push_back(bread);
    add_act(Act::out_of_the_oven, place, out_at.has_value(), bread.out, number);
    add_act(Act::cut, place + 1, false, bread.cut, number);
    add_act(Act::bag, place + 1, false, bread.bag, number);
    in_ = later(out, {oven_.between});
  }

 private:
  // The first load's way in is among the things to do; it may have been ticked off since.
  void goes_in(int number, const Spread& in, bool done) {
    if (number > 1) return add_act(Act::into_the_oven, timeline_.stages.size(), done, in, number);
    timeline_.oven_hours = in_;
    timeline_.oven = in;
    for (ToDo& one : timeline_.to_do) {
      if (one.act != Act::into_the_oven) continue;
      one.at = in;
      one.load = number;
    }
  }

  void add_stage(Step step, int number, const Spread& begin, const Hours& end) {
    StageTimes out;
    out.step = step;
    out.load = number;
    out.begin = begin;
    out.end = spread(end, timeline_.weight);
    out.reached = share_there(end, timeline_.weight);
    timeline_.stages.push_back(out);
  }

  void add_act(Act act, std::size_t stage, bool done, const Spread& at, int number) {
    timeline_.to_do.push_back({act, stage, done, at, number});
  }

  Timeline& timeline_;
  const InTheOven& oven_;
  const std::vector<Done>& done_;
  Hours in_;
};

}  // namespace

void add_oven_stages(Timeline& timeline, const InTheOven& oven, const std::vector<Done>& done) {
  require(!oven.bakes.empty() && !oven.cut.empty() && !oven.bag.empty(), "an oven has loaves");
  Loading loading(timeline, oven, done);
  for (int number = 1; number <= oven.loads; ++number) loading.load(number);
  const auto oven_on = std::find_if(timeline.to_do.begin(),
                                    timeline.to_do.end(),
                                    [](const ToDo& one) { return one.act == Act::into_the_oven; });
  std::stable_sort(oven_on, timeline.to_do.end(), [](const ToDo& a, const ToDo& b) {
    return a.at.p50 && b.at.p50 ? *a.at.p50 < *b.at.p50 : a.at.p50 && !b.at.p50;
  });
}

}  // namespace barm::forecast
