// Runs cases in lanes. Compiled with its own flags (CMakeLists.txt): the equations must melt into
// the loop.
#include <algorithm>
#include <array>

#include "forecast/internal/lanes_chunk.h"
#include "generated/constants.h"
#include "kinetics/system.h"
#include "numerics/lanes_dormand_prince.h"

namespace barm::forecast::internal {

namespace {

using kinetics::Present;
using kinetics::Terms;
using numerics::Pack;

constexpr double fifth = 1.2;
constexpr double collapse = 0.85;
constexpr double least_peak = 1.02;
constexpr double out_of_reach = 1e30;
constexpr double bend = constants::flour_buffer::bend.value.value();  // pH
constexpr double gentle = 1e-3;  // pH, a step that may cross it

Present either(const Present& a, const Present& b) {
  return {a.wild_yeast || b.wild_yeast,
          a.bakers_yeast || b.bakers_yeast,
          a.sulphite || b.sulphite,
          a.sorbate || b.sorbate,
          a.hops || b.hops,
          a.added_sugar || b.added_sugar,
          a.pentosans || b.pentosans,
          a.whole_fruit || b.whole_fruit,
          std::max(a.acids, b.acids)};
}

// What at least one of the doughs has.
Present any_of(std::span<const Case> cases) {
  Present present = kinetics::present(cases.front().dough);
  for (const Case& one : cases) present = either(present, kinetics::present(one.dough));
  return present;
}

// What a dough lacks must leave no trace when its neighbours have it: an absent organism neither
// wakes nor eats, and no sugar counts as added. The other terms are 0 or act through a dose of 0
// already.
void silence_what_is_absent(Terms<double>& terms, const Present& present) {
  if (!present.wild_yeast) terms.wild.growth = terms.wild.upkeep_gas = 0;
  if (!present.bakers_yeast) terms.bakers.growth = terms.bakers.upkeep_gas = 0;
  if (!present.added_sugar) terms.flour_hexose = out_of_reach;
}

// Terms<T> is nothing but numbers of type T, so it can be filled lane by lane without naming each.
template <class P>
BARM_INLINE void put(Terms<P>& terms, int lane, const Terms<double>& one) {
  constexpr std::size_t numbers = sizeof(Terms<double>) / sizeof(double);
  static_assert(sizeof(Terms<double>) == numbers * sizeof(double) &&
                sizeof(Terms<P>) == numbers * sizeof(P));
  const auto* from = reinterpret_cast<const double*>(&one);
  auto* to = reinterpret_cast<P*>(&terms);
  for (std::size_t i = 0; i < numbers; ++i) to[i].set(lane, from[i]);
}

// Carbon dioxide in the dough [mmol] at which it has risen to `ratio`: eq. 12 the other way round.
//     n = V_b / (R T / (P - p_w)) - n_air,   N = n + K n / (n + n_air)
double held_at(double ratio, const Terms<double>& terms) {
  const kinetics::GasTerms<double>& gas = terms.gas;
  const double bubbles =
      (ratio * terms.volume_at_start - gas.gas_free_volume) / gas.volume_per_gas - gas.air;
  return bubbles > 0 ? bubbles + gas.capacity * bubbles / (bubbles + gas.air) : 0;
}

double rise_at(double held, const Terms<double>& terms) {
  return kinetics::volume(std::max(0.0, held), terms.gas) / terms.volume_at_start;
}

// Runs a chunk. What happens in every step is done for all lanes together; what happens once in a
// run is done for its lane alone.
template <class P>
class Runner {  // NOLINT(clang-analyzer-optin.performance.Padding): in the order of reading
 public:
  using Condition = typename P::Condition;
  using Runs = numerics::LockStep<P, kinetics::state_count>;
  using Step = numerics::LaneStep<P, kinetics::state_count>;

  BARM_INLINE Runner(const LanesChunk& chunk, const Present& present)
      : chunk_(chunk),
        proving_(*chunk.proving),
        every_(proving_.sample_every.in(hour)),
        horizon_(proving_.horizon.in(hour)),
        system_(terms_, present),
        runs_(proving_.accuracy) {}

