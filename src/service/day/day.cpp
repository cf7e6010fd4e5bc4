#include "service/day/day.h"

namespace barm::service {

Result<std::optional<MoveRequest>> asked_move(const std::string& move, const std::string& to) {
  if (move.empty() && to.empty()) return std::nullopt;
  if (move.empty())
    return failure(ErrorCode::bad_input, "--to", "goes with a step to move: Mead loaf: divide");
  const std::size_t colon = move.rfind(": ");
  if (colon == std::string::npos || to.empty()) {
    return failure(ErrorCode::bad_input,
                   "--move",
                   "a bake and its step, such as 'Mead loaf: divide', and where to, such as "
                   "2026-11-27T15:30");
  }
  return MoveRequest{move.substr(0, colon), move.substr(colon + 2), to};
}

std::string day_clock(const DayAnswer& answer, time::Instant at) {
  const time::LocalTime local = answer.zone.local(at);
  return local.date->weekday() + " " + local.of_day();
}

std::string day_calendar(const DayAnswer& answer, const CalendarRequest& request) {
  std::vector<CalendarEntry> entries;
  for (const DayStep& step : answer.steps) {
    if (step.begun) continue;
    CalendarEntry entry;
    entry.key = step.bake + '\n' + step.what;
    entry.begins = step.begins;
    if (step.ends > step.begins) entry.ends = step.ends;
    entry.title = step.what + ": " + step.bake;
    if (step.latest)
      entry.words =
          "With the house to itself not later than " + day_clock(answer, *step.latest) + ".";
    entries.push_back(std::move(entry));
  }
  return calendar_file(answer.name + '\n' + answer.begins.text(), entries, request);
}

}  // namespace barm::service
