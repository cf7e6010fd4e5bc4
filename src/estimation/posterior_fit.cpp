// The fit: the one place where the equations run on numbers with derivatives.
#include <algorithm>
#include <numeric>

#include "estimation/internal/jet.h"
// After jet.h.
#include "estimation/internal/least_squares.h"
#include "estimation/internal/posterior.h"
#include "estimation/internal/sample_run.h"
#include "numerics/random.h"

namespace barm::estimation::internal {

namespace {

constexpr double worth_another_fit = 0.15;  // in ln of the noise
constexpr double well_enough = 1.3;         // misfit at which no other start is tried
constexpr double a_slip = 4;                // readings' doubts; a fit that takes one is doubted too
constexpr std::size_t tried_first = 512;    // draws of the prior looked through for a start
constexpr std::size_t starts_tried = 8;     // the likeliest of them

numerics::Accuracy quick() {
  numerics::Accuracy accuracy;
  accuracy.relative = 1e-5;
  accuracy.absolute = 1e-8;
  accuracy.first_step = 0.25;
  return accuracy;
}

// Residuals whose half sum of squares is - ln posterior but for constants: the data's by Student
// at a given noise, and the prior's.
struct Misfit {
  const DoughToRead& batch;
  const Seen& seen;
  double calm;  // 1 over the noise

  [[nodiscard]] std::size_t residuals() const { return seen.data.size() + batch.dimension(); }

  template <class T>
  bool operator()(const T* z, T* out) const {
    const World<T> world = world_of(batch, z, seen.mark_doubt, seen.stretch);
    std::vector<T> moments;
    moments.reserve(seen.data.size());
    for (const Datum& datum : seen.data)
      moments.push_back(model_hours(world.ln_pace, seen.stretch, datum.hours));
    std::vector<Look<T>> looks;
    if (!run_sample(world, batch.sample, seen.stretch, moments, quick(), looks)) return false;
    for (std::size_t i = 0; i < seen.data.size(); ++i) {
      const T r = distance(seen.data[i], looks[i], world, batch.sample) * calm;
      out[i] = long_tailed_residual(r, batch.sample.tail);
    }
    for (std::size_t j = 0; j < batch.dimension(); ++j) out[seen.data.size() + j] = z[j];
    return true;
  }
};

}  // namespace

Best Posterior::best_from(std::vector<double> start, double ln_noise) const {
  const Misfit misfit{batch_, seen_, std::exp(-ln_noise)};
  FitOptions options;
  options.most_steps = 25;
  options.enough = 1e-5;
  Fit fit = least_squares(misfit, misfit.residuals(), std::move(start), options);
  Best best;
  best.ln_noise = ln_noise;
  best.z = std::move(fit.at);
  best.cost = fit.jacobian.empty() ? std::numeric_limits<double>::infinity() : fit.cost;
  if (fit.jacobian.empty()) return best;
  // From g(r) back to r: the fit's residuals are flattened.
  const double nu = batch_.sample.tail;
  const std::size_t d = dimension();
  best.jacobian.assign(fit.jacobian.begin(),
                       fit.jacobian.begin() + static_cast<std::ptrdiff_t>(seen_.data.size() * d));
  double squares = 0;
  for (std::size_t i = 0; i < seen_.data.size(); ++i) {
    const double g = fit.residual[i];
    const double r = std::copysign(std::sqrt(nu * std::expm1(g * g / (nu + 1))), g);
    const double weight = (nu + 1) / (nu + r * r);
    const double slope = std::abs(g) > 1e-8 ? weight * r / g : std::sqrt((nu + 1) / nu);
    best.residual.push_back(r / misfit.calm);
    best.weight.push_back(weight * misfit.calm * misfit.calm);
    squares += weight * r * r;
    for (std::size_t j = 0; j < d; ++j) best.jacobian[i * d + j] /= slope * misfit.calm;
  }
  best.misfit = std::sqrt(squares / static_cast<double>(seen_.data.size()));
  return best;
}

namespace {

// It explains the readings badly, or only by a slip, or only by what is hardly believed.
bool doubtful(const Best& best) {
  const auto far = [](double x) { return std::abs(x) > a_slip; };
  return !std::isfinite(best.cost) || best.misfit > well_enough ||
         std::ranges::any_of(best.residual, far) || std::ranges::any_of(best.z, far);
}

}  // namespace

Result<Best> Posterior::best() const {
  const std::size_t d = dimension();
  Best best = best_from(std::vector<double>(d, 0.0), 0);
  if (doubtful(best)) {
    const auto starts = likeliest_of_prior();
    if (!starts) return failure(starts);
    for (const std::vector<double>& start : *starts) {
      Best other = best_from(start, 0);
      if (other.cost < best.cost) best = std::move(other);
    }
  }
  if (!std::isfinite(best.cost))
    return failure(ErrorCode::no_convergence, "", "no dough near the readings could be run");
  const double noise = likely_noise(best.residual);
  if (std::abs(noise) < worth_another_fit) return best;
  Best again = best_from(best.z, noise);
  return std::isfinite(again.cost) ? again : best;
}

Result<std::vector<std::vector<double>>> Posterior::likeliest_of_prior() const {
  const std::size_t d = dimension();
  std::vector<double> draws(tried_first * d);
  for (std::size_t i = 0; i < tried_first; ++i) {
    numerics::Random random(options_.seed, (std::uint64_t{9} << 40) + i);
    for (std::size_t j = 0; j < d; ++j) draws[i * d + j] = random.normal();
  }
  const auto ln = log_likelihood(draws);
  if (!ln) return failure(ln);
  std::vector<std::size_t> by_likelihood(tried_first);
  std::iota(by_likelihood.begin(), by_likelihood.end(), std::size_t{0});
  std::ranges::sort(by_likelihood, [&](auto a, auto b) { return (*ln)[a] > (*ln)[b]; });
  std::vector<std::vector<double>> likeliest;
  for (std::size_t k = 0; k < starts_tried; ++k) {
    const auto from = draws.begin() + static_cast<std::ptrdiff_t>(by_likelihood[k] * d);
    likeliest.emplace_back(from, from + static_cast<std::ptrdiff_t>(d));
  }
  return likeliest;
}

double Posterior::likely_noise(std::span<const double> residuals) const {
  std::vector<double> share;
  (void)internal::log_likelihood(residuals, noise_, batch_.sample.tail, &share);
  double mean = 0;
  for (std::size_t k = 0; k < share.size(); ++k) mean += share[k] * noise_.ln_noise[k];
  return mean;
}

}  // namespace barm::estimation::internal