  BARM_INLINE void go() {
    for (int lane = 0; lane < P::lanes; ++lane) load_next(lane);
    while (runs_.busy()) {
      runs_.attempt([&](const auto& y, auto& dy) { system_(0.0, y, dy); });
      cross_bend_gently(runs_.step());
      Condition done = watch(runs_.step());
      if (!chunk_.at_end.empty()) done = done | watch_room(runs_.step(), done);
      const auto [paused, lost] = runs_.move_on();
      if (any(done | paused | lost)) change_over(done, paused, lost);
    }
  }

 private:
  struct Lane {
    std::size_t index = 0;
    const std::vector<Handling>* handlings = nullptr;
    double until = 0;   // [h]
    double target = 2;  // volume ratio
    kinetics::StateOf<double> at_ready{};
    kinetics::DoughTerms<double> dough{};
    Terms<double> terms{};  // of the dough, as warm as it is now
    Present present;
    std::size_t handling = 0;  // the next one
    std::size_t segment = 1;   // of the track, the next one
    std::size_t sample = 0;    // the next one
    double start_celsius = 0;
    double peak_rise = 1;
  };

  [[nodiscard]] BARM_INLINE Passed& passed(int lane) {
    return chunk_.passed[lane_[at(lane)].index];
  }

  [[nodiscard]] BARM_INLINE static std::size_t at(int lane) {
    return static_cast<std::size_t>(lane);
  }

  BARM_INLINE void load_next(int lane) {
    while (next_ < chunk_.cases.size()) {
      if (load(lane, next_++)) return;
    }
    runs_.retire(lane);
  }

  // False when the run ends where it begins.
  [[gnu::noinline]] bool load(int lane, std::size_t index) {
    const Case& one = chunk_.cases[index];
    Lane& own = lane_[at(lane)];
    own = {};
    own.index = index;
    own.present = kinetics::present(one.dough);
    own.handlings = one.handlings ? &*one.handlings : &proving_.handlings;
    own.until = std::min(horizon_, one.until);
    own.target = one.target > 0 ? one.target : proving_.target;
    const double begin = one.under_way ? one.under_way->at : 0;
    const auto segments = one.track.segments();
    own.start_celsius = one.under_way      ? one.under_way->start_celsius
                        : segments.empty() ? one.temperature.celsius()
                                           : segments.front().celsius;
    double celsius = one.temperature.celsius();
    own.segment = 0;
    for (;
         own.segment < segments.size() && (own.segment == 0 || segments[own.segment].from <= begin);
         ++own.segment)
      celsius = segments[own.segment].celsius;
    own.dough = one.any_warmth
                    ? *one.any_warmth
                    : kinetics::dough_terms(
                          one.dough, one.parameters, own.start_celsius, {proving_.surface});
    enter(lane, celsius);
    const kinetics::StateOf<double> y =
        one.under_way ? one.under_way->state : kinetics::at_mixing(one.dough, one.parameters);
    const double held = y[kinetics::gas_held];
    if (y[kinetics::acidity] <= proving_.sour_at) passed(lane).sour = begin;
    fifth_.set(lane, held_at(fifth, own.terms));
    ready_.set(lane, held_at(own.target, own.terms));
    if (one.under_way && !take_up(lane, y, begin)) return false;
    collapsed_.set(lane, -1);
    most_held_.set(lane, held);
    least_room_.set(lane, out_of_reach);
    least_wanted_.set(lane, one.least_room);
    own.sample = every_ > 0 ? static_cast<std::size_t>(std::ceil(begin / every_ - 1e-9)) : 0;
    next_sample_.set(
        lane,
        own.sample < chunk_.samples ? static_cast<double>(own.sample) * every_ : out_of_reach);
    runs_.load(lane, y, next_pause(own, begin), begin);
    return true;
  }

  // A dough on its way may be past some of it; false when the run is over by that.
  bool take_up(int lane, const kinetics::StateOf<double>& y, double begin) {
    Lane& own = lane_[at(lane)];
    const double rise = rise_at(y[kinetics::gas_held], own.terms);
    Passed& passed_ = passed(lane);
    if (rise >= fifth) {
      passed_.fifth = begin;
      fifth_.set(lane, out_of_reach);
    }
    if (rise >= own.target) {
      passed_.ready = begin;
      ready_.set(lane, out_of_reach);
    }
    const bool over = begin >= own.until || (proving_.stop_at_target && rise >= own.target);
    if (!over) return true;
    passed_.end = begin;
    passed_.largest_rise = rise;
    if (!chunk_.at_end.empty()) chunk_.at_end[own.index] = y;
    return false;
  }

