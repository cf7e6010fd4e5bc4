// Money is never off by a cent: what is shown of the parts sums to what is shown of the whole,
// whatever the amounts, the currency and the depth of the tree.
#include "shop/money.h"

#include <gtest/gtest.h>

#include <numeric>

#include "formula/read.h"
#include "numerics/random.h"
#include "shop/cost.h"

namespace barm::shop {

namespace {

constexpr int trials = 20'000;

Cash drawn(numerics::Random& random) {
  const auto bits = static_cast<std::int64_t>(random.bits() >> 12);
  const std::int64_t size = std::int64_t{1} << static_cast<int>(random.uniform() * 52);
  const Wide value = bits % size;
  return Cash::from_billionths(random.uniform() < 0.2 ? -value : value);
}

TEST(MoneyLaw, PartsAsShownSumToTheWholeAsShown) {
  for (int i = 0; i < trials; ++i) {
    numerics::Random random(7, static_cast<std::uint64_t>(i));
    std::vector<Cash> parts(1 + static_cast<std::size_t>(12 * random.uniform()));
    Cash sum;
    for (Cash& part : parts) sum += part = drawn(random);
    const auto shown = shown_parts(parts, sum.minor());
    EXPECT_EQ(std::accumulate(shown.begin(), shown.end(), std::int64_t{0}), sum.minor());
    for (std::size_t k = 0; k < parts.size(); ++k) {
      const Wide off = Cash::from_minor(shown[k]).billionths() - parts[k].billionths();
      EXPECT_LT(off, Wide{Cash::billion}) << "trial " << i;
      EXPECT_GT(off, -Wide{Cash::billion}) << "trial " << i;
    }
  }
}

// Sharing and multiplying back loses at most half a billionth a share.
TEST(MoneyLaw, SharedAmongManyComesBack) {
  for (int i = 0; i < trials; ++i) {
    numerics::Random random(8, static_cast<std::uint64_t>(i));
    const Cash whole = drawn(random);
    const auto count = 1 + static_cast<std::int64_t>(1000 * random.uniform());
    const Wide off = (whole - whole.shared_by(count).times(count, 1)).billionths();
    EXPECT_LE(2 * (off < 0 ? -off : off), Wide{count});
  }
}

TEST(MoneyLaw, WhatIsWrittenIsReadBack) {
  for (const Currency& currency : {Currency{"EUR", 2}, Currency{"JPY", 0}, Currency{"TND", 3}}) {
    for (int i = 0; i < 2'000; ++i) {
      numerics::Random random(9, static_cast<std::uint64_t>(i));
      const Cash cash = drawn(random);
      const auto read = parse_cash(text(cash, currency, 9));
      ASSERT_TRUE(read.has_value()) << text(cash, currency, 9);
      EXPECT_EQ(read->cash, cash) << text(cash, currency, 9);
    }
  }
}

void expect_sums(const CostPart& part) {
  if (part.parts.empty()) return;
  Cash batch;
  Cash loaf;
  std::int64_t shown_batch = 0;
  std::int64_t shown_loaf = 0;
  for (const CostPart& one : part.parts) {
    batch += one.batch;
    loaf += one.loaf;
    shown_batch += one.shown_batch;
    shown_loaf += one.shown_loaf;
    expect_sums(one);
  }
  EXPECT_EQ(batch, part.batch) << part.name;
  EXPECT_EQ(loaf, part.loaf) << part.name;
  EXPECT_EQ(shown_batch, part.shown_batch) << part.name;
  EXPECT_EQ(shown_loaf, part.shown_loaf) << part.name;
}

std::string price(numerics::Random& random) {
  return std::to_string(static_cast<int>(40 * random.uniform())) + "." +
         std::to_string(10 + static_cast<int>(90 * random.uniform())) + " EUR";
}

TEST(MoneyLaw, EveryLevelOfEveryCostTreeSums) {
  for (int i = 0; i < 300; ++i) {
    numerics::Random random(10, static_cast<std::uint64_t>(i));
    const auto whole = [&](double most) {
      return std::to_string(1 + static_cast<int>(most * random.uniform()));
    };
    const auto bake = formula::parse_bake(
        "pieces = " + whole(40) + "\npiece = \"" + whole(1200) +
            " g\"\n[bowl]\n\"white bread flour\" = \"100 %\"\nliquid = \"70 %\"\n\"dry mead\" = "
            "\"" +
            whole(99) +
            " % of the liquid\"\nwater = \"rest of the liquid\"\nsalt = \"2 %\"\n"
            "levain = \"20 %\"\n",
        "bake.toml");
    ASSERT_TRUE(bake.has_value()) << bake.error().text();
    const std::string prices_text =
        "currency = \"EUR\"\ndate = 2026-11-20\n[[buy]]\nwhat = \"white bread flour\"\nsize = \"" +
        whole(25) + " kg\"\nprice = \"" + price(random) +
        "\"\nwaste = \"3 %\"\n[[buy]]\nwhat = "
        "\"dry mead\"\nsize = \"" +
        whole(999) + " mL\"\nprice = \"" + price(random) +
        "\"\nrest = \"lost\"\ndeposit = \"0.25 EUR\"\ncomes_back = \"70 %\"\n[[buy]]\nwhat = "
        "\"salt\"\nsize = \"" +
        whole(5) + " kg\"\nprice = \"" + price(random) + "\"\n[work]\nhourly = \"" + price(random) +
        "\"\n[[work.step]]\ndo = \"mix\"\nbatch = \"" + whole(60) + " min\"\nloaf = \"" +
        whole(90) + " min\"\nlost = \"" + whole(30) +
        " %\"\n[oven]\nenergy = \"0.3133 EUR / kWh\"\npower = \"7.3 kW\"\nbake = \"43 min\"\n";
    const auto prices = parse_prices(prices_text, "prices.toml");
    ASSERT_TRUE(prices.has_value()) << prices.error().text() << prices_text;
    const auto costing = cost(*bake, *prices);
    ASSERT_TRUE(costing.has_value()) << costing.error().text();
    expect_sums(costing->all);
  }
}

}  // namespace

}  // namespace barm::shop
