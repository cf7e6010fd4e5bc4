#include "heat/fridge.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "generated/constants.h"
#include "units/units.h"

namespace barm::heat {

namespace {

constexpr double step_hours = 0.05;
constexpr int most_rounds = 6;  // of how far a probe's file is to be believed
constexpr double band = 1;      // K over the set point at which it runs at full power

// What a dough still makes when it has cooled so far [W/kg].
double faded(const Load& load, double celsius) {
  return load.warming *
         std::exp(constants::dough_heat::sensitivity.value.si() * (celsius - load.start.celsius()));
}

double air_at(const std::vector<Chilled>& course, double hours) {
  for (std::size_t i = 1; i < course.size(); ++i) {
    if (hours > course[i].hours) continue;
    const double part = (hours - course[i - 1].hours) / (course[i].hours - course[i - 1].hours);
    return course[i - 1].air + part * (course[i].air - course[i - 1].air);
  }
  return course.back().air;
}

// What is fitted: the set point [C], ln power and ln capacity over the usual ones.
using Three = std::array<double, 3>;

Fridge fridge_of(const Three& z) {
  Fridge out = usual_fridge();
  namespace f = constants::fridge;
  out.set = Temperature::from_celsius(f::set.value.celsius() + 2 * z[0]);
  out.power *= std::exp(f::power.doubt * z[1]);
  out.capacity *= std::exp(f::capacity.doubt * z[2]);
  return out;
}

struct Misfit {
  double squares = 0;  ///< of the readings [K2]
  double cost = 0;     ///< with the prior, in standard deviations
};

constexpr double probe_doubt = 0.5;  // K, in moving air

Misfit misfit(const std::vector<ProbeReading>& air,
              const Load& load,
              const Three& z,
              double doubt) {
  const auto course = chill(fridge_of(z), load, air.back().at);
  Misfit out;
  for (const ProbeReading& one : air)
    out.squares += std::pow(air_at(course, one.at.in(hour)) - one.temperature.celsius(), 2);
  out.cost = out.squares / (doubt * doubt);
  for (const double one : z) out.cost += one * one;
  return out;
}

struct Fit {
  Three z{};
  double off = 0;  ///< root mean square of the readings [K]
};

// By coordinates in turn, each with a step that halves: three numbers, and no slope needed.
Fit fitted(const std::vector<ProbeReading>& air, const Load& load, Three z, double doubt) {
  Misfit here = misfit(air, load, z, doubt);
  for (double step = 1; step > 0.02;) {
    bool better = false;
    for (std::size_t i = 0; i < z.size(); ++i) {
      for (const double way : {step, -step}) {
        Three there = z;
        there[i] += way;
        const Misfit got = misfit(air, load, there, doubt);
        if (got.cost >= here.cost) continue;
        z = there;
        here = got;
        better = true;
        break;
      }
    }
    if (!better) step /= 2;
  }
  return {z, std::sqrt(here.squares / static_cast<double>(air.size()))};
}

}  // namespace

Fridge usual_fridge() {
  namespace f = constants::fridge;
  return {f::set.value, f::power.value.si(), f::capacity.value.si()};
}

std::vector<Chilled> chill(const Fridge& fridge, const Load& load, Time lasts) {
  const double mass = load.each.si();
  Profile profile = even(load.start);
  double mean = load.start.celsius();
  double air = fridge.set.celsius();
  std::vector<Chilled> course{{0, air, mean, mean}};
  const double end = lasts.in(hour);
  double now = 0;
  while (now < end - 1e-9) {
    const double step = std::min(step_hours, end - now);
    Place place;
    place.settles = place.opens = Temperature::from_celsius(air);
    const double made = faded(load, mean);
    const Warmed warmed =
        warm(load.body, profile, place, {{0, made}}, step * hour, {16, step * hour});
    profile = warmed.end;
    const WarmthAt& last = warmed.moments.back();
    const double given = -load.pieces * mass * warmed.through_surface;  // J
    mean = last.mean;
    const double seconds = 3600 * step;
    // Straight-lined in the air's own temperature, so that a small fridge does not ring.
    const double over = air - fridge.set.celsius();
    const double taken = fridge.power * std::clamp(over / band, 0.0, 1.0);
    const double stiff = over > 0 && over < band ? fridge.power / band : 0;
    air += (given - taken * seconds) / (fridge.capacity + stiff * seconds);
    now += step;
    course.push_back({now, air, last.middle, mean});
  }
  return course;
}

int most_at_once(const Fridge& fridge, Load load, Temperature wanted, Time within, int look_to) {
  const auto cold_enough = [&](int pieces) {
    load.pieces = pieces;
    return chill(fridge, load, within).back().middle <= wanted.celsius();
  };
  int low = 0;
  int high = look_to + 1;
  while (high - low > 1) {
    const int middle = (low + high) / 2;
    (cold_enough(middle) ? low : high) = middle;
  }
  return low;
}

Result<LearnedFridge> learn_fridge(const std::vector<ProbeReading>& air, const Load& load) {
  if (air.size() < 3 || air.back().at < 1.0 * hour)
    return failure(ErrorCode::bad_input, "", "an hour of the air, from the load on, is the least");
  Fit fit = fitted(air, load, {}, probe_doubt);
  double doubt = probe_doubt;
  for (int round = 0; round < most_rounds; ++round) {
    // What is off beyond a probe's own doubt is off in all its readings alike.
    const double own = probe_doubt * probe_doubt;
    const double more = std::max(0.0, fit.off * fit.off - own);
    const double next = std::sqrt(own + static_cast<double>(air.size()) * more);
    if (std::abs(next - doubt) < 0.03 * doubt) break;
    doubt = next;
    fit = fitted(air, load, fit.z, doubt);
  }
  return LearnedFridge{fridge_of(fit.z), fit.off};
}

}  // namespace barm::heat
