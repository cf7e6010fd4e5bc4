#include "estimation/learn.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "estimation/internal/posterior.h"
#include "estimation/internal/proposal.h"
#include "numerics/pareto.h"
#include "numerics/random.h"
#include "numerics/walkers.h"

namespace barm::estimation {

namespace {

using internal::Best;
using internal::Posterior;
using internal::Proposal;

constexpr std::uint64_t adaptions = 3;
constexpr std::uint64_t adaptions_that_help =
    6;  // where weights hold by then: still quicker than to walk
constexpr std::uint64_t more_adaptions = 2;
constexpr double sure_enough = 0.3;      // of the draws: worth fewer, a seed moves a chance by 0.03
constexpr double worth_gathering = 0.5;  // of the draws: gathered until worth so many
constexpr int least_trial = 300;         // draws that only shape the proposal
constexpr std::size_t walkers = 256;
constexpr std::size_t rounds = 60;
constexpr int most_legs = 5;           // of so many rounds
constexpr double enough_walked = 800;  // draws that they are worth
constexpr double agree = 1.03;         // R of the flocks

struct Weighed {
  std::vector<double> z;
  numerics::Smoothed smoothed;
};

// Draws from the proposal with the weights that make them draws of the posterior.
Result<Weighed> weigh(const Posterior& posterior,
                      const Proposal& proposal,
                      const LearnOptions& options,
                      int draws,
                      std::uint64_t stream) {
  const auto count = static_cast<std::size_t>(draws);
  Weighed out;
  auto log_weight = proposal.draw(count, options.seed, stream, out.z);
  if (!log_weight) return failure(log_weight);
  const auto ln = posterior.log_likelihood(out.z);
  if (!ln) return failure(ln);
  bool some = false;
  for (std::size_t i = 0; i < count; ++i) {
    (*log_weight)[i] += (*ln)[i];
    some = some || std::isfinite((*log_weight)[i]);
  }
  if (!some)
    return failure(ErrorCode::no_convergence, "", "no dough near the readings could be run");
  out.smoothed = numerics::pareto_smooth(*log_weight);
  return out;
}

bool weights_hold(const numerics::Smoothed& smoothed) {
  return smoothed.k_hat < numerics::most_trusted(smoothed.weight.size());
}

double worth_trusting(const LearnOptions& options) {
  return options.least_effective > 0 ? options.least_effective : 0.125 * options.draws;
}

bool trusted(const numerics::Smoothed& smoothed, const LearnOptions& options) {
  return weights_hold(smoothed) && smoothed.effective >= worth_trusting(options);
}

double worth_of(const std::vector<Weighed>& rounds) {
  double sum = 0;
  for (const Weighed& one : rounds) sum += one.smoothed.effective;
  return sum;
}

// One set of draws of several, each set counting by what it is worth: every n-th part of all the
// weight, laid end to end, gives one draw of weight 1/n.
Weighed gathered(const std::vector<Weighed>& rounds, std::size_t count, unsigned long long seed) {
  const double all = worth_of(rounds);
  Weighed out;
  out.smoothed.weight.assign(count, 1.0 / static_cast<double>(count));
  out.smoothed.effective = std::min(all, static_cast<double>(count));
  double mean = 0;
  double passed = 0;
  double next = numerics::Random(seed, 4241).uniform();
  for (const Weighed& one : rounds) {
    const double share = one.smoothed.effective / all;
    mean += share * std::exp(one.smoothed.log_mean - rounds.front().smoothed.log_mean);
    out.smoothed.k_hat = std::max(out.smoothed.k_hat, one.smoothed.k_hat);
    const std::size_t d = one.z.size() / one.smoothed.weight.size();
    for (std::size_t i = 0; i < one.smoothed.weight.size(); ++i) {
      passed += share * one.smoothed.weight[i] * static_cast<double>(count);
      const auto z = one.z.begin() + static_cast<std::ptrdiff_t>(i * d);
      for (; next < passed; ++next)
        out.z.insert(out.z.end(), z, z + static_cast<std::ptrdiff_t>(d));
    }
  }
  out.smoothed.log_mean = rounds.front().smoothed.log_mean + std::log(mean);
  // The last part may end a rounding short of the whole.
  const std::size_t d = rounds.front().z.size() / rounds.front().smoothed.weight.size();
  while (out.z.size() < count * d)
    out.z.insert(
        out.z.end(), rounds.back().z.end() - static_cast<std::ptrdiff_t>(d), rounds.back().z.end());
  return out;
}

// Draws that are trusted and worth little are sought once or twice more and gathered.
Result<Weighed> sought_on(Weighed first,
                          Method& method,
                          const Posterior& posterior,
                          Proposal& proposal,
                          const LearnOptions& options) {
  if (first.smoothed.effective >= sure_enough * options.draws) return first;
  std::vector<Weighed> rounds;
  rounds.push_back(std::move(first));
  proposal.learn(rounds.front().z, rounds.front().smoothed.weight);
  for (std::uint64_t round = adaptions; round < adaptions + more_adaptions; ++round) {
    auto again = weigh(posterior, proposal, options, options.draws, round + 3);
    if (!again) return failure(again);
    proposal.learn(again->z, again->smoothed.weight);
    if (!trusted(again->smoothed, options)) continue;
    method = Method::adapted;
    rounds.push_back(*std::move(again));
    if (worth_of(rounds) >= worth_gathering * options.draws) break;
  }
  if (rounds.size() == 1) return std::move(rounds.front());
  return gathered(rounds, static_cast<std::size_t>(options.draws), options.seed);
}

// Where the first draws cannot be trusted the proposal is shaped anew, a few times, until a round
// can be or those whose weights hold are worth as much together; the last round where none is.
Result<Weighed> adapted(Weighed weighed,
                        const Posterior& posterior,
                        Proposal& proposal,
                        const LearnOptions& options) {
  std::vector<Weighed> held;
  for (std::uint64_t round = 0; round < (held.empty() ? adaptions : adaptions_that_help); ++round) {
    proposal.learn(weighed.z, weighed.smoothed.weight);
    auto again = weigh(posterior, proposal, options, options.draws, round + 3);
    if (!again || trusted(again->smoothed, options)) return again;
    weighed = *std::move(again);
    if (!weights_hold(weighed.smoothed)) continue;
    held.push_back(weighed);
    if (worth_of(held) >= worth_trusting(options))
      return gathered(held, static_cast<std::size_t>(options.draws), options.seed);
  }
  return weighed;
}

void take(Learned& learned, Weighed weighed, Method method) {
  learned.method = method;
  learned.z = std::move(weighed.z);
  learned.weight = std::move(weighed.smoothed.weight);
  learned.k_hat = weighed.smoothed.k_hat;
  learned.effective = weighed.smoothed.effective;
  learned.log_evidence = weighed.smoothed.log_mean;
}

double worth(std::span<const double> weight) {
  double sum = 0;
  double squares = 0;
  for (const double w : weight) {
    sum += w;
    squares += w * w;
  }
  return sum * sum / squares;
}

// Weights w^t with the largest t of 1, 1/2, 1/4 ... at which they are worth `enough` draws: where
// one draw outweighs all others, chance decides on which hill all walkers would start.
std::vector<double> levelled(std::vector<double> weight, double enough) {
  constexpr int most_halvings = 10;
  for (int i = 0; i < most_halvings && worth(weight) < enough; ++i) {
    for (double& w : weight) w = std::sqrt(w);
  }
  return weight;
}

// When importance draws cannot be trusted: walkers from resampled draws.
std::optional<Error> walk_instead(Learned& learned,
                                  const Posterior& posterior,
                                  const Proposal& proposal,
                                  const LearnOptions& options) {
  const std::size_t d = posterior.dimension();
  numerics::Random random(options.seed, 4242);
  std::vector<double> cumulated;
  double sum = 0;
  for (const double w : levelled(learned.weight, static_cast<double>(walkers)))
    cumulated.push_back(sum += w);
  std::vector<double> start;
  for (std::size_t k = 0; k < walkers; ++k) {
    const auto found = std::upper_bound(cumulated.begin(), cumulated.end(), random.uniform() * sum);
    const auto i =
        std::min(learned.draws() - 1, static_cast<std::size_t>(found - cumulated.begin()));
    // A little apart, or two walkers on one draw could never part along the line between them.
    std::vector<double> z(learned.draw(i).begin(), learned.draw(i).end());
    for (double& x : z) x += 0.02 * random.normal();
    proposal.turn(z);
    start.insert(start.end(), z.begin(), z.end());
  }
  const auto ln = [&](std::span<const double> turned) {
    std::vector<double> z(turned.begin(), turned.end());
    for (std::size_t i = 0; i < z.size(); i += d) proposal.turn_back(std::span(z).subspan(i, d));
    // A height to a thousandth of a millimetre is enough to walk by.
    std::vector<double> residuals;
    return posterior.log_likelihood(z, residuals, forecast::Precision::single);
  };
  numerics::WalkOptions walking;
  walking.dimension = d;
  walking.spoken_of = std::clamp<std::size_t>(proposal.spoken_of(), 1, d);
  walking.rounds = rounds;
  walking.seed = options.seed;
  walking.flocks = walking.spoken_of < walkers / 8 ? 4 : 1;
  // From where they are, on and on, until their flocks agree and they are worth enough draws.
  std::vector<double> points;
  double effective = 0;
  for (int leg = 0; leg < most_legs; ++leg) {
    auto walked = numerics::walk(ln, std::move(start), walking);
    if (!walked) return walked.error();
    points.insert(points.end(), walked->points.begin(), walked->points.end());
    effective += walked->effective;
    learned.r_hat = walked->r_hat;
    if (walked->r_hat < agree && effective > std::min(enough_walked, 0.2 * options.draws)) break;
    start.assign(points.end() - static_cast<std::ptrdiff_t>(walkers * d), points.end());
    walking.forgotten = 0;
    walking.seed += 1U << 20;
  }
  // Every few points are enough: neighbours in time are alike.
  const std::size_t all = points.size() / d;
  const auto wanted = static_cast<std::size_t>(options.draws);
  learned.z.clear();
  for (std::size_t i = 0; i < wanted; ++i) {
    std::span<double> point = std::span(points).subspan((i * all / wanted) * d, d);
    std::vector<double> z(point.begin(), point.end());
    proposal.turn_back(z);
    learned.z.insert(learned.z.end(), z.begin(), z.end());
  }
  learned.weight.assign(wanted, 1.0 / static_cast<double>(wanted));
  learned.method = Method::ensemble;
  learned.effective = std::min(effective, static_cast<double>(wanted));
  return std::nullopt;
}

Learned of_prior(const DoughToRead& batch, const LearnOptions& options) {
  Learned learned;
  learned.dimension = batch.dimension();
  const auto count = static_cast<std::size_t>(options.draws);
  learned.z.resize(count * learned.dimension);
  for (std::size_t i = 0; i < count; ++i) {
    numerics::Random random(options.seed, i);
    for (std::size_t j = 0; j < learned.dimension; ++j)
      learned.z[i * learned.dimension + j] = random.normal();
  }
  learned.weight.assign(count, 1.0 / static_cast<double>(count));
  learned.effective = static_cast<double>(count);
  learned.best.assign(learned.dimension, 0.0);
  learned.curvature.assign(learned.dimension * learned.dimension, 0.0);
  return learned;
}

// Means and sds of the parameters' ln among the draws, against what was believed.
std::vector<Taught> taught(const DoughToRead& batch, const Learned& learned) {
  const std::size_t n = batch.parameters.size();
  std::vector<Taught> out;
  for (std::size_t p = 0; p < n; ++p) {
    double before = 0;
    double mean = 0;
    double square = 0;
    for (std::size_t j = 0; j <= p; ++j) before += std::pow(batch.factor[p * n + j], 2);
    for (std::size_t i = 0; i < learned.draws(); ++i) {
      double x = 0;
      for (std::size_t j = 0; j <= p; ++j) x += batch.factor[p * n + j] * learned.draw(i)[j];
      mean += learned.weight[i] * x;
      square += learned.weight[i] * x * x;
    }
    out.push_back(
        {std::string(kinetics::priors()[static_cast<std::size_t>(batch.parameters[p])].name),
         std::sqrt(before),
         std::sqrt(std::max(0.0, square - mean * mean)),
         mean});
  }
  return out;
}

}  // namespace

std::string_view name(Method method) {
  switch (method) {
    case Method::prior:
      return "prior";
    case Method::laplace:
      return "laplace";
    case Method::adapted:
      return "adapted";
    case Method::ensemble:
      return "ensemble";
  }
  return "";
}

Result<Learned> learn(const DoughToRead& batch,
                      const Readings& readings,
                      const LearnOptions& options) {
  const Posterior posterior(batch, readings, options);
  Learned learned = of_prior(batch, options);
  if (posterior.seen().data.empty()) {
    learned.parameters = taught(batch, learned);
    return learned;
  }
  const auto best = posterior.best();
  if (!best) return failure(best);
  learned.best = best->z;
  learned.misfit = best->misfit;
  learned.noise = std::exp(best->ln_noise);
  Proposal proposal(posterior, *best);
  learned.curvature = proposal.curvature();
  // A few draws first, only to shape the proposal.
  const int trial = std::max(least_trial, options.draws / 4);
  const auto tried = weigh(posterior, proposal, options, trial, 1);
  if (!tried) return failure(tried);
  proposal.learn(tried->z, tried->smoothed.weight);
  auto weighed = weigh(posterior, proposal, options, options.draws, 2);
  if (!weighed) return failure(weighed);
  Method method = Method::laplace;
  if (trusted(weighed->smoothed, options)) {
    weighed = sought_on(*std::move(weighed), method, posterior, proposal, options);
  } else {
    method = Method::adapted;
    weighed = adapted(*std::move(weighed), posterior, proposal, options);
  }
  if (!weighed) return failure(weighed);
  const bool enough = trusted(weighed->smoothed, options);
  take(learned, std::move(*weighed), method);
  if (!enough && options.walk) {
    const auto error = walk_instead(learned, posterior, proposal, options);
    if (error) return failure(*error);
  }
  learned.parameters = taught(batch, learned);
  return learned;
}

Result<std::vector<double>> log_likelihood(const DoughToRead& batch,
                                           const Readings& readings,
                                           std::span<const double> z,
                                           const LearnOptions& options) {
  return Posterior(batch, readings, options).log_likelihood(z);
}

Drawn drawn(const DoughToRead& batch, std::span<const double> z) {
  const auto world = internal::world_of(batch, z.data(), 0.0, 1.0);
  return {world.parameters, world.dough};
}

}  // namespace barm::estimation