  // The terms of the lane's dough at this temperature.
  BARM_INLINE void enter(int lane, double celsius) {
    Lane& own = lane_[at(lane)];
    const Case& one = chunk_.cases[own.index];
    own.terms = kinetics::terms_at(celsius, own.dough, one.dough, one.parameters);
    silence_what_is_absent(own.terms, own.present);
    put(terms_, lane, own.terms);
  }

  // The time of the next handling or step of temperature after t, or the horizon.
  [[nodiscard]] BARM_INLINE double next_pause(Lane& own, double t) const {
    const auto& handlings = *own.handlings;
    while (own.handling < handlings.size() && handlings[own.handling].at.in(hour) <= t)
      ++own.handling;
    double next = own.until;
    if (own.handling < handlings.size()) next = std::min(next, handlings[own.handling].at.in(hour));
    const auto segments = chunk_.cases[own.index].track.segments();
    if (own.segment < segments.size()) next = std::min(next, segments[own.segment].from);
    return next;
  }

  // The buffering of flour jumps at one pH, and no method keeps its order across a jump. A step
  // that would leap over it, or whose stages may have, is taken again: first to end short of it,
  // then to cross it by as much again.
  BARM_INLINE void cross_bend_gently(const Step& step) {
    const P& before = step.y_begin[kinetics::acidity];
    const P& after = step.y_end[kinetics::acidity];
    const P fall = before - after;
    const Condition leap =
        (before > P(bend)) & (after < P(fall * 0.1 + bend)) & (fall > P(gentle)) & step.accepted;
    if (!any(leap)) return;
    for (int lane = 0; lane < P::lanes; ++lane) {
      if (!leap[lane]) continue;
      const auto ph = step.component(kinetics::acidity, lane);
      const double above = ph.c0 - bend;
      const double drop =
          above > gentle / 2 ? std::min(0.8 * above, above - gentle / 8) : 2 * above;
      const double share =
          above > gentle / 2 ? numerics::crossing([&](double s) { return ph.at(s) - ph.c0 + drop; })
                             : drop / -ph.slope(0);
      runs_.shorten(lane, std::clamp(share, 1e-3, 0.99));
    }
  }

  // Notes what the accepted lanes passed in this step; the lanes that are done by it.
  BARM_INLINE Condition watch(const Step& step) {
    const P& before = step.y_begin[kinetics::gas_held];
    const P& after = step.y_end[kinetics::gas_held];
    const Condition counts = step.accepted;
    const Condition up_fifth = (before < fifth_) & (after >= fifth_) & counts;
    const Condition up_ready = (before < ready_) & (after >= ready_) & counts;
    const Condition turned = (step.k[0][kinetics::gas_held] > P(0.0)) &
                             (step.k[6][kinetics::gas_held] <= P(0.0)) & counts;
    const Condition sampled = (next_sample_ <= P(step.begin + step.length)) & counts;
    const P sour(proving_.sour_at);
    const Condition soured =
        (step.y_begin[kinetics::acidity] > sour) & (step.y_end[kinetics::acidity] <= sour) & counts;
    Condition done;
    if (any(up_fifth | up_ready | turned | sampled | soured)) {
      for (int lane = 0; lane < P::lanes; ++lane) {
        if (sampled[lane]) sample(step, lane);
        if (soured[lane]) note_sour(step, lane);
        if (up_fifth[lane]) passed(lane).fifth = time_of(step, lane, fifth_);
        if (up_ready[lane]) done.set(lane, note_ready(step, lane));
        if (turned[lane] && !done[lane]) done.set(lane, note_peak(step, lane));
      }
    }
    const Condition on = counts & !done;
    most_held_ = numerics::select(on, numerics::larger(most_held_, after), most_held_);
    const Condition down = (before >= collapsed_) & (after < collapsed_) & on;
    if (any(down)) {
      for (int lane = 0; lane < P::lanes; ++lane) {
        if (!down[lane]) continue;
        passed(lane).collapsed = time_of(step, lane, collapsed_);
        if (!proving_.stop_collapsed) continue;
        passed(lane).end = passed(lane).collapsed;
        done.set(lane, true);
      }
    }
    return done;
  }

