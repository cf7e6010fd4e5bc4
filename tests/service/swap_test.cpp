#include "service/bake/swap.h"

#include <gmock/gmock.h>

#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "formula/bowl.h"
#include "formula/read.h"
#include "support/matchers.h"

namespace barm::service {
namespace {

using test::FailsWith;
using test::Holds;

std::string example(const std::string& name) {
  std::ostringstream out;
  out << std::ifstream(BARM_ROOT "/examples/" + name + ".toml").rdbuf();
  return out.str();
}

formula::Bowl bowl_of(const std::string& text) {
  const auto bake = formula::parse_bake(text, "bake");
  EXPECT_THAT(bake, Holds()) << text;
  auto bowl = formula::in_the_bowl(*bake);
  EXPECT_THAT(bowl, Holds());
  return std::move(*bowl);
}

double weight_of(const formula::Bowl& bowl, const std::string& name) {
  for (const formula::Weighed& line : bowl.lines) {
    if (line.name == name) return line.plan.si();
  }
  return 0;
}

TEST(Swap, HoldsTheRealWaterForEveryShareOfEveryDrink) {
  for (const char* loaf : {"plain-loaf", "mead-loaf", "perry-loaf", "stout-loaf"}) {
    const double before = bowl_of(example(loaf)).real_hydration();
    for (const char* drink : {"dry mead", "perry", "stout", "apple juice"}) {
      for (const double share : {0.1, 0.5, 1.0}) {
        const auto swapped = swap_drink(example(loaf), drink, share);
        if (!swapped) {
          // A bowl without water of its own has nothing to swap.
          EXPECT_EQ(swapped.error().code, ErrorCode::cannot_be_met)
              << loaf << drink << swapped.error().text();
          continue;
        }
        // To the hundredth of a percent in which the file says it.
        EXPECT_NEAR(bowl_of(swapped->text).real_hydration(), before, 2e-4)
            << loaf << " " << drink << " " << share;
      }
    }
  }
}

TEST(Swap, PoursTheShareThatWasAsked) {
  const auto swapped = swap_drink(example("plain-loaf"), "dry mead", 0.25);
  ASSERT_THAT(swapped, Holds());
  const formula::Bowl bowl = bowl_of(swapped->text);
  const double drink = weight_of(bowl, "dry mead");
  EXPECT_NEAR(drink / (drink + weight_of(bowl, "water")), 0.25, 1e-3);
}

TEST(Swap, PoursMoreOfADrinkThanOfTheWaterItReplaces) {
  const formula::Bowl before = bowl_of(example("plain-loaf"));
  const auto swapped = swap_drink(example("plain-loaf"), "dry mead", 1);
  ASSERT_THAT(swapped, Holds());
  const formula::Bowl after = bowl_of(swapped->text);
  EXPECT_GT(weight_of(after, "dry mead") / after.flour.si(),
            weight_of(before, "water") / before.flour.si());
  EXPECT_EQ(weight_of(after, "water"), 0);
}

TEST(Swap, RefusesWhatCannotBe) {
  EXPECT_THAT(swap_drink(example("plain-loaf"), "sea foam", 0.5), FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(swap_drink(example("plain-loaf"), "water", 0.5), FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(swap_drink(example("plain-loaf"), "dry mead", 1.5), FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(swap_drink(example("plain-loaf"), "honey", 0.9), FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(swap_drink("name = ", "dry mead", 0.5), FailsWith(ErrorCode::bad_input));
}

}  // namespace
}  // namespace barm::service
