#include "forecast/timeline.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "forecast/internal/gone_way.h"
#include "numerics/quantiles.h"

namespace barm::forecast {

using formula::Stage;
using formula::Step;

namespace {

constexpr Time let_go_after = 0.5 * hour;

// What hands do as it begins; nothing where the dough only goes on.
std::optional<Act> act_of(Step step) {
  constexpr std::pair<Step, Act> acts[] = {{Step::mix, Act::mix},
                                           {Step::fold, Act::fold},
                                           {Step::divide, Act::divide},
                                           {Step::shape, Act::shape},
                                           {Step::cold, Act::into_the_cold}};
  for (const auto& [begins, act] : acts) {
    if (begins == step) return act;
  }
  return std::nullopt;
}

// Quantiles among the draws that got there.
Range range_of(const std::vector<double>& values, const std::vector<double>& weights) {
  static constexpr double shares[] = {0.1, 0.5, 0.9};
  std::vector<double> there;
  std::vector<double> weight;
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (std::isnan(values[i])) continue;
    there.push_back(values[i]);
    weight.push_back(weights.empty() ? 1 : weights[i]);
  }
  if (there.empty()) return untold;
  const auto of = weights.empty() ? numerics::quantiles(there, shares)
                                  : numerics::weighted_quantiles(there, weight, shares);
  return {of[0], of[1], of[2]};
}

// What is told of a way that was gone.
class Telling {
 public:
  Telling(const Plan& plan, const std::vector<double>& weight, const internal::GoneWay& way)
      : plan_(plan), weight_(weight), way_(way) {}

  Timeline tell() const {
    Timeline out;
    out.weight = weight_;
    out.draws = static_cast<int>(way_.doughs());
    std::size_t stop = 0;
    Hours begin(way_.doughs(), 0);
    for (std::size_t s = 0; s < plan_.bake.stages.size(); ++s) {
      const Stage& stage = plan_.bake.stages[s];
      out.stages.push_back(told(s, stage, begin, stop));
      if (stage.step == Step::mix || stage.step == Step::fold) continue;
      begin = way_.ends(stop++);
    }
    out.ready_hours = way_.ready();
    out.oven_hours = begin;
    out.past_hours = way_.past();
    out.out_of_the_cold = way_.out_of_the_cold();
    out.ready = spread(out.ready_hours, out.weight);
    out.oven = spread(out.oven_hours, out.weight);
    out.never = Probability(1 - share(out.ready_hours));
    add_to_do(out);
    return out;
  }

 private:
  using Hours = internal::GoneWay::Hours;

  [[nodiscard]] double share(const Hours& hours) const {
    double there = 0;
    for (std::size_t i = 0; i < hours.size(); ++i) {
      const double weight = weight_.empty() ? 1 / static_cast<double>(hours.size()) : weight_[i];
      if (std::isfinite(hours[i])) there += weight;
    }
    return std::clamp(there, 0.0, 1.0);
  }

  [[nodiscard]] StageTimes told(std::size_t s,
                                const Stage& stage,
                                const Hours& begin,
                                std::size_t stop) const {
    StageTimes out;
    out.step = stage.step;
    out.in_file = plan_.in_file[s];
    out.done = plan_.done[s] != 0;
    if (stage.step == Step::fold) {
      Hours at = way_.fold_hours(stage, stop);
      out.begin = out.end = spread(at, weight_);
      out.reached = Probability(share(at));
      return out;
    }
    out.begin = spread(begin, weight_);
    if (stage.step == Step::mix) {
      out.end = out.begin;
      out.reached = Probability(1);
      return out;
    }
    const Hours end = way_.ends(stop);
    out.end = spread(end, weight_);
    out.reached = Probability(share(end));
    const auto range = [&](double (*what)(const Stop&)) {
      return range_of(way_.of_stop(stop, what), weight_);
    };
    out.rise = range([](const Stop& one) { return one.rise; });
    out.ph = range([](const Stop& one) { return one.ph; });
    out.rooms = way_.of_stop(stop, [](const Stop& one) { return one.room_left; });
    out.room_left = range_of(out.rooms, weight_);
    out.celsius = range([](const Stop& one) { return one.dough.celsius(); });
    return out;
  }

  static void add_to_do(Timeline& out) {
    const std::size_t count = out.stages.size();
    for (std::size_t s = 0; s < count; ++s) {
      const StageTimes& stage = out.stages[s];
      if (const auto act = act_of(stage.step))
        out.to_do.push_back({*act, s, stage.done, stage.begin});
      const bool another = s + 1 < count && !formula::is_handled(out.stages[s + 1].step);
      if (stage.step == Step::cold && another && out.stages[s + 1].step != Step::cold)
        out.to_do.push_back({Act::out_of_the_cold, s, stage.done, stage.end});
    }
    out.to_do.push_back({Act::into_the_oven, count, false, out.oven});
    std::stable_sort(out.to_do.begin(), out.to_do.end(), [](const ToDo& a, const ToDo& b) {
      return a.at.p50 && b.at.p50 ? *a.at.p50 < *b.at.p50 : a.at.p50 && !b.at.p50;
    });
  }

  const Plan& plan_;
  const std::vector<double>& weight_;
  const internal::GoneWay& way_;
};

}  // namespace

bool can_be_missed(Act act) {
  return act == Act::fold || act == Act::into_the_cold || act == Act::cut;
}

const ToDo* Timeline::next(std::optional<Time> now) const {
  for (const ToDo& one : to_do) {
    if (one.done || (now && one.act == Act::mix)) continue;
    if (now && can_be_missed(one.act) && one.at.p50 && *now > *one.at.p50 + let_go_after) continue;
    return &one;
  }
  return nullptr;
}

Result<Timeline> timeline(const Plan& plan,
                          const Crowd& crowd,
                          const CrowdOptions& options,
                          LeftInTheBulk* left) {
  internal::GoneWay way(plan, crowd, options);
  if (auto error = way.go(left)) return failure(*std::move(error));
  Timeline out = Telling(plan, crowd.weight, way).tell();
  out.horizon = options.proving.horizon;
  return out;
}

Result<std::vector<double>> ready_hours(const Plan& plan,
                                        const Crowd& crowd,
                                        const CrowdOptions& options) {
  internal::GoneWay way(plan, crowd, options);
  if (auto error = way.to_the_end_of_the_bulk()) return failure(*std::move(error));
  return way.ready();
}

}  // namespace barm::forecast