  // The least room left to rise into; the lanes that have less than they want.
  BARM_INLINE Condition watch_room(const Step& step, const Condition& done) {
    const P room = system_.limit(step.y_end) / system_.rise(step.y_end) - P(1.0);
    const Condition counts = step.accepted & !done;
    least_room_ = numerics::select(counts, numerics::smaller(least_room_, room), least_room_);
    const Condition short_of_room = counts & (least_room_ < least_wanted_);
    if (any(short_of_room)) {
      for (int lane = 0; lane < P::lanes; ++lane) {
        if (short_of_room[lane]) passed(lane).end = step.time(1, lane);
      }
    }
    return short_of_room;
  }

  // When the gas held crosses a level, each crossing once: afterwards the level is out of reach.
  BARM_INLINE double time_of(const Step& step, int lane, P& level, double until = 1) {
    const auto wanted = static_cast<double>(level[lane]);
    const auto held = step.component(kinetics::gas_held, lane);
    level.set(lane, &level == &collapsed_ ? -1 : out_of_reach);
    return step.time(
        until * numerics::crossing([&](double s) { return held.at(s * until) - wanted; }), lane);
  }

  // Doughs only turn sourer: acid is made and never used up.
  BARM_INLINE void note_sour(const Step& step, int lane) {
    const auto ph = step.component(kinetics::acidity, lane);
    passed(lane).sour =
        step.time(numerics::crossing([&](double s) { return ph.at(s) - proving_.sour_at; }), lane);
  }

  // True when the run ends with it.
  BARM_INLINE bool note_ready(const Step& step, int lane, double until = 1) {
    passed(lane).ready = time_of(step, lane, ready_, until);
    if (!proving_.stop_at_target) return false;
    passed(lane).end = passed(lane).ready;
    Lane& own = lane_[at(lane)];
    most_held_.set(lane, held_at(own.target, own.terms));
    if (!chunk_.at_end.empty()) {
      const double s = (passed(lane).ready - static_cast<double>(step.begin[lane])) /
                       static_cast<double>(step.length[lane]);
      for (std::size_t i = 0; i < own.at_ready.size(); ++i)
        own.at_ready[i] = step.component(i, lane).at(s);
    }
    return true;
  }

  // Where in the step the gas held is most: by the equations themselves, since the polynomial's
  // slope is worth an order less than its height.
  [[gnu::noinline]] static double top_of(const Step& step, int lane, const Lane& own) {
    std::array<numerics::Quartic, kinetics::state_count> inside;
    for (std::size_t i = 0; i < inside.size(); ++i) inside[i] = step.component(i, lane);
    const kinetics::System<double> system(own.terms, own.present);
    return numerics::crossing([&](double s) {
      kinetics::StateOf<double> y;
      kinetics::StateOf<double> dy;
      for (std::size_t i = 0; i < y.size(); ++i) y[i] = inside[i].at(s);
      system(0.0, y, dy);
      return dy[kinetics::gas_held];
    });
  }

  // The gas held turns from more to less: a peak, if it is the largest so far. A level passed on
  // the way up and again on the way down within the step is found here.
  BARM_INLINE bool note_peak(const Step& step, int lane) {
    const auto held = step.component(kinetics::gas_held, lane);
    const double s = top_of(step, lane, lane_[at(lane)]);
    // A step that begins higher than ever and rises has the largest volume in it, to the last digit
    // or not.
    const bool largest = held.c0 >= static_cast<double>(most_held_[lane]) ||
                         held.at(s) > static_cast<double>(most_held_[lane]);
    const double most = std::max(held.at(s), held.c0);
    if (most >= static_cast<double>(fifth_[lane]))
      passed(lane).fifth = time_of(step, lane, fifth_, s);
    if (most >= static_cast<double>(ready_[lane]) && note_ready(step, lane, s)) return true;
    if (!largest) return false;
    most_held_.set(lane, most);
    const Terms<double>& terms = lane_[at(lane)].terms;
    const double top = rise_at(most, terms);
    if (top <= least_peak) return false;
    peaked(lane, step.time(s, lane), top);
    return false;
  }

