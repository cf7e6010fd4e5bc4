#include "dayplan/move.h"

#include <algorithm>

#include "base/require.h"
#include "dayplan/near.h"

namespace barm::dayplan {

namespace {

constexpr std::size_t most_others = 2;

std::vector<At> moved_along(const Plan& before, const Plan& after, At step) {
  std::vector<At> out;
  for (std::size_t b = 0; b < before.size(); ++b) {
    for (std::size_t i = 0; i < before[b].begin.size(); ++i) {
      if (before[b].begin[i] != after[b].begin[i] && !(b == step.bake && i == step.step))
        out.push_back({b, i});
    }
  }
  return out;
}

/// The bakes that a bake gets in the way of, wherever its step is put down alone.
std::vector<std::size_t> in_the_way(const std::vector<Fault>& faults, std::size_t bake) {
  std::vector<std::size_t> out;
  for (const Fault& fault : faults) {
    for (const At& taker : fault.takers) {
      if (taker.bake != bake && std::find(out.begin(), out.end(), taker.bake) == out.end())
        out.push_back(taker.bake);
    }
  }
  return out;
}

}  // namespace

Moved move(const Day& day, const Plan& plan, At step, Minutes to) {
  require(step.bake < plan.size() && step.step < plan[step.bake].begin.size(), "a step there is");
  Moved out;
  Plan alone = plan;
  alone[step.bake].begin[step.step] = to;
  out.broken = check(day, alone);
  if (out.broken.empty()) {
    out.plan = alone;
    return out;
  }
  std::vector<std::size_t> bakes{step.bake};
  out.plan = laid_near(day, plan, {{step, to}}, bakes);
  // Whoever the whole bake, taken along as it is, would meet is asked to make room.
  Plan along = plan;
  for (Minutes& begin : along[step.bake].begin) begin += to - plan[step.bake].begin[step.step];
  auto others = in_the_way(out.broken, step.bake);
  for (const std::size_t b : in_the_way(check(day, along), step.bake)) {
    if (std::find(others.begin(), others.end(), b) == others.end()) others.push_back(b);
  }
  for (std::size_t i = 0; i < others.size() && i < most_others && !out.plan; ++i) {
    bakes.push_back(others[i]);
    out.plan = laid_near(day, plan, {{step, to}}, bakes);
  }
  if (out.plan) out.along = moved_along(plan, *out.plan, step);
  return out;
}

}  // namespace barm::dayplan
