#pragma once
// A day of baking: what is to be baked by when, in a house with so many hands and places.
#include <cstddef>
#include <limits>
#include <optional>
#include <string>
#include <vector>

namespace barm::dayplan {

/// Whole minutes [min] since the beginning of the plan; a length of time likewise.
using Minutes = int;

/// Minutes [min] of each imagined dough; one value alone where it is known. What stands at place k
/// of all draws of a bake belongs to one dough.
using Draws = std::vector<float>;

/// Of a wait that nothing ends.
inline constexpr float for_ever = std::numeric_limits<float>::infinity();

/// From its first minute up to, and not with, its last.
struct Span {
  Minutes from = 0, to = 0;
};

/// What bakes share: pairs of hands, mixers, decks of the oven, places in the fridge.
struct Resource {
  std::string one, many;     ///< "pair of hands", "pairs of hands"
  int capacity = 1;          ///< so many at once
  std::vector<Span> closed;  ///< nights and days of rest, ascending
};

struct Use {
  std::size_t resource = 0;
  int amount = 1;
  bool until_next = false;  ///< until the next step begins, the wait for it included
};

/// Something that is begun: mixing, a fold, into the fridge.
struct Step {
  std::string what;     ///< "divide"
  Minutes minutes = 5;  ///< of work, 1 or more; the next step begins after it
  std::vector<Use> uses = {};
  std::optional<Minutes> begun = std::nullopt;  ///< it has begun then, and is not to be planned
};

/// What lies between two steps of a bake: a bulk from mixing to dividing, a night in the fridge.
///
///     ready_k <= begin(to) - begin(from) <= ready_k + lasts_k       for dough k
struct Leg {
  std::string what;           ///< "bulk"
  std::size_t from = 0;       ///< a step
  std::size_t to = 1;         ///< a later step; their number: the hour at which bread is wanted
  Draws ready;                ///< from the beginning of `from`
  Draws lasts = {for_ever};   ///< how long it then may wait
  std::string given_up = {};  ///< by what waits longer: "it is past its best"
  bool watched = false;       ///< in doubt, but who works sees it coming: a loaf in the oven

  [[nodiscard]] bool known() const { return ready.size() == 1 && lasts.size() == 1; }
};

/// One way to make a bake: warmer, with more levain, through a night in the fridge, in two loads.
struct Way {
  std::string name;
  std::vector<Step> steps;  ///< one after the other
  std::vector<Leg> legs;
};

struct Bake {
  std::string name;
  Minutes wanted = 0;     ///< the bread is to be there; a multiple of the grid
  std::vector<Way> ways;  ///< one or more; the planner chooses
};

struct Day {
  std::vector<Resource> house;
  std::vector<Bake> bakes;
  Minutes grid = 5;  ///< steps begin at whole multiples
};

/// How one bake goes: which way, and when each of its steps begins.
struct Course {
  std::size_t way = 0;
  std::vector<Minutes> begin;
};

/// A course of each bake, in their order.
using Plan = std::vector<Course>;

/// One step of a plan.
struct At {
  std::size_t bake = 0, step = 0;
};

[[nodiscard]] inline const Way& way_of(const Day& day, const Plan& plan, std::size_t bake) {
  return day.bakes[bake].ways[plan[bake].way];
}

/// Value k of draws, of which there may be one alone.
[[nodiscard]] inline float draw(const Draws& draws, std::size_t k) {
  return draws.size() == 1 ? draws.front() : draws[k];
}

/// When step `step` begins, or for the step behind the last one when the bread is wanted.
[[nodiscard]] inline Minutes begin_of(const Bake& bake, const Course& course, std::size_t step) {
  return step < course.begin.size() ? course.begin[step] : bake.wanted;
}

/// The number of doughs drawn: 1 where nothing is in doubt.
[[nodiscard]] std::size_t draws_of(const Day& day);

/// Whether a step takes something that is closed at times, and how long from a minute on it must
/// wait: the first minute from `at` on at which nothing the step takes is closed while it lasts.
[[nodiscard]] double next_open(const Day& day, const Step& step, double at);

/// Our own mistake, by require(): a leg that goes backwards, draws of different numbers, a use of
/// what the house has not.
void require_sound(const Day& day);

}  // namespace barm::dayplan
