#include "service/day/anew.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "base/digest.h"
#include "dayplan/check.h"
#include "dayplan/near.h"
#include "dayplan/told.h"
#include "service/day/drawn.h"
#include "service/day/laid_day.h"
#include "service/day/moves.h"
#include "service/day/oven.h"
#include "service/day/rows.h"
#include "service/day/under_way.h"
#include "service/daybook/view.h"
#include "service/internal/object.h"

namespace barm::service {

using internal::object;

namespace {

using nlohmann::json;
using storage::Daybook;

// So many that day_answer() finds the plan to hold, which is asked with no other number.
const int draws_again = DayRequest{}.draws;
constexpr const char* anew_kept_as = "day-anew";

std::vector<KeptStep> steps_left(const DayFile& file,
                                 const dayplan::Day& day,
                                 const dayplan::Plan& plan) {
  std::vector<KeptStep> out;
  for (const DayStep& step : steps_by_the_clock(file, day, plan)) {
    if (!step.begun) out.push_back({step.bake, step.what, step.begins, step.ends});
  }
  return out;
}

/// "Moved: divide of the Mead loaf from Sat 15:05 to Sat 15:40."
std::vector<std::string> moved(const DayFile& file,
                               const std::vector<KeptStep>& before,
                               const std::vector<KeptStep>& after) {
  const auto clock = [&](time::Instant at) {
    return said_minute(file,
                       static_cast<dayplan::Minutes>((at.seconds - file.begins.seconds) / 60));
  };
  std::vector<std::string> out;
  for (const KeptStep& now : after) {
    const auto was = std::find_if(before.begin(), before.end(), [&](const KeptStep& one) {
      return one.bake == now.bake && one.step == now.step;
    });
    if (was == before.end() || was->begins == now.begins) continue;
    out.push_back(fmt::format("Moved: {} of the {} from {} to {}.",
                              now.step,
                              now.bake,
                              clock(was->begins),
                              clock(now.begins)));
  }
  if (out.empty())
    out.emplace_back("Looked at again by what was read or ticked off since: it holds as it is.");
  return out;
}

DayAnew cannot_be_held(std::string made_from, const std::string& why) {
  return {std::move(made_from),
          {"By what was read or ticked off since it cannot be held as it stands" +
           (why.empty() ? std::string() : ": " + why) + ". Plan the day again."},
          {},
          {},
          {}};
}

Result<DayAnew> laid_anew(const MadePlan& made,
                          const DayFile& file,
                          const std::function<bool()>& cancelled) {
  const std::string from = made_from(file);
  forecast::Options options;
  options.draws = draws_again;
  options.cancelled = cancelled;
  const auto with = with_ovens(file, options);
  if (!with && with.error().code == ErrorCode::cancelled) return failure(with);
  if (!with) return cannot_be_held(from, with.error().text());
  const auto day = drawn_day(*with, options);
  if (!day && day.error().code == ErrorCode::cancelled) return failure(day);
  if (!day) return cannot_be_held(from, day.error().text());
  const auto before = plan_told(file, *day, made.plan);
  if (!before) return cannot_be_held(from, "a bake goes another way than it was planned");
  const auto after = dayplan::laid_again(*day, *before);
  if (!after) {
    const auto faults = dayplan::check(*day, *before);
    const dayplan::Clock clock = [&](dayplan::Minutes at) { return said_minute(file, at); };
    return cannot_be_held(from,
                          faults.empty() ? "" : dayplan::say(*day, *before, faults.front(), clock));
  }
  const auto steps = steps_left(file, *day, *after);
  return DayAnew{from,
                 moved(file, steps_left(file, *day, *before), steps),
                 file.begins,
                 told_plan(file, *day, *after),
                 steps};
}

json to_json(const DayAnew& anew) {
  json steps = json::array();
  for (const KeptStep& step : anew.steps)
    steps.push_back({step.bake, step.step, step.begins.seconds, step.ends.seconds});
  json plan = json::array();
  for (const BakePlan& one : anew.plan) {
    json begins = json::array();
    for (const time::Instant& at : one.begins) begins.push_back(at.seconds);
    plan.push_back({one.bake, one.way, begins});
  }
  return object({{"made_from", anew.made_from},
                 {"told", anew.told},
                 {"begins", anew.begins.seconds},
                 {"plan", plan},
                 {"steps", steps}});
}

time::Instant instant_in(const json& seconds) { return {seconds.get<std::int64_t>()}; }

/// Nothing for what this program did not write.
std::optional<DayAnew> from_text(const std::string& text) {
  const json all = json::parse(text, nullptr, false);
  if (!all.is_object()) return std::nullopt;
  try {
    DayAnew out{all.at("made_from").get<std::string>(),
                all.at("told").get<std::vector<std::string>>(),
                instant_in(all.at("begins")),
                {},
                {}};
    for (const json& one : all.at("plan")) {
      out.plan.push_back({one.at(0).get<std::string>(), one.at(1).get<std::string>(), {}});
      for (const json& at : one.at(2)) out.plan.back().begins.push_back(instant_in(at));
    }
    for (const json& step : all.at("steps"))
      out.steps.push_back({step.at(0).get<std::string>(),
                           step.at(1).get<std::string>(),
                           instant_in(step.at(2)),
                           instant_in(step.at(3))});
    return out;
  } catch (const json::exception&) {
    return std::nullopt;
  }
}

}  // namespace

Result<std::optional<DayAnew>> day_anew(Daybook& daybook,
                                        const MadePlan& made,
                                        const Now& now,
                                        const std::function<bool()>& cancelled) {
  if (made.made_from.empty()) return std::optional<DayAnew>();  // an earlier barm kept it
  const auto named = [&](const std::string& words, const FilePlace&) {
    return known_bake(daybook, words, now);
  };
  const auto file = parse_day(made.text, "day", now.zone, named, now.at);
  if (!file) return std::optional(cannot_be_held("", file.error().text()));
  const std::string from = made_from(*file);
  if (from == made.made_from) return std::optional<DayAnew>();
  const auto first = find_bake(daybook, file->bakes.front().file);
  if (!first) return failure(first);
  std::string rests_on = made.made_from + from + made.text;
  for (const BakePlan& one : made.plan) {
    for (const time::Instant& at : one.begins) rests_on += at.text();
  }
  const std::string key = digest(rests_on);
  const auto known = daybook.worked_out(first->id, anew_kept_as, key);
  if (!known) return failure(known);
  if (*known) {
    if (auto anew = from_text(**known)) return anew;
  }
  auto anew = laid_anew(made, *file, cancelled);
  if (!anew) return failure(anew);
  (void)daybook.keep_worked_out(first->id, anew_kept_as, key, to_json(*anew).dump());
  return std::optional(std::move(*anew));
}

}  // namespace barm::service
