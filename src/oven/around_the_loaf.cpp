#include <array>
#include <atomic>
#include <cmath>

#include "base/together.h"
#include "numerics/quantiles.h"
#include "oven/internal/drawn.h"

namespace barm::oven {

namespace {

// The typical course to the end, its alcohol leaving as much as this draw's does.
std::vector<Minute> leaving_as(std::vector<Minute> course, double kept) {
  const double book = 1 - course.back().alcohol;
  const double factor = book > 1e-9 ? (1 - kept) / book : 0;
  for (Minute& minute : course) minute.alcohol_rate *= factor;
  return course;
}

// A time on the rack by its luck, a parabola in ln t through a quick, a typical and a slow rack.
std::vector<double> rack_times(const std::array<std::optional<Time>, 3>& solved,
                               double reach,
                               const std::vector<Drawn>& draws) {
  std::vector<double> out(draws.size(), never);
  if (!solved[0] || !solved[1] || !solved[2]) return out;
  Curve through;
  const auto ln = [](Time time) { return std::log(std::max(1.0, time.si())); };
  through.middle = ln(*solved[1]);
  through.lay(0, ln(*solved[0]), ln(*solved[2]), reach);
  for (std::size_t d = 0; d < draws.size(); ++d) out[d] = std::exp(through.at({draws[d].rack}));
  return out;
}

}  // namespace

Range range_of(std::vector<double> values) {
  constexpr std::array shares{0.1, 0.5, 0.9};
  const auto q = numerics::quantiles(values, shares);
  return {q[0], q[1], q[2]};
}

void each(std::size_t count, int threads, const std::function<void(std::size_t)>& work) {
  std::atomic<std::size_t> next{0};
  together(threads, [&] {
    for (std::size_t i = next++; i < count; i = next++) work(i);
  });
}

void vent(const Oven& oven,
          Mass ethanol,
          const std::vector<Drawn>& draws,
          const std::vector<double>& kept,
          Many& out) {
  const std::vector<Minute>& course = out.book.course;
  out.vapour = vapour_in(oven, course, ethanol, vent_of(0));
  std::vector<double> shares;
  int warned = 0;
  for (std::size_t d = 0; d < draws.size(); ++d) {
    const double share = vented_share(oven, leaving_as(course, kept[d]), vent_of(draws[d].vent));
    warned += share >= out.vapour.warn_from ? 1 : 0;
    shares.push_back(share);
  }
  out.warned = static_cast<double>(warned) / static_cast<double>(draws.size());
  out.vented = range_of(std::move(shares));
}

void let_cool(
    const Loaf& loaf, Temperature room, const std::vector<Drawn>& draws, int threads, Many& out) {
  constexpr Time long_cooling = 24.0 * hour;
  constexpr std::array<double, 3> lucks_of_racks{-reach_out, 0, reach_out};
  std::array<Cooled, 3> racks;
  each(racks.size(), threads, [&](std::size_t i) {
    racks[i] = cool(loaf, out.book, room, long_cooling, lucks_of_racks[i]);
  });
  out.cut = rack_times({racks[0].cut, racks[1].cut, racks[2].cut}, reach_out, draws);
  out.bag = rack_times({racks[0].bag, racks[1].bag, racks[2].bag}, reach_out, draws);
  out.cut_after = range_of(out.cut);
  out.bag_after = range_of(out.bag);
  out.cooled = std::move(racks[1]);
  out.cooling_loss = out.cooled.loss;
}

}  // namespace barm::oven
