#include "formula/amount.h"

#include <gtest/gtest.h>

#include "support/matchers.h"
#include "support/printers.h"
#include "units/units.h"

namespace barm::formula {

namespace {

using ::barm::test::FailsWith;
using Kind = WrittenAmount::Kind;

void expect_amount(const std::string& text, Kind kind, double value) {
  const auto amount = parse_amount(text);
  ASSERT_TRUE(amount) << text << ": " << amount.error().text();
  EXPECT_EQ(amount->kind, kind) << text;
  EXPECT_NEAR(amount->value, value, 1e-12 * (1 + value)) << text;
  EXPECT_FALSE(amount->of_liquid) << text;
}

TEST(Amount, ReadsWeights) {
  expect_amount("900 g", Kind::mass, 0.9);
  expect_amount("900g", Kind::mass, 0.9);
  expect_amount("  1.5  KG ", Kind::mass, 1.5);
  expect_amount("12 oz", Kind::mass, 12 * 0.028349523125);
  expect_amount("2 lb", Kind::mass, 0.90718474);
  expect_amount("250 mg", Kind::mass, 250e-6);
}

TEST(Amount, ReadsVolumesAndSpoons) {
  expect_amount("75 cl", Kind::volume, 0.75e-3);
  expect_amount("0,75 L", Kind::volume, 0.75e-3);
  expect_amount("7.5 dl", Kind::volume, 0.75e-3);
  expect_amount("1.5 tsp", Kind::volume, 7.5e-6);
  expect_amount("2 tbsp", Kind::volume, 30e-6);
}

TEST(Amount, ReadsSharesOfFlourAndOfTheLiquid) {
  expect_amount("70 %", Kind::percent, 0.7);
  expect_amount("1,9%", Kind::percent, 0.019);
  const auto half = parse_amount("50 % of the liquid");
  ASSERT_TRUE(half);
  EXPECT_TRUE(half->of_liquid);
  EXPECT_DOUBLE_EQ(half->value, 0.5);
  EXPECT_FALSE(half->rest);
  const auto rest = parse_amount("rest of the liquid");
  ASSERT_TRUE(rest);
  EXPECT_TRUE(rest->rest && rest->of_liquid);
}

TEST(Amount, KeepsAStrengthApartFromAShare) {
  const auto strength = parse_amount("11.5 % vol");
  ASSERT_TRUE(strength);
  EXPECT_TRUE(strength->by_volume);
  EXPECT_DOUBLE_EQ(strength->value, 0.115);
  EXPECT_FALSE(parse_amount("11.5 %")->by_volume);
}

TEST(Amount, TakesCommaAndPointAlike) {
  EXPECT_DOUBLE_EQ(parse_amount("1,25 kg")->value, parse_amount("1.25 kg")->value);
  EXPECT_DOUBLE_EQ(parse_amount("0,125 kg")->value, 0.125);
}

TEST(Amount, RefusesACommaThatCouldPartThousands) {
  EXPECT_THAT(parse_amount("1,200 g"), FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(parse_amount("1,200.5 g"), FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(parse_amount("1.200,5 g"), FailsWith(ErrorCode::bad_input));
}

TEST(Amount, RefusesWhatIsNotOneSizeOrNoUnit) {
  for (const char* text : {"1 cup",
                           "2 fl oz",
                           "1 pinch",
                           "3 buckets",
                           "g",
                           "",
                           "-",
                           "1e3 g",
                           "5 g of the liquid",
                           "--1 g",
                           "1 %%"}) {
    EXPECT_THAT(parse_amount(text), FailsWith(ErrorCode::bad_input)) << text;
  }
}

TEST(Amount, HandsABareNumberOn) {
  const auto bare = parse_amount("500");
  ASSERT_TRUE(bare);
  EXPECT_EQ(bare->kind, Kind::bare);
}

TEST(Temperature, NamesItsScale) {
  EXPECT_NEAR(parse_temperature("24 C")->celsius(), 24, 1e-9);
  EXPECT_NEAR(parse_temperature("24°C")->celsius(), 24, 1e-9);
  EXPECT_NEAR(parse_temperature("-2,5 c")->celsius(), -2.5, 1e-9);
  EXPECT_NEAR(parse_temperature("75 F")->celsius(), 23.888888888888889, 1e-9);
  EXPECT_THAT(parse_temperature("24"), FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(parse_temperature("warm"), FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(parse_temperature("24 K"), FailsWith(ErrorCode::bad_input));
}

TEST(WrittenTime, AddsItsParts) {
  EXPECT_DOUBLE_EQ(parse_time("5 h")->in(hour), 5);
  EXPECT_DOUBLE_EQ(parse_time("90 min")->in(hour), 1.5);
  EXPECT_DOUBLE_EQ(parse_time("1 h 30 min")->in(minute), 90);
  EXPECT_DOUBLE_EQ(parse_time("1h30min")->in(minute), 90);
  EXPECT_DOUBLE_EQ(parse_time("2 days")->in(hour), 48);
  for (const char* written : {"7h30", "7:30", "7 h 30", "07:30", "7 h 30 min"})
    EXPECT_DOUBLE_EQ(parse_time(written)->in(minute), 450) << written;
  for (const char* wrong : {"7:3", "7:60", "7h3", "90 min 30", "7:30:00", ":30", "1000:00"})
    EXPECT_THAT(parse_time(wrong), FailsWith(ErrorCode::bad_input)) << wrong;
  EXPECT_THAT(parse_time("5"), FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(parse_time("-1 h"), FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(parse_time("1 h -30 min"), FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(parse_time("a while"), FailsWith(ErrorCode::bad_input));
}

TEST(Rise, IsAWordOrARatio) {
  EXPECT_DOUBLE_EQ(*parse_rise("doubled"), 2);
  EXPECT_DOUBLE_EQ(*parse_rise("Tripled"), 3);
  EXPECT_DOUBLE_EQ(*parse_rise("by half"), 1.5);
  EXPECT_DOUBLE_EQ(*parse_rise("1,8 x"), 1.8);
  EXPECT_DOUBLE_EQ(*parse_rise("1.8"), 1.8);
  EXPECT_THAT(parse_rise("80 %"), FailsWith(ErrorCode::bad_input));
}

}  // namespace

}  // namespace barm::formula
