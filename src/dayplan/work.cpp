#include "dayplan/work.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include "dayplan/due.h"

namespace barm::dayplan {

namespace {

constexpr double sure_of = 1.959964;  // of a normal error, 19 times in 20

/// One draw of all doughs in the house, moment by moment.
class House {
 public:
  House(const Day& day, const Plan& plan)
      : day_(day), plan_(plan), held_(day.house.size()), doughs_(plan.size()) {
    for (std::size_t b = 0; b < plan.size(); ++b) doughs_[b].way = &way_of(day, plan, b);
  }

  /// The leg at which each bake failed first; Due::no_leg - 1 where it did at none but was never
  /// finished; Due::no_leg where all went well.
  const std::vector<std::size_t>& run(std::size_t k) {
    reset(k);
    double now = -for_ever;
    while (std::isfinite(now = next_moment(now))) {
      let_go(now);
      while (begin_one(now)) {
      }
    }
    for (std::size_t b = 0; b < doughs_.size(); ++b) {
      if (doughs_[b].next < steps(b).size() && failed_[b] == Due::no_leg) failed_[b] = stuck;
    }
    return failed_;
  }

  static constexpr std::size_t stuck = Due::no_leg - 1;

 private:
  struct Dough {
    const Way* way = nullptr;
    std::size_t next = 0;
    std::vector<double> begun;
    Due due;
    double turned = 0;  ///< to the next step
  };

  struct Ends {
    double at = 0;
    std::size_t resource = 0;
    int amount = 0;
  };

  [[nodiscard]] const std::vector<Step>& steps(std::size_t b) const {
    return doughs_[b].way->steps;
  }

  void reset(std::size_t k) {
    k_ = k;
    ends_.clear();
    std::fill(held_.begin(), held_.end(), 0);
    failed_.assign(plan_.size(), Due::no_leg);
    for (std::size_t b = 0; b < doughs_.size(); ++b) {
      doughs_[b].next = 0;
      doughs_[b].begun.assign(steps(b).size(), 0);
      look(b);
    }
  }

  /// When the next step of a dough is due; behind the last one, whether the bread is there.
  void look(std::size_t b) {
    Dough& dough = doughs_[b];
    const Way& way = *dough.way;
    dough.due = due(way, dough.next, k_, dough.begun.data());
    if (dough.next == way.steps.size()) {
      const double wanted = day_.bakes[b].wanted;
      if (wanted < dough.due.ready) fail(b, last_leg(way));
      if (wanted > dough.due.latest) fail(b, dough.due.leg);
      return;
    }
    const Step& step = way.steps[dough.next];
    dough.turned = step.begun
                       ? *step.begun
                       : next_open(day_, step, turned_to(dough.due, plan_[b].begin[dough.next]));
  }

  static std::size_t last_leg(const Way& way) {
    for (std::size_t l = way.legs.size(); l-- > 0;) {
      if (way.legs[l].to == way.steps.size()) return l;
    }
    return stuck;
  }

  void fail(std::size_t b, std::size_t leg) {
    if (failed_[b] == Due::no_leg) failed_[b] = leg;
  }

  /// Ends of work, and steps that are turned to.
  [[nodiscard]] double next_moment(double now) const {
    double next = for_ever;
    for (const Ends& each : ends_) next = std::min(next, each.at);
    for (std::size_t b = 0; b < doughs_.size(); ++b) {
      if (doughs_[b].next < steps(b).size() && doughs_[b].turned > now)
        next = std::min(next, doughs_[b].turned);
    }
    return next;
  }

  void let_go(double now) {
    std::erase_if(ends_, [&](const Ends& each) {
      if (each.at > now) return false;
      held_[each.resource] -= each.amount;
      return true;
    });
  }

  /// Begins the step that was planned first of those that can begin; false when none can.
  bool begin_one(double now) {
    std::size_t first = doughs_.size();
    for (std::size_t b = 0; b < doughs_.size(); ++b) {
      Dough& dough = doughs_[b];
      if (dough.next == steps(b).size() || dough.turned > now) continue;
      if (first < doughs_.size() && planned(b) >= planned(first)) continue;
      if (!there_is_room(b, now)) continue;
      if (!steps(b)[dough.next].begun) {
        // Whoever had to wait for hands may have waited into the night.
        dough.turned = next_open(day_, steps(b)[dough.next], now);
        if (dough.turned > now) continue;
      }
      first = b;
    }
    if (first == doughs_.size()) return false;
    begin(first, now);
    return true;
  }

  [[nodiscard]] Minutes planned(std::size_t b) const { return plan_[b].begin[doughs_[b].next]; }

  /// How much of a resource a dough lets go when its next step begins.
  [[nodiscard]] int kept(std::size_t b, std::size_t resource) const {
    int sum = 0;
    if (doughs_[b].next == 0) return sum;
    for (const Use& use : steps(b)[doughs_[b].next - 1].uses) {
      if (use.until_next && use.resource == resource) sum += use.amount;
    }
    return sum;
  }

  [[nodiscard]] bool there_is_room(std::size_t b, double now) const {
    const Step& step = steps(b)[doughs_[b].next];
    if (step.begun) return true;
    return std::all_of(step.uses.begin(), step.uses.end(), [&](const Use& use) {
      return fits(b, use, spoken_for(b, use.resource, now));
    });
  }

  [[nodiscard]] bool fits(std::size_t b, const Use& use, int spoken_for) const {
    return held_[use.resource] - kept(b, use.resource) + use.amount + spoken_for <=
           day_.house[use.resource].capacity;
  }

