#include "service/daybook/kept_ready.h"

#include <fmt/format.h>

#include "base/digest.h"
#include "forecast/ensemble.h"
#include "service/bake/aim.h"
#include "service/bake/head.h"
#include "service/bake/read.h"
#include "service/daybook/kept_culture.h"
#include "service/oven/oven.h"

namespace barm::service {

namespace {

constexpr const char* ready_name = "timeline";

// By the same draws as where it is asked by itself: so today names the same moments. It waits for
// them once, for the answer is kept.
Result<forecast::Timeline> as_planned(formula::Bake bake, const forecast::Options& wanted) {
  forecast::Options options = wanted;
  if (bake.target_follows) {
    const auto ready_for = aim(bake, options);
    if (!ready_for) return failure(ready_for);
  }
  auto forecast = forecast::foresee(bake, options);
  if (!forecast) return failure(forecast);
  const auto baked = through_the_oven(forecast->timeline, bake, options);
  if (!baked) return failure(baked);
  return std::move(forecast->timeline);
}

Result<forecast::Timeline> worked_out(const formula::Bake& bake,
                                      const KeptBake& kept,
                                      bool is_read,
                                      const Begun& begun) {
  const kinetics::JointPrior prior = estimation::prior_of(begun.belief);
  forecast::Options options;
  options.prior = &prior;
  options.curves = false;
  options.done = done_of(kept);
  if (!is_read) return as_planned(bake, options);
  ReadRequest request;
  request.known = rows_of(kept.readings, *kept.record.mixed_at);
  auto answer = read(bake, request, options);
  if (!answer) return failure(answer);
  return std::move(answer->after.timeline);
}

std::string words_of(const estimation::Readings& readings,
                     const Begun& begun,
                     const formula::Bake& bake) {
  std::string words;
  if (!readings.rows.empty())
    words = fmt::format("{} reading{}", readings.rows.size(), readings.rows.size() == 1 ? "" : "s");
  if (!begun.culture.empty())
    words += (words.empty() ? "" : " and ") + fmt::format("what {} has taught", begun.culture);
  if (bake.house_oven)
    words += (words.empty() ? "its file, in " : "; in ") + bake.house_oven->words;
  return words;
}

}  // namespace

Result<KeptReady> kept_ready(storage::Daybook& daybook,
                             const KeptBake& kept,
                             const formula::Bake& bake,
                             const Now& now,
                             const AsRead& as_read) {
  const auto begun = begun_for(daybook, kept.record, bake, now);
  if (!begun) return failure(begun);
  estimation::Readings readings;
  if (kept.record.state == "live") readings = readings_of(kept.readings, *kept.record.mixed_at);
  KeptReady out;
  out.rests_on = words_of(readings, *begun, bake);
  std::string from = stages_made_from(kept);
  for (const auto* numbers : {&begun->belief.mean, &begun->belief.covariance}) {
    for (const double number : *numbers) from += fmt::format(" {}", number);
  }
  from = digest(from);
  const auto known = daybook.worked_out(kept.record.id, ready_name, from);
  if (!known) return failure(known);
  if (*known) {
    if (auto timeline = kept_timeline(**known)) {
      out.timeline = std::move(*timeline);
      return out;
    }
  }
  const bool is_read = !readings.rows.empty();
  auto elsewhere = as_read && is_read ? as_read(kept.record.id) : std::nullopt;
  auto timeline = elsewhere ? Result<forecast::Timeline>(*std::move(elsewhere))
                            : worked_out(bake, kept, is_read, *begun);
  if (!timeline) return failure(timeline);
  out.timeline = std::move(*timeline);
  (void)daybook.keep_worked_out(kept.record.id, ready_name, from, kept_text(out.timeline));
  return out;
}

}  // namespace barm::service
