#include "dayplan/plan.h"

#include <algorithm>
#include <numeric>

#include "base/require.h"
#include "dayplan/check.h"
#include "dayplan/shift.h"
#include "dayplan/ways.h"
#include "dayplan/work.h"

namespace barm::dayplan {

namespace {

constexpr std::size_t all_at_once = 3;  // bakes
constexpr unsigned dead_ends_at_once = 5'000;
constexpr unsigned dead_ends_laying[] = {0, 300, 600, 900};  // by the bakes laid at once
constexpr unsigned dead_ends_mending = 150;
constexpr int passes = 3;
constexpr int tries_first = 80, tries_each = 20,
              tries_last = 60;        // of shifts: a second for 8 bakes
constexpr int most_ways = 4;          // tried besides
constexpr double well_enough = 0.95;  // of its doughs: a bake that is left to its way

using Bakes = std::vector<std::size_t>;

class Planner {
 public:
  Planner(const Day& day, const std::vector<Pin>& pins, const Effort& effort)
      : day_(day), effort_(effort), ways_(day, pins, effort.cancelled) {}

  Planned run(const std::vector<Pin>& pins) {
    Planned out;
    ways_.look_at_each([&](double part) { tell(0.2 * part); });
    out.alone = ways_.alone();
    Bakes all(day_.bakes.size());
    std::iota(all.begin(), all.end(), std::size_t{0});
    for (const std::size_t b : all) {
      if (out.alone[b]) continue;
      out.stuck = {{b}, ways_.surely_none(b), std::nullopt};
      return out;
    }
    if (const auto full = over_full(day_)) {
      out.stuck = {full->bakes, true, full};
      return out;
    }
    bool finished = false;
    ways_.allow(effort_.patience);
    auto lying = together(all, finished);
    if (!lying) {
      out.stuck = stuck(all);
      return out;
    }
    ways_.allow(effort_.patience / 2);
    if (!finished) mend(*lying, all);
    out.cost = cost(*lying, all);
    out.best = finished || out.cost <= ways_.least(all);
    Plan plan = plan_of(*lying);
    if (effort_.by_the_draws) plan = by_the_draws(plan, pins);
    require(check(day_, plan).empty(), "a plan holds when it is looked at minute by minute");
    out.plan = std::move(plan);
    return out;
  }

 private:
  void tell(double part) const {
    if (effort_.progress) effort_.progress(part);
  }

  [[nodiscard]] bool stopped() const { return effort_.cancelled && effort_.cancelled(); }

  long cost(const Lying& lying, const Bakes& bakes) const {
    long sum = 0;
    for (const std::size_t b : bakes) sum += *cost_of(day_, b, *lying[b]);
    return sum;
  }

  /// All of these bakes laid; `finished` when at the least cost there is, or surely impossible.
  std::optional<Lying> together(const Bakes& bakes, bool& finished) {
    finished = false;
    if (effort_.to_the_end || bakes.size() <= all_at_once) {
      Lying lying(day_.bakes.size());
      const auto laid =
          ways_.lay_anew(lying,
                         bakes,
                         std::nullopt,
                         effort_.to_the_end ? std::nullopt : std::optional(dead_ends_at_once));
      finished = laid.finished;
      if (laid.found) return lying;
      if (finished) return std::nullopt;
    }
    return one_by_one(bakes);
  }

  /// One bake after the other; who found no room comes first next time.
  std::optional<Lying> one_by_one(Bakes order) {
    for (std::size_t attempt = 0; attempt <= order.size() && !stopped(); ++attempt) {
      Lying lying(day_.bakes.size());
      Bakes laid;
      const auto without = std::find_if_not(order.begin(), order.end(), [&](std::size_t b) {
        const bool found = find_room(lying, laid, b);
        laid.push_back(b);
        return found;
      });
      if (without == order.end()) return lying;
      tell(0.2 + 0.2 * static_cast<double>(attempt) / static_cast<double>(order.size() + 1));
      std::rotate(order.begin(), without, without + 1);
    }
    return std::nullopt;
  }

  /// Lays a bake, if need be with one or two of those that lie taken up for it.
  bool find_room(Lying& lying, const Bakes& laid, std::size_t b) {
    const auto try_with = [&](const Bakes& taken_up) {
      return ways_.lay_anew(lying, taken_up, std::nullopt, dead_ends_laying[taken_up.size()]).found;
    };
    if (try_with({b})) return true;
    for (const std::size_t other : laid) {
      if (try_with({b, other})) return true;
    }
    for (std::size_t i = 0; i < laid.size(); ++i) {
      for (std::size_t j = i + 1; j < laid.size(); ++j) {
        if (stopped()) return false;
        if (try_with({b, laid[i], laid[j]})) return true;
      }
    }
    return false;
  }

