#include "forecast/internal/crowd.h"

#include <algorithm>

#include "forecast/draw.h"
#include "forecast/internal/for_each.h"

namespace barm::forecast::internal {

using kinetics::Factor;

namespace {

constexpr std::size_t at_once = 1000;  // draws: a few MB

}  // namespace

Result<std::vector<Walking>> draw_doughs(const Plan& plan,
                                         const Options& options,
                                         std::span<const Draw> made,
                                         const std::vector<Factor>& but) {
  const auto wanted = static_cast<std::size_t>(options.draws);
  std::vector<Walking> doughs;
  if (but.empty()) {
    for (const Draw& drawn : made.first(std::min(made.size(), wanted)))
      doughs.push_back(Walking::of(drawn));
  }
  while (doughs.size() < wanted) {
    const std::size_t first = doughs.size();
    auto drawn = draws(plan.bake,
                       options,
                       static_cast<int>(first),
                       static_cast<int>(std::min(at_once, wanted - first)));
    if (!drawn) return failure(drawn);
    const auto change = [&](std::size_t i) -> std::optional<Error> {
      if (but.empty()) return std::nullopt;
      auto changed = without(plan.bake, std::move((*drawn)[i]), but);
      if (!changed) return changed.error();
      (*drawn)[i] = *std::move(changed);
      return std::nullopt;
    };
    if (auto error = for_each(drawn->size(), options.threads, options.cancelled, change))
      return failure(*error);
    for (const Draw& one : *drawn) doughs.push_back(Walking::of(one));
  }
  return doughs;
}

Crowd crowd_of(std::vector<Walking> doughs, Warmth warmth, Temperature kept) {
  Crowd crowd{std::move(doughs), {}, nullptr};
  std::vector<double> luck;
  for (const Walking& dough : crowd.doughs) luck.push_back(dough.transfer_luck);
  crowd.bulk = [luck = std::move(luck), warmth = std::move(warmth), kept](std::size_t i) {
    return warmth.follows() ? warmth.bulk(luck[i]) : heat::Track(kept);
  };
  return crowd;
}

CrowdOptions crowd_options(const Proving& proving, const Options& options) {
  CrowdOptions out;
  out.proving = proving;
  out.proving.accuracy = ManyOptions().proving.accuracy;
  out.threads = options.threads;
  out.cancelled = options.cancelled;
  out.until_past = options.until_past;
  return out;
}

}  // namespace barm::forecast::internal
