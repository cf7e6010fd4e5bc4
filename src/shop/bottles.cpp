#include "shop/bottles.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "base/require.h"

namespace barm::shop {

namespace {

constexpr std::int64_t least_size = 10;  // 1 mL
constexpr std::int64_t most_steps = 2'000'000;

std::int64_t common_measure(std::span<const BottleSize> sizes) {
  std::int64_t measure = 0;
  for (const BottleSize& size : sizes) measure = std::gcd(measure, size.tenths);
  require(measure > 0, "a bottle holds something");
  return measure;
}

/// Cheapest way to hold at least so many steps: price, then what is held, and the size taken last.
struct Best {
  Cash price;
  std::int64_t held = 0;
  std::size_t last = 0;
};

bool is_better(const Best& a, const Best& b) {
  return a.price != b.price ? a.price < b.price : a.held < b.held;
}

std::vector<Best> table(std::int64_t steps,
                        std::int64_t measure,
                        std::span<const BottleSize> sizes) {
  std::vector<Best> best(static_cast<std::size_t>(steps) + 1);
  for (std::int64_t v = 1; v <= steps; ++v) {
    Best& here = best[static_cast<std::size_t>(v)];
    for (std::size_t k = 0; k < sizes.size(); ++k) {
      const std::int64_t before = std::max<std::int64_t>(0, v - sizes[k].tenths / measure);
      const Best& rest = best[static_cast<std::size_t>(before)];
      const Best taken{rest.price + sizes[k].price, rest.held + sizes[k].tenths, k};
      if (k == 0 || is_better(taken, here)) here = taken;
    }
  }
  return best;
}

std::vector<std::int64_t> bottles_of(const std::vector<Best>& best,
                                     std::int64_t steps,
                                     std::int64_t measure,
                                     std::span<const BottleSize> sizes) {
  std::vector<std::int64_t> counts(sizes.size(), 0);
  for (std::int64_t v = steps; v > 0;) {
    const std::size_t k = best[static_cast<std::size_t>(v)].last;
    ++counts[k];
    v = std::max<std::int64_t>(0, v - sizes[k].tenths / measure);
  }
  return counts;
}

std::int64_t steps_for(std::int64_t needed, std::int64_t measure) {
  const std::int64_t steps = (needed + measure - 1) / measure;
  require(steps <= most_steps, "a bottle plan of a size that can be worked out");
  return std::max<std::int64_t>(0, steps);
}

BottlePlan plan(int loaves,
                std::int64_t needed,
                std::vector<std::int64_t> counts,
                std::span<const BottleSize> sizes) {
  BottlePlan out;
  out.loaves = loaves;
  std::int64_t held = 0;
  for (std::size_t k = 0; k < sizes.size(); ++k) {
    held += counts[k] * sizes[k].tenths;
    out.price += sizes[k].price.times(counts[k], 1);
  }
  out.bottles = std::move(counts);
  out.rest_tenths = held - needed;
  if (held > 0) out.rest = out.price.times(out.rest_tenths, held);
  out.loaf = out.price.shared_by(loaves);
  return out;
}

}  // namespace

std::vector<std::int64_t> cheapest_cover(std::int64_t needed, std::span<const BottleSize> sizes) {
  if (sizes.empty()) return {};
  for (const BottleSize& size : sizes) require(size.tenths >= least_size, "a bottle holds 1 mL");
  const std::int64_t measure = common_measure(sizes);
  const std::int64_t steps = steps_for(needed, measure);
  return bottles_of(table(steps, measure, sizes), steps, measure, sizes);
}

std::vector<BottlePlan> bottle_plans(double loaf_tenths,
                                     int most,
                                     std::span<const BottleSize> sizes) {
  std::vector<BottlePlan> plans;
  if (sizes.empty() || !(loaf_tenths > 0)) return plans;
  const auto needed = [&](int loaves) {
    return static_cast<std::int64_t>(std::ceil(loaf_tenths * loaves - 1e-6));
  };
  const std::int64_t measure = common_measure(sizes);
  const auto best = table(steps_for(needed(most), measure), measure, sizes);
  for (int loaves = 1; loaves <= most; ++loaves) {
    const std::int64_t steps = steps_for(needed(loaves), measure);
    plans.push_back(plan(loaves, needed(loaves), bottles_of(best, steps, measure, sizes), sizes));
  }
  return plans;
}

const BottlePlan& cheapest(std::span<const BottlePlan> plans) {
  require(!plans.empty(), "a plan to choose from");
  return *std::min_element(
      plans.begin(), plans.end(), [](const BottlePlan& a, const BottlePlan& b) {
        return a.loaf < b.loaf;
      });
}

const BottlePlan* first_whole(std::span<const BottlePlan> plans, double share) {
  for (const BottlePlan& plan : plans) {
    const Cash most = plan.price.scaled(share);
    if (plan.rest <= most) return &plan;
  }
  return nullptr;
}

}  // namespace barm::shop