  /// How much of a resource a dough that can wait leaves for those who are known to come and
  /// cannot wait until it is done. (Of two doughs one at most gives way to the other.)
  [[nodiscard]] int spoken_for(std::size_t b, std::size_t resource, double now) const {
    int sum = 0;
    const double done = now + steps(b)[doughs_[b].next].minutes;
    for (std::size_t other = 0; other < doughs_.size(); ++other) {
      const Dough& dough = doughs_[other];
      if (other == b || !dough.due.sure || dough.next == steps(other).size()) continue;
      const double comes = std::max(now, dough.turned);
      if (comes >= done || dough.due.latest >= done || dough.due.latest < comes) continue;
      const Step& step = steps(other)[dough.next];
      if (doughs_[b].due.latest < comes + step.minutes) continue;
      const bool can = dough.turned > now ||
                       std::all_of(step.uses.begin(), step.uses.end(), [&](const Use& use) {
                         return fits(other, use, 0);
                       });
      for (const Use& use : step.uses) {
        if (can && use.resource == resource && !use.until_next) sum += use.amount;
      }
    }
    return sum;
  }

  void begin(std::size_t b, double now) {
    Dough& dough = doughs_[b];
    const Step& step = steps(b)[dough.next];
    if (now > dough.due.latest && !step.begun) fail(b, dough.due.leg);
    for (std::size_t r = 0; r < held_.size(); ++r) held_[r] -= kept(b, r);
    for (const Use& use : step.uses) {
      held_[use.resource] += use.amount;
      if (!use.until_next)
        ends_.push_back({now + step.minutes, use.resource, use.amount});
      else if (dough.next + 1 == steps(b).size())
        ends_.push_back({std::max<double>(now, day_.bakes[b].wanted), use.resource, use.amount});
    }
    dough.begun[dough.next] = now;
    ++dough.next;
    look(b);
  }

  const Day& day_;
  const Plan& plan_;
  std::size_t k_ = 0;
  std::vector<int> held_;
  std::vector<Dough> doughs_;
  std::vector<Ends> ends_;
  std::vector<std::size_t> failed_;
};

bool all_well(const std::vector<std::size_t>& failed) {
  return std::all_of(
      failed.begin(), failed.end(), [](std::size_t leg) { return leg == Due::no_leg; });
}

/// Whether dough k of a bake is within its windows when each step is done at its planned minute.
bool by_the_clock(const Bake& bake, const Course& course, std::size_t k) {
  const Way& way = bake.ways[course.way];
  return std::all_of(way.legs.begin(), way.legs.end(), [&](const Leg& leg) {
    if (leg.to < way.steps.size() && way.steps[leg.to].begun) return true;
    const double apart = begin_of(bake, course, leg.to) - course.begin[leg.from];
    const double ready = draw(leg.ready, k);
    return apart >= ready && apart <= ready + static_cast<double>(draw(leg.lasts, k));
  });
}

/// The end of the interval on one side (-1, 1).
double wilson(std::size_t through, std::size_t draws, double side) {
  const auto n = static_cast<double>(draws);
  const double p = static_cast<double>(through) / n;
  const double z2 = sure_of * sure_of / n;
  const double middle = p + z2 / 2;
  const double spread = sure_of * std::sqrt(p * (1 - p) / n + z2 / (4 * n));
  return (middle + side * spread) / (1 + z2);
}

}  // namespace

double Chance::value() const { return static_cast<double>(through) / static_cast<double>(draws); }

double Chance::low() const { return through == 0 ? 0 : wilson(through, draws, -1); }

double Chance::high() const { return through == draws ? 1 : wilson(through, draws, 1); }

Counting::Counting(const Day& day) : day_(day), order_(draws_of(day)) {
  std::iota(order_.begin(), order_.end(), std::size_t{0});
}

std::size_t Counting::through(const Plan& plan, std::size_t at_least) {
  House house(day_, plan);
  std::size_t out = 0;
  std::vector<std::size_t> failed, well;
  for (std::size_t i = 0; i < order_.size() && out + (order_.size() - i) > at_least; ++i) {
    const bool all = all_well(house.run(order_[i]));
    (all ? well : failed).push_back(order_[i]);
    out += all ? 1U : 0U;
  }
  std::copy(well.begin(), well.end(), std::copy(failed.begin(), failed.end(), order_.begin()));
  return out;
}

Worked work(const Day& day, const Plan& plan) {
  Worked out;
  const std::size_t draws = draws_of(day);
  out.all.draws = out.by_the_clock.draws = draws;
  out.each.assign(plan.size(), Chance{0, draws});
  std::map<std::pair<std::size_t, std::size_t>, std::size_t> missed;
  House house(day, plan);
  for (std::size_t k = 0; k < draws; ++k) {
    const auto& failed = house.run(k);
    bool all = true;
    bool clock = true;
    for (std::size_t b = 0; b < plan.size(); ++b) {
      clock = clock && by_the_clock(day.bakes[b], plan[b], k);
      if (failed[b] == Due::no_leg) {
        ++out.each[b].through;
      } else {
        all = false;
        ++missed[{b, failed[b]}];
      }
    }
    out.all.through += all ? 1U : 0U;
    out.by_the_clock.through += clock ? 1U : 0U;
  }
  for (const auto& [where, count] : missed) {
    if (where.second != House::stuck) out.missed.push_back({where.first, where.second, count});
  }
  std::stable_sort(out.missed.begin(), out.missed.end(), [](const Missed& a, const Missed& b) {
    return a.draws > b.draws;
  });
  return out;
}

}  // namespace barm::dayplan
