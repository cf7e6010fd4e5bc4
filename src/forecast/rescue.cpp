#include "forecast/rescue.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "forecast/bodies.h"
#include "forecast/internal/for_each.h"
#include "forecast/many.h"
#include "forecast/warmth.h"
#include "generated/constants.h"
#include "kinetics/blend.h"
#include "kinetics/system.h"
#include "numerics/quantiles.h"

namespace barm::forecast {

namespace {

namespace limits = constants::rescue;
using internal::for_each;
using kinetics::DoughState;

constexpr std::size_t fewest = 20;  // doughs an answer may rest on
constexpr int enough_doughs = 60;   // that are late; more are imagined until then
constexpr int most_doughs = 3200;
constexpr Time behind = 24.0 * hour;  // how long after the last hour the runs go on, for the spread

// A dough as it stands now.
struct Present {
  const Draw* draw = nullptr;
  DoughState standing;
  double volume = 0;  // [L/kg] at mixing
  double rise = 1;
  double fifth = Passed::never;  // hours after mixing
  std::optional<double> top;
  bool was_ready = false;
  double celsius = 24;  // now
  double pace = 1;      // hours of fermentation in an hour on the clock
  double mixed_celsius = 24;
  Time bulk_begins_in;  // zero once it has begun
  heat::Track staying;  // where it stands, from now on; empty when it is kept at one temperature
};

// What is done, for all doughs alike.
struct Deed {
  Remedy remedy = Remedy::wait;
  std::optional<Temperature> place = std::nullopt;
  Shares shares = {};
};

std::vector<Deed> usual_plans(const formula::Bake& bake, const Rescue& rescue) {
  std::vector<Deed> plans{{.remedy = Remedy::wait}};
  const bool ahead = rescue.options.not_before.has_value();
  std::vector<Temperature> places = rescue.options.places;
  if (places.empty()) {
    for (const double celsius : {4.0, 12.0, 26.0, 28.0})
      places.push_back(Temperature::from_celsius(celsius));
  }
  for (const Temperature place : places) {
    const double above = place.celsius() - rescue.temperature.celsius();
    const bool asked = !rescue.options.places.empty();
    if (above > 1 && (asked || !ahead)) plans.push_back({Remedy::warm, place});
    if (above < -1 && (asked || ahead)) plans.push_back({Remedy::cool, place});
  }
  const bool raised_by_levain = bake.find("levain").has_value();
  const auto knead = [&](Remedy remedy, const Shares& shares) {
    plans.push_back({.remedy = remedy, .shares = shares});
  };
  if (raised_by_levain && !ahead) {
    for (const double share : {0.1, 0.2}) knead(Remedy::levain, {.levain = share});
  }
  if (!ahead) knead(Remedy::yeast, {.yeast = 0.005});
  for (const double share : {0.25, 0.5, 1.0}) knead(Remedy::thin, {.flour = share});
  if (raised_by_levain && !ahead) knead(Remedy::thin_with_levain, {.levain = 0.1, .flour = 0.5});
  return plans;
}

// --- the dough as it stands ---

Result<Present> stand(const Imagined& dough,
                      const Rescue& rescue,
                      const Warmth& warmth,
                      Proving proving) {
  const Draw& draw = dough.draw;
  const heat::Track& measured = rescue.options.measured;
  proving.track = measured.empty() ? warmth.bulk(draw.transfer_luck) : measured;
  proving.horizon = dough.worked ? *dough.worked * hour : rescue.options.now;
  proving.sample_every = 0.0 * hour;
  proving.accuracy.relative = 1e-5;
  const auto course = run(draw.dough, draw.parameters, proving);
  if (!course) return failure(course);
  const heat::Track track = track_of(proving);
  const double mixed = track.segments().front().celsius;
  Present now;
  now.pace = dough.pace;
  now.mixed_celsius = mixed;
  now.bulk_begins_in = std::max(Time{}, proving.ready_from - rescue.options.now);
  now.celsius = track.celsius_at(rescue.options.now.in(hour));
  if (!proving.track.empty()) now.staying = proving.track.after(rescue.options.now.in(hour));
  const auto terms = kinetics::terms(draw.dough, draw.parameters, now.celsius, mixed);
  now.draw = &draw;
  now.standing = {draw.dough, course->at_end, draw.bowl.flour / draw.bowl.dough};
  now.volume = terms.volume_at_start;
  now.rise = kinetics::volume(course->at_end[kinetics::gas_held], terms.gas) / now.volume;
  // In its own hours; on the clock it is behind it at least.
  if (course->fifth) now.fifth = std::min(course->fifth->in(hour), rescue.options.now.in(hour));
  now.was_ready = course->ready.has_value();
  if (course->peak) now.top = course->largest_rise;
  return now;
}

// Those of a dough that is late: none that would be ready by now, unless readings chose them.
std::vector<Present> late_ones(std::vector<Present> doughs, Rescue& rescue) {
  const RescueOptions& options = rescue.options;
  if (!options.read && !options.not_before)
    std::erase_if(doughs, [](const Present& dough) { return dough.was_ready; });
  rescue.draws = static_cast<int>(doughs.size());
  return doughs;
}

// --- from here on ---

// Temperatures on the clock as a dough of its own pace meets them.
heat::Track in_its_hours(const heat::Track& track, double pace) {
  std::vector<heat::Segment> segments;
  for (const heat::Segment& segment : track.segments())
    segments.push_back({pace * segment.from, segment.celsius});
  return segments.empty() ? track : heat::Track::of(segments);
}

// From now on, in the dough's own hours.
Proving going_on(const Present& now, const heat::Track& track, const Rescue& rescue, Time horizon) {
  Proving proving;
  proving.temperature = Temperature::from_celsius(now.celsius);
  proving.track = in_its_hours(track, now.pace);
  proving.target = rescue.target;
  proving.horizon = now.pace * horizon;
  proving.sample_every = 0.0 * hour;
  proving.accuracy.relative = 1e-5;
  proving.ready_from = now.pace * now.bulk_begins_in;
  return proving;
}

// A moment of such a run on the clock, hours after mixing.
double on_the_clock(Time at, const Present& now, const Rescue& rescue) {
  return rescue.options.now.in(hour) + at.in(hour) / now.pace;
}

struct Ending {
  double ready = Passed::never, past = Passed::never;  // hours after mixing
};

struct Changed {
  DoughState standing;
  std::optional<double> top;
};

Result<Changed> change(const Present& now, const Deed& plan, const Kneaded& kneaded) {
  if (!plan.shares.any()) return Changed{now.standing, now.top};
  const auto after = knead(now.standing, *now.draw, kneaded, now.celsius);
  if (!after) return failure(after);
  return Changed{*after, std::nullopt};
}

Result<Ending> go_on(const Present& now,
                     const Changed& changed,
                     const Rescue& rescue,
                     const heat::Track& track) {
  Proving proving = going_on(now, track, rescue, rescue.options.by - rescue.options.now + behind);
  proving.beginning = Beginning{changed.standing.state, now.volume, changed.top, now.mixed_celsius};
  const auto course = run(changed.standing.dough, now.draw->parameters, proving);
  if (!course) return failure(course);
  Ending outcome;
  if (course->ready) outcome.ready = on_the_clock(*course->ready, now, rescue);
  if (course->collapsed) outcome.past = on_the_clock(*course->collapsed, now, rescue);
  return outcome;
}

// How the dough takes on the warmth of another place.
heat::Track moved(const Present& now,
                  const formula::Surroundings& surroundings,
                  Temperature place,
                  Time horizon) {
  const formula::Vessel vessel = surroundings.vessel.value_or(formula::Vessel::tub);
  const Mass mass = surroundings.each.value_or(now.draw->bowl.dough);
  const Temperature about = Temperature::from_celsius(0.5 * (now.celsius + place.celsius()));
  const heat::Body body = body_in(surroundings,
                                  vessel,
                                  mass,
                                  makeup_of(*now.draw),
                                  about,
                                  std::max(1.0, now.rise),
                                  now.draw->transfer_luck);
  heat::Place there;
  there.settles = there.opens = place;
  constexpr heat::Method coarse{8, 0.25 * hour};
  return heat::warm(body, {now.celsius}, there, {}, horizon, coarse).track();
}

double gas_rate(const DoughState& standing,
                const kinetics::Parameters<double>& parameters,
                double celsius) {
  const auto terms = kinetics::terms(standing.dough, parameters, celsius, celsius);
  const kinetics::System<double> system(terms, kinetics::present(standing.dough));
  kinetics::StateOf<double> dy;
  system(0, standing.state, dy);
  return dy[kinetics::yeast_gas] +
         constants::bacteria::gas_per_hexose.value.si() * dy[kinetics::bacteria_sugar];
}

double alcohol(const DoughState& standing) {
  return standing.ethanol() / standing.dough.water_phase;
}

// What the middle one of the doughs says of a way: numbers for its reason.
std::optional<Error> explain(const std::vector<Present>& doughs,
                             const Deed& plan,
                             const Kneaded& kneaded,
                             const formula::Surroundings& surroundings,
                             WayOut& way) {
  std::vector<std::size_t> order(doughs.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return doughs[a].rise < doughs[b].rise;
  });
  const Present& middle = doughs[order[order.size() / 2]];
  const double here = middle.celsius;
  const auto changed = change(middle, plan, kneaded);
  if (!changed) return changed.error();
  way.alcohol_before = alcohol(middle.standing);
  way.alcohol_after = alcohol(changed->standing);
  const double there = plan.place ? plan.place->celsius() : here;
  if (plan.place)
    way.degrees_after_hour = moved(middle, surroundings, *plan.place, 2.0 * hour).celsius_at(1);
  const double waiting = gas_rate(middle.standing, middle.draw->parameters, here);
  if (waiting > 0)
    way.speed = gas_rate(changed->standing, middle.draw->parameters, there) / waiting;
  return std::nullopt;
}

Result<WayOut> follow(const formula::Bake& bake,
                      const std::vector<Present>& doughs,
                      const Deed& plan,
                      const Rescue& rescue) {
  const formula::Bowl& bowl = doughs.front().draw->bowl;
  const Kneaded kneaded = addition_of(bake, bowl, plan.shares);
  WayOut way;
  way.remedy = plan.remedy;
  way.place = plan.place;
  way.addition = weights(kneaded);
  const RescueOptions& options = rescue.options;
  const Time horizon = options.by - options.now + behind;
  const bool yeasted = !bake.find("levain").has_value();
  way.too_warm = !yeasted && plan.place && *plan.place > limits::warmest.value;
  const formula::Stage* bulk = bake.bulk();
  const formula::Surroundings surroundings =
      bulk != nullptr ? bulk->surroundings : formula::Surroundings{};
  std::vector<Ending> outcomes(doughs.size());
  auto error = for_each(
      doughs.size(),
      options.threads,
      options.cancelled,
      [&](std::size_t i) -> std::optional<Error> {
        const auto changed = change(doughs[i], plan, kneaded);
        if (!changed) return changed.error();
        const auto outcome = go_on(
            doughs[i],
            *changed,
            rescue,
            plan.place ? moved(doughs[i], surroundings, *plan.place, horizon) : doughs[i].staying);
        if (!outcome) return outcome.error();
        outcomes[i] = *outcome;
        return std::nullopt;
      });
  if (!error) error = explain(doughs, plan, kneaded, surroundings, way);
  if (error) return failure(*error);
  std::vector<double> ready;
  std::vector<double> past;
  double good = 0;
  const double by = options.by.in(hour);
  const double from = options.not_before.value_or(options.now).in(hour);
  for (const Ending& outcome : outcomes) {
    ready.push_back(outcome.ready);
    past.push_back(outcome.past);
    if (outcome.ready <= by && outcome.past > std::max(from, outcome.ready)) ++good;
  }
  way.in_time = Probability(good / static_cast<double>(outcomes.size()));
  way.ready = spread(std::move(ready));
  way.past = spread(std::move(past));
  return way;
}

// The first hour after now at which a dough that has not risen by a fifth is ready by the last hour
// in fewer than one of ten cases.
Result<GivingUp> giving_up(const std::vector<Present>& doughs, const Rescue& rescue) {
  const RescueOptions& options = rescue.options;

  struct Pair {
    double fifth, ready;
  };

  std::vector<Pair> pairs(doughs.size());
  const auto error = for_each(
      doughs.size(),
      options.threads,
      options.cancelled,
      [&](std::size_t i) -> std::optional<Error> {
        Proving proving =
            going_on(doughs[i], doughs[i].staying, rescue, options.by - options.now + 1.0 * hour);
        proving.beginning = Beginning{
            doughs[i].standing.state, doughs[i].volume, doughs[i].top, doughs[i].mixed_celsius};
        const auto course = run(doughs[i].standing.dough, doughs[i].draw->parameters, proving);
        if (!course) return course.error();
        pairs[i].fifth = doughs[i].fifth;
        if (pairs[i].fifth == Passed::never && course->fifth)
          pairs[i].fifth = on_the_clock(*course->fifth, doughs[i], rescue);
        pairs[i].ready =
            course->ready ? on_the_clock(*course->ready, doughs[i], rescue) : Passed::never;
        return std::nullopt;
      });
  if (error) return failure(*error);
  GivingUp result;
  const double by = options.by.in(hour);
  for (double at = options.now.in(hour); at < by; at += 0.25) {
    int late = 0;
    int still = 0;
    int early = 0;
    int in_time = 0;
    for (const Pair& pair : pairs) {
      const bool ready = pair.ready <= by;
      if (pair.fifth > at) {
        ++late;
        if (ready) ++still;
      } else {
        ++early;
        if (ready) ++in_time;
      }
    }
    if (late < static_cast<int>(fewest)) break;             // too few to speak of
    if (at == options.now.in(hour) && late < early) break;  // it has begun to rise
    if (10 * still >= late) continue;
    result.at = at * hour;
    if (early > 0) result.before = Probability(static_cast<double>(in_time) / early);
    break;
  }
  return result;
}

// How much a way meddles: the order in which bakers would rather do things.
int meddling(const WayOut& way) { return static_cast<int>(way.remedy); }

bool better(const WayOut& a, const WayOut& b, Probability enough) {
  if (a.too_warm != b.too_warm) return b.too_warm;
  const bool a_does = a.in_time >= enough;
  const bool b_does = b.in_time >= enough;
  if (a_does != b_does) return a_does;
  if (a_does && meddling(a) != meddling(b)) return meddling(a) < meddling(b);
  if (a.in_time != b.in_time) return a.in_time > b.in_time;
  return meddling(a) < meddling(b);
}

// The doughs as they stand now, those that can be this one.
Result<std::vector<Present>> standing(const formula::Bake& bake,
                                      const std::vector<Imagined>& draws,
                                      Rescue& answer) {
  Options whole;
  whole.temperature = answer.temperature;
  whole.horizon = answer.options.by + behind;
  const Proving proving = proving_of(bake, whole);
  const auto middle = draw(bake, answer.options.seed, -1, *answer.options.prior);
  if (!middle) return failure(middle);
  const auto warmth = Warmth::of(bake, *middle, proving);
  if (!warmth) return failure(warmth);
  std::vector<Present> doughs(draws.size());
  const auto error = for_each(draws.size(),
                              answer.options.threads,
                              answer.options.cancelled,
                              [&](std::size_t i) -> std::optional<Error> {
                                auto now = stand(draws[i], answer, *warmth, proving);
                                if (!now) return now.error();
                                doughs[i] = *now;
                                return std::nullopt;
                              });
  if (error) return failure(*error);
  return late_ones(std::move(doughs), answer);
}

Result<Rescue> checked(const formula::Bake& bake, const RescueOptions& options) {
  if (!(options.now.si() >= 0))
    return failure(ErrorCode::bad_input, "now", "hours after mixing, such as 30h");
  if (!(options.by > options.now)) {
    return failure(
        ErrorCode::bad_input, "by", "must come after now; there is no time left to do anything");
  }
  if (options.not_before && !(*options.not_before < options.by))
    return failure(ErrorCode::bad_input, "not-before", "must come before the hour of --by");
  for (const Temperature place : options.places) {
    if (!(place.celsius() >= 0 && place.celsius() <= 45))
      return failure(ErrorCode::bad_input, "place", "a temperature from 0 C to 45 C, such as 28C");
  }
  Rescue rescue;
  rescue.options = options;
  rescue.target = options.target > 0 ? options.target : bake.target;
  rescue.temperature = options.temperature.value_or(bake.bulk_temperature());
  return rescue;
}

}  // namespace

