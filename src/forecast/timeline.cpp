#include "forecast/timeline.h"

#include <algorithm>
#include <cmath>
#include <span>

#include "forecast/internal/cold_proof.h"
#include "forecast/internal/walk.h"
#include "numerics/quantiles.h"

namespace barm::forecast {

using formula::Stage;
using formula::Step;
using internal::Walker;

namespace {

constexpr Time let_go_after = 0.5 * hour;

bool is_handling(Step step) { return step == Step::divide || step == Step::shape; }

std::optional<Act> act_of(Step step) {
  switch (step) {
    case Step::mix:
      return Act::mix;
    case Step::fold:
      return Act::fold;
    case Step::divide:
      return Act::divide;
    case Step::shape:
      return Act::shape;
    case Step::cold:
      return Act::into_the_cold;
    case Step::bulk:
    case Step::proof:
    case Step::oven:
    case Step::cooling:
      return std::nullopt;
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

// The way of all doughs: gone once, then told.
class Telling {
 public:
  Telling(const Plan& plan, const Crowd& crowd, const CrowdOptions& options)
      : plan_(plan), crowd_(crowd), options_(options), bulk_(plan.bake.bulk()) {
    walking_.accuracy = options.proving.accuracy;
    walking_.surface = options.proving.surface;
    walking_.threads = options.threads;
    walking_.cancelled = options.cancelled;
    walking_.sample_every = options.proving.sample_every;
    walking_.precision = options.hours_alone ? Precision::single : Precision::full;
    walking_.horizon = std::max(options.own_horizon, options.proving.horizon);
    walkers_.reserve(crowd.doughs.size());
    for (std::size_t i = 0; i < crowd.doughs.size(); ++i)
      walkers_.push_back(Walker{internal::Way(crowd.doughs[i], options.proving, crowd.bulk(i))});
  }

  std::optional<Error> go(LeftInTheBulk* left) {
    internal::Seen seen;
    if (auto error = to_the_end_of_the_bulk(left != nullptr ? &seen : nullptr)) return error;
    if (left != nullptr) {
      if (auto error = leave_in_the_bulk(seen)) return error;
      hold_the_last(seen);
      left->samples = seen.samples;
      left->rise = std::move(seen.rise);
      left->passed = on_the_clock(seen.passed);
    }
    internal::Seen behind;
    if (auto error = to_the_oven(options_.until_past ? &behind : nullptr)) return error;
    return options_.until_past ? wait_for_the_oven(left, behind) : std::nullopt;
  }

  // What comes behind the bulk; a cold in which the pieces proof is looked at by itself.
  std::optional<Error> to_the_oven(internal::Seen* behind) {
    const auto cold = options_.hours_alone ? std::nullopt : internal::cold_proof_of(plan_);
    if (!cold) return walk_on(behind_, plan_.bake.stages.size(), behind);
    if (auto error = walk_on(behind_, *cold, behind)) return error;
    const std::vector<Walker> going_in = walkers_;
    if (auto error = walk_on(*cold, *cold + 1, behind)) return error;
    auto told =
        internal::out_of_the_cold(plan_, *cold, going_in, walkers_, crowd_.weight, walking_);
    if (!told) return told.error();
    out_of_the_cold_ = *told;
    return walk_on(*cold + 1, plan_.bake.stages.size(), behind);
  }

  // The dough waits where it is; its largest volume, which may lie behind it already, is its best.
  std::optional<Error> wait_for_the_oven(const LeftInTheBulk* left, internal::Seen& behind) {
    const Stage* last = bulk_;
    for (const Stage& stage : plan_.bake.stages) {
      if (stage.step == Step::cold || stage.step == Step::proof || stage.step == Step::bulk)
        last = &stage;
    }
    const bool in_the_bulk = last == bulk_;
    const Time longest = options_.wait.value_or(options_.proving.horizon);
    if (longest > Time{} && (!in_the_bulk || left == nullptr)) {
      if (auto error = leave_in(*last, in_the_bulk, longest, behind)) return error;
    }
    const std::vector<Passed> passed =
        in_the_bulk && left != nullptr ? left->passed : on_the_clock(behind.passed);
    for (std::size_t i = 0; i < walkers_.size(); ++i)
      past_.push_back(passed.empty() ? Passed::never : passed[i].peak);
    return std::nullopt;
  }

  std::optional<Error> to_the_end_of_the_bulk(internal::Seen* seen = nullptr) {
    const std::span<const Stage> stages(plan_.bake.stages);
    behind_ = static_cast<std::size_t>(bulk_ - stages.data()) + 1;
    while (behind_ < stages.size() && stages[behind_].step == Step::fold) ++behind_;
    return internal::walk(
        walkers_, stages.first(behind_), bulk_, plan_.bake.target, walking_, seen);
  }

  // When each dough's first bulk ended.
  [[nodiscard]] std::vector<double> ready() const {
    std::size_t stop = 0;
    for (const Stage& stage : plan_.bake.stages) {
      if (&stage == bulk_) break;
      if (stage.step != Step::mix && stage.step != Step::fold) ++stop;
    }
    return ends(stop);
  }

  Timeline tell() const {
    Timeline out;
    out.horizon = options_.proving.horizon;
    out.weight = crowd_.weight;
    out.draws = static_cast<int>(walkers_.size());
    std::size_t stop = 0;
    Hours begin(walkers_.size(), 0);
    for (std::size_t s = 0; s < plan_.bake.stages.size(); ++s) {
      const Stage& stage = plan_.bake.stages[s];
      out.stages.push_back(told(s, stage, begin, stop));
      if (stage.step == Step::mix || stage.step == Step::fold) continue;
      begin = ends(stop++);
    }
    out.ready_hours = ready();
    out.oven_hours = begin;
    out.past_hours = past_;
    out.out_of_the_cold = out_of_the_cold_;
    out.ready = spread(out.ready_hours, out.weight);
    out.oven = spread(out.oven_hours, out.weight);
    out.never = Probability(1 - share(out.ready_hours));
    add_to_do(out);
    return out;
  }

 private:
  using Hours = std::vector<double>;

  std::optional<Error> walk_on(std::size_t from, std::size_t to, internal::Seen* seen) {
    const std::span<const Stage> stages(plan_.bake.stages);
    return internal::walk(
        walkers_, stages.subspan(from, to - from), nullptr, plan_.bake.target, walking_, seen);
  }

  // A curve goes on as it ended.
  static void hold_the_last(internal::Seen& seen) {
    for (std::size_t i = 0; i < seen.rise.size(); ++i) {
      if (i % seen.samples > 0 && std::isnan(seen.rise[i])) seen.rise[i] = seen.rise[i - 1];
    }
  }

  // The bulk goes on where the dough is left in it, to the horizon.
  std::optional<Error> leave_in_the_bulk(internal::Seen& seen) const {
    return leave_in(*bulk_, true, options_.proving.horizon, seen);
  }

  std::optional<Error> leave_in(const Stage& stage,
                                bool up_to_the_bulk,
                                Time longest,
                                internal::Seen& seen) const {
    std::vector<Walker> left;
    left.reserve(walkers_.size());
    Stage endless = stage;
    endless.until.reset();
    endless.lasts = longest;
    for (const Walker& walker : walkers_) {
      left.push_back(Walker{walker.way, {}, walker.on});
      if (walker.on) left.back().way.enter(endless, up_to_the_bulk);
    }
    internal::WalkOptions leaving = walking_;
    leaving.stop_collapsed = options_.hours_alone;
    const auto ran = internal::ferment(
        left, [](std::size_t) { return std::optional<double>(); }, {}, leaving, &seen);
    return ran ? std::nullopt : std::optional(ran.error());
  }

  [[nodiscard]] std::vector<Passed> on_the_clock(std::vector<Passed> passed) const {
    const double horizon = options_.proving.horizon.in(hour);
    for (std::size_t i = 0; i < passed.size(); ++i) {
      const internal::Way& way = walkers_[i].way;
      Passed& one = passed[i];
      for (double* at : {&one.fifth, &one.ready, &one.peak, &one.collapsed, &one.sour}) {
        if (std::isfinite(*at)) *at = way.clock(*at);
        if (*at > horizon) *at = Passed::never;
      }
      one.end = way.clock(one.end);
    }
    return passed;
  }

  // When each dough ended its stop number so; never where it did not.
  [[nodiscard]] Hours ends(std::size_t stop) const {
    Hours out;
    for (const Walker& walker : walkers_) {
      const bool there = stop < walker.stops.size() && walker.stops[stop].reached;
      out.push_back(there ? walker.stops[stop].end.in(hour) : Passed::never);
    }
    return out;
  }

  [[nodiscard]] std::vector<double> of_stop(std::size_t stop, double (*what)(const Stop&)) const {
    std::vector<double> out;
    for (const Walker& walker : walkers_) {
      const bool there = stop < walker.stops.size() && walker.stops[stop].reached;
      out.push_back(there ? what(walker.stops[stop]) : NAN);
    }
    return out;
  }

  [[nodiscard]] double share(const Hours& hours) const {
    double there = 0;
    for (std::size_t i = 0; i < hours.size(); ++i) {
      const double weight =
          crowd_.weight.empty() ? 1 / static_cast<double>(hours.size()) : crowd_.weight[i];
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
      Hours at = fold_hours(stage, stop);
      out.begin = out.end = spread(at, crowd_.weight);
      out.reached = Probability(share(at));
      return out;
    }
    out.begin = spread(begin, crowd_.weight);
    if (stage.step == Step::mix) {
      out.end = out.begin;
      out.reached = Probability(1);
      return out;
    }
    const Hours end = ends(stop);
    out.end = spread(end, crowd_.weight);
    out.reached = Probability(share(end));
    const auto range = [&](double (*what)(const Stop&)) {
      return range_of(of_stop(stop, what), crowd_.weight);
    };
    out.rise = range([](const Stop& one) { return one.rise; });
    out.ph = range([](const Stop& one) { return one.ph; });
    out.rooms = of_stop(stop, [](const Stop& one) { return one.room_left; });
    out.room_left = range_of(out.rooms, crowd_.weight);
    out.celsius = range([](const Stop& one) { return one.dough.celsius(); });
    return out;
  }

  // A fold happens inside its bulk, the stop before it, or not at all.
  [[nodiscard]] Hours fold_hours(const Stage& fold, std::size_t stop) const {
    Hours out;
    for (const Walker& walker : walkers_) {
      double at = Passed::never;
      if (stop > 0 && stop <= walker.stops.size()) {
        const Stop& bulk = walker.stops[stop - 1];
        const Time wanted = bulk.begin + *fold.after;
        if (wanted <= bulk.end) at = wanted.in(hour);
      }
      out.push_back(at);
    }
    return out;
  }

  static void add_to_do(Timeline& out) {
    const std::size_t count = out.stages.size();
    for (std::size_t s = 0; s < count; ++s) {
      const StageTimes& stage = out.stages[s];
      if (const auto act = act_of(stage.step))
        out.to_do.push_back({*act, s, stage.done, stage.begin});
      const bool another = s + 1 < count && !is_handling(out.stages[s + 1].step);
      if (stage.step == Step::cold && another && out.stages[s + 1].step != Step::cold)
        out.to_do.push_back({Act::out_of_the_cold, s, stage.done, stage.end});
    }
    out.to_do.push_back({Act::into_the_oven, count, false, out.oven});
    std::stable_sort(out.to_do.begin(), out.to_do.end(), [](const ToDo& a, const ToDo& b) {
      return a.at.p50 && b.at.p50 ? *a.at.p50 < *b.at.p50 : a.at.p50 && !b.at.p50;
    });
  }

  const Plan& plan_;
  const Crowd& crowd_;
  const CrowdOptions& options_;
  const Stage* bulk_;
  std::size_t behind_ = 0;  // the first stage behind the bulk and its folds
  internal::WalkOptions walking_;
  std::vector<Walker> walkers_;
  Hours past_;
  std::optional<OutOfTheCold> out_of_the_cold_;
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
  Telling telling(plan, crowd, options);
  if (auto error = telling.go(left)) return failure(error->code, error->where, error->message);
  return telling.tell();
}

Result<std::vector<double>> ready_hours(const Plan& plan,
                                        const Crowd& crowd,
                                        const CrowdOptions& options) {
  Telling telling(plan, crowd, options);
  if (auto error = telling.to_the_end_of_the_bulk())
    return failure(error->code, error->where, error->message);
  return telling.ready();
}

}  // namespace barm::forecast
