#include "forecast/internal/gone_way.h"

#include <algorithm>
#include <cmath>
#include <span>

#include "forecast/internal/cold_proof.h"

namespace barm::forecast::internal {

using formula::Stage;
using formula::Step;

namespace {

// A curve goes on as it ended.
void hold_the_last(Seen& seen) {
  for (std::size_t i = 0; i < seen.rise.size(); ++i) {
    if (i % seen.samples > 0 && std::isnan(seen.rise[i])) seen.rise[i] = seen.rise[i - 1];
  }
}

}  // namespace

GoneWay::GoneWay(const Plan& plan, const Crowd& crowd, const CrowdOptions& options)
    : plan_(plan), weight_(crowd.weight), options_(options), bulk_(plan.bake.bulk()) {
  walking_.accuracy = options.proving.accuracy;
  walking_.surface = options.proving.surface;
  walking_.threads = options.threads;
  walking_.cancelled = options.cancelled;
  walking_.sample_every = options.proving.sample_every;
  walking_.horizon = std::max(options.own_horizon, options.proving.horizon);
  walkers_.reserve(crowd.doughs.size());
  for (std::size_t i = 0; i < crowd.doughs.size(); ++i)
    walkers_.push_back(Walker{DoughOnItsWay(crowd.doughs[i], options.proving, crowd.bulk(i))});
}

std::optional<Error> GoneWay::go(LeftInTheBulk* left) {
  Seen seen;
  if (auto error = to_the_end_of_the_bulk(left != nullptr ? &seen : nullptr)) return error;
  if (left != nullptr) {
    if (auto error = leave_in(*bulk_, true, options_.proving.horizon, seen)) return error;
    hold_the_last(seen);
    left->samples = seen.samples;
    left->rise = std::move(seen.rise);
    left->passed = on_the_clock(seen.passed);
  }
  Seen behind;
  if (auto error = to_the_oven(options_.until_past ? &behind : nullptr)) return error;
  return options_.until_past ? wait_for_the_oven(left, behind) : std::nullopt;
}

std::optional<Error> GoneWay::to_the_oven(Seen* behind) {
  const auto cold = options_.hours_alone ? std::nullopt : cold_proof_of(plan_);
  if (!cold) return walk_on(behind_, plan_.bake.stages.size(), behind);
  if (auto error = walk_on(behind_, *cold, behind)) return error;
  const std::vector<Walker> going_in = walkers_;
  if (auto error = walk_on(*cold, *cold + 1, behind)) return error;
  auto told = internal::out_of_the_cold(plan_, *cold, going_in, walkers_, weight_, walking_);
  if (!told) return told.error();
  out_of_the_cold_ = *told;
  return walk_on(*cold + 1, plan_.bake.stages.size(), behind);
}

std::optional<Error> GoneWay::walk_on(std::size_t from, std::size_t to, Seen* seen) {
  const std::span<const Stage> stages(plan_.bake.stages);
  return walk(
      walkers_, stages.subspan(from, to - from), nullptr, plan_.bake.target, walking_, seen);
}

std::optional<Error> GoneWay::to_the_end_of_the_bulk(Seen* seen) {
  const std::span<const Stage> stages(plan_.bake.stages);
  behind_ = static_cast<std::size_t>(bulk_ - stages.data()) + 1;
  while (behind_ < stages.size() && stages[behind_].step == Step::fold) ++behind_;
  return walk(walkers_, stages.first(behind_), bulk_, plan_.bake.target, walking_, seen);
}

// The dough waits where it is; its largest volume, which may lie behind it already, is its best.
std::optional<Error> GoneWay::wait_for_the_oven(const LeftInTheBulk* left, Seen& behind) {
  const Stage* last = bulk_;
  for (const Stage& stage : plan_.bake.stages) {
    if (formula::stands(stage.step)) last = &stage;
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

std::optional<Error> GoneWay::leave_in(const Stage& stage,
                                       bool up_to_the_bulk,
                                       Time longest,
                                       Seen& seen) const {
  std::vector<Walker> left;
  left.reserve(walkers_.size());
  Stage endless = stage;
  endless.until.reset();
  endless.lasts = longest;
  for (const Walker& walker : walkers_) {
    left.push_back(Walker{walker.way, {}, walker.on});
    if (walker.on) left.back().way.enter(endless, up_to_the_bulk);
  }
  WalkOptions leaving = walking_;
  leaving.stop_collapsed = options_.hours_alone;
  const auto ran =
      ferment(left, [](std::size_t) { return std::optional<double>(); }, {}, leaving, &seen);
  return ran ? std::nullopt : std::optional(ran.error());
}

std::vector<Passed> GoneWay::on_the_clock(std::vector<Passed> passed) const {
  const double horizon = options_.proving.horizon.in(hour);
  for (std::size_t i = 0; i < passed.size(); ++i) {
    const DoughOnItsWay& way = walkers_[i].way;
    Passed& one = passed[i];
    for (double* at : {&one.fifth, &one.ready, &one.peak, &one.collapsed, &one.sour}) {
      if (std::isfinite(*at)) *at = way.clock(*at);
      if (*at > horizon) *at = Passed::never;
    }
    one.end = way.clock(one.end);
  }
  return passed;
}

GoneWay::Hours GoneWay::ready() const {
  std::size_t stop = 0;
  for (const Stage& stage : plan_.bake.stages) {
    if (&stage == bulk_) break;
    if (stage.step != Step::mix && stage.step != Step::fold) ++stop;
  }
  return ends(stop);
}

GoneWay::Hours GoneWay::ends(std::size_t stop) const {
  Hours out;
  for (const Walker& walker : walkers_) {
    const bool there = stop < walker.stops.size() && walker.stops[stop].reached;
    out.push_back(there ? walker.stops[stop].end.in(hour) : Passed::never);
  }
  return out;
}

GoneWay::Hours GoneWay::fold_hours(const Stage& fold, std::size_t stop) const {
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

std::vector<double> GoneWay::of_stop(std::size_t stop, double (*what)(const Stop&)) const {
  std::vector<double> out;
  for (const Walker& walker : walkers_) {
    const bool there = stop < walker.stops.size() && walker.stops[stop].reached;
    out.push_back(there ? what(walker.stops[stop]) : NAN);
  }
  return out;
}

}  // namespace barm::forecast::internal
