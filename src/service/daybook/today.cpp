// What is alive today, what to do next, what to feed, buy and weigh.
#include "service/daybook/internal/today.h"

#include <fmt/format.h>

#include <algorithm>

namespace barm::service {

using storage::Daybook;

Result<TodayAnswer> today(Daybook& daybook,
                          const Now& now,
                          const std::function<bool()>& cancelled,
                          const AsRead& as_read) {
  TodayAnswer answer;
  answer.now = now.at;
  const auto invented = daybook.get<storage::Setting>("invented");
  answer.invented = invented && !invented->deleted_at && invented->value == "true";

  const auto doughs = internal::living(daybook, answer, now, as_read);
  if (!doughs) return failure(doughs);
  Needs needs;
  internal::Feedings tonight;
  for (const internal::Alive& alive : *doughs) {
    if (cancelled && cancelled()) return failure(ErrorCode::cancelled, "", "stopped");
    auto dough = internal::dough_today(alive, now);
    if (!dough) return failure(dough);
    answer.doughs.push_back(std::move(*dough));
    if (alive.record.state == "live") continue;
    const auto feed = internal::levain_of(alive);
    add_needs(needs, alive.bake, alive.bowl, feed ? std::optional(feed->levain) : std::nullopt);
    if (!feed || feed->at < now.at - internal::an_hour || feed->at > internal::tonight_ends(now))
      continue;
    tonight.emplace_back(
        feed->at,
        fmt::format(
            "for {}: {}, {}", alive.record.title, feed->levain.words, said(feed->at, now.zone)));
  }
  std::stable_sort(
      answer.doughs.begin(), answer.doughs.end(), [](const DoughToday& a, const DoughToday& b) {
        return a.next_at && b.next_at ? *a.next_at < *b.next_at : a.next_at && !b.next_at;
      });
  const auto levains = internal::add_levains(answer, tonight, daybook, *doughs, now);
  if (!levains) return failure(levains);
  std::sort(tonight.begin(), tonight.end());
  for (auto& [at, words] : tonight) answer.feed_tonight.push_back(std::move(words));
  const auto shelf = daybook.list<storage::Bottle>();
  if (!shelf) return failure(shelf);
  answer.buy = to_buy(needs, *shelf);
  internal::weigh_ordinary(answer, *doughs, now);
  auto day = kept_day(daybook, now, cancelled);
  if (!day) return failure(day);
  answer.day = std::move(*day);
  return answer;
}

}  // namespace barm::service
