#include "shop/money.h"

#include <gtest/gtest.h>

#include "shop/bakes.h"
#include "support/matchers.h"

namespace barm::shop {

namespace {

using barm::test::euro;
using test::FailsWith;
using test::Holds;

Cash cash(const char* text) { return parse_cash(text)->cash; }

const Currency yen{"JPY", 0};
const Currency dinar{"KWD", 3};

TEST(Currency, IsKnownByItsCodeAndItsDecimals) {
  EXPECT_EQ(currency_of("EUR")->digits, 2);
  EXPECT_EQ(currency_of("JPY")->digits, 0);
  EXPECT_EQ(currency_of("KWD")->digits, 3);
  EXPECT_EQ(currency_of("€")->code, "EUR");
  for (const char* wrong : {"", "eur", "XXX", "EURO", "$"}) {
    EXPECT_THAT(currency_of(wrong), FailsWith(ErrorCode::bad_input)) << wrong;
  }
}

TEST(Cash, IsReadToItsLastDigit) {
  EXPECT_EQ(cash("31.50 EUR"), Cash::from_minor(3150));
  EXPECT_EQ(cash("31,50 €"), Cash::from_minor(3150));
  EXPECT_EQ(cash("EUR 31.50"), Cash::from_minor(3150));
  EXPECT_EQ(cash("120 JPY"), Cash::from_minor(120));
  EXPECT_EQ(cash("1.234 KWD"), Cash::from_minor(1234));
  EXPECT_EQ(cash("0.00000000001 EUR"), Cash::from_billionths(1));
  EXPECT_EQ(cash("-2 EUR"), Cash::from_minor(-200));
}

TEST(Cash, RefusesWhatIsNoMoney) {
  for (const char* wrong : {"",
                            "EUR",
                            "9.60",
                            "9.60 euros",
                            "9.60 EUR EUR",
                            "1e3 EUR",
                            "9.60.1 EUR",
                            "0.000000000001 EUR",
                            "1000000000000000000000 EUR",
                            "nan EUR",
                            "1,200 EUR"}) {
    EXPECT_THAT(parse_cash(wrong), FailsWith(ErrorCode::bad_input)) << wrong;
  }
}

TEST(Cash, RoundsOnceHalfToEvenAtTheBillionth) {
  EXPECT_EQ(Cash::from_billionths(1).times(1, 2), Cash::from_billionths(0));
  EXPECT_EQ(Cash::from_billionths(3).times(1, 2), Cash::from_billionths(2));
  EXPECT_EQ(Cash::from_billionths(-3).times(1, 2), Cash::from_billionths(-2));
  EXPECT_EQ(Cash::from_minor(1000).times(1, 3), Cash::from_billionths(333'333'333'333));
  EXPECT_EQ(Cash::from_minor(7).times(-3, -1), Cash::from_minor(21));
}

TEST(Cash, ShowsMinorUnitsWithHalvesAwayFromZero) {
  EXPECT_EQ(text(cash("0.125 EUR"), euro), "0.13 EUR");
  EXPECT_EQ(text(cash("-0.125 EUR"), euro), "-0.13 EUR");
  EXPECT_EQ(text(cash("0.124999 EUR"), euro), "0.12 EUR");
  EXPECT_EQ(text(cash("1234.5 JPY"), yen), "1235 JPY");
  EXPECT_EQ(text(cash("0.0005 KWD"), dinar), "0.001 KWD");
  EXPECT_EQ(digits_of(cash("0.0125 EUR"), euro, 2), "0.0125");
  EXPECT_EQ(digits_of(Cash(), euro), "0.00");
}

TEST(Cash, IsRaisedToTheNextStepAndNeverPastIt) {
  EXPECT_EQ(cash("7.41 EUR").raised_to(cash("0.10 EUR")), cash("7.50 EUR"));
  EXPECT_EQ(cash("7.50 EUR").raised_to(cash("0.10 EUR")), cash("7.50 EUR"));
  EXPECT_EQ(cash("7.5000001 EUR").raised_to(cash("0.10 EUR")), cash("7.60 EUR"));
  EXPECT_EQ(Cash().raised_to(cash("0.10 EUR")), Cash());
}

TEST(Cash, OfANumberIsThatNumber) {
  EXPECT_EQ(Cash::from_number(12.8, euro), Cash::from_minor(1280));
  EXPECT_DOUBLE_EQ(Cash::from_minor(1280).number(euro), 12.8);
}

TEST(ShownParts, GiveTheMissingCentToWhatLostMost) {
  const std::vector<Cash> thirds(3, Cash::from_minor(1000).times(1, 3));
  EXPECT_EQ(shown_parts(thirds, 1000), (std::vector<std::int64_t>{334, 333, 333}));
  const std::vector<Cash> uneven{cash("0.004 EUR"), cash("0.009 EUR"), cash("0.007 EUR")};
  EXPECT_EQ(shown_parts(uneven, 2), (std::vector<std::int64_t>{0, 1, 1}));
  EXPECT_TRUE(shown_parts({}, 5).empty());
}

}  // namespace

}  // namespace barm::shop