  BARM_INLINE void peaked(int lane, double when, double top) {
    passed(lane).peak = when;
    passed(lane).collapsed = Passed::never;
    lane_[at(lane)].peak_rise = top;
    collapsed_.set(lane, held_at(1 + collapse * (top - 1), lane_[at(lane)].terms));
  }

  // The lane's temperature steps, and its volume leaps (course.cpp says how); true when the run
  // ends with it. What is not passed yet is passed at other amounts of gas from here on.
  [[gnu::noinline]] bool leap(int lane, double t, double held, double celsius) {
    Lane& own = lane_[at(lane)];
    const double before = rise_at(held, own.terms);
    const double most = rise_at(static_cast<double>(most_held_[lane]), own.terms);
    const bool rising = runs_.step().k[0][kinetics::gas_held][lane] > 0;
    enter(lane, celsius);
    const double after = rise_at(held, own.terms);
    const double top = std::max(before, after);
    if (passed(lane).fifth == Passed::never)
      fifth_.set(lane, after >= fifth ? out_of_reach : held_at(fifth, own.terms));
    if (after >= fifth && passed(lane).fifth == Passed::never) passed(lane).fifth = t;
    if (passed(lane).ready == Passed::never) {
      const bool reached = after >= own.target;
      ready_.set(lane, reached ? out_of_reach : held_at(own.target, own.terms));
      if (reached) passed(lane).ready = t;
      if (reached && proving_.stop_at_target) {
        passed(lane).end = t;
        most_held_.set(lane, held_at(std::max(most, own.target), own.terms));
        own.at_ready = state_of(lane);
        own.at_ready[kinetics::gas_held] = held;
        return true;
      }
    }
    most_held_.set(lane, held_at(std::max(most, top), own.terms));
    if ((after < before) == rising && top >= most && top > least_peak) {
      peaked(lane, t, top);
    } else if (static_cast<double>(collapsed_[lane]) >= 0) {
      collapsed_.set(lane, held_at(1 + collapse * (own.peak_rise - 1), own.terms));
    }
    const double ratio = 1 + collapse * (own.peak_rise - 1);
    if (passed(lane).peak < Passed::never && passed(lane).collapsed == Passed::never &&
        before >= ratio && after < ratio) {
      passed(lane).collapsed = t;
      collapsed_.set(lane, -1);
    }
    return false;
  }

  BARM_INLINE void sample(const Step& step, int lane) {
    const auto held = step.component(kinetics::gas_held, lane);
    Lane& own = lane_[at(lane)];
    const auto begin = static_cast<double>(step.begin[lane]);
    const auto length = static_cast<double>(step.length[lane]);
    const std::size_t first = own.index * chunk_.samples;
    for (; own.sample < chunk_.samples; ++own.sample) {
      const double s = (static_cast<double>(own.sample) * every_ - begin) / length;
      if (s > 1 + 1e-6) break;
      chunk_.rise[first + own.sample] = static_cast<float>(rise_at(held.at(s), own.terms));
      if (!chunk_.ph.empty())
        chunk_.ph[first + own.sample] =
            static_cast<float>(step.component(kinetics::acidity, lane).at(s));
    }
    next_sample_.set(
        lane,
        own.sample < chunk_.samples ? static_cast<double>(own.sample) * every_ : out_of_reach);
  }

  // Ends the runs that are over and goes on with others in their lanes.
  BARM_INLINE void change_over(const Condition& done,
                               const Condition& paused,
                               const Condition& lost) {
    for (int lane = 0; lane < P::lanes; ++lane) {
      if (done[lane]) {
        finish(lane);
      } else if (paused[lane]) {
        handle_or_finish(lane);
      } else if (lost[lane]) {
        chunk_.lost[lane_[at(lane)].index] = 1;
        load_next(lane);
      }
    }
  }

