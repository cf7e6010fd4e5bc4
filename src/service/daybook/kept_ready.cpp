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
  forecast::Made made;
  if (bake.target_follows) {
    const auto ready_for = aim(bake, options, made);
    if (!ready_for) return failure(ready_for);
  }
  auto forecast = forecast::foresee(bake, options, made);
  if (!forecast) return failure(forecast);
  const auto baked = through_the_oven(forecast->timeline, bake, options);
  if (!baked) return failure(baked);
  return std::move(forecast->timeline);
}

bool is_read(const Batch& batch) { return batch.now && !batch.readings.rows.empty(); }

Result<forecast::Timeline> worked_out(const Batch& batch) {
  forecast::Options options;
  options.curves = false;
  if (!is_read(batch)) return as_planned(batch.bake, batch.as_it_stands(options));
  auto answer = read(batch, options);
  if (!answer) return failure(answer);
  return std::move(answer->after.timeline);
}

std::string words_of(const Batch& batch) {
  std::string words;
  const std::size_t count = is_read(batch) ? batch.readings.rows.size() : 0;
  if (count > 0) words = fmt::format("{} reading{}", count, count == 1 ? "" : "s");
  if (!batch.start.culture.empty())
    words +=
        (words.empty() ? "" : " and ") + fmt::format("what {} has taught", batch.start.culture);
  if (batch.bake.house_oven)
    words += (words.empty() ? "its file, in " : "; in ") + batch.bake.house_oven->words;
  return words;
}

}  // namespace

Result<KeptReady> kept_ready(storage::Daybook& daybook,
                             const KeptBake& kept,
                             const formula::Bake& bake,
                             const Now& now,
                             const AsRead& as_read) {
  auto begun = begun_for(daybook, kept.record, bake, now);
  if (!begun) return failure(begun);
  const Batch batch = batch_of(kept, bake, *std::move(begun), now);
  KeptReady out;
  out.rests_on = words_of(batch);
  std::string from = stages_made_from(kept);
  for (const auto* numbers : {&batch.start.belief.mean, &batch.start.belief.covariance}) {
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
  auto elsewhere = as_read && is_read(batch) ? as_read(kept.record.id) : std::nullopt;
  auto timeline = elsewhere ? Result<forecast::Timeline>(*std::move(elsewhere)) : worked_out(batch);
  if (!timeline) return failure(timeline);
  out.timeline = std::move(*timeline);
  (void)daybook.keep_worked_out(kept.record.id, ready_name, from, kept_text(out.timeline));
  return out;
}

}  // namespace barm::service
