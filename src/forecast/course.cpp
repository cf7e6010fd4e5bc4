#include "forecast/course.h"

#include <algorithm>
#include <cmath>

#include "kinetics/system.h"

namespace barm::forecast {

namespace {

using kinetics::StateOf;
using System = kinetics::System<double>;
using RunStep = numerics::DenseStep<kinetics::state_count>;

constexpr double fifth = 1.2;
constexpr double collapse = 0.85;
constexpr double least_peak = 1.02;  // below it a dough has not visibly risen

// Follows a run step by step and notes when the dough passes something.
class Watch {
 public:
  Watch(const System& system, const Proving& proving, Course& course)
      : system_(system), proving_(proving), course_(course) {}

  // After each accepted step; false ends the run. A volume may be reached and left again within
  // one step, so a rise is looked for up to the top of the step.
  bool operator()(const RunStep& step) {
    sample(step);
    const double before = system_.rise(step.y_begin);
    const double after = system_.rise(step.y_end);
    const std::optional<RiseAt> turn = turning_point(step);
    const RiseAt top = turn.value_or(RiseAt{step.end, after});
    rising_past(step, before, top, fifth, course_.fifth);
    const bool was_ready = course_.ready.has_value();
    look_for_ready(step, before, top);
    if (!was_ready && course_.ready) {
      course_.at_ready = step.at(course_.ready->in(hour));
      if (proving_.stop_at_target) return false;
    }
    course_.least_room = std::min(course_.least_room, system_.limit(step.y_end) / after - 1);
    if (course_.least_room < proving_.least_room) return false;
    look_for_peak(turn, before, std::max(after, top.rise));
    look_for_collapse(step, before, after);
    look_for_sour(step);
    rising_ = step.slope_end[kinetics::gas_held] > 0;
    return !(proving_.stop_collapsed && course_.collapsed);
  }

  // A dough that stands already may be past some of it.
  void take_up(const StateOf<double>& y) {
    const double rise = system_.rise(y);
    if (rise >= fifth) course_.fifth = 0.0 * hour;
    if (rise >= proving_.target) {
      course_.ready = 0.0 * hour;
      course_.at_ready = y;
    }
    course_.largest_rise = rise;
    if (!proving_.beginning->top) return;
    course_.peak = 0.0 * hour;
    course_.largest_rise = peak_rise_ = *proving_.beginning->top;
    if (rise < 1 + collapse * (peak_rise_ - 1)) course_.collapsed = 0.0 * hour;
  }

  // The temperature has stepped between two steps of the run; false ends the run. The volume leaps:
  // up to a peak when it was falling, down from one when it was rising.
  bool leap(double t, const StateOf<double>& y, double before) {
    const double after = system_.rise(y);
    if (before < fifth && after >= fifth && !course_.fifth) course_.fifth = t * hour;
    if (before < proving_.target && after >= proving_.target && !course_.ready &&
        t >= proving_.ready_from.in(hour)) {
      course_.ready = t * hour;
      course_.at_ready = y;
      if (proving_.stop_at_target) return false;
    }
    const double top = std::max(before, after);
    if ((after < before) == rising_ && top >= course_.largest_rise && top > least_peak) {
      course_.peak = t * hour;
      peak_rise_ = top;
      course_.collapsed.reset();
    }
    course_.largest_rise = std::max(course_.largest_rise, top);
    const double ratio = 1 + collapse * (course_.largest_rise - 1);
    if (course_.peak && !course_.collapsed && before >= ratio && after < ratio)
      course_.collapsed = t * hour;
    return true;
  }

  // A top after which the dough went on to rise higher, up to the end, was none.
  void end() {
    if (course_.peak && course_.largest_rise > peak_rise_ * (1 + 1e-6)) {
      course_.peak.reset();
      course_.collapsed.reset();
    }
  }

 private:
  struct RiseAt {
    double at;    // [h]
    double rise;  // volume over the volume at mixing
  };

  void sample(const RunStep& step) {
    const double every = proving_.sample_every.in(hour);
    if (every <= 0) return;
    for (double t = every * static_cast<double>(course_.curve.size()); t <= step.end;
         t = every * static_cast<double>(course_.curve.size())) {
      const StateOf<double> y = step.at(std::max(t, step.begin));
      course_.curve.push_back(
          {t, system_.rise(y), y[kinetics::acidity], kinetics::hexose_fermented(y)});
    }
  }

  // A dough that is so far when its bulk begins is ready then.
  void look_for_ready(const RunStep& step, double before, const RiseAt& top) const {
    const double from = proving_.ready_from.in(hour);
    if (step.begin < from) return;
    if (from > 0 && step.begin == from && before >= proving_.target && !course_.ready)
      course_.ready = proving_.ready_from;
    rising_past(step, before, top, proving_.target, course_.ready);
  }

  void rising_past(const RunStep& step,
                   double before,
                   const RiseAt& top,
                   double ratio,
                   std::optional<Time>& found) const {
    if (found || before >= ratio || top.rise < ratio) return;
    const auto g = [&](double, const StateOf<double>& y) { return system_.rise(y) - ratio; };
    found =
        numerics::crossing(step, step.begin, top.at, before - ratio, top.rise - ratio, g) * hour;
  }

