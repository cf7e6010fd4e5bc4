#include "forecast/internal/walk.h"

#include <algorithm>
#include <cmath>

#include "forecast/internal/for_each.h"
#include "generated/constants.h"

namespace barm::forecast::internal {

using formula::Stage;
using formula::Step;

namespace {

// The folds that follow a bulk in the file.
std::span<const Stage> folds_after(std::span<const Stage> stages, std::size_t bulk) {
  std::size_t end = bulk + 1;
  while (end < stages.size() && stages[end].step == Step::fold) ++end;
  return stages.subspan(bulk + 1, end - bulk - 1);
}

std::vector<Handling> handlings(std::span<const Stage> folds, double begun) {
  std::vector<Handling> out;
  for (const Stage& fold : folds) {
    if (fold.after)
      out.push_back({begun * hour + *fold.after, constants::gas::fold_out.value.si()});
  }
  std::sort(
      out.begin(), out.end(), [](const Handling& a, const Handling& b) { return a.at < b.at; });
  return out;
}

void note(Passed& all, const Passed& leg) {
  all.fifth = std::min(all.fifth, leg.fifth);
  all.sour = std::min(all.sour, leg.sour);
  if (leg.peak < Passed::never || leg.largest_rise > all.largest_rise) {
    all.peak = leg.peak;
    all.collapsed = leg.collapsed;
  }
  all.largest_rise = std::max(all.largest_rise, leg.largest_rise);
  all.end = leg.end;
}

void add(Seen& seen, const Many& many, std::span<const std::size_t> of) {
  for (std::size_t k = 0; k < of.size(); ++k) {
    note(seen.passed[of[k]], many.passed[k]);
    for (std::size_t s = 0; s < many.samples; ++s) {
      const float rise = many.rise[k * many.samples + s];
      if (!std::isnan(rise)) seen.rise[of[k] * many.samples + s] = rise;
    }
  }
}

}  // namespace

std::optional<double> ratio_of(const Stage& stage, double target) {
  if (stage.step == Step::bulk && !stage.until && !stage.lasts) return target;
  return stage.until;
}

Result<std::vector<char>> ferment(std::span<Walker> walkers,
                                  const std::function<std::optional<double>(std::size_t)>& ratio,
                                  std::span<const Stage> folds,
                                  const WalkOptions& options,
                                  Seen* seen) {
  std::vector<std::size_t> on;
  for (std::size_t i = 0; i < walkers.size(); ++i) {
    if (walkers[i].on) on.push_back(i);
  }
  ManyOptions many;
  many.proving.accuracy = options.accuracy;
  many.proving.surface = options.surface;
  many.proving.stop_at_target = true;
  many.proving.sample_every = seen != nullptr ? options.sample_every : 0.0 * hour;
  many.proving.horizon = seen != nullptr ? options.horizon : 1e6 * hour;
  many.states = true;
  many.precision = Precision::single;  // tells hours as well: docs/model/lanes.md 4
  many.proving.stop_collapsed = options.stop_collapsed;
  many.threads = options.threads;
  many.cancelled = options.cancelled;
  const auto ran = foresee_many(
      on.size(),
      [&](std::size_t k, Case& to_fill) {
        const DoughOnItsWay& way = walkers[on[k]].way;
        to_fill = way.leg(ratio(on[k]), handlings(folds, way.begun()));
      },
      many);
  if (!ran) return failure(ran);
  std::vector<char> reached(walkers.size(), 0);
  for (std::size_t k = 0; k < on.size(); ++k) {
    const Gone gone{ran->passed[k], ran->at_end[k]};
    reached[on[k]] = walkers[on[k]].way.take(gone, ratio(on[k])) ? 1 : 0;
  }
  if (seen != nullptr) {
    if (seen->passed.empty()) {
      seen->passed.resize(walkers.size());
      seen->samples = ran->samples;
      seen->rise.assign(walkers.size() * ran->samples, std::numeric_limits<float>::quiet_NaN());
    }
    add(*seen, *ran, on);
  }
  return reached;
}

std::optional<Error> walk(std::span<Walker> walkers,
                          std::span<const Stage> stages,
                          const Stage* first_bulk,
                          double target,
                          const WalkOptions& options,
                          Seen* seen) {
  bool up_to_the_bulk = first_bulk != nullptr;
  const auto each = [&](const auto& one) {
    return for_each(walkers.size(),
                    options.threads,
                    options.cancelled,
                    [&](std::size_t i) -> std::optional<Error> {
                      if (walkers[i].on) one(walkers[i]);
                      return std::nullopt;
                    });
  };
  for (std::size_t s = 0; s < stages.size(); ++s) {
    const Stage& stage = stages[s];
    if (stage.step == Step::mix || stage.step == Step::fold) continue;
    if (formula::is_handled(stage.step)) {
      for (Walker& walker : walkers) {
        if (!walker.on) continue;
        walker.way.handle(stage.step);
        walker.stops.push_back(walker.way.stop(stage.step, walker.way.now(), true));
      }
      continue;
    }
    if (auto error = each([&](Walker& walker) { walker.way.enter(stage, up_to_the_bulk); }))
      return error;
    const std::optional<double> ratio = ratio_of(stage, target);
    const auto reached =
        ferment(walkers, [&](std::size_t) { return ratio; }, folds_after(stages, s), options, seen);
    if (!reached) return reached.error();
    for (std::size_t i = 0; i < walkers.size(); ++i) {
      Walker& walker = walkers[i];
      if (!walker.on) continue;
      // Whichever comes first: a stage with a time ends by it.
      const bool ended = (*reached)[i] != 0 || (ratio && stage.lasts.has_value());
      walker.way.leave();
      walker.stops.push_back(walker.way.stop(stage.step, walker.way.begun(), ended));
      walker.on = ended && !walker.way.is_over();
    }
    if (&stage == first_bulk) up_to_the_bulk = false;
  }
  return std::nullopt;
}

}  // namespace barm::forecast::internal
