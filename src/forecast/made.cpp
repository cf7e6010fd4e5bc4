#include "forecast/made.h"

#include <algorithm>
#include <iterator>

namespace barm::forecast {

Result<std::span<const Draw>> Made::draws(const formula::Bake& bake,
                                          const Options& options,
                                          std::size_t count) {
  count = std::min(count, most_kept);
  if (draws_.size() < count) {
    auto more = forecast::draws(
        bake, options, static_cast<int>(draws_.size()), static_cast<int>(count - draws_.size()));
    if (!more) return failure(more);
    std::ranges::move(*more, std::back_inserter(draws_));
  }
  return std::span<const Draw>(draws_).first(count);
}

Result<Draw> Made::middle(const formula::Bake& bake, const Options& options) {
  if (!middle_) {
    auto made = draw(bake, options.seed, -1, *options.prior);
    if (!made) return failure(made);
    middle_ = *std::move(made);
  }
  return *middle_;
}

Result<Made::Warmed*> Made::warmed(const formula::Bake& bake,
                                   const Options& options,
                                   const Proving& proving) {
  const double celsius = proving.temperature.celsius();
  for (Warmed& one : warmed_) {
    if (one.celsius == celsius && one.target == proving.target) return &one;
  }
  const auto book = middle(bake, options);
  if (!book) return failure(book);
  const auto made = Warmth::of(bake, *book, proving);
  if (!made) return failure(made);
  warmed_.push_back({celsius, proving.target, *made});
  return &warmed_.back();
}

Result<Warmth> Made::warmth(const formula::Bake& bake,
                            const Options& options,
                            const Proving& proving) {
  const auto one = warmed(bake, options, proving);
  if (!one) return failure(one);
  return (*one)->warmth;
}

Result<Bulks> Made::bulks(const formula::Bake& bake,
                          const Options& options,
                          const Proving& proving,
                          std::span<const Walking> doughs,
                          TrackSteps steps) {
  const auto found = warmed(bake, options, proving);
  if (!found) return failure(found);
  Warmed& one = **found;
  if (!one.warmth.follows())
    return [kept = proving.temperature](std::size_t) { return heat::Track(kept); };
  if (!one.by_luck) one.by_luck.emplace(one.warmth);
  std::shared_ptr<Tracks>& tracks = one.tracks[static_cast<std::size_t>(steps)];
  if (!tracks) tracks = std::make_shared<Tracks>();
  const double step =
      steps == TrackSteps::usual ? heat::Track::usual_step : heat::Track::step_for_many;
  while (tracks->size() < doughs.size())
    tracks->push_back((*one.by_luck)(doughs[tracks->size()].transfer_luck, step));
  return [tracks](std::size_t i) { return (*tracks)[i]; };
}

}  // namespace barm::forecast
