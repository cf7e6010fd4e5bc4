#include "oven/draws.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/require.h"
#include "generated/constants.h"
#include "numerics/random.h"
#include "oven/internal/drawn.h"
#include "oven/internal/laid.h"

namespace barm::oven {

namespace {

constexpr double furthest = 3;  // no draw goes further out
constexpr int looks = 3;        // loaves off the design
constexpr std::size_t rows_told = 60;

Luck luck_of(const LearnedOven& known, const Z& z) {
  return {known.middle.conduction + known.doubt.conduction * z[0],
          known.middle.crust + known.doubt.crust * z[1],
          known.middle.transfer + known.doubt.transfer * z[2],
          known.middle.dial + known.doubt.dial * z[3],
          known.middle.pump + known.doubt.pump * z[4],
          known.middle.begins,
          known.middle.cold};
}

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
    one.rack = normal();
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

// Off the axes, as far out as a draw usually lies: solved to look how far off the laid answers are.
Z off_the_axes(unsigned long long seed, int look) {
  numerics::Random random(seed, static_cast<unsigned long long>(look) + 9'000'000);
  Z z{};
  double length = 0;
  for (double& one : z) {
    one = random.normal();
    length += one * one;
  }
  for (double& one : z) one *= std::sqrt(static_cast<double>(lucks) / length);
  return z;
}

// The loaves of the design, and behind them those that are looked at.
std::vector<Baked> solved_loaves(const Loaf& loaf,
                                 const Oven& oven,
                                 const LearnedOven& known,
                                 Time lasts,
                                 const Method& method,
                                 unsigned long long seed,
                                 int looked_at,
                                 int threads) {
  const auto places = design();
  std::vector<Baked> out(designed + static_cast<std::size_t>(looked_at));
  each(out.size(), threads, [&](std::size_t i) {
    const Z z = i < designed ? places[i] : off_the_axes(seed, static_cast<int>(i - designed));
    out[i] = bake(loaf, oven, lasts, luck_of(known, z), method);
  });
  return out;
}

Laid look(const std::vector<Baked>& solved,
          Time asked,
          const Between& between,
          unsigned long long seed) {
  Laid laid;
  laid.solved = static_cast<int>(designed);
  for (int n = 0; n < looks; ++n) {
    const Z z = off_the_axes(seed, n);
    const auto& course = solved[designed + static_cast<std::size_t>(n)].course;
    const auto cores = between.cores(z, course);
    for (std::size_t m = 0; m < course.size() && course[m].seconds <= asked.si() + 1; ++m) {
      laid.core = std::max(laid.core, std::abs(cores[m] - course[m].core));
      laid.loss = std::max(laid.loss, std::abs(between.at(m, z)[loss_laid] - course[m].loss));
    }
    ++laid.looked_at;
  }
  return laid;
}

double loss_of(const Scaled& y) { return std::max(0.0, y[loss_laid]); }

double kept_of(const Scaled& y) { return std::min(1.0, std::exp(y[kept_laid])); }

struct Answers {
  std::array<std::vector<double>, asked_count> asked;
  std::vector<double> crust, springs;
};

Answers answers_at(std::size_t moment, const Between& through, const std::vector<Drawn>& draws) {
  Answers out;
  for (const Drawn& one : draws) {
    const Scaled y = through.at(moment, one.z);
    const double values[] = {one.core[moment],
                             y[surface_laid],
                             loss_of(y),
                             1 - std::exp(-std::exp(y[brown_laid] + one.brown)),
                             kept_of(y)};
    for (std::size_t k = 0; k < asked_count; ++k) out.asked[k].push_back(values[k]);
    out.springs.push_back(std::max(0.0, y[spring_laid]) * one.gas);
    out.crust.push_back(std::clamp(y[crust_laid], 0.0, 1.0));
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

// The ranges at each moment, and at the end where the alcohol is; what each draw keeps of it.
std::vector<double> lay_course(const Between& through,
                               const std::vector<Minute>& course,
                               const std::vector<Drawn>& made,
                               Time lasts,
                               Many& out) {
  std::vector<double> kept;
  const std::size_t each_row = through.moments() / rows_told + 1;
  for (std::size_t m = 0; m < through.moments(); ++m) {
    if (course[m].seconds > lasts.si() + 1) break;
    const bool last = m + 1 == through.moments() || course[m + 1].seconds > lasts.si() + 1;
    if (m % each_row != 0 && !last) continue;
    Answers answers = answers_at(m, through, made);
    if (last) {
      out.springs = std::move(answers.springs);
      kept = answers.asked[static_cast<std::size_t>(Asked::alcohol)];
      std::vector<double> crumb;
      for (std::size_t d = 0; d < kept.size(); ++d)
        crumb.push_back(std::max(0.0, kept[d] - answers.crust[d]));
      out.in_crumb = range_of(std::move(crumb));
      out.in_crust = range_of(std::move(answers.crust));
    }
    AtMoment moment;
    moment.seconds = course[m].seconds;
    for (std::size_t k = 0; k < asked_count; ++k)
      moment.range[k] = range_of(std::move(answers.asked[k]));
    out.course.push_back(moment);
  }
  return kept;
}

}  // namespace

Many many(const Loaf& loaf,
          const Oven& oven,
          const LearnedOven& known,
          Time lasts,
          Temperature room,
          int draws,
          unsigned long long seed,
          int threads) {
  require(draws >= 20, "a range needs draws");
  const Time all = long_enough(lasts);
  const auto solved = solved_loaves(loaf, oven, known, all, rougher(all), seed, looks, threads);
  const Between through(solved, Scale(loaf.temperature.celsius()));
  Many out;
  out.book = bake(loaf, oven, lasts, known.middle);
  out.draws = draws;
  out.laid = look(solved, lasts, through, seed);
  auto made = drawn(draws, seed);
  const auto& course = solved.front().course;
  for (Drawn& one : made) one.core = through.cores(one.z, course);
  const auto kept = lay_course(through, course, made, lasts, out);
  const auto at_end = [&](Asked asked) {
    return out.course.back().range[static_cast<std::size_t>(asked)];
  };
  out.core = at_end(Asked::core);
  out.loss = at_end(Asked::loss);
  out.colour = at_end(Asked::colour);
  out.alcohol = at_end(Asked::alcohol);
  out.done = done_times(course, made);
  const auto late =
      std::count_if(out.done.begin(), out.done.end(), [](double t) { return t >= never; });
  out.never_done = static_cast<double>(late) / draws;
  out.done_after = range_of(out.done);
  vent(oven, ethanol_of(loaf), made, kept, out);
  let_cool(loaf, room, made, threads, out);
  return out;
}

Range risen(const std::vector<double>& springs, const std::vector<double>& rooms) {
  require(!springs.empty() && !rooms.empty(), "loaves have ovens and room");
  std::vector<double> out;
  for (std::size_t k = 0; k < std::max(springs.size(), rooms.size()); ++k)
    out.push_back(1 + std::min(rooms[k % rooms.size()], springs[k % springs.size()]));
  return range_of(std::move(out));
}

Left left_at_the_end(const Loaf& loaf,
                     const Oven& oven,
                     const LearnedOven& known,
                     Time lasts,
                     int draws,
                     unsigned long long seed,
                     int threads) {
  require(draws >= 20, "a range wants draws");
  // Up to the last note that many() takes within that time.
  const Method method = rougher(long_enough(lasts));
  const double notes = std::max(1.0, std::floor((lasts.si() + 1) / method.note_every));
  const Time end = Time::from_si(notes * method.note_every);
  const auto solved = solved_loaves(loaf, oven, known, end, method, seed, 0, threads);
  const Between through(solved, Scale(loaf.temperature.celsius()));
  std::vector<double> kept, loss;
  for (const Drawn& one : drawn(draws, seed)) {
    const Scaled y = through.at(through.moments() - 1, one.z);
    kept.push_back(kept_of(y));
    loss.push_back(loss_of(y));
  }
  return {range_of(std::move(kept)), range_of(std::move(loss))};
}

}  // namespace barm::oven
