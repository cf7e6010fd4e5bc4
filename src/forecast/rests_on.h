#pragma once
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/result.h"
#include "forecast/ensemble.h"

namespace barm::forecast {

/// A number of the model and how much of an answer rests on it.
struct Resting {
  const kinetics::Prior* number = nullptr;
  double share = 0;  ///< of the variance of ln(hours to ready), 0..1
};

/// The numbers in doubt by how much of the time to ready rests on each, most first:
///     share_i = r_i^2,   r_i the correlation of ln(parameter i) with ln(hours) over the draws;
/// what never comes counts as the horizon. Shares of numbers that act together need not add up to
/// one, and one below 1/draws says nothing. `hours` in the order of the draws, as
/// hours_to_ready() gives them for the same bake and options. Errors: those of draw().
[[nodiscard]] Result<std::vector<Resting>> rests_on(const formula::Bake& bake,
                                                    const Options& options,
                                                    std::span<const double> hours);

/// A line for the answer where a guess decides it: most rests on it, and a quarter at least.
[[nodiscard]] std::optional<std::string> guess_that_decides(std::span<const Resting> resting);

}  // namespace barm::forecast
