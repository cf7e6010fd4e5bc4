#include "oven/draws.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/require.h"
#include "generated/constants.h"
#include "numerics/quantiles.h"
#include "numerics/random.h"
#include "oven/internal/laid.h"

namespace barm::oven {

namespace {

constexpr double furthest = 3;  // no draw goes further out
constexpr int looks = 3;
constexpr double never = 1e9;

Luck luck_of(const Known& known, const Z& z) {
  return {known.middle.conduction + known.doubt.conduction * z[0],
          known.middle.crust + known.doubt.crust * z[1],
          known.middle.transfer + known.doubt.transfer * z[2],
          known.middle.dial + known.doubt.dial * z[3],
          known.middle.pump + known.doubt.pump * z[4],
          known.middle.begins,
          known.middle.cold};
}

Range range_of(std::vector<double>& values) {
  constexpr std::array shares{0.1, 0.5, 0.9};
  const auto q = numerics::quantiles(values, shares);
  return {q[0], q[1], q[2]};
}

// One drawn loaf: where it lies among the solved, and what only scales its answers.
struct Drawn {
  Z z{};
  double gas = 1, brown = 1, vent = 0;
  std::vector<double> core;  ///< [C] at each moment
};

std::vector<Drawn> drawn(int draws, unsigned long long seed) {
  std::vector<Drawn> out;
  for (int d = 0; d < draws; ++d) {
    numerics::Random random(seed, static_cast<unsigned long long>(d) + 7'000'000);
    const auto normal = [&] { return std::clamp(random.normal(), -furthest, furthest); };
    Drawn one;
    for (double& z : one.z) z = normal();
    one.gas = std::exp(constants::baking::kept_gas.doubt * normal());
    one.brown = constants::baking::brown_rate.doubt * normal();
    one.vent = normal();
    out.push_back(one);
  }
  return out;
}

// Notes close enough together that a core rises little between two.
Method rougher(Time lasts) {
  Method method;
  method.note_every = std::min(30.0, std::ceil(lasts.si() / 140));
  method.mesh.layers = 36;
  method.step = 8;
  return method;
}

Time long_enough(Time lasts) {
  return Time::from_si(std::min(4.0 * 3600, std::max(1.4 * lasts.si(), lasts.si() + 600)));
}

std::vector<Baked> solved_loaves(const Loaf& loaf,
                                 const Oven& oven,
                                 const Known& known,
                                 Time lasts) {
  std::vector<Baked> out;
  for (const Z& z : design())
    out.push_back(bake(loaf, oven, lasts, luck_of(known, z), rougher(lasts)));
  return out;
}

// Loaves away from the axes, solved to look how far off the laid answers are.
Laid look(const Loaf& loaf,
          const Oven& oven,
          const Known& known,
          Time lasts,
          Time asked,
          const Between& through,
          const Scale& scale,
          unsigned long long seed) {
  Laid laid;
  laid.solved = static_cast<int>(designed);
  for (int n = 0; n < looks; ++n) {
    numerics::Random random(seed, static_cast<unsigned long long>(n) + 9'000'000);
    Z z{};
    double length = 0;
    for (double& one : z) {
      one = random.normal();
      length += one * one;
    }
    // As far out as a draw usually lies.
    for (double& one : z) one *= std::sqrt(static_cast<double>(lucks) / length);
    const Baked there = bake(loaf, oven, lasts, luck_of(known, z), rougher(lasts));
    const auto cores = through.cores(z, there.course);
    for (std::size_t m = 0; m < there.course.size(); ++m) {
      if (there.course[m].seconds > asked.si() + 1) break;
      const Scaled guess = through.at(m, z);
      laid.core = std::max(laid.core, std::abs(scale.core(cores[m]) - there.course[m].core));
      laid.loss = std::max(laid.loss, std::abs(guess[loss_] - there.course[m].loss));
    }
    ++laid.looked_at;
  }
  return laid;
}

struct Answers {
  std::array<std::vector<double>, asked_count> asked;
  std::vector<double> crust;
};

Answers answers_at(std::size_t moment,
                   const Between& through,
                   const std::vector<Drawn>& draws,
                   double room) {
  Answers out;
  for (const Drawn& one : draws) {
    const Scaled y = through.at(moment, one.z);
    const double spring = std::max(0.0, y[rise_] - 1) * one.gas;
    const double values[] = {one.core[moment],
                             y[surface_],
                             std::max(0.0, y[loss_]),
                             1 - std::exp(-std::exp(y[brown_] + one.brown)),
                             1 + std::min(room, spring),
                             std::min(1.0, std::exp(y[kept_]))};
    for (std::size_t k = 0; k < asked_count; ++k) out.asked[k].push_back(values[k]);
    out.crust.push_back(std::clamp(y[crust_], 0.0, 1.0));
  }
  return out;
}

// When each draw's core has what is asked [s].
std::vector<double> done_times(const std::vector<Minute>& course, const std::vector<Drawn>& draws) {
  const double wanted = constants::baking::done_core.value.celsius();
  std::vector<double> out;
  for (const Drawn& one : draws) {
    double before = one.core.front();
    double at = never;
    for (std::size_t m = 1; m < course.size(); ++m) {
      const double now = one.core[m];
      if (now >= wanted) {
        const double part = now > before ? (wanted - before) / (now - before) : 1;
        at = course[m - 1].seconds +
             std::clamp(part, 0.0, 1.0) * (course[m].seconds - course[m - 1].seconds);
        break;
      }
      before = now;
    }
    out.push_back(at);
  }
  return out;
}

// The book's course to the end, its alcohol leaving as much as this draw's does.
std::vector<Minute> leaving_as(std::vector<Minute> course, double kept) {
  const double book = 1 - course.back().alcohol;
  const double factor = book > 1e-9 ? (1 - kept) / book : 0;
  for (Minute& minute : course) minute.alcohol_rate *= factor;
  return course;
}

void vent(const Oven& oven,
          Mass ethanol,
          const std::vector<Drawn>& draws,
          const std::vector<double>& kept,
          const std::vector<Minute>& course,
          Many& out) {
  out.vapour = vapour_in(oven, course, ethanol, vent_of(0));
  std::vector<double> shares;
  int warned = 0;
  for (std::size_t d = 0; d < draws.size(); ++d) {
    const double share = vented_share(oven, leaving_as(course, kept[d]), vent_of(draws[d].vent));
    warned += share >= out.vapour.warn_from ? 1 : 0;
    shares.push_back(share);
  }
  out.warned = static_cast<double>(warned) / static_cast<double>(draws.size());
  out.vented = range_of(shares);
}

void let_cool(const Loaf& loaf, Temperature room, Many& out) {
  constexpr Time long_cooling = 8.0 * hour;
  constexpr double tenth = 1.2816;
  const auto seconds = [](const std::optional<Time>& time) { return time ? time->si() : never; };
  const Cooled fast = cool(loaf, out.book, room, long_cooling, tenth);
  out.cooled = cool(loaf, out.book, room, long_cooling);
  const Cooled slow = cool(loaf, out.book, room, long_cooling, -tenth);
  out.cut_after = {seconds(fast.cut), seconds(out.cooled.cut), seconds(slow.cut)};
  out.bag_after = {seconds(fast.bag), seconds(out.cooled.bag), seconds(slow.bag)};
  out.cooling_loss = out.cooled.loss;
}

}  // namespace

Many many(const Loaf& loaf,
          const Oven& oven,
          const Known& known,
          Time lasts,
          Temperature room,
          int draws,
          unsigned long long seed) {
  require(draws >= 20, "a range wants draws");
  const Time all = long_enough(lasts);
  const auto solved = solved_loaves(loaf, oven, known, all);
  const Scale scale(loaf.temperature.celsius());
  const Between through(solved, scale);
  Many out;
  out.book = bake(loaf, oven, lasts, known.middle);
  out.draws = draws;
  out.laid = look(loaf, oven, known, all, lasts, through, scale, seed);
  auto made = drawn(draws, seed);
  const auto& course = solved.front().course;
  for (Drawn& one : made) {
    one.core = through.cores(one.z, course);
    for (double& core : one.core) core = scale.core(core);
  }
  std::vector<double> kept;
  for (std::size_t m = 0; m < through.moments(); ++m) {
    if (course[m].seconds > lasts.si() + 1) break;
    Answers answers = answers_at(m, through, made, loaf.room);
    const bool last = m + 1 == through.moments() || course[m + 1].seconds > lasts.si() + 1;
    if (last) {
      kept = answers.asked[static_cast<std::size_t>(Asked::alcohol)];
      std::vector<double> crumb;
      for (std::size_t d = 0; d < kept.size(); ++d)
        crumb.push_back(std::max(0.0, kept[d] - answers.crust[d]));
      out.in_crumb = range_of(crumb);
      out.in_crust = range_of(answers.crust);
    }
    AtMoment moment;
    moment.seconds = course[m].seconds;
    for (std::size_t k = 0; k < asked_count; ++k) moment.range[k] = range_of(answers.asked[k]);
    out.course.push_back(moment);
  }
  const auto at_end = [&](Asked asked) {
    return out.course.back().range[static_cast<std::size_t>(asked)];
  };
  out.core = at_end(Asked::core);
  out.loss = at_end(Asked::loss);
  out.colour = at_end(Asked::colour);
  out.rise = at_end(Asked::rise);
  out.alcohol = at_end(Asked::alcohol);
  auto done = done_times(course, made);
  const auto late = std::count_if(done.begin(), done.end(), [](double t) { return t >= never; });
  out.never_done = static_cast<double>(late) / draws;
  out.done_after = range_of(done);
  vent(oven, ethanol_of(loaf), made, kept, out.book.course, out);
  let_cool(loaf, room, out);
  return out;
}

}  // namespace barm::oven
