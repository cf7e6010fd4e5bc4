#pragma once
// The way of many doughs through all stages of their plan, gone once: what each did where. What is
// told of it: forecast/timeline.h.
#include <optional>
#include <vector>

#include "forecast/internal/walk.h"
#include "forecast/timeline.h"

namespace barm::forecast::internal {

/// Keeps references to what it was made of. Hours are after mixing; Passed::never where a dough
/// did not get there.
class GoneWay {
 public:
  using Hours = std::vector<double>;

  GoneWay(const Plan& plan, const Crowd& crowd, const CrowdOptions& options);

  /// All of it. `left` is asked for where not null. The error of what could not be gone.
  [[nodiscard]] std::optional<Error> go(LeftInTheBulk* left);

  /// The first part of it alone.
  [[nodiscard]] std::optional<Error> to_the_end_of_the_bulk(Seen* seen = nullptr);

  /// When each dough's first bulk ended.
  [[nodiscard]] Hours ready() const;

  /// When each dough ended its stop number so.
  [[nodiscard]] Hours ends(std::size_t stop) const;

  /// A fold happens inside its bulk, the stop before it, or not at all.
  [[nodiscard]] Hours fold_hours(const formula::Stage& fold, std::size_t stop) const;

  /// As each stood there; NaN where it did not get there.
  [[nodiscard]] std::vector<double> of_stop(std::size_t stop, double (*what)(const Stop&)) const;

  /// When each was past its best, where that was asked for.
  [[nodiscard]] const Hours& past() const { return past_; }

  /// How the pieces came out of the cold they proof in, where there is one.
  [[nodiscard]] const std::optional<OutOfTheCold>& out_of_the_cold() const {
    return out_of_the_cold_;
  }

  [[nodiscard]] std::size_t doughs() const { return walkers_.size(); }

 private:
  /// What comes behind the bulk; a cold in which the pieces proof is looked at by itself.
  [[nodiscard]] std::optional<Error> to_the_oven(Seen* behind);

  /// The stages from one on, up to another.
  [[nodiscard]] std::optional<Error> walk_on(std::size_t from, std::size_t to, Seen* seen);

  /// The dough waits where it is; its largest volume, which may lie behind it already, is its best.
  [[nodiscard]] std::optional<Error> wait_for_the_oven(const LeftInTheBulk* left, Seen& behind);

  /// A stage goes on where the dough is left in it, for so long.
  [[nodiscard]] std::optional<Error> leave_in(const formula::Stage& stage,
                                              bool up_to_the_bulk,
                                              Time longest,
                                              Seen& seen) const;

  [[nodiscard]] std::vector<Passed> on_the_clock(std::vector<Passed> passed) const;

  const Plan& plan_;
  const std::vector<double>& weight_;
  const CrowdOptions& options_;
  const formula::Stage* bulk_;
  std::size_t behind_ = 0;  // the first stage behind the bulk and its folds
  WalkOptions walking_;
  std::vector<Walker> walkers_;
  Hours past_;
  std::optional<OutOfTheCold> out_of_the_cold_;
};

}  // namespace barm::forecast::internal
