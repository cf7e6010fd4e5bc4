#include "estimation/internal/learned_crowd.h"

#include <algorithm>
#include <cmath>

#include "estimation/internal/law.h"

namespace barm::estimation::internal {

namespace {

constexpr double piece_of_future = 2;  // h of one pace after the last reading
constexpr double beyond = 1.3;  // what runs go on beyond the horizon, should the pace be slow

}  // namespace

Hours::Hours(const World<double>& world,
             const estimation::Pace& pace,
             double stretch,
             double horizon,
             double ln_law,
             numerics::Random& random) {
  double clock = 0;
  double model = 0;
  double w = 0;
  const auto go_on = [&](double length, double ln_law_ahead) {
    speeds_.push_back(std::exp(w + ln_law_ahead));
    clock_.push_back(clock += length);
    model_.push_back(model += length * speeds_.back());
  };
  for (const double piece : world.ln_pace) {
    w = piece;
    go_on(stretch, 0);
  }
  const double kept = std::exp(-piece_of_future / pace.memory);
  while (clock < horizon) {
    w = kept * w + pace.doubt * std::sqrt(1 - kept * kept) * random.normal();
    go_on(piece_of_future, ln_law);
  }
}

double Hours::own(double clock) const { return along(clock_, model_, clock, false); }

double Hours::clock(double own) const { return along(model_, clock_, own, true); }

double Hours::along(const std::vector<double>& from,
                    const std::vector<double>& to,
                    double at,
                    bool back) const {
  if (!std::isfinite(at)) return at;
  const auto found = std::lower_bound(from.begin(), from.end(), at);
  const auto i =
      std::min<std::size_t>(static_cast<std::size_t>(found - from.begin()), from.size() - 1);
  const double begin = i > 0 ? from[i - 1] : 0;
  const double base = i > 0 ? to[i - 1] : 0;
  return base + (at - begin) * (back ? 1 / speeds_[i] : speeds_[i]);
}

LearnedCrowd::LearnedCrowd(const DoughToRead& batch,
                           const Seen& seen,
                           const Learned& learned,
                           unsigned long long seed)
    : crowd_{std::vector<forecast::Walking>(learned.draws(), batch.like), learned.weight, {}} {
  const std::size_t count = learned.draws();
  const double horizon = batch.bulk.horizon.in(hour);
  double longest = 0;
  hours_.reserve(count);
  worlds_.reserve(count);
  for (std::size_t i = 0; i < count; ++i) {
    worlds_.push_back(world_of(batch, learned.draw(i).data(), seen.mark_doubt, seen.stretch));
    numerics::Random random(seed, (std::uint64_t{5} << 40) + i);
    hours_.emplace_back(worlds_[i],
                        batch.pace,
                        seen.stretch,
                        horizon,
                        ln_pace_by_the_law(batch, seen, seed, i),
                        random);
    longest = std::max(longest, hours_.back().own(horizon));
    crowd_.doughs[i].dough = worlds_[i].dough;
    crowd_.doughs[i].parameters = worlds_[i].parameters;
    crowd_.doughs[i].pace = &hours_[i];
  }
  crowd_.bulk = [&batch](std::size_t) { return forecast::track_of(batch.bulk); };
  own_horizon_ = std::min(longest, beyond * horizon) * hour;
}

}  // namespace barm::estimation::internal
