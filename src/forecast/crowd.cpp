#include "forecast/internal/crowd.h"

#include <algorithm>
#include <span>

#include "forecast/draw.h"
#include "forecast/internal/for_each.h"

namespace barm::forecast::internal {

using kinetics::Factor;

Result<std::vector<Walking>> draw_doughs(const Plan& plan,
                                         const Options& options,
                                         Made& made,
                                         const std::vector<Factor>& but) {
  const auto wanted = static_cast<std::size_t>(options.draws);
  std::vector<Walking> doughs(wanted);
  const auto set_out = [&](std::span<const Draw> drawn, std::size_t first) {
    return for_each(drawn.size(),
                    options.threads,
                    options.cancelled,
                    [&](std::size_t i) -> std::optional<Error> {
                      if (but.empty()) {
                        doughs[first + i] = Walking::of(drawn[i]);
                        return std::nullopt;
                      }
                      const auto changed = without(plan.bake, drawn[i], but);
                      if (!changed) return changed.error();
                      doughs[first + i] = Walking::of(*changed);
                      return std::nullopt;
                    });
  };
  const auto kept = made.draws(plan.bake, options, wanted);
  if (!kept) return failure(kept);
  if (auto error = set_out(*kept, 0)) return failure(*error);
  for (std::size_t first = kept->size(); first < wanted; first += Made::most_kept) {
    const auto drawn = draws(plan.bake,
                             options,
                             static_cast<int>(first),
                             static_cast<int>(std::min(Made::most_kept, wanted - first)));
    if (!drawn) return failure(drawn);
    if (auto error = set_out(*drawn, first)) return failure(*error);
  }
  return doughs;
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
