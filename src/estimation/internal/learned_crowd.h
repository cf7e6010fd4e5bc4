#pragma once
// The doughs that agree with what was read, ready to go their way.
#include <cstdint>
#include <vector>

#include "estimation/internal/seen.h"
#include "estimation/internal/world.h"
#include "estimation/learn.h"
#include "forecast/timeline.h"
#include "numerics/random.h"

namespace barm::estimation::internal {

/// The hours of one dough against those on the clock: up to the last reading as it was learned,
/// then wandering on.
class Hours final : public forecast::Pace {
 public:
  /// `ln_law`: of the pace beyond the last reading (law.h).
  Hours(const World<double>& world,
        const estimation::Pace& pace,
        double stretch,
        double horizon,
        double ln_law,
        numerics::Random& random);

  [[nodiscard]] double own(double clock) const override;
  [[nodiscard]] double clock(double own) const override;

 private:
  [[nodiscard]] double along(const std::vector<double>& from,
                             const std::vector<double>& to,
                             double at,
                             bool back) const;

  std::vector<double> clock_, model_, speeds_;
};

/// Every draw of what was learned, each with a pace of its own. Keeps a reference to the batch.
class LearnedCrowd {
 public:
  LearnedCrowd(const DoughToRead& batch,
               const Seen& seen,
               const Learned& learned,
               unsigned long long seed);

  LearnedCrowd(const LearnedCrowd&) = delete;
  LearnedCrowd& operator=(const LearnedCrowd&) = delete;

  [[nodiscard]] const forecast::Crowd& crowd() const { return crowd_; }

  [[nodiscard]] const World<double>& world(std::size_t i) const { return worlds_[i]; }

  [[nodiscard]] const Hours& pace(std::size_t i) const { return hours_[i]; }

  /// How long the quickest of them goes on within the horizon of the clock.
  [[nodiscard]] Time own_horizon() const { return own_horizon_; }

 private:
  std::vector<World<double>> worlds_;
  std::vector<Hours> hours_;
  forecast::Crowd crowd_;
  Time own_horizon_;
};

}  // namespace barm::estimation::internal
