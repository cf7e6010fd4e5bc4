#include "service/day.h"

#include <fmt/format.h>

#include <algorithm>

#include "dayplan/move.h"
#include "dayplan/plan.h"
#include "dayplan/told.h"
#include "service/day_rows.h"
#include "service/day_steps.h"
#include "service/oven.h"

namespace barm::service {

namespace {

using dayplan::Minutes;

constexpr unsigned long long fresh =
    0x9E3779B97F4A7C15;  // of the seed: other luck, and no way back

std::string said_at(const time::Zone& zone, time::Instant at) {
  const time::LocalTime local = zone.local(at);
  return local.date->weekday() + " " + local.of_day();
}

forecast::Options options_of(const DayRequest& request, int draws, unsigned long long seed) {
  forecast::Options out;
  out.draws = draws;
  out.seed = seed;
  out.threads = request.threads;
  out.cancelled = request.cancelled;
  return out;
}

/// The bake's name; a number behind it where the day has it more than once.
std::string name_of(const DayFile& file, std::size_t bake) {
  const auto plain = [&](std::size_t b) {
    return file.bakes[b].bake.name.empty() ? file.bakes[b].file : file.bakes[b].bake.name;
  };
  int before = 0;
  for (std::size_t b = 0; b < bake; ++b) before += plain(b) == plain(bake) ? 1 : 0;
  return before == 0 ? plain(bake) : fmt::format("{} ({})", plain(bake), before + 1);
}

/// One bake by all its ways, or with hours of the chosen one alone; a way that what is done has
/// left behind is none any more.
Result<dayplan::Bake> drawn(const DayFile& file,
                            std::size_t number,
                            const forecast::Options& options,
                            std::optional<std::size_t> chosen) {
  const DayBake& each = file.bakes[number];
  dayplan::Bake out{name_of(file, number),
                    static_cast<Minutes>((each.bread.seconds - file.begins.seconds) / 60),
                    {}};
  std::vector<OtherWay> ways{OtherWay{}};
  ways.insert(ways.end(), each.others.begin(), each.others.end());
  std::optional<Result<BulkDraws>> own;
  const auto hours_of = [&](const OtherWay& way) -> Result<BulkDraws> {
    if (chosen && *chosen != out.ways.size()) return BulkDraws{{1}, {1}};  // nobody goes it
    if (way.bulk) return bulk_draws(each.bake, way, options);
    if (!own) own = bulk_draws(each.bake, {}, options);
    return *own;
  };
  std::optional<Error> wrong;
  for (const OtherWay& way : ways) {
    const auto hours = hours_of(way);
    if (!hours) return failure(hours);
    auto steps = steps_of(file, each, way, *hours);
    if (steps)
      out.ways.push_back(std::move(*steps));
    else if (!wrong)
      wrong = steps.error();
  }
  if (out.ways.empty()) return failure(wrong->code, wrong->where, wrong->message);
  return out;
}

/// The whole day, drawn so often; of a plan only the ways it takes.
Result<dayplan::Day> drawn(const DayFile& file,
                           const forecast::Options& options,
                           const dayplan::Plan* plan = nullptr) {
  dayplan::Day out{house_of(file), {}, 5};
  for (std::size_t b = 0; b < file.bakes.size(); ++b) {
    auto bake =
        drawn(file, b, options, plan != nullptr ? std::optional((*plan)[b].way) : std::nullopt);
    if (!bake) return failure(bake);
    out.bakes.push_back(std::move(*bake));
  }
  return out;
}

/// The whole name of a bake, or a beginning that no other bake has.
bool is_meant(const std::string& words, std::size_t bake, const dayplan::Day& day) {
  const auto begins = [&](const dayplan::Bake& one) { return one.name.starts_with(words); };
  if (day.bakes[bake].name == words) return true;
  return !words.empty() && begins(day.bakes[bake]) &&
         std::count_if(day.bakes.begin(), day.bakes.end(), begins) == 1;
}

/// The step that is to move, and the minute.
Result<dayplan::Pin> asked_for(const DayFile& file,
                               const dayplan::Day& day,
                               const dayplan::Plan& plan,
                               const MoveRequest& move) {
  const auto at = moment_of(move.to, file.zone);
  if (!at) return failure(ErrorCode::bad_input, "--to", "a day and time such as 2026-11-27T15:30");
  std::string known;
  for (std::size_t b = 0; b < plan.size(); ++b) {
    const auto& steps = dayplan::way_of(day, plan, b).steps;
    const bool meant = is_meant(move.bake, b, day);
    for (std::size_t i = 0; i < steps.size(); ++i) {
      if (meant && steps[i].what == move.step)
        return dayplan::Pin{{b, i}, static_cast<Minutes>((at->seconds - file.begins.seconds) / 60)};
      known += (known.empty() ? "'" : "; '") + day.bakes[b].name + ": " + steps[i].what + "'";
    }
  }
  return failure(ErrorCode::bad_input, "--move", "a step of the plan: " + known);
}

/// Moves the step where it can be, and says what came of it.
Result<dayplan::Plan> moved(const DayFile& file,
                            const dayplan::Day& day,
                            const dayplan::Plan& plan,
                            const MoveRequest& request,
                            const dayplan::Clock& clock,
                            std::vector<std::string>& told) {
  const auto pin = asked_for(file, day, plan, request);
  if (!pin) return failure(pin);
  const dayplan::Moved answer = dayplan::move(day, plan, pin->at, pin->begin);
  if (!answer.plan) {
    dayplan::Plan asked = plan;
    asked[pin->at.bake].begin[pin->at.step] = pin->begin;
    told.emplace_back("It cannot be moved there; the plan stays as it was.");
    for (const auto& fault : answer.broken)
      told.push_back("It would break: " + dayplan::say(day, asked, fault, clock) + ".");
    return plan;
  }
  told.push_back(
      fmt::format("Moved: {} of the {} to {}.", request.step, request.bake, clock(pin->begin)));
  for (const dayplan::At& at : answer.along) {
    told.push_back(fmt::format("Along with it: {} of the {}, from {} to {}.",
                               dayplan::way_of(day, plan, at.bake).steps[at.step].what,
                               day.bakes[at.bake].name,
                               clock(plan[at.bake].begin[at.step]),
                               clock((*answer.plan)[at.bake].begin[at.step])));
  }
  return *answer.plan;
}

/// What `barm oven` warns of, for every bake with alcohol in it.
std::vector<std::string> cautions_of(const DayFile& file, const DayRequest& request) {
  std::vector<std::string> out;
  for (const DayBake& each : file.bakes) {
    const auto baked = oven(each.bake, {}, options_of(request, 100, request.seed));
    if (!baked)
      continue;  // a dough that the oven's model has no answer for is planned all the same
    for (const std::string& words : baked->cautions) {
      const std::string line = each.bake.name + ": " + words;
      if (std::find(out.begin(), out.end(), line) == out.end()) out.push_back(line);
    }
  }
  out.emplace_back(
      "Hours are ranges: look at the dough before you divide it, and let the plan wait for it. "
      "How long bread and dough may stand, in the fridge and out of it, is for your local food "
      "rules to say; hours of work and rest for the labour rules of your place.");
  return out;
}

}  // namespace

Result<DayAnswer> plan_day(const DayFile& file, const DayRequest& request) {
  const auto tell = [&](double part) {
    if (request.progress) request.progress(part);
  };
  const auto drawn_day = drawn(file, options_of(request, request.draws, request.seed));
  if (!drawn_day) return failure(drawn_day);
  tell(0.2);
  dayplan::Effort effort;
  effort.cancelled = request.cancelled;
  effort.progress = [&](double part) { tell(0.2 + 0.5 * part); };
  const auto planned = dayplan::plan(*drawn_day, {}, effort);
  if (!planned) return failure(planned);

  DayAnswer out;
  out.name = file.name;
  out.zone = file.zone;
  out.begins = file.begins;
  for (const DayBake& each : file.bakes) out.bread = std::max(out.bread, each.bread);
  out.draws = request.draws;
  const dayplan::Clock clock = [&](Minutes at) { return said_at(file.zone, at_minute(file, at)); };
  out.cautions = cautions_of(file, request);
  tell(0.8);
  if (!planned->plan) {
    out.why_not = dayplan::why_not(*drawn_day, *planned, clock);
    tell(1);
    return out;
  }
  dayplan::Plan plan = *planned->plan;
  if (request.move) {
    const auto by_hand = moved(file, *drawn_day, plan, *request.move, clock, out.moved);
    if (!by_hand) return failure(by_hand);
    plan = *by_hand;
  }
  const auto fresh_day =
      drawn(file, options_of(request, request.fresh_draws, request.seed ^ fresh), &plan);
  if (!fresh_day) return failure(fresh_day);
  tell(0.95);
  const dayplan::Worked worked = dayplan::work(*fresh_day, plan);
  out.planned = true;
  out.best = planned->best;
  out.steps = steps_by_the_clock(file, *drawn_day, plan);
  out.held = held_rows(file, *drawn_day, plan);
  for (const dayplan::Free& free : dayplan::free_hands(
           *drawn_day,
           plan,
           0,
           {0, static_cast<Minutes>((out.bread.seconds - file.begins.seconds) / 60)}))
    out.free.push_back(
        {at_minute(file, free.when.from), at_minute(file, free.when.to), free.amount});
  out.collisions = dayplan::collisions(*drawn_day, *planned, clock);
  out.doubts = dayplan::doubts(*drawn_day, plan, worked);
  out.chance = worked.all;
  out.by_the_clock = worked.by_the_clock;
  for (std::size_t b = 0; b < plan.size(); ++b) {
    const dayplan::Bake& bake = drawn_day->bakes[b];
    out.each.emplace_back(bake.name, worked.each[b]);
    out.ways.push_back(bake.name + ": " + bake.ways[plan[b].way].name);
  }
  tell(1);
  return out;
}

std::string day_clock(const DayAnswer& answer, time::Instant at) {
  return said_at(answer.zone, at);
}

std::string day_calendar(const DayAnswer& answer, const CalendarRequest& request) {
  std::vector<CalendarEntry> entries;
  for (const DayStep& step : answer.steps) {
    if (step.begun) continue;
    CalendarEntry entry;
    entry.key = step.bake + '\n' + step.what;
    entry.begins = answer.zone.local(step.begins).text();
    entry.ends = answer.zone.local(step.ends).text();
    entry.title = step.what + ": " + step.bake;
    if (step.latest)
      entry.words =
          "With the house to itself not later than " + day_clock(answer, *step.latest) + ".";
    entries.push_back(std::move(entry));
  }
  return calendar_file(answer.name + '\n' + answer.begins.text(), entries, request);
}

}  // namespace barm::service
