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

// Its dough alone, by `options` and what was read. The belief is made from the prior, as where it
// is asked by itself: a last digit that differs would walk another way and end a minute apart.
Result<forecast::Timeline> dough_of(const formula::Bake& bake,
                                    const estimation::Readings& readings,
                                    const forecast::Options& options) {
  if (readings.rows.empty()) {
    auto forecast = forecast::foresee(bake, options);
    if (!forecast) return failure(forecast);
    return std::move(forecast->timeline);
  }
  auto batch = batch_of(bake, estimation::belief_of(*options.prior), readings, options);
  if (!batch) return failure(batch);
  estimation::widen(*batch, readings);
  estimation::LearnOptions learning;
  const auto learned = estimation::learn(*batch, readings, learning);
  if (!learned) return failure(learned);
  auto outlook = estimation::outlook(*batch, readings, *learned, learning);
  if (!outlook) return failure(outlook);
  return std::move(outlook->timeline);
}

// By the same draws as where it is asked by itself: so today names the same moments. It waits for
// them once, for the answer is kept.
Result<forecast::Timeline> worked_out(const formula::Bake& written,
                                      const estimation::Readings& readings,
                                      const Begun& begun,
                                      std::vector<forecast::Done> done) {
  const kinetics::JointPrior prior = estimation::prior_of(begun.belief);
  forecast::Options options;
  options.prior = &prior;
  options.curves = false;
  options.done = std::move(done);
  formula::Bake bake = written;
  if (bake.target_follows) {
    const auto ready_for = aim(bake, options);
    if (!ready_for) return failure(ready_for);
  }
  auto timeline = dough_of(bake, readings, options);
  if (!timeline) return timeline;
  const auto baked = through_the_oven(*timeline, bake, options);
  if (!baked) return failure(baked);
  return timeline;
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
                             const Now& now) {
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
  auto timeline = worked_out(bake, readings, *begun, done_of(kept));
  if (!timeline) return failure(timeline);
  out.timeline = std::move(*timeline);
  (void)daybook.keep_worked_out(kept.record.id, ready_name, from, kept_text(out.timeline));
  return out;
}

}  // namespace barm::service