namespace {

Result<int> how_many_are_late(const formula::Bake& bake,
                              const std::vector<Imagined>& draws,
                              const RescueOptions& options) {
  auto answer = checked(bake, options);
  if (!answer) return failure(answer);
  const auto doughs = standing(bake, draws, *answer);
  if (!doughs) return failure(doughs);
  return answer->draws;
}

}  // namespace

Result<Rescue> rescue(const formula::Bake& asked,
                      const std::vector<Imagined>& draws,
                      const RescueOptions& options) {
  const formula::Bake bake = forecast::Plan::of(asked, {}).bake;
  auto answer = checked(bake, options);
  if (!answer) return failure(answer);
  if (draws.empty())
    return failure(ErrorCode::bad_input, "draws", "there are no doughs to simulate");
  answer->imagined = static_cast<int>(draws.size());
  answer->dough = draws.front().draw.bowl.dough;
  auto stood = standing(bake, draws, *answer);
  if (!stood) return failure(stood);
  const std::vector<Present> doughs = std::move(*stood);
  if (answer->draws < static_cast<int>(fewest)) {
    return failure(
        ErrorCode::bad_input,
        "now",
        fmt::format("only {} of {} simulated doughs are late at that hour; say how far yours has "
                    "risen, look at the hour, the temperature and the bake, or simulate more "
                    "doughs",
                    answer->draws,
                    answer->imagined));
  }
  answer->temperature = Temperature::from_celsius(doughs.front().celsius);
  std::vector<double> rises;
  for (const Present& dough : doughs) rises.push_back(dough.rise);
  const auto sorted = numerics::sorted(std::move(rises));
  answer->rise_low = numerics::quantile(sorted, 0.1);
  answer->rise_middle = numerics::quantile(sorted, 0.5);
  answer->rise_high = numerics::quantile(sorted, 0.9);

  for (const Deed& plan : usual_plans(bake, *answer)) {
    auto way = follow(bake, doughs, plan, *answer);
    if (!way) return failure(way);
    answer->ways.push_back(*way);
  }
  std::stable_sort(answer->ways.begin(), answer->ways.end(), [&](const WayOut& a, const WayOut& b) {
    return better(a, b, options.enough);
  });
  WayOut flat;
  flat.remedy = Remedy::flatbread;
  flat.in_time = Probability(1);
  answer->ways.push_back(flat);
  auto up = giving_up(doughs, *answer);
  if (!up) return failure(up);
  answer->giving_up = *up;
  return answer;
}

Result<Rescue> rescue(const formula::Bake& bake, const RescueOptions& options, int draws) {
  std::vector<Imagined> doughs;
  Options drawing;
  drawing.seed = options.seed;
  drawing.prior = options.prior;
  drawing.threads = options.threads;
  drawing.cancelled = options.cancelled;
  const auto add_until = [&](int count) -> std::optional<Error> {
    const int first = static_cast<int>(doughs.size());
    auto more = forecast::draws(bake, drawing, first, count - first);
    if (!more) return more.error();
    for (Draw& one : *more) doughs.push_back({std::move(one)});
    return std::nullopt;
  };
  for (int count = draws;; count *= 2) {
    if (const auto error = add_until(count)) return failure(*error);
    const auto late = how_many_are_late(bake, doughs, options);
    if (!late) return failure(late);
    if (*late >= std::min(enough_doughs, draws) || 2 * count > most_doughs) break;
  }
  return rescue(bake, doughs, options);
}

}  // namespace barm::forecast
