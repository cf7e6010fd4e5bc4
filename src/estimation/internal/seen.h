#pragma once
// Readings made ready to be compared with a run: numbers only, in the order of time.
#include <span>
#include <vector>

#include "estimation/dough_to_read.h"
#include "estimation/internal/sample_run.h"
#include "estimation/readings.h"

namespace barm::estimation::internal {

/// One number that was read.
struct Datum {
  bool height = true;  ///< else pH
  double hours = 0;    ///< on the clock
  double value = 0;    ///< height over the written start mark, or pH
  double doubt = 0;    ///< in the same unit, the time apart
};

struct Seen {
  std::vector<Datum> data;  ///< ascending in time
  double mark_doubt = 0;    ///< of ln of the start mark
  double start_mark = 0;    ///< [mm] as written or as supposed; 0 when only ratios were read
  bool mark_known = false;
  double stretch = 1;  ///< [h] of a piece of pace
  double last = 0;     ///< [h] of the last datum
};

[[nodiscard]] Seen seen_of(const DoughToRead& batch, const Readings& readings);

/// Doubt of a datum when the sample rises so fast: the hand is late, the foot of the curve steep.
[[nodiscard]] inline double doubt_of(const Datum& datum, double speed, const Sample& sample) {
  if (!datum.height) return datum.doubt;
  const double late = speed * sample.time_doubt;
  return std::sqrt(datum.doubt * datum.doubt + late * late);
}

/// How far a datum lies from what a dough shows, in its own doubt.
template <class T>
T distance(const Datum& datum, const Look<T>& look, const World<T>& world, const Sample& sample) {
  using std::exp;
  if (!datum.height) return (datum.value - look.ph) / datum.doubt;
  const T shown = exp(world.ln_mark) * (1.0 + world.drag * (look.rise - 1.0));
  return (datum.value - shown) / doubt_of(datum, look.speed, sample);
}

/// -2 ln of Student's density but for its constant, as the square of this: the tail is long, one
/// wild reading pulls little.
///     g = sign(r) sqrt((nu + 1) ln(1 + r^2 / nu))
template <class T>
T long_tailed_residual(const T& r, double nu) {
  using std::log;
  using std::sqrt;
  const T square = r * r / nu;
  const double s = numerics::value_of(square);
  // ln(1 + s) / s without the loss of digits near 0.
  const T share =
      s < 1e-4 ? T(1.0 - square * 0.5 + square * square / 3.0) : T(log(square + 1.0) / square);
  return r * sqrt(share * ((nu + 1) / nu));
}

/// How noisy the readings are: grid points of s, the ln of their error over what is usual, and the
/// prior's share of each.
struct NoiseGrid {
  explicit NoiseGrid(double doubt);

  std::vector<double> ln_noise, ln_prior;
};

/// ln p(data) given how far each lies off at usual noise, summed over the noise:
///     sum_k prior_k prod_i t_nu(r_i e^-s_k) e^-s_k / doubt_i
/// less the sum of ln doubt_i. With `posterior`, the share of each grid point.
[[nodiscard]] double log_likelihood(std::span<const double> residuals,
                                    const NoiseGrid& noise,
                                    double nu,
                                    std::vector<double>* posterior = nullptr);

}  // namespace barm::estimation::internal