  BARM_INLINE void handle_or_finish(int lane) {
    Lane& own = lane_[at(lane)];
    const auto t = static_cast<double>(runs_.step().begin[lane]);
    if (reached_time(t, own.until)) {
      passed(lane).end = own.until;
      return finish(lane);
    }
    auto held = static_cast<double>(runs_.step().y_begin[kinetics::gas_held][lane]);
    const auto& handlings = *own.handlings;
    const auto reached = [&](double when) { return reached_time(t, when); };
    double until = t;
    for (; own.handling < handlings.size() && reached(handlings[own.handling].at.in(hour));
         ++own.handling) {
      held -= handlings[own.handling].gas_out * kinetics::gas_in_bubbles(held, own.terms.gas);
      until = handlings[own.handling].at.in(hour);
    }
    const auto segments = chunk_.cases[own.index].track.segments();
    for (; own.segment < segments.size() && reached(segments[own.segment].from); ++own.segment) {
      until = segments[own.segment].from;
      if (leap(lane, until, held, segments[own.segment].celsius)) return finish(lane);
    }
    runs_.change(lane, kinetics::gas_held, held);
    runs_.go_on_until(lane, next_pause(own, until));
  }

  // A lane of short numbers halts at the time as it can write it.
  [[nodiscard]] BARM_INLINE static bool reached_time(double t, double when) {
    return t >= static_cast<double>(static_cast<typename P::Real>(when));
  }

  [[nodiscard]] kinetics::StateOf<double> state_of(int lane) const {
    kinetics::StateOf<double> y;
    for (std::size_t i = 0; i < y.size(); ++i)
      y[i] = static_cast<double>(runs_.step().y_begin[i][lane]);
    return y;
  }

  BARM_INLINE void finish(int lane) {
    if (!chunk_.at_end.empty()) {
      Lane& own = lane_[at(lane)];
      const bool by_target = proving_.stop_at_target && passed(lane).is_ready();
      chunk_.at_end[own.index] = by_target ? own.at_ready : state_of(lane);
      passed(lane).least_room = static_cast<double>(least_room_[lane]);
    }
    passed(lane).largest_rise =
        rise_at(static_cast<double>(most_held_[lane]), lane_[at(lane)].terms);
    if (passed(lane).largest_rise > lane_[at(lane)].peak_rise * (1 + 1e-6)) {
      passed(lane).peak = passed(lane).collapsed = Passed::never;  // it rose on to the end
    }
    if (passed(lane).sour > passed(lane).end) passed(lane).sour = Passed::never;
    load_next(lane);
  }

  const LanesChunk& chunk_;
  const Proving& proving_;
  double every_, horizon_;
  Terms<P> terms_{};
  kinetics::System<P> system_;
  Runs runs_;
  std::array<Lane, static_cast<std::size_t>(P::lanes)> lane_{};
  std::size_t next_ = 0;
  P fifth_, ready_, collapsed_;  // gas held at which each comes to pass [mmol]
  P most_held_, next_sample_;
  P least_room_, least_wanted_;  // of the room left to rise into
};

template <class P>
BARM_INLINE void run_lanes(const LanesChunk& chunk, const Present& present) {
  Runner<P> runner(chunk, present);
  runner.go();
}

using Doubles = Pack<double>;
using Floats = Pack<float>;

void run_doubles(const LanesChunk& chunk, const Present& present) {
  run_lanes<Doubles>(chunk, present);
}

void run_floats(const LanesChunk& chunk, const Present& present) {
  run_lanes<Floats>(chunk, present);
}

#ifdef BARM_LANES_AVX2
BARM_LANES_AVX2 void run_doubles_avx2(const LanesChunk& chunk, const Present& present) {
  run_lanes<Doubles>(chunk, present);
}

BARM_LANES_AVX2 void run_floats_avx2(const LanesChunk& chunk, const Present& present) {
  run_lanes<Floats>(chunk, present);
}
#endif

}  // namespace

void run_in_lanes(const LanesChunk& chunk,
                  Precision precision,
                  numerics::Instructions instructions) {
  const Present present = any_of(chunk.cases);
  const bool full = precision == Precision::full;
#ifdef BARM_LANES_AVX2
  if (instructions == numerics::Instructions::avx2) {
    return full ? run_doubles_avx2(chunk, present) : run_floats_avx2(chunk, present);
  }
#endif
  return full ? run_doubles(chunk, present) : run_floats(chunk, present);
}

}  // namespace barm::forecast::internal
