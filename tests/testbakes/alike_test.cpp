// Doughs that are alike, or look alike: what the comparison of the jars alone calls clear.
#include <gmock/gmock.h>

#include "support/outside_doughs.h"
#include "testbakes/compared.h"

namespace barm::testbakes {

namespace {

using testing::HasSubstr;

constexpr double looks[] = {2, 4, 6, 8, 10, 12, 14, 16, 18, 21, 25, 30};

/// A jar by Gompertz' law at a share of its speed, watched until some hour.
Watched watched(std::size_t day, std::size_t dough, double speed, double until = 30) {
  const test::GompertzRise rise(1.9, 4.5, 8);
  Watched jar{day, dough, 1, {}, 60.0 * millimetre};
  for (const double h : looks)
    if (h <= until) jar.looks.push_back({h, rise.at(speed * h)});
  return jar;
}

const Comparison& list_of(const std::string& what, const std::vector<Comparison>& lists) {
  for (const Comparison& one : lists)
    if (one.what == what) return one;
  throw std::out_of_range("no such list");
}

// The slow dough has not reached its ceiling at the last look: that is no lower ceiling.
TEST(AlikeDoughs, APeakCutOffByTheLastLookIsNone) {
  const std::vector<Watched> jars{
      watched(0, 0, 1, 25), watched(0, 1, 0.4, 25), watched(1, 0, 1, 25), watched(1, 1, 0.4, 25)};
  const auto lists = compare(jars, 0);
  for (const Comparison& list : lists) {
    EXPECT_EQ(list.contrasts.empty(), list.what == "peak") << list.what;
  }
  const Comparison& peak = list_of("peak", lists);
  ASSERT_EQ(peak.unseen.size(), 1U);
  EXPECT_EQ(peak.unseen[0].dough, 1U);
  EXPECT_THAT(peak.unseen[0].words, HasSubstr("still rising at 25 h"));
  EXPECT_TRUE(list_of("speed", lists).contrasts[0].clear());
}

TEST(AlikeDoughs, ADoughThatNeverRoseIsNamed) {
  std::vector<Watched> jars{watched(0, 0, 1),
                            watched(0, 1, 1),
                            watched(0, 2, 0.01),
                            watched(1, 0, 1),
                            watched(1, 1, 1),
                            watched(1, 2, 0.01)};
  const auto lists = compare(jars, 0);
  for (const char* what : {"lag", "speed"}) {
    const Comparison& list = list_of(what, lists);
    EXPECT_EQ(list.contrasts.size(), 1U) << what;
    ASSERT_EQ(list.unseen.size(), 1U) << what;
    EXPECT_EQ(list.unseen[0].dough, 2U);
    EXPECT_EQ(list.unseen[0].words, "did not rise within 30 h");
  }
  // Its peak was seen: there was none.
  EXPECT_EQ(list_of("peak", lists).contrasts.size(), 2U);
}

// Five doughs once each, or in five jars each: as many doughs.
TEST(AlikeDoughs, MoreJarsOfADoughAreNotMoreDoughs) {
  std::vector<Watched> one;
  std::vector<Watched> five;
  for (std::size_t day = 0; day < 2; ++day) {
    for (std::size_t dough = 0; dough < 5; ++dough) {
      const double speed = std::exp(0.1 * (static_cast<double>((day + 2 * dough) % 3) - 1));
      one.push_back(watched(day, dough, speed));
      for (int jar = 0; jar < 5; ++jar) five.push_back(watched(day, dough, speed));
    }
  }
  const Comparison few = list_of("speed", compare(one, 0));
  const Comparison many = list_of("speed", compare(five, 0));
  EXPECT_EQ(many.freedom, few.freedom);
  for (std::size_t i = 0; i < few.contrasts.size(); ++i) {
    const double width = few.contrasts[i].high - few.contrasts[i].low;
    const double of_many = many.contrasts[i].high - many.contrasts[i].low;
    EXPECT_NEAR(of_many / width, 1, 0.1);
  }
}

TEST(AlikeDoughs, OneRunawayDoesNotWidenAllTheOthers) {
  std::vector<double> y;
  std::vector<std::size_t> dough;
  std::vector<std::size_t> day;
  for (std::size_t d = 0; d < 5; ++d) {
    for (std::size_t on = 0; on < 3; ++on) {
      y.push_back(0.1 * static_cast<double>((3 * d + 2 * on) % 4) - 0.15);
      dough.push_back(d);
      day.push_back(on);
    }
  }
  const double calm = compared("speed", y, dough, day, 0, 0.1, 4)->scatter;
  y[7] = -9;
  EXPECT_LT(compared("speed", y, dough, day, 0, 0.1, 4)->scatter, 2 * calm);
}

// Twenty-four test bakes in which nothing acts; one in ten may call something clear.
TEST(AlikeDoughs, AreHardlyEverCalledClearlyDifferent) {
  const auto test = test::wine_test({"plain", "", "e", "a", "s"}, 1, 3);
  const std::vector<double> left(test.doughs.size(), 1.0);
  int clear = 0;
  for (std::uint64_t run = 0; run < 24; ++run) {
    numerics::Random random(19, run);
    const test::OutsideCulture culture(run % 2 == 0, random);
    const auto jars = test::outside_jars(
        test, left, culture, {2, 4, 6, 8, 10, 12, 14, 16, 18, 21, 25, 30}, {}, random);
    bool any = false;
    for (const Comparison& list : compare(jars, 0))
      for (const Contrast& one : list.contrasts) any |= one.clear();
    clear += any ? 1 : 0;
  }
  // With a chance of one in ten 6 or more of 24 come up in 3 of 100 such sets; the jars taken for
  // doughs make it 21.
  EXPECT_LE(clear, 5);
}

}  // namespace

}  // namespace barm::testbakes