  /// Takes up one bake, then two, and lays them anew, as long as that makes it cheaper.
  void mend(Lying& lying, const Bakes& bakes) {
    std::vector<Bakes> some;
    for (const std::size_t b : bakes) some.push_back({b});
    for (std::size_t i = 0; i < bakes.size(); ++i) {
      for (std::size_t j = i + 1; j < bakes.size(); ++j) some.push_back({bakes[i], bakes[j]});
    }
    bool cheaper = true;
    for (int pass = 0; pass < passes && cheaper; ++pass) {
      cheaper = false;
      for (std::size_t i = 0; i < some.size() && !stopped(); ++i) {
        const long now = cost(lying, some[i]);
        if (now > ways_.least(some[i]))
          cheaper = ways_.lay_anew(lying, some[i], now, dead_ends_mending).found || cheaper;
        const double part = static_cast<double>(i + 1) / static_cast<double>(some.size());
        tell(0.4 + 0.1 * (pass + part) / passes);
      }
    }
  }

  static Plan plan_of(const Lying& lying) {
    Plan plan;
    for (const auto& course : lying) plan.push_back(*course);
    return plan;
  }

  /// Steps shifted by the draws; then the bakes that fail most by their other ways; then again.
  Plan by_the_draws(const Plan& timetable, const std::vector<Pin>& pins) {
    Plan best =
        shifted(day_, timetable, pins, tries_first, [&](double part) { tell(0.5 + 0.2 * part); });
    Counting counting(day_);
    std::size_t most = counting.through(best);
    const Worked worked = work(day_, best);
    Bakes worst(best.size());
    std::iota(worst.begin(), worst.end(), std::size_t{0});
    std::stable_sort(worst.begin(), worst.end(), [&](std::size_t a, std::size_t b) {
      return worked.each[a].through < worked.each[b].through;
    });
    int tried = 0;
    ways_.allow(effort_.patience / 4);
    for (const std::size_t b : worst) {
      const std::size_t own = best[b].way;
      if (worked.each[b].value() > well_enough) break;
      for (std::size_t w = 0; w < day_.bakes[b].ways.size() && tried < most_ways; ++w) {
        if (w == own || stopped()) continue;
        const auto other = by_way(best, b, w);
        if (!other) continue;
        const Plan settled = shifted(day_, *other, pins, tries_each);
        tell(0.7 + 0.1 * ++tried / most_ways);
        const std::size_t now = counting.through(settled, most);
        if (now <= most) continue;
        best = settled;
        most = now;
      }
    }
    return shifted(day_, best, pins, tries_last, [&](double part) { tell(0.8 + 0.2 * part); });
  }

  /// The plan with a bake by another way, if need be with one more taken up for it.
  std::optional<Plan> by_way(const Plan& plan, std::size_t b, std::size_t way) {
    Lying lying(plan.begin(), plan.end());
    if (ways_.lay_anew(lying, {b}, std::nullopt, dead_ends_laying[1], way).found)
      return plan_of(lying);
    for (std::size_t other = 0; other < plan.size(); ++other) {
      if (other != b &&
          ways_.lay_anew(lying, {b, other}, std::nullopt, dead_ends_laying[2], way).found)
        return plan_of(lying);
    }
    return std::nullopt;
  }

  /// Bakes of which each is in the way: without it the others can be had.
  Stuck stuck(Bakes bakes) {
    Stuck out;
    bool surely = false;
    for (std::size_t i = 0; i < bakes.size() && !stopped();) {
      Bakes fewer = bakes;
      fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(i));
      bool finished = false;
      ways_.allow(effort_.patience / 4);
      if (!fewer.empty() && !together(fewer, finished)) {
        bakes = fewer;
        surely = finished;
      } else {
        ++i;
      }
    }
    if (!surely && bakes.size() <= all_at_once) {
      ways_.allow(effort_.patience);
      together(bakes, surely);
    }
    out.bakes = bakes;
    out.surely = surely;
    return out;
  }

  const Day& day_;
  const Effort& effort_;
  Ways ways_;
};

}  // namespace

namespace {

Result<Planned> unless_cancelled(Planned out, const Effort& effort) {
  if (effort.cancelled && effort.cancelled())
    return failure(ErrorCode::cancelled, "", "the plan was not wanted any more");
  return out;
}

}  // namespace

Result<Planned> plan(const Day& day, const std::vector<Pin>& pins, const Effort& effort) {
  require_sound(day);
  return unless_cancelled(Planner(day, pins, effort).run(pins), effort);
}

Result<Planned> planned_as(const Day& day, Plan plan, const Effort& effort) {
  require_sound(day);
  require(check(day, plan).empty(), "a plan that is told holds when it is looked at");
  Ways ways(day, {}, effort.cancelled);
  ways.look_at_each(effort.progress);
  Planned out;
  out.alone = ways.alone();
  out.plan = std::move(plan);
  return unless_cancelled(std::move(out), effort);
}

}  // namespace barm::dayplan
