#include "dayplan/day.h"

#include <algorithm>

#include "base/require.h"

namespace barm::dayplan {

namespace {

template <class Look>
void each_leg(const Day& day, const Look& look) {
  for (const Bake& bake : day.bakes) {
    for (const Way& way : bake.ways) {
      for (const Leg& leg : way.legs) look(way, leg);
    }
  }
}

void require_sound_steps(const Day& day, const Way& way) {
  require(!way.steps.empty(), "a way has steps");
  for (const Step& step : way.steps) {
    require(step.minutes >= 1, "a step takes a minute or more");
    for (const Use& use : step.uses)
      require(use.resource < day.house.size() && use.amount >= 1, "the house has what is used");
  }
}

}  // namespace

std::size_t draws_of(const Day& day) {
  std::size_t most = 1;
  each_leg(day, [&](const Way&, const Leg& leg) {
    most = std::max({most, leg.ready.size(), leg.lasts.size()});
  });
  return most;
}

double next_open(const Day& day, const Step& step, double at) {
  for (bool moved = true; moved;) {
    moved = false;
    for (const Use& use : step.uses) {
      for (const Span& closed : day.house[use.resource].closed) {
        if (at + step.minutes <= closed.from || at >= closed.to) continue;
        at = closed.to;
        moved = true;
      }
    }
  }
  return at;
}

void require_sound(const Day& day) {
  require(day.grid >= 1, "a grid of a minute or more");
  const std::size_t draws = draws_of(day);
  for (const Bake& bake : day.bakes) {
    require(!bake.ways.empty(), "a bake has a way");
    require(bake.wanted % day.grid == 0, "the bread is wanted at a multiple of the grid");
    for (const Way& way : bake.ways) require_sound_steps(day, way);
  }
  each_leg(day, [&](const Way& way, const Leg& leg) {
    require(leg.from < leg.to && leg.to <= way.steps.size(), "a leg goes on to a later step");
    for (const Draws* some : {&leg.ready, &leg.lasts})
      require(some->size() == 1 || some->size() == draws, "as many draws for every bake");
  });
}

}  // namespace barm::dayplan
