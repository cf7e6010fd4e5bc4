// Small days by looking at every timetable there is: shares no code with the solver, nor with the
// checker.
#include <gtest/gtest.h>

#include <cmath>
#include <optional>

#include "dayplan/check.h"
#include "dayplan/plan.h"
#include "days.h"

namespace barm::dayplan {

namespace {

constexpr Minutes grid = 5;

/// -100 ln of the share of doughs within the leg, none where there are none.
std::optional<long> price(const Leg& leg, int apart) {
  const std::size_t doughs = std::max(leg.ready.size(), leg.lasts.size());
  int inside = 0;
  for (std::size_t k = 0; k < doughs; ++k) {
    const double ready = leg.ready[leg.ready.size() == 1 ? 0 : k];
    const double lasts = leg.lasts[leg.lasts.size() == 1 ? 0 : k];
    if (ready <= apart && apart <= ready + lasts) ++inside;
  }
  if (inside == 0) return std::nullopt;
  return std::lround(-100 * std::log(static_cast<double>(inside) / static_cast<double>(doughs)));
}

/// The shortest way of each dough from the beginning of a leg to the bread, by recursion from the
/// end.
double to_bread(const Way& way, std::size_t step, std::size_t from, std::size_t k) {
  if (step == from) return 0;
  double most = step > from ? to_bread(way, step - 1, from, k) + way.steps[step - 1].minutes : 0;
  for (const Leg& leg : way.legs) {
    if (leg.to != step || leg.from < from) continue;
    most =
        std::max(most, to_bread(way, leg.from, from, k) + leg.ready[leg.ready.size() == 1 ? 0 : k]);
  }
  return most;
}

std::optional<long> price(const Bake& bake, const Course& course) {
  const Way& way = bake.ways[course.way];
  const auto begin = [&](std::size_t i) {
    return i < course.begin.size() ? course.begin[i] : bake.wanted;
  };
  long sum = 0;
  for (std::size_t i = 0; i < way.steps.size(); ++i) {
    if (begin(i) + way.steps[i].minutes > begin(i + 1)) return std::nullopt;
  }
  for (const Leg& leg : way.legs) {
    const auto own = price(leg, begin(leg.to) - begin(leg.from));
    if (!own) return std::nullopt;
    sum += *own;
    if (leg.ready.size() == 1 && leg.lasts.size() == 1) continue;
    Leg bread{"", leg.from, way.steps.size(), {}, {for_ever}};
    for (std::size_t k = 0; k < leg.ready.size(); ++k)
      bread.ready.push_back(static_cast<float>(to_bread(way, way.steps.size(), leg.from, k)));
    const auto in_time = price(bread, bake.wanted - begin(leg.from));
    if (!in_time) return std::nullopt;
    sum += *in_time;
  }
  return sum;
}

struct Priced {
  Course course;
  long cost;
};

bool open(const Day& day, const Step& step, Minutes from) {
  for (Minutes at = from; at < from + step.minutes; ++at) {
    for (const Use& use : step.uses) {
      for (const Span& closed : day.house[use.resource].closed) {
        if (closed.from <= at && at < closed.to) return false;
      }
    }
  }
  return true;
}

std::vector<Priced> every_course(const Day& day, const Bake& bake) {
  std::vector<Priced> out;
  for (std::size_t w = 0; w < bake.ways.size(); ++w) {
    Course course{w, std::vector<Minutes>(bake.ways[w].steps.size(), 0)};
    while (true) {
      bool awake = true;
      for (std::size_t i = 0; i < course.begin.size(); ++i)
        awake = awake && open(day, bake.ways[w].steps[i], course.begin[i]);
      const auto cost = awake ? price(bake, course) : std::nullopt;
      if (cost) out.push_back({course, *cost});
      std::size_t digit = 0;
      while (digit < course.begin.size() && (course.begin[digit] += grid) >= bake.wanted)
        course.begin[digit++] = 0;
      if (digit == course.begin.size()) break;
    }
  }
  return out;
}

bool fits(const Day& day, const std::vector<const Course*>& courses) {
  std::vector<std::vector<int>> held(day.house.size(), std::vector<int>(400));
  for (std::size_t b = 0; b < courses.size(); ++b) {
    const auto& steps = day.bakes[b].ways[courses[b]->way].steps;
    for (std::size_t i = 0; i < steps.size(); ++i) {
      const Minutes from = courses[b]->begin[i];
      const Minutes next = i + 1 < steps.size() ? courses[b]->begin[i + 1] : day.bakes[b].wanted;
      for (const Use& use : steps[i].uses) {
        for (Minutes at = from; at < (use.until_next ? next : from + steps[i].minutes); ++at) {
          held[use.resource][static_cast<std::size_t>(at)] += use.amount;
          if (held[use.resource][static_cast<std::size_t>(at)] > day.house[use.resource].capacity)
            return false;
        }
      }
    }
  }
  return true;
}

/// The least cost of any timetable of two bakes.
std::optional<long> by_looking_at_all(const Day& day) {
  const auto first = every_course(day, day.bakes[0]);
  const auto second = every_course(day, day.bakes[1]);
  std::optional<long> best;
  for (const Priced& a : first) {
    for (const Priced& b : second) {
      if (best && a.cost + b.cost >= *best) continue;
      if (fits(day, {&a.course, &b.course})) best = a.cost + b.cost;
    }
  }
  return best;
}

/// Two bakes of three steps in an hour and a half, one pair of hands and one oven between them.
Day small_day(std::uint64_t seed) {
  numerics::Random random(seed);
  const auto whole = [&](int least, int most) {
    return least + static_cast<int>(random.uniform() * (most - least + 1));
  };
  const Minutes nap = grid * whole(2, 12);
  Day day{{{"pair of hands", "pairs of hands", 1, {{nap, nap + whole(1, 12)}}},
           {"oven", "ovens", whole(1, 2), {}}},
          {},
          grid};
  for (int b = 0; b < 2; ++b) {
    Bake bake{"loaf", grid * whole(14, 18), {}};
    for (int w = 0; w < 2; ++w) {
      const double hours = 0.2 + 0.4 * random.uniform();
      const Draws rise = about(hours, 0.3, random, 30);
      bake.ways.push_back(
          {"",
           {{"mix", whole(3, 12), {{0}}},
            {"bake", whole(3, 10), {{0}, {1, whole(1, day.house[1].capacity), true}}},
            {"unload", whole(2, 7), {{0}}}},
           {{"rise", 0, 1, rise, times(rise, 0.3 + 0.4 * random.uniform())},
            {"oven", 1, 2, {static_cast<float>(whole(12, 22))}, {7}},
            {"cooling", 2, 3, {9}}}});
    }
    day.bakes.push_back(std::move(bake));
  }
  return day;
}

TEST(TheSolver, FindsWhatLookingAtEveryTimetableFinds) {
  int possible = 0;
  int impossible = 0;
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    const Day day = small_day(seed);
    const auto truth = by_looking_at_all(day);
    for (const bool to_the_end : {true, false}) {
      Effort effort;
      effort.to_the_end = to_the_end;
      effort.by_the_draws = false;
      const auto found = plan(day, {}, effort);
      ASSERT_TRUE(found.has_value());
      ASSERT_EQ(found->plan.has_value(), truth.has_value()) << "day " << seed;
      if (truth) {
        EXPECT_EQ(found->cost, *truth) << "day " << seed;
      }
      EXPECT_TRUE(truth ? found->best : found->stuck.surely) << "day " << seed;
    }
    ++(truth ? possible : impossible);
  }
  EXPECT_GE(possible, 15);
  EXPECT_GE(impossible, 5);
}

/// The checker by the same look at everything: it lets through what fits, and only that.
TEST(TheChecker, AgreesWithLookingMinuteByMinute) {
  int good = 0;
  int bad = 0;
  for (std::uint64_t seed = 1; seed <= 12; ++seed) {
    const Day day = small_day(seed);
    const auto first = every_course(day, day.bakes[0]);
    const auto second = every_course(day, day.bakes[1]);
    if (first.empty() || second.empty()) continue;
    numerics::Random random(seed);
    for (int i = 0; i < 200; ++i) {
      const auto any = [&](const auto& of) -> const Course& {
        return of[static_cast<std::size_t>(random.uniform() * static_cast<double>(of.size()))]
            .course;
      };
      const Course& a = any(first);
      const Course& b = any(second);
      const bool holds = fits(day, {&a, &b});
      EXPECT_EQ(check(day, {a, b}).empty(), holds);
      ++(holds ? good : bad);
    }
  }
  EXPECT_GE(good, 50);
  EXPECT_GE(bad, 50);
}

}  // namespace

}  // namespace barm::dayplan
