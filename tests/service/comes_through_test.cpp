#include <gtest/gtest.h>

#include <string>

#include "formula/read.h"
#include "service/oven/oven.h"
#include "service/taste/taste.h"

namespace barm::service {
namespace {

void expect_one_answer(const formula::Bake& bake) {
  const auto through = comes_through(bake, {});
  ASSERT_TRUE(through.has_value());
  const auto baked = oven(bake, {}, {});
  ASSERT_TRUE(baked.has_value());
  EXPECT_DOUBLE_EQ(through->tasted.alcohol_left.p10, baked->many.alcohol.p10);
  EXPECT_DOUBLE_EQ(through->tasted.alcohol_left.p50, baked->many.alcohol.p50);
  EXPECT_DOUBLE_EQ(through->tasted.alcohol_left.p90, baked->many.alcohol.p90);
}

TEST(ComesThrough, SaysOfTheAlcoholThatStaysWhatTheOvenSays) {
  for (const char* name : {"mead-loaf", "perry-loaf"}) {
    const auto bake = formula::read_bake(std::string(BARM_ROOT "/examples/") + name + ".toml");
    ASSERT_TRUE(bake.has_value());
    expect_one_answer(*bake);
  }
}

}  // namespace
}  // namespace barm::service
