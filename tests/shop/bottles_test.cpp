#include "shop/bottles.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "numerics/random.h"

namespace barm::shop {

namespace {

struct Found {
  Cash price;
  std::int64_t held = 0;
};

/// Every combination of bottles that could be of use, tried one by one.
Found exhaustive(std::int64_t needed, const std::vector<BottleSize>& sizes) {
  Found best{Cash::from_minor(std::numeric_limits<std::int64_t>::max() / 2), 0};
  std::vector<std::int64_t> counts(sizes.size(), 0);
  std::vector<std::int64_t> most;
  for (const BottleSize& size : sizes) most.push_back(needed / size.tenths + 1);
  for (bool more = true; more;) {
    Cash price;
    std::int64_t held = 0;
    for (std::size_t k = 0; k < sizes.size(); ++k) {
      price += sizes[k].price.times(counts[k], 1);
      held += counts[k] * sizes[k].tenths;
    }
    const bool better = price < best.price || (price == best.price && held < best.held);
    if (held >= needed && better) best = {price, held};
    more = false;
    for (std::size_t k = 0; k < sizes.size() && !more; ++k) {
      more = counts[k] < most[k];
      counts[k] = more ? counts[k] + 1 : 0;
    }
  }
  return best;
}

TEST(CheapestCover, AgreesWithEveryCombinationTried) {
  for (int i = 0; i < 400; ++i) {
    numerics::Random random(3, static_cast<std::uint64_t>(i));
    const auto whole = [&](int least, int most) {
      return least + static_cast<std::int64_t>(random.uniform() * (most - least + 1));
    };
    std::vector<BottleSize> sizes;
    for (auto k = whole(1, 3); k > 0; --k) {
      sizes.push_back({whole(1, 20) * 500, Cash::from_minor(whole(i % 7 == 0 ? 0 : 1, 900))});
    }
    const std::int64_t needed = whole(1, 60'000);
    const Found tried = exhaustive(needed, sizes);
    const auto counts = cheapest_cover(needed, sizes);
    Found found;
    for (std::size_t k = 0; k < sizes.size(); ++k) {
      found.price += sizes[k].price.times(counts[k], 1);
      found.held += counts[k] * sizes[k].tenths;
    }
    EXPECT_EQ(found.price, tried.price) << i;
    EXPECT_EQ(found.held, tried.held) << i;
  }
}

TEST(CheapestCover, TakesTheOddSmallBottleWhereItIsCheaper) {
  const std::vector<BottleSize> sizes{{7500, Cash::from_minor(960)}, {3750, Cash::from_minor(520)}};
  EXPECT_EQ(cheapest_cover(11'000, sizes), (std::vector<std::int64_t>{1, 1}));
  EXPECT_EQ(cheapest_cover(7'500, sizes), (std::vector<std::int64_t>{1, 0}));
  EXPECT_EQ(cheapest_cover(7'501, sizes), (std::vector<std::int64_t>{1, 1}));
  EXPECT_TRUE(cheapest_cover(100, {}).empty());
}

TEST(BottlePlans, SayWhatIsLeftAndWhatItCost) {
  const std::vector<BottleSize> sizes{{7500, Cash::from_minor(960)}};
  const auto plans = bottle_plans(1800, 30, sizes);
  ASSERT_EQ(plans.size(), 30U);
  EXPECT_EQ(plans[3].bottles, (std::vector<std::int64_t>{1}));
  EXPECT_EQ(plans[3].rest_tenths, 300);
  EXPECT_EQ(plans[3].rest, Cash::from_minor(960).times(300, 7500));
  EXPECT_EQ(plans[3].loaf, Cash::from_minor(240));
  // 25 loaves take 45 000 tenths, six bottles to the last drop.
  ASSERT_NE(first_whole(plans, 0), nullptr);
  EXPECT_EQ(first_whole(plans, 0)->loaves, 25);
  EXPECT_EQ(cheapest(plans).loaves, 25);
}

TEST(BottlePlans, AreCheapestOfEveryNumberOfLoaves) {
  const std::vector<BottleSize> sizes{{7500, Cash::from_minor(960)},
                                      {50'000, Cash::from_minor(5200)}};
  const auto plans = bottle_plans(1790.3, 40, sizes);
  Cash least = plans.front().loaf;
  for (const BottlePlan& plan : plans) {
    const auto needed = static_cast<std::int64_t>(std::ceil(1790.3 * plan.loaves));
    EXPECT_EQ(plan.price, exhaustive(needed, sizes).price);
    EXPECT_EQ(plan.price.shared_by(plan.loaves), plan.loaf);
    least = std::min(least, plan.loaf);
  }
  EXPECT_EQ(cheapest(plans).loaf, least);
}

}  // namespace

}  // namespace barm::shop
