#include "shop/buyers.h"

#include <gtest/gtest.h>

#include "shop/bakes.h"
#include "support/matchers.h"

namespace barm::shop {

namespace {

using barm::test::euro;

std::string error_of(const std::string& text) {
  const auto read = parse_answers(text, "b.csv", euro);
  return read ? "no error" : read.error().text();
}

/// So many people who each buy up to their own price, spread evenly from 5 to 9 EUR.
std::vector<Answer> even_crowd(int people) {
  std::vector<Answer> answers;
  for (int i = 0; i < people; ++i) {
    const std::int64_t most = 500 + (400 * i) / people;
    for (std::int64_t price = 500; price <= 900; price += 50) {
      answers.push_back({"p" + std::to_string(i), Cash::from_minor(price), price <= most});
    }
  }
  return answers;
}

TEST(Answers, AreReadWithEitherSeparator) {
  const auto read =
      parse_answers("buyer;price;would buy\nA;6,50;yes\nA;7.00 EUR;no\n", "b.csv", euro);
  ASSERT_THAT(read, test::Holds());
  ASSERT_EQ(read->size(), 2U);
  EXPECT_EQ((*read)[0].price, Cash::from_minor(650));
  EXPECT_TRUE((*read)[0].would_buy);
  EXPECT_FALSE((*read)[1].would_buy);
}

TEST(Answers, NameEachMistakeAtItsLine) {
  EXPECT_EQ(error_of(""), "b.csv:1  is empty: write buyer,price,would buy");
  EXPECT_EQ(error_of("who,what\n"),
            "b.csv:1  the first line names the columns: buyer,price,would buy");
  EXPECT_EQ(error_of("buyer,price,would buy\n"), "b.csv:2  holds no answers");
  EXPECT_EQ(error_of("buyer,price,would buy\nA,-6,yes\n"), "b.csv:2  a price is not negative");
  EXPECT_EQ(error_of("buyer,price,would buy\nA,6 USD,yes\n"),
            "b.csv:2  USD beside the price file's EUR");
  EXPECT_EQ(error_of("buyer,price,would buy\n\nA,6,perhaps\n"),
            "b.csv:3  \"perhaps\" is neither yes nor no");
  EXPECT_EQ(error_of("buyer,price,would buy\nA,6\n"),
            "b.csv:2  has too few columns: buyer,price,would buy");
  EXPECT_EQ(error_of("buyer,price,would buy\nA,6,yes\nA,6.00,no\n"),
            "b.csv:3  this buyer has answered this price before");
  EXPECT_EQ(error_of("buyer,price,would buy\n\"A,6,yes\n"),
            "b.csv:2  has a quote that is not closed");
}

// Demand falls evenly from 5 to 9 EUR and a loaf costs 3: (9 - p)(p - 3) is largest at 6 EUR.
TEST(Judge, FindsTheMiddleOfAnEvenCrowd) {
  const Buyers buyers = judge(even_crowd(400), Cash::from_minor(300), 0);
  ASSERT_FALSE(buyers.too_few) << buyers.word;
  EXPECT_EQ(buyers.shares[buyers.best].price, Cash::from_minor(600));
  EXPECT_LE(buyers.best_low, buyers.best);
  EXPECT_GE(buyers.best_high, buyers.best);
  EXPECT_LE(buyers.wide_low, buyers.best_low);
  EXPECT_FALSE(buyers.at_the_edge);
}

TEST(Judge, CountsTheTaxInAPriceAsNoProfit) {
  const Buyers buyers = judge(even_crowd(400), Cash::from_minor(300), 0.25);
  const Share& at_six = buyers.shares[2];
  EXPECT_EQ(at_six.price, Cash::from_minor(600));
  EXPECT_NEAR(at_six.profit.number(euro), 100 * at_six.falling * (6 / 1.25 - 3), 1e-6);
}

TEST(Judge, SaysSoWhenTooFewWereAsked) {
  EXPECT_TRUE(judge(even_crowd(6), Cash::from_minor(300), 0).too_few);
  EXPECT_EQ(judge(even_crowd(6), Cash::from_minor(300), 0).word,
            "6 people are too few to choose a price by: ask at least 20");
  const std::vector<Answer> one{{"A", Cash::from_minor(600), true}};
  EXPECT_EQ(judge(one, Cash(), 0).word, "only one price was asked: ask two or more");
  EXPECT_TRUE(judge({}, Cash(), 0).too_few);
}

TEST(Judge, SaysSoWhenTheBestIsAtTheEnd) {
  std::vector<Answer> answers;
  for (int i = 0; i < 40; ++i) {
    for (const int price : {500, 600}) {
      answers.push_back({"p" + std::to_string(i), Cash::from_minor(price), true});
    }
  }
  const Buyers buyers = judge(answers, Cash::from_minor(300), 0);
  EXPECT_TRUE(buyers.at_the_edge);
  EXPECT_EQ(buyers.word, "the best price is at the end of those asked: ask beyond it too");
}

TEST(Judge, SaysTheSameTwice) {
  const Buyers once = judge(even_crowd(60), Cash::from_minor(300), 0);
  const Buyers again = judge(even_crowd(60), Cash::from_minor(300), 0);
  EXPECT_EQ(once.best_low, again.best_low);
  EXPECT_EQ(once.wide_high, again.wide_high);
}

}  // namespace

}  // namespace barm::shop