  // Where the slope of the volume in time turns from up to down inside the step.
  [[nodiscard]] std::optional<RiseAt> turning_point(const RunStep& step) const {
    const double up_before = step.slope_begin[kinetics::gas_held];
    const double up_after = step.slope_end[kinetics::gas_held];
    if (up_before <= 0 || up_after > 0) return std::nullopt;
    const auto g = [&](double t, const StateOf<double>& y) { return slope(t, y); };
    const double at = numerics::crossing(step, step.begin, step.end, up_before, up_after, g);
    return RiseAt{at, system_.rise(step.at(at))};
  }

  // A step that begins higher than ever and rises has the largest volume in it, to the last digit
  // or not.
  void look_for_peak(const std::optional<RiseAt>& turn, double before, double top) {
    const bool largest =
        turn && (before >= course_.largest_rise || turn->rise > course_.largest_rise);
    if (largest && top > least_peak) {
      course_.peak = turn->at * hour;
      peak_rise_ = top;
      course_.collapsed.reset();
    }
    course_.largest_rise = std::max(course_.largest_rise, top);
  }

  void look_for_collapse(const RunStep& step, double before, double after) {
    if (!course_.peak || course_.collapsed) return;
    const double ratio = 1 + collapse * (course_.largest_rise - 1);
    if (before < ratio || after >= ratio) return;
    const auto g = [&](double, const StateOf<double>& y) { return system_.rise(y) - ratio; };
    course_.collapsed =
        numerics::crossing(step, step.begin, step.end, before - ratio, after - ratio, g) * hour;
  }

  [[nodiscard]] double slope(double t, const StateOf<double>& y) const {
    StateOf<double> dy;
    system_(t, y, dy);
    return dy[kinetics::gas_held];
  }

  void look_for_sour(const RunStep& step) {
    const double before = step.y_begin[kinetics::acidity] - proving_.sour_at;
    const double after = step.y_end[kinetics::acidity] - proving_.sour_at;
    if (course_.sour || before <= 0 || after > 0) return;
    const auto g = [&](double, const StateOf<double>& y) {
      return y[kinetics::acidity] - proving_.sour_at;
    };
    course_.sour = numerics::crossing(step, step.begin, step.end, before, after, g) * hour;
  }

  const System& system_;
  const Proving& proving_;
  Course& course_;
  bool rising_ = true;
  double peak_rise_ = 1;
};

void take_gas_out(kinetics::StateOf<double>& y,
                  const kinetics::Terms<double>& terms,
                  double share) {
  y[kinetics::gas_held] -= share * kinetics::gas_in_bubbles(y[kinetics::gas_held], terms.gas);
}

}  // namespace

heat::Track track_of(const Proving& proving) {
  return proving.track.empty() ? heat::Track(proving.temperature) : proving.track;
}

namespace {

// When the run halts: a fold, a step of temperature, or both.
std::vector<double> halts(const Proving& proving, const heat::Track& track) {
  std::vector<double> at;
  for (const Handling& handling : proving.handlings) at.push_back(handling.at.in(hour));
  for (const heat::Segment& segment : track.segments()) at.push_back(segment.from);
  at.push_back(proving.horizon.in(hour));
  at.push_back(proving.ready_from.in(hour));
  std::sort(at.begin(), at.end());
  return at;
}

}  // namespace

Result<Course> run(const kinetics::Dough& dough,
                   const kinetics::Parameters<double>& parameters,
                   const Proving& proving) {
  const heat::Track track = track_of(proving);
  const double first = track.segments().front().celsius;
  const double at_start =
      proving.beginning ? proving.beginning->start_celsius.value_or(first) : first;
  auto of = kinetics::dough_terms(dough, parameters, at_start, {proving.surface});
  if (proving.beginning) of.still.volume_at_start = proving.beginning->volume;
  kinetics::Terms<double> terms = kinetics::terms_at(first, of, dough, parameters);
  const System system(terms, kinetics::present(dough));
  Course course;
  StateOf<double> y =
      proving.beginning ? proving.beginning->state : kinetics::at_mixing(dough, parameters);
  double t = 0;
  const double horizon = proving.horizon.in(hour);
  if (y[kinetics::acidity] <= proving.sour_at) course.sour = 0.0 * hour;
  Watch watch(system, proving, course);
  if (proving.beginning) watch.take_up(y);
  auto ending = numerics::Ending::reached_end;
  const auto go_to = [&](double until) {
    ending = numerics::integrate<kinetics::state_count>(
        system, t, y, until, proving.accuracy, course.statistics, [&](const RunStep& step) {
          return watch(step);
        });
    return ending == numerics::Ending::reached_end;
  };
  bool on = true;
  std::size_t handling = 0;
  std::size_t segment = 1;
  for (const double at : halts(proving, track)) {
    if (!on || t >= horizon) break;
    if (at > t) on = go_to(std::min(at, horizon));
    for (; handling < proving.handlings.size() && proving.handlings[handling].at.in(hour) <= t;
         ++handling) {
      if (on && t > 0 && t < horizon) take_gas_out(y, terms, proving.handlings[handling].gas_out);
    }
    for (; segment < track.segments().size() && track.segments()[segment].from <= t; ++segment) {
      if (!on || t >= horizon) continue;
      const double before = system.rise(y);
      terms = kinetics::terms_at(track.segments()[segment].celsius, of, dough, parameters);
      on = watch.leap(t, y, before);
    }
  }
  if (ending == numerics::Ending::too_many_steps || ending == numerics::Ending::not_finite) {
    return failure(ErrorCode::no_convergence,
                   "",
                   "the run of the dough did not settle; please report this bake");
  }
  watch.end();
  course.at_end = y;
  course.end = t * hour;
  return course;
}

}  // namespace barm::forecast
