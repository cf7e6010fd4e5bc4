#include "service/kept_ready.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "base/digest.h"
#include "forecast/ensemble.h"
#include "service/kept_culture.h"
#include "service/read.h"

namespace barm::service {

using nlohmann::json;

namespace {

constexpr int doughs_drawn = 200;
constexpr int doughs_read = 600;
constexpr double enough_for_today = 80;  // for a middle and two ends; more would make today wait
constexpr const char* ready_name = "ready";

json of_time(const std::optional<Time>& time) { return time ? json(time->in(hour)) : json(); }

std::optional<Time> time_of(const json& hours) {
  return hours.is_number() ? std::optional(hours.get<double>() * hour) : std::nullopt;
}

std::string written(const forecast::Spread& s) {
  return json({of_time(s.p05), of_time(s.p10), of_time(s.p50), of_time(s.p90), of_time(s.p95)})
      .dump();
}

// Nothing for what this program did not write.
std::optional<forecast::Spread> spread_in(const std::string& text) {
  const json kept = json::parse(text, nullptr, false);
  if (!kept.is_array() || kept.size() != 5) return std::nullopt;
  return forecast::Spread{
      time_of(kept[0]), time_of(kept[1]), time_of(kept[2]), time_of(kept[3]), time_of(kept[4])};
}

Result<forecast::Spread> reckoned(const formula::Bake& bake,
                                  const estimation::Readings& readings,
                                  const Begun& begun) {
  const kinetics::JointPrior prior = estimation::prior_of(begun.belief);
  forecast::Options options;
  options.prior = &prior;
  options.curves = false;
  options.draws = doughs_drawn;
  if (readings.rows.empty()) {
    const auto forecast = forecast::foresee(bake, options);
    if (!forecast) return failure(forecast);
    return forecast->ready;
  }
  auto batch = batch_of(bake, begun.belief, readings, options);
  if (!batch) return failure(batch);
  estimation::widen(*batch, readings);
  estimation::LearnOptions learning;
  learning.draws = doughs_read;
  learning.least_effective = enough_for_today;
  const auto learned = estimation::learn(*batch, readings, learning);
  if (!learned) return failure(learned);
  const auto outlook = estimation::outlook(*batch, readings, *learned, learning);
  if (!outlook) return failure(outlook);
  return outlook->ready;
}

std::string words_of(const estimation::Readings& readings, const Begun& begun) {
  std::string words;
  if (!readings.rows.empty())
    words = fmt::format("{} reading{}", readings.rows.size(), readings.rows.size() == 1 ? "" : "s");
  if (!begun.culture.empty())
    words += (words.empty() ? "" : " and ") + fmt::format("what {} has taught", begun.culture);
  return words;
}

}  // namespace

Result<KeptReady> kept_ready(storage::Daybook& daybook,
                             const KeptBake& kept,
                             const formula::Bake& bake,
                             const Now& now) {
  const auto begun = begun_for(daybook, kept.record, bake, now);
  if (!begun) return failure(begun);
  estimation::Readings readings;
  if (kept.record.state == "live") readings = readings_of(kept.readings, *kept.record.mixed_at);
  KeptReady out;
  out.rests_on = words_of(readings, *begun);
  std::string from = made_from(kept, now) + kept.record.state;
  for (const auto* numbers : {&begun->belief.mean, &begun->belief.covariance}) {
    for (const double number : *numbers) from += fmt::format(" {}", number);
  }
  from = digest(from);
  const auto known = daybook.reckoned(kept.record.id, ready_name, from);
  if (!known) return failure(known);
  if (*known) {
    if (const auto ready = spread_in(**known)) {
      out.ready = *ready;
      return out;
    }
  }
  const auto ready = reckoned(bake, readings, *begun);
  if (!ready) return failure(ready);
  out.ready = *ready;
  (void)daybook.keep_reckoned(kept.record.id, ready_name, from, written(*ready));
  return out;
}

}  // namespace barm::service
