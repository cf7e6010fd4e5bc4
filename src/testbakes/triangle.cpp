#include "testbakes/triangle.h"

#include <fmt/format.h>

#include <algorithm>
#include <boost/math/distributions/beta.hpp>
#include <boost/math/distributions/binomial.hpp>

#include "base/require.h"
#include "numerics/random.h"
#include "testbakes/plan.h"

namespace barm::testbakes {

namespace {

constexpr double guessing = 1.0 / 3.0;
constexpr int most_tasters = 5000;
constexpr std::uint64_t serving_stream = 3;

constexpr Tray orders[] = {{false, true, true},
                           {true, false, false},
                           {false, false, true},
                           {true, true, false},
                           {false, true, false},
                           {true, false, true}};

/// P(X >= right) of n with chance p.
double at_least(int right, int n, double p) {
  if (right <= 0) return 1;
  if (right > n) return 0;
  const boost::math::binomial distribution(n, p);
  return boost::math::cdf(boost::math::complement(distribution, right - 1));
}

/// Share who can tell, of the share who are right: people who cannot tell guess.
double tellers(double right) { return std::clamp((3 * right - 1) / 2, 0.0, 1.0); }

int odd_place(const Tray& tray) {
  for (int i = 0; i < 3; ++i) {
    const auto here = static_cast<std::size_t>(i);
    if (tray[here] != tray[(here + 1) % 3] && tray[here] != tray[(here + 2) % 3]) return i + 1;
  }
  return 0;
}

std::string verdict(const TriangleResult& r) {
  const std::string count = fmt::format("{} of {} right", r.right, r.tasters);
  if (r.can_tell)
    return fmt::format("{}: they can tell (guessing does as well once in {:.0f} such tastings)",
                       count,
                       std::min(1e6, 1 / std::max(r.p_value, 1e-6)));
  if (r.needed > r.tasters)
    return count + ": too few tasters to show anything, even if all are right";
  return fmt::format(
      "{}: no evidence that they can tell; {} right would be needed", count, r.needed);
}

}  // namespace

TriangleResult triangle(int tasters, int right, double alpha, double level) {
  require(tasters >= 1 && tasters <= 10000 && right >= 0 && right <= tasters, "a tasting");
  TriangleResult out;
  out.tasters = tasters;
  out.right = right;
  out.p_value = at_least(right, tasters, guessing);
  out.needed = right_needed(tasters, alpha);
  out.can_tell = right >= out.needed;
  out.tell = tellers(static_cast<double>(right) / tasters);
  const double tail = (1 - level) / 2;
  using boost::math::beta_distribution;
  const double low =
      right == 0 ? 0 : boost::math::quantile(beta_distribution<>(right, tasters - right + 1), tail);
  const double high = right == tasters
                          ? 1
                          : boost::math::quantile(boost::math::complement(
                                beta_distribution<>(right + 1, tasters - right), tail));
  out.tell_low = tellers(low);
  out.tell_high = tellers(high);
  out.words = verdict(out);
  return out;
}

int right_needed(int tasters, double alpha) {
  int right = tasters / 3;
  while (right <= tasters && at_least(right, tasters, guessing) > alpha) ++right;
  return right;
}

double triangle_power(int tasters, double tell, double alpha) {
  return at_least(right_needed(tasters, alpha), tasters, tell + (1 - tell) * guessing);
}

int tasters_needed(double tell, double power, double alpha) {
  for (int n = 3; n <= most_tasters; ++n) {
    if (triangle_power(n, tell, alpha) >= power) return n;
  }
  return 0;
}

std::string Serving::order() const {
  std::string out;
  for (const bool second : tray) out += second ? 'B' : 'A';
  return out;
}

std::vector<Serving> serving_plan(int tasters, unsigned long long seed) {
  require(tasters >= 1, "somebody tastes");
  numerics::Random random(seed, serving_stream);
  std::vector<Tray> trays;
  while (static_cast<int>(trays.size()) < tasters) {
    std::vector<Tray> six(std::begin(orders), std::end(orders));
    shuffle(six, random);
    trays.insert(trays.end(), six.begin(), six.end());
  }
  trays.resize(static_cast<std::size_t>(tasters));
  shuffle(trays, random);
  std::vector<Serving> plan;
  for (int t = 0; t < tasters; ++t) {
    Serving serving;
    serving.taster = t + 1;
    serving.tray = trays[static_cast<std::size_t>(t)];
    serving.odd = odd_place(serving.tray);
    const auto labels = blind_labels(3, random);
    std::copy(labels.begin(), labels.end(), serving.label.begin());
    plan.push_back(std::move(serving));
  }
  return plan;
}

}  // namespace barm::testbakes
