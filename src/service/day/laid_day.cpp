#include "service/day/laid_day.h"

#include <algorithm>
#include <future>

#include "dayplan/told.h"
#include "service/day/drawn.h"
#include "service/day/moves.h"
#include "service/day/oven.h"
#include "service/day/rows.h"
#include "service/oven/alcohol_cautions.h"

namespace barm::service {

namespace {

using dayplan::Minutes;

constexpr unsigned long long other_luck =
    0x9E3779B97F4A7C15;             // of the seed: for the draws the chance is counted on
constexpr int offered_draws = 100;  // of a way that is only tried (dayplan/remedy.h)

forecast::Options drawing(const DayRequest& request, int draws, unsigned long long seed) {
  forecast::Options out;
  out.draws = draws;
  out.seed = seed;
  out.threads = request.threads;
  out.cancelled = request.cancelled;
  return out;
}

/// Once of all bakes with alcohol in them, and what holds of every plan.
std::vector<std::string> day_cautions(const DayFile& file) {
  std::vector<OvenAnswer> baked;
  for (const DayBake& each : file.bakes) {
    const auto same = [&](const OvenAnswer& one) { return one.name == each.bake.name; };
    if (std::none_of(baked.begin(), baked.end(), same)) baked.push_back(*each.oven);
  }
  auto out = alcohol_cautions(baked);
  out.emplace_back(
      "Hours are ranges: look at the dough before you divide it, and let the plan wait for it. "
      "How long bread and dough may stand, in the fridge and out of it, is for your local food "
      "rules to say; hours of work and rest for the labour rules of your place.");
  return out;
}

std::vector<FreeHands> free_of(const LaidDay& laid, const dayplan::Plan& plan, time::Instant last) {
  std::vector<FreeHands> out;
  const auto end = static_cast<Minutes>((last.seconds - laid.file.begins.seconds) / 60);
  for (const dayplan::Free& free : dayplan::free_hands(laid.day, plan, 0, {0, end})) {
    out.push_back(
        {at_minute(laid.file, free.when.from), at_minute(laid.file, free.when.to), free.amount});
  }
  return out;
}

void tell_plan(DayAnswer& out,
               const LaidDay& laid,
               const dayplan::Plan& plan,
               const DayRequest& request) {
  const dayplan::Worked worked = dayplan::work(*laid.fresh, plan);
  out.planned = true;
  out.best = laid.planned.best;
  out.steps = steps_by_the_clock(laid.file, laid.day, plan);
  out.held = held_rows(laid.file, laid.day, plan);
  out.free = free_of(laid, plan, out.bread);
  out.collisions = laid.collisions;
  out.doubts = dayplan::doubts(laid.day, plan, worked);
  out.chance = worked.all;
  out.by_the_clock = worked.by_the_clock;
  out.plan = told_plan(laid.file, laid.day, plan);
  for (std::size_t b = 0; b < plan.size(); ++b) {
    out.each.emplace_back(laid.day.bakes[b].name, worked.each[b]);
    out.ways.push_back(out.plan[b].bake + ": " + out.plan[b].way);
  }
  out.lists = day_lists(laid.file, out.plan, request.shelf);
}

/// The plan that is told, else the best that is found.
Result<dayplan::Planned> planned_for(const DayFile& file,
                                     const dayplan::Day& day,
                                     const DayRequest& request,
                                     const dayplan::Effort& effort) {
  if (request.from.empty()) return dayplan::plan(day, {}, effort);
  auto told = plan_that_holds(file, day, request.from);
  if (!told) return failure(told);
  return dayplan::planned_as(day, *std::move(told), effort);
}

/// The plan that is told, where it goes by the ways that were drawn; else that of the day.
Result<dayplan::Plan> plan_of(const LaidDay& laid, const DayRequest& request) {
  if (request.from.empty()) return *laid.planned.plan;
  auto told = plan_that_holds(laid.file, laid.day, request.from);
  if (!told) return told;
  for (std::size_t b = 0; b < told->size(); ++b) {
    if ((*told)[b].way != (*laid.planned.plan)[b].way)
      return failure(
          ErrorCode::bad_input, "from", laid.day.bakes[b].name + " goes another way in this day");
  }
  return told;
}

}  // namespace

std::string said_minute(const DayFile& file, Minutes minute) {
  const time::LocalTime local = file.zone.local(at_minute(file, minute));
  return local.date->weekday() + " " + local.of_day();
}

Result<LaidDay> lay_day(const DayFile& as_read, const DayRequest& request) {
  const auto tell = [&](double part) {
    if (request.progress) request.progress(part);
  };
  const auto with = with_ovens(as_read, drawing(request, request.draws, request.seed));
  if (!with) return failure(with);
  const DayFile& file = *with;
  auto day = drawn_day(file, drawing(request, request.draws, request.seed));
  if (!day) return failure(day);
  tell(0.25);
  dayplan::Effort effort;
  effort.cancelled = request.cancelled;
  effort.progress = [&](double part) { tell(0.25 + 0.4 * part); };
  auto planned = planned_for(file, *day, request, effort);
  if (!planned) return failure(planned);
  LaidDay out{file, std::move(*day), std::move(*planned), std::nullopt, request.draws, {}, {}, {}};
  const dayplan::Clock clock = [&](Minutes at) { return said_minute(file, at); };
  const dayplan::Offers offers = [&](const std::vector<std::size_t>& bakes) {
    return offered_ways(
        file, bakes, drawing(request, std::min(request.draws, offered_draws), request.seed));
  };
  if (out.planned.plan) {
    auto collisions = std::async(std::launch::async, [&] {
      return dayplan::collisions(out.day, out.planned, clock, offers);
    });
    auto fresh = drawn_day(
        file, drawing(request, request.fresh_draws, request.seed ^ other_luck), &*out.planned.plan);
    if (!fresh) return failure(fresh);
    out.fresh = std::move(*fresh);
    tell(0.8);
    out.collisions = collisions.get();
  } else {
    out.why_not = dayplan::why_not(out.day, out.planned, clock, offers);
  }
  tell(0.95);
  out.cautions = day_cautions(file);
  tell(1);
  if (request.cancelled && request.cancelled())
    return failure(ErrorCode::cancelled, "", "the plan was not wanted any more");
  return out;
}

Result<DayAnswer> day_answer(const LaidDay& laid, const DayRequest& request) {
  DayAnswer out;
  out.name = laid.file.name;
  out.zone = laid.file.zone;
  out.begins = laid.file.begins;
  for (const DayBake& each : laid.file.bakes) out.bread = std::max(out.bread, each.bread);
  out.draws = laid.draws;
  out.made_from = made_from(laid.file);
  out.cautions = laid.cautions;
  out.why_not = laid.why_not;
  if (!laid.planned.plan) return out;
  auto plan = plan_of(laid, request);
  if (!plan) return failure(plan);
  if (request.move) {
    auto moved = moved_by_hand(laid, *plan, *request.move);
    if (!moved) return failure(moved);
    plan = std::move(moved->plan);
    out.moved = std::move(moved->told);
    out.refused = moved->refused;
  }
  tell_plan(out, laid, *plan, request);
  return out;
}

Result<DayAnswer> plan_day(const DayFile& file, const DayRequest& request) {
  const auto laid = lay_day(file, request);
  if (!laid) return failure(laid);
  return day_answer(*laid, request);
}

}  // namespace barm::service
