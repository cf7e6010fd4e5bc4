#include "service/day/rows.h"

#include <fmt/format.h>

#include <algorithm>

#include "dayplan/bounds.h"

namespace barm::service {

namespace {

using dayplan::Minutes;

constexpr const char* short_names[] = {
    "hands", "mixer", "bench", "fridge", "deck"};  // of house_of()

int held_at(const std::vector<dayplan::Holding>& row, Minutes at) {
  int sum = 0;
  for (const auto& each : row) sum += each.when.from <= at && at < each.when.to ? each.amount : 0;
  return sum;
}

}  // namespace

time::Instant at_minute(const DayFile& file, Minutes minute) {
  return file.begins + std::int64_t{60} * minute;
}

std::vector<DayStep> steps_by_the_clock(const DayFile& file,
                                        const dayplan::Day& day,
                                        const dayplan::Plan& plan) {
  std::vector<DayStep> out;
  const auto rows = dayplan::holdings(day, plan);
  for (std::size_t b = 0; b < plan.size(); ++b) {
    const dayplan::Way& way = dayplan::way_of(day, plan, b);
    const auto could = dayplan::bounds(day, b, plan[b].way);
    for (std::size_t i = 0; i < way.steps.size(); ++i) {
      const dayplan::Step& step = way.steps[i];
      DayStep line;
      line.bake = day.bakes[b].name;
      line.what = step.what;
      line.way = way.name;
      line.begins = at_minute(file, plan[b].begin[i]);
      line.ends = at_minute(file, plan[b].begin[i] + step.minutes);
      line.begun = step.begun.has_value();
      if (could) {
        line.earliest = at_minute(file, could->earliest[i]);
        line.latest = at_minute(file, could->latest[i]);
      }
      for (const dayplan::Use& use : step.uses) {
        const dayplan::Resource& what = day.house[use.resource];
        if (use.resource == 0) {
          line.hands += use.amount;
          line.hands_free = what.capacity - held_at(rows[0], plan[b].begin[i]);
        } else {
          line.places.push_back(fmt::format("{} {}", short_names[use.resource], use.amount));
        }
      }
      out.push_back(std::move(line));
    }
  }
  std::stable_sort(out.begin(), out.end(), [](const DayStep& a, const DayStep& b) {
    return a.begins < b.begins;
  });
  return out;
}

std::vector<HeldRow> held_rows(const DayFile& file,
                               const dayplan::Day& day,
                               const dayplan::Plan& plan) {
  std::vector<HeldRow> out;
  const auto rows = dayplan::holdings(day, plan);
  for (std::size_t r = 0; r < rows.size(); ++r) {
    HeldRow row{short_names[r], day.house[r].capacity, {}};
    for (const dayplan::Holding& each : rows[r])
      row.by.push_back({day.bakes[each.at.bake].name,
                        dayplan::way_of(day, plan, each.at.bake).steps[each.at.step].what,
                        at_minute(file, each.when.from),
                        at_minute(file, each.when.to),
                        each.amount});
    out.push_back(std::move(row));
  }
  return out;
}

}  // namespace barm::service
