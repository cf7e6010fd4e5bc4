#include "dayplan/bounds.h"

#include <algorithm>

#include "dayplan/window.h"

namespace barm::dayplan {

namespace {

/// least <= begin(to) - begin(from) <= most [min].
struct Apart {
  std::size_t from, to;
  Minutes least, most;
};

constexpr Minutes no_end = 10'000'000;

std::optional<std::vector<Apart>> distances(const Way& way, Minutes horizon) {
  std::vector<Apart> out;
  for (std::size_t i = 0; i < way.steps.size(); ++i) {
    if (i + 1 < way.steps.size() && way.steps[i + 1].begun) continue;
    out.push_back({i, i + 1, way.steps[i].minutes, no_end});
  }
  for (const Leg& leg : way.legs) {
    if (leg.to < way.steps.size() && way.steps[leg.to].begun) continue;
    const auto allowed = window(leg, 1, 0, horizon);
    if (!allowed) return std::nullopt;
    out.push_back(
        {leg.from, leg.to, allowed->least, allowed->most() == horizon ? no_end : allowed->most()});
  }
  return out;
}

Minutes up(Minutes at, Minutes grid) {
  return at >= 0 ? (at + grid - 1) / grid * grid : at / grid * grid;
}

/// The first or last minute on the grid from `at` on or back at which the step may begin.
Minutes open_from(const Day& day, const Step& step, Minutes at) {
  const Minutes on_grid = up(at, day.grid);
  const Minutes open = up(static_cast<Minutes>(next_open(day, step, on_grid)), day.grid);
  return open == on_grid ? open : open_from(day, step, open);
}

Minutes open_until(const Day& day, const Step& step, Minutes at) {
  Minutes on_grid = at >= 0 ? at / day.grid * day.grid : -1;
  while (on_grid >= 0 && next_open(day, step, on_grid) > on_grid) on_grid -= day.grid;
  return on_grid;
}

}  // namespace

std::optional<Bounds> bounds(const Day& day, std::size_t bake, std::size_t way_number) {
  const Way& way = day.bakes[bake].ways[way_number];
  const Minutes wanted = day.bakes[bake].wanted;
  const std::size_t steps = way.steps.size();
  Minutes before = 0;  // what has begun may lie before the plan
  for (const Step& step : way.steps) before = std::min(before, step.begun.value_or(0));
  const auto apart = distances(way, wanted - before);
  if (!apart) return std::nullopt;
  std::vector<Minutes> earliest(steps + 1, 0);
  std::vector<Minutes> latest(steps + 1, wanted);
  earliest[steps] = wanted;
  for (std::size_t i = 0; i < steps; ++i) {
    if (way.steps[i].begun) earliest[i] = latest[i] = *way.steps[i].begun;
  }
  for (bool moved = true; moved;) {
    moved = false;
    const auto raise = [&](Minutes& at, Minutes to) {
      moved = moved || to > at;
      at = std::max(at, to);
    };
    const auto lower = [&](Minutes& at, Minutes to) {
      moved = moved || to < at;
      at = std::min(at, to);
    };
    for (const Apart& each : *apart) {
      raise(earliest[each.to], earliest[each.from] + each.least);
      raise(earliest[each.from], earliest[each.to] - each.most);
      lower(latest[each.from], latest[each.to] - each.least);
      lower(latest[each.to], latest[each.from] + each.most);
    }
    for (std::size_t i = 0; i < steps; ++i) {
      if (!way.steps[i].begun) {
        raise(earliest[i], open_from(day, way.steps[i], earliest[i]));
        lower(latest[i], open_until(day, way.steps[i], latest[i]));
      }
    }
    for (std::size_t i = 0; i <= steps; ++i) {
      if (earliest[i] > latest[i]) return std::nullopt;
    }
  }
  earliest.pop_back();
  latest.pop_back();
  return Bounds{std::move(earliest), std::move(latest)};
}

}  // namespace barm::dayplan
