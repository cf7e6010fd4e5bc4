#pragma once
#include <cstdint>

namespace barm::numerics {

/// Random numbers that depend on a seed and a stream only: draw number 17 is the same whichever
/// thread makes it, on every machine. The generator is SplitMix64 (Steele, Lea & Flood 2014).
class Random {
 public:
  explicit Random(std::uint64_t seed, std::uint64_t stream = 0);

  [[nodiscard]] std::uint64_t bits();

  /// Uniform in (0, 1), never an end.
  [[nodiscard]] double uniform();

  /// Standard normal, through the inverse of its distribution function.
  [[nodiscard]] double normal();

 private:
  std::uint64_t state_;
};

/// Inverse of the standard normal distribution function, 0 < p < 1; relative error below 1.2e-9
/// (Acklam's rational approximation).
[[nodiscard]] double normal_quantile(double p);

}  // namespace barm::numerics
