#include "dayplan/near.h"

#include <algorithm>
#include <numeric>
#include <set>

#include "base/require.h"
#include "dayplan/check.h"
#include "dayplan/shift.h"

namespace barm::dayplan {

namespace {

constexpr unsigned dead_ends = 2'000;
constexpr int tries_again = 40;  // of shifts

std::vector<std::size_t> all_of(const Plan& plan) {
  std::vector<std::size_t> out(plan.size());
  std::iota(out.begin(), out.end(), std::size_t{0});
  return out;
}

/// The bakes whose steps are at fault, and with them those that they meet.
std::vector<std::size_t> at_fault(const std::vector<Fault>& faults, bool with_those_met) {
  std::set<std::size_t> out;
  for (const Fault& fault : faults) {
    out.insert(fault.at.bake);
    if (!with_those_met) continue;
    for (const At& taker : fault.takers) out.insert(taker.bake);
  }
  return {out.begin(), out.end()};
}

}  // namespace

std::optional<Plan> laid_near(const Day& day,
                              const Plan& plan,
                              const std::vector<Pin>& pins,
                              const std::vector<std::size_t>& bakes) {
  Search search;
  const auto moves = [&](std::size_t b) {
    return std::find(bakes.begin(), bakes.end(), b) != bakes.end();
  };
  for (std::size_t b = 0; b < plan.size(); ++b)
    search.bakes.push_back({b, plan[b].way, moves(b) ? nullptr : &plan[b].begin});
  search.pins = pins;
  search.near = &plan;
  search.failures = dead_ends;
  const Found found = lay(day, search);
  if (found.courses.empty()) return std::nullopt;
  require(check(day, found.courses).empty(), "a moved plan holds when it is looked at");
  return found.courses;
}

std::optional<Plan> laid_again(const Day& day, Plan plan) {
  for (std::size_t b = 0; b < plan.size(); ++b) {
    const auto& steps = way_of(day, plan, b).steps;
    for (std::size_t i = 0; i < steps.size(); ++i)
      plan[b].begin[i] = steps[i].begun.value_or(plan[b].begin[i]);
  }
  const auto faults = check(day, plan);
  std::optional<Plan> held;
  if (faults.empty()) held = plan;
  if (!held) held = laid_near(day, plan, {}, at_fault(faults, false));
  if (!held) held = laid_near(day, plan, {}, at_fault(faults, true));
  if (!held) held = laid_near(day, plan, {}, all_of(plan));
  if (!held) return std::nullopt;
  return shifted(day, *held, {}, tries_again);
}

}  // namespace barm::dayplan
