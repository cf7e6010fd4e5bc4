#include "dayplan/full.h"

#include <algorithm>
#include <numeric>
#include <set>

#include "dayplan/bounds.h"

namespace barm::dayplan {

namespace {

using Bakes = std::vector<std::size_t>;

/// A use that begins somewhere between two minutes and lasts so long at least.
struct Wanted {
  Minutes earliest = 0, latest = 0, held = 0;
  int amount = 1;

  [[nodiscard]] Minutes within(Span span, Minutes begin) const {
    return std::max(0, std::min(span.to, begin + held) - std::max(span.from, begin));
  }

  /// Least at one of the ends: the overlap rises, stays and falls.
  [[nodiscard]] Minutes least_within(Span span) const {
    return amount * std::min(within(span, earliest), within(span, latest));
  }
};

/// By bake and way, what is wanted of one resource; no ways of a bake that is not counted.
using AllWanted = std::vector<std::vector<std::vector<Wanted>>>;

/// From one step to the next at least.
Minutes least_apart(const Way& way, std::size_t step) {
  Minutes least = way.steps[step].minutes;
  for (const Leg& leg : way.legs) {
    if (leg.from != step || leg.to != step + 1) continue;
    least = std::max(least,
                     static_cast<Minutes>(*std::min_element(leg.ready.begin(), leg.ready.end())));
  }
  return least;
}

std::vector<Wanted> wanted_of(const Way& way, const Bounds& could, std::size_t resource) {
  std::vector<Wanted> out;
  for (std::size_t i = 0; i < way.steps.size(); ++i) {
    for (const Use& use : way.steps[i].uses) {
      if (use.resource != resource) continue;
      const Minutes held = use.until_next ? least_apart(way, i) : way.steps[i].minutes;
      out.push_back({could.earliest[i], could.latest[i], held, use.amount});
    }
  }
  return out;
}

Minutes open_within(const Resource& what, Span span) {
  Minutes open = span.to - span.from;
  Minutes counted = span.from;  // what is closed may be said twice
  for (const Span& closed : what.closed) {
    const Minutes from = std::max(counted, closed.from);
    const Minutes to = std::min(span.to, closed.to);
    if (to <= from) continue;
    open -= to - from;
    counted = to;
  }
  return open;
}

Minutes least_of_bake(const std::vector<std::vector<Wanted>>& ways, Span span) {
  Minutes least = 0;
  for (std::size_t w = 0; w < ways.size(); ++w) {
    Minutes sum = 0;
    for (const Wanted& each : ways[w]) sum += each.least_within(span);
    least = w == 0 ? sum : std::min(least, sum);
  }
  return least;
}

Minutes needed(const AllWanted& wanted, const Bakes& bakes, Span span) {
  return std::accumulate(bakes.begin(), bakes.end(), 0, [&](Minutes sum, std::size_t b) {
    return sum + least_of_bake(wanted[b], span);
  });
}

/// The span in which most is wanting, if any.
std::optional<OverFull> worst(const Resource& what, std::size_t resource, const AllWanted& wanted) {
  std::set<Minutes> begins;
  std::set<Minutes> ends;
  for (const auto& ways : wanted) {
    for (const auto& way : ways) {
      for (const Wanted& each : way) {
        begins.insert({std::max(0, each.earliest), std::max(0, each.latest)});
        ends.insert({each.earliest + each.held, each.latest + each.held});
      }
    }
  }
  Bakes all(wanted.size());
  std::iota(all.begin(), all.end(), std::size_t{0});
  std::optional<OverFull> out;
  for (const Minutes from : begins) {
    for (auto to = ends.upper_bound(from); to != ends.end(); ++to) {
      const Minutes there = what.capacity * open_within(what, {from, *to});
      const Minutes sum = needed(wanted, all, {from, *to});
      if (sum <= there || (out && sum - there <= out->needed - out->there)) continue;
      out = OverFull{all, resource, {from, *to}, sum, there};
    }
  }
  return out;
}

}  // namespace

std::optional<OverFull> over_full(const Day& day) {
  std::vector<std::vector<std::optional<Bounds>>> could(day.bakes.size());
  for (std::size_t b = 0; b < day.bakes.size(); ++b) {
    for (std::size_t w = 0; w < day.bakes[b].ways.size(); ++w)
      could[b].push_back(bounds(day, b, w));
  }
  for (std::size_t r = 0; r < day.house.size(); ++r) {
    AllWanted wanted(day.bakes.size());
    for (std::size_t b = 0; b < day.bakes.size(); ++b) {
      for (std::size_t w = 0; w < could[b].size(); ++w) {
        if (could[b][w])  // a way without bounds cannot be gone
          wanted[b].push_back(wanted_of(day.bakes[b].ways[w], *could[b][w], r));
      }
    }
    auto found = worst(day.house[r], r, wanted);
    if (!found) continue;
    for (std::size_t i = 0; i < found->bakes.size();) {
      Bakes fewer = found->bakes;
      fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(i));
      if (needed(wanted, fewer, found->when) > found->there)
        found->bakes = fewer;
      else
        ++i;
    }
    found->needed = needed(wanted, found->bakes, found->when);
    return found;
  }
  return std::nullopt;
}

}  // namespace barm::dayplan
