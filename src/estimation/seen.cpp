#include "estimation/internal/seen.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "numerics/ln_gamma.h"

namespace barm::estimation::internal {

namespace {

constexpr double typical_mark = 40;  // mm, for jars of which only ratios are told
constexpr double least_last = 1;     // h

// How far the typical dough has risen at a time.
double book_rise(const DoughToRead& batch, double hours) {
  const std::vector<double> z(batch.dimension(), 0.0);
  const auto world = world_of(batch, z.data(), 0.0, 1.0);
  std::vector<Look<double>> looks;
  const std::vector<double> moments{hours};
  if (!run_sample(world, batch.sample, 1.0, moments, {}, looks)) return 1;
  return 1 + world.drag * (looks.front().rise - 1);
}

double doubt_at(const std::vector<Doubted>& doubted, Time at) {
  double most = 0;
  for (const Doubted& one : doubted) {
    if (one.at == at) most = std::max(most, one.doubt);
  }
  return most;
}

// Rows of one jar are not independent: what the dough strays by lasts, so that n rows within it
// know that part no better than one does.
//     doubt^2 += straying^2 (n - 1)
void stray_together(std::vector<Datum>& data, const Sample& sample) {
  for (Datum& one : data) {
    if (!one.height) continue;
    const auto near = std::count_if(data.begin(), data.end(), [&](const Datum& other) {
      return other.height && std::abs(other.hours - one.hours) < sample.straying_lasts;
    });
    one.doubt = std::hypot(one.doubt, sample.straying * std::sqrt(static_cast<double>(near - 1)));
  }
}

const Reading* first_height(const Readings& readings) {
  for (const Reading& row : readings.rows) {
    if (row.height) return &row;
  }
  return nullptr;
}

}  // namespace

Seen seen_of(const DoughToRead& batch, const Readings& readings) {
  const Sample& sample = batch.sample;
  Seen seen;
  const Reading* first = first_height(readings);
  const double mark = readings.start_mark ? readings.start_mark->in(millimetre) : 0;
  seen.mark_known = mark > 0 || first == nullptr;
  seen.start_mark = mark;
  if (!seen.mark_known)
    seen.start_mark = first->height->in(millimetre) / book_rise(batch, first->at.in(hour));
  const double against = seen.start_mark > 0 ? seen.start_mark : typical_mark;
  seen.mark_doubt = seen.mark_known ? sample.mark_doubt / against : sample.lost_mark_doubt;
  for (const Reading& row : readings.rows) {
    const double hours = row.at.in(hour);
    const double spread = sample.height_doubt / std::sqrt(static_cast<double>(row.heights));
    const double doubt =
        std::hypot(
            row.heights > 1 ? sample.least_doubt : 0.0, spread, doubt_at(sample.doubted, row.at)) /
        against;
    // The row that set the mark says nothing more.
    const bool is_mark = mark > 0 && hours < at_the_start && row.height == readings.start_mark;
    if (row.height && !is_mark)
      seen.data.push_back({true, hours, row.height->in(millimetre) / against, doubt});
    else if (!row.height && row.ratio && hours > 0)
      seen.data.push_back(
          {true, hours, *row.ratio, std::hypot(doubt, row.ratio_doubt * *row.ratio)});
    if (row.ph) seen.data.push_back({false, hours, *row.ph, row.ph_doubt});
  }
  stray_together(seen.data, sample);
  seen.last = seen.data.empty() ? 0 : seen.data.back().hours;
  seen.stretch = std::max(least_last, seen.last) / static_cast<double>(pace_pieces);
  return seen;
}

NoiseGrid::NoiseGrid(double doubt) {
  constexpr int half = 10;
  constexpr double widest = 3;  // sd
  double sum = 0;
  for (int k = -half; k <= half; ++k) {
    const double x = widest * k / half;
    ln_noise.push_back(doubt * x);
    ln_prior.push_back(-0.5 * x * x);
    sum += std::exp(ln_prior.back());
  }
  for (double& p : ln_prior) p -= std::log(sum);
}

double log_likelihood(std::span<const double> residuals,
                      const NoiseGrid& noise,
                      double nu,
                      std::vector<double>* posterior) {
  constexpr double large = 1e200;
  const auto n = static_cast<double>(residuals.size());
  const double constant = numerics::ln_gamma((nu + 1) / 2) - numerics::ln_gamma(nu / 2) -
                          0.5 * std::log(nu * std::numbers::pi);
  std::vector<double> ln(noise.ln_noise.size());
  double most = -std::numeric_limits<double>::infinity();
  for (std::size_t k = 0; k < ln.size(); ++k) {
    const double calm = std::exp(-2 * noise.ln_noise[k]) / nu;
    double ln_product = 0;
    double product = 1;
    for (const double r : residuals) {
      product *= 1 + r * r * calm;
      if (product > large) {
        ln_product += std::log(product);
        product = 1;
      }
    }
    ln_product += std::log(product);
    ln[k] = noise.ln_prior[k] + n * (constant - noise.ln_noise[k]) - (nu + 1) / 2 * ln_product;
    most = std::max(most, ln[k]);
  }
  if (!std::isfinite(most)) return -std::numeric_limits<double>::infinity();
  double sum = 0;
  for (const double x : ln) sum += std::exp(x - most);
  if (posterior != nullptr) {
    posterior->clear();
    for (const double x : ln) posterior->push_back(std::exp(x - most) / sum);
  }
  return most + std::log(sum);
}

}  // namespace barm::estimation::internal
