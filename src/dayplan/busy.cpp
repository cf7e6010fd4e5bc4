#include "dayplan/busy.h"

#include <algorithm>
#include <set>

namespace barm::dayplan {

namespace {

int held_at(const std::vector<Holding>& row, Minutes at) {
  int sum = 0;
  for (const Holding& each : row) {
    if (each.when.from <= at && at < each.when.to) sum += each.amount;
  }
  return sum;
}

}  // namespace

std::vector<std::vector<Holding>> holdings(const Day& day, const Plan& plan) {
  std::vector<std::vector<Holding>> rows(day.house.size());
  for (std::size_t b = 0; b < plan.size(); ++b) {
    const auto& steps = way_of(day, plan, b).steps;
    for (std::size_t i = 0; i < steps.size(); ++i) {
      for (const Use& use : steps[i].uses) {
        const Minutes from = plan[b].begin[i];
        const Minutes to =
            use.until_next ? begin_of(day.bakes[b], plan[b], i + 1) : from + steps[i].minutes;
        rows[use.resource].push_back({{b, i}, use.resource, use.amount, {from, to}});
      }
    }
  }
  for (auto& row : rows) {
    std::stable_sort(row.begin(), row.end(), [](const Holding& a, const Holding& b) {
      return a.when.from < b.when.from;
    });
  }
  return rows;
}

std::vector<Clash> clashes(const Day& day, const Plan& plan) {
  std::vector<Clash> out;
  const auto rows = holdings(day, plan);
  for (std::size_t r = 0; r < rows.size(); ++r) {
    Clash worst;
    for (const Holding& each : rows[r]) {
      const int wanted = held_at(rows[r], each.when.from);
      if (wanted <= std::max(day.house[r].capacity, worst.wanted)) continue;
      worst = {r, {each.when.from, each.when.to}, wanted, {}};
    }
    if (worst.wanted == 0) continue;
    for (const Holding& each : rows[r]) {
      if (each.when.from > worst.when.from || each.when.to <= worst.when.from) continue;
      worst.takers.push_back(each.at);
      worst.when.to = std::min(worst.when.to, each.when.to);
    }
    out.push_back(std::move(worst));
  }
  return out;
}

std::vector<Free> free_hands(const Day& day, const Plan& plan, std::size_t resource, Span of) {
  const auto row = holdings(day, plan)[resource];
  const Resource& what = day.house[resource];
  std::set<Minutes> turns{of.from, of.to};
  const auto turn = [&](Span span) {
    for (const Minutes at : {span.from, span.to}) {
      if (at > of.from && at < of.to) turns.insert(at);
    }
  };
  for (const Holding& each : row) turn(each.when);
  for (const Span& closed : what.closed) turn(closed);
  std::vector<Free> out;
  for (auto at = turns.begin(); std::next(at) != turns.end(); ++at) {
    const bool closed = std::any_of(what.closed.begin(), what.closed.end(), [&](const Span& span) {
      return span.from <= *at && *at < span.to;
    });
    const int amount = closed ? 0 : what.capacity - held_at(row, *at);
    if (amount <= 0) continue;
    if (!out.empty() && out.back().when.to == *at && out.back().amount == amount)
      out.back().when.to = *std::next(at);
    else
      out.push_back({{*at, *std::next(at)}, amount});
  }
  return out;
}

}  // namespace barm::dayplan
