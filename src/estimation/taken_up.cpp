#include "estimation/taken_up.h"

#include <algorithm>
#include <cmath>

#include "estimation/internal/law.h"

namespace barm::estimation {

std::vector<TakenUp> taken_up(const DoughToRead& batch,
                              const Readings& readings,
                              const Learned& learned,
                              const LearnOptions& options,
                              Time now,
                              std::size_t count) {
  const internal::Seen seen = internal::seen_of(batch, readings);
  std::vector<TakenUp> doughs;
  const double step = 1 / static_cast<double>(count);
  double passed = 0;
  double next = step / 2;
  for (std::size_t i = 0; i < learned.draws() && doughs.size() < count; ++i) {
    passed += learned.weight[i];
    if (next >= passed) continue;
    const auto world =
        internal::world_of(batch, learned.draw(i).data(), seen.mark_doubt, seen.stretch);
    const double ahead =
        std::exp(world.ln_pace.back() + internal::ln_pace_by_the_law(batch, seen, options.seed, i));
    const double since = std::max(0.0, now.in(hour)-seen.last);
    const double read = internal::model_hours(world.ln_pace, seen.stretch, now.in(hour)-since);
    const TakenUp one{drawn(batch, learned.draw(i)), read + since * ahead, ahead};
    for (; next < passed && doughs.size() < count; next += step) doughs.push_back(one);
  }
  return doughs;
}

}  // namespace barm::estimation
