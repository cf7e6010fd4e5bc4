#pragma once
// The day: several bakes on the hands and places of one house, until the bread is wanted.
#include <functional>
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <vector>

#include "dayplan/busy.h"
#include "dayplan/day.h"
#include "dayplan/work.h"
#include "service/bake/calendar.h"
#include "service/day/file.h"
#include "service/day/lists.h"
#include "storage/records.h"

namespace barm::service {

/// A step that a person wants at another time: "divide" of "Mead loaf" at "2026-11-27T15:30".
struct MoveRequest {
  std::string bake, step, to;
};

/// "Mead loaf: divide" and a day and time; nothing where both are empty. Errors: bad_input.
[[nodiscard]] Result<std::optional<MoveRequest>> asked_move(const std::string& move,
                                                            const std::string& to);

/// One bake of a plan as it is told and told back: by which way, and when each step begins.
struct BakePlan {
  std::string bake, way;
  std::vector<time::Instant> begins;
};

struct DayRequest {
  int draws = 400;         ///< the plan is made with
  int fresh_draws = 2000;  ///< its chance is counted on
  unsigned long long seed = 1;
  int threads = 0;
  std::vector<BakePlan> from;  ///< the plan there is; empty: one is sought
  std::optional<MoveRequest> move;
  std::optional<std::vector<storage::Bottle>> shelf;  ///< what there is; empty: not known
  std::function<bool()> cancelled = nullptr;
  std::function<void(double)> progress = nullptr;  ///< told the share done, ascending
};

/// One line of the day.
struct DayStep {
  std::string bake, what, way;
  time::Instant begins, ends;
  std::optional<time::Instant> earliest, latest;  ///< with the house to itself
  bool begun = false;
  int hands = 0;                    ///< pairs it takes
  int hands_free = 0;               ///< pairs left then
  std::vector<std::string> places;  ///< "mixer 1", "fridge 6"
};

/// A step of a bake that holds so many of a thing.
struct HeldBy {
  std::string bake, step;
  time::Instant from, to;
  int amount = 1;
};

/// One thing of the house, and who holds it in order of time.
struct HeldRow {
  std::string what;  ///< "hands", "mixer", "bench", "fridge", "deck"
  int of = 1;        ///< so many there are
  std::vector<HeldBy> by;
};

/// So many pairs of hands free, and awake.
struct FreeHands {
  time::Instant from, to;
  int pairs = 0;
};

struct DayAnswer {
  std::string name;
  time::Zone zone = time::Zone::fixed(0);
  time::Instant begins, bread;  ///< the last bread
  bool planned = false;
  bool best = false;                    ///< no timetable lets more doughs through
  std::vector<BakePlan> plan;           ///< of each bake; empty where there is none
  std::vector<DayStep> steps;           ///< by the clock; empty where there is no plan
  std::vector<FreeHands> free;          ///< from the plan's begin to the last bread
  std::vector<HeldRow> held;            ///< the rows of the day's picture; empty without a plan
  std::vector<std::string> ways;        ///< of each bake: "Mead loaf: through the fridge"
  std::vector<std::string> why_not;     ///< where there is no plan
  std::vector<std::string> collisions;  ///< and what would ease them
  std::vector<std::string> doubts;      ///< where it fails most
  std::optional<dayplan::Chance> chance, by_the_clock;
  std::vector<std::pair<std::string, dayplan::Chance>> each;  ///< of each bake
  std::vector<std::string> moved;  ///< what was asked to move, and what moved along or breaks
  bool refused = false;            ///< the step cannot be there: the plan stayed as it was
  DayLists lists;                  ///< what to feed, weigh and buy; empty without a plan
  std::vector<std::string> cautions;
  int draws = 0;
  std::string made_from;  ///< a digest of all that was known of the daybook's bakes
};

/// Errors: those of lay_day() and day_answer() (service/day/laid_day.h).
[[nodiscard]] Result<DayAnswer> plan_day(const DayFile& file, const DayRequest& request);

/// What to do and when, with an alarm for each step.
[[nodiscard]] std::string day_calendar(const DayAnswer& answer, const CalendarRequest& request);

/// "Sat 05:10": a moment of the day to the minute.
[[nodiscard]] std::string day_clock(const DayAnswer& answer, time::Instant at);

/// "barm.day/1".
[[nodiscard]] nlohmann::json to_json(const DayAnswer& answer);

}  // namespace barm::service
