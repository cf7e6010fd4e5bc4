#include "service/day/moves.h"

#include <fmt/format.h>

#include <algorithm>

#include "dayplan/move.h"
#include "dayplan/told.h"
#include "service/day/rows.h"

namespace barm::service {

namespace {

using dayplan::Minutes;

Minutes minute_of(const DayFile& file, time::Instant at) {
  return static_cast<Minutes>((at.seconds - file.begins.seconds) / 60);
}

/// The whole name of a bake, or a beginning that no other bake has.
bool is_meant(const std::string& words, std::size_t bake, const dayplan::Day& day) {
  const auto begins = [&](const dayplan::Bake& one) { return one.name.starts_with(words); };
  if (day.bakes[bake].name == words) return true;
  return !words.empty() && begins(day.bakes[bake]) &&
         std::count_if(day.bakes.begin(), day.bakes.end(), begins) == 1;
}

/// The step that is to move, and the minute.
Result<dayplan::Pin> asked_for(const LaidDay& laid,
                               const dayplan::Plan& plan,
                               const MoveRequest& move) {
  const auto at = moment_of(move.to, laid.file.zone);
  if (!at) return failure(ErrorCode::bad_input, "--to", "a day and time such as 2026-11-27T15:30");
  const Minutes minute = minute_of(laid.file, *at);
  if (minute % laid.day.grid != 0 || at->seconds % 60 != 0) {
    return failure(ErrorCode::bad_input,
                   "--to",
                   fmt::format("the plan goes in steps of {} min", laid.day.grid));
  }
  std::string known;
  for (std::size_t b = 0; b < plan.size(); ++b) {
    const auto& steps = dayplan::way_of(laid.day, plan, b).steps;
    const bool meant = is_meant(move.bake, b, laid.day);
    for (std::size_t i = 0; i < steps.size(); ++i) {
      if (meant && steps[i].what == move.step) return dayplan::Pin{{b, i}, minute};
      known += (known.empty() ? "'" : "; '") + laid.day.bakes[b].name + ": " + steps[i].what + "'";
    }
  }
  return failure(ErrorCode::bad_input, "--move", "a step of the plan: " + known);
}

Result<dayplan::Plan> not_this_day(const std::string& why) {
  return failure(ErrorCode::bad_input, "from", why + ": send the plan as it was answered");
}

}  // namespace

std::vector<BakePlan> told_plan(const DayFile& file,
                                const dayplan::Day& day,
                                const dayplan::Plan& plan) {
  std::vector<BakePlan> out;
  for (std::size_t b = 0; b < plan.size(); ++b) {
    BakePlan one{day.bakes[b].name, dayplan::way_of(day, plan, b).name, {}};
    for (const Minutes begin : plan[b].begin) one.begins.push_back(at_minute(file, begin));
    out.push_back(std::move(one));
  }
  return out;
}

Result<dayplan::Plan> plan_told(const DayFile& file,
                                const dayplan::Day& day,
                                const std::vector<BakePlan>& told) {
  if (told.size() != day.bakes.size()) return not_this_day("it has not the bakes of the day");
  dayplan::Plan plan;
  for (std::size_t b = 0; b < told.size(); ++b) {
    const auto& ways = day.bakes[b].ways;
    const auto way = std::find_if(
        ways.begin(), ways.end(), [&](const auto& one) { return one.name == told[b].way; });
    if (told[b].bake != day.bakes[b].name || way == ways.end())
      return not_this_day(told[b].bake + " by the way " + told[b].way + " is not in it");
    if (told[b].begins.size() != way->steps.size())
      return not_this_day(told[b].bake + " has other steps");
    dayplan::Course course{static_cast<std::size_t>(way - ways.begin()), {}};
    for (const time::Instant& at : told[b].begins) course.begin.push_back(minute_of(file, at));
    plan.push_back(std::move(course));
  }
  return plan;
}

Result<dayplan::Plan> plan_that_holds(const DayFile& file,
                                      const dayplan::Day& day,
                                      const std::vector<BakePlan>& told) {
  auto plan = plan_told(file, day, told);
  if (!plan) return plan;
  const auto faults = dayplan::check(day, *plan);
  if (faults.empty()) return plan;
  return not_this_day(
      dayplan::say(day, *plan, faults.front(), [&](Minutes at) { return said_minute(file, at); }));
}

Result<MovedPlan> moved_by_hand(const LaidDay& laid,
                                const dayplan::Plan& plan,
                                const MoveRequest& request) {
  const auto pin = asked_for(laid, plan, request);
  if (!pin) return failure(pin);
  const dayplan::Clock clock = [&](Minutes at) { return said_minute(laid.file, at); };
  const dayplan::Moved answer = dayplan::move(laid.day, plan, pin->at, pin->begin);
  if (!answer.plan) {
    MovedPlan out{plan, {"It cannot be moved there; the plan stays as it was."}, true};
    dayplan::Plan asked = plan;
    asked[pin->at.bake].begin[pin->at.step] = pin->begin;
    for (const auto& fault : answer.broken)
      out.told.push_back("It would break: " + dayplan::say(laid.day, asked, fault, clock) + ".");
    return out;
  }
  const std::string& bake = laid.day.bakes[pin->at.bake].name;
  MovedPlan out{*answer.plan,
                {fmt::format("Moved: {} of the {} to {}.", request.step, bake, clock(pin->begin))},
                false};
  for (const dayplan::At& at : answer.along) {
    out.told.push_back(fmt::format("Along with it: {} of the {}, from {} to {}.",
                                   dayplan::way_of(laid.day, plan, at.bake).steps[at.step].what,
                                   laid.day.bakes[at.bake].name,
                                   clock(plan[at.bake].begin[at.step]),
                                   clock((*answer.plan)[at.bake].begin[at.step])));
  }
  return out;
}

}  // namespace barm::service
