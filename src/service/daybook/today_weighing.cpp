// What the ordinary breads of a day take together.
#include <algorithm>

#include "service/daybook/internal/today.h"

namespace barm::service::internal {

namespace {

bool has_a_drink(const formula::Bake& bake) {
  return std::any_of(bake.bowl.begin(), bake.bowl.end(), [](const formula::Portion& portion) {
    return portion.ingredient.group == larder::Group::drink;
  });
}

bool to_weigh(const Alive& alive, const Now& now) {
  return alive.record.state == "planned" && alive.record.mixed_at &&
         *alive.record.mixed_at >= now.at - 12 * an_hour && !has_a_drink(alive.bake);
}

std::string day_of(const Alive& alive, const Now& now) {
  return now.zone.day(*alive.record.mixed_at).text();
}

}  // namespace

void weigh_ordinary(TodayAnswer& answer, const std::vector<Alive>& doughs, const Now& now) {
  for (const Alive& alive : doughs) {
    if (!to_weigh(alive, now)) continue;
    const std::string day = day_of(alive, now);
    if (answer.weigh_day.empty() || day < answer.weigh_day) answer.weigh_day = day;
  }
  for (const Alive& alive : doughs) {
    if (!to_weigh(alive, now) || day_of(alive, now) != answer.weigh_day) continue;
    answer.ordinary.push_back(alive.record.title);
    for (const formula::Weighed& line : alive.bowl.lines) {
      const auto same = [&](const WeighToday& one) { return one.ingredient == line.name; };
      const auto found = std::find_if(answer.weigh.begin(), answer.weigh.end(), same);
      if (found == answer.weigh.end()) {
        answer.weigh.push_back({line.name, line.plan});
      } else {
        found->mass = found->mass + line.plan;
      }
    }
  }
}

}  // namespace barm::service::internal
