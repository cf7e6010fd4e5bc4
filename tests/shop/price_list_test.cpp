#include "shop/price_list.h"

#include <gtest/gtest.h>

#include "larder/larder.h"
#include "support/matchers.h"
#include "support/printers.h"

namespace barm::shop {

namespace {

using test::Holds;

const std::string head = "currency = \"EUR\"\ndate = 2026-11-20\n";

std::string error_in(const std::string& text) {
  const auto read = parse_prices(text, "p.toml");
  return read ? "no error" : read.error().text();
}

TEST(PriceList, ReadsTheExample) {
  const auto prices = read_prices(BARM_ROOT "/examples/marsh-prices.toml");
  ASSERT_THAT(prices, Holds());
  EXPECT_EQ(prices->currency.code, "EUR");
  EXPECT_EQ(prices->oldest(), "2026-11-12");
  EXPECT_EQ(prices->newest(), "2026-11-20");
  const auto mead = prices->packages_of(*larder::find("dry mead"));
  ASSERT_EQ(mead.size(), 2U);
  EXPECT_EQ(mead[0]->paid, Cash::from_minor(960));
  EXPECT_EQ(mead[0]->net, Cash::from_minor(960).times(100, 119));
  EXPECT_NEAR(mead[1]->volume->in(litre), 5, 1e-12);
  ASSERT_TRUE(prices->oven.has_value());
  EXPECT_EQ(prices->oven->per_kilowatt_hour, Cash::from_minor(31));
  EXPECT_EQ(prices->steps.size(), 6U);
}

TEST(PriceList, KeepsTheTaxThatDoesNotComeBack) {
  const auto prices = parse_prices(
      head + "[[buy]]\nwhat = \"salt\"\nsize = \"1 kg\"\nprice = \"1.19 EUR\"\ntax = \"19 %\"\n",
      "p.toml");
  ASSERT_THAT(prices, Holds());
  EXPECT_EQ(prices->packages[0].net, Cash::from_minor(119));
}

struct Mistake {
  std::string text, says;
};

std::string bottle(const std::string& lines) {
  return head + "[[buy]]\nwhat = \"dry mead\"\n" + lines;
}

TEST(PriceList, NamesEachMistakeAtItsField) {
  const std::vector<Mistake> mistakes{
      {bottle("size = \"750 mL\"\nprice = \"-9.60 EUR\"\n"), "p.toml:6:9  a price is not negative"},
      {bottle("size = \"750 mL\"\nprice = \"9.60 USD\"\n"),
       "p.toml:6:9  USD stands in a file of EUR: write one currency in one file"},
      {bottle("price = \"9.60 EUR\"\n"), "p.toml:3:1  has no size: write size = \"750 mL\""},
      {bottle("size = \"750\"\nprice = \"9.60 EUR\"\n"),
       "p.toml:5:8  \"750\" has no unit: write \"500 g\" or \"50 %\""},
      {bottle("size = \"0 mL\"\nprice = \"9.60 EUR\"\n"),
       "p.toml:5:8  is no size: write \"25 kg\" or \"750 mL\""},
      {"currency = \"EUR\"\n[[buy]]\nwhat = \"salt\"\nsize = \"1 kg\"\nprice = \"1 EUR\"\n",
       "p.toml:2:1  has no date: write date = 2026-11-20 here, or once at the top for every "
       "price"},
      {"currency = \"EUR\"\ndate = \"soon\"\n", "p.toml:2:8  is no date: write 2026-11-20"},
      {"currency = \"EUR\"\ndate = \"2026-02-30\"\n", "p.toml:2:8  is no date: write 2026-11-20"},
      {"date = 2026-11-20\n", "p.toml:1:1  has no currency: write currency = \"EUR\""},
      {"currency = \"EURO\"\n",
       "p.toml:1:12  \"EURO\" is no currency: write its three capital letters, such as EUR, GBP, "
       "USD, JPY"},
      {bottle("size = \"750 mL\"\nprice = 9.60\n"),
       "p.toml:6:9  is not text in quotes: write \"9.60 EUR\""},
      {bottle("size = \"750 mL\"\nprice = \"9.60\"\n"),
       "p.toml:6:9  an amount of money names its currency: write \"9.60 EUR\""},
      {bottle("size = \"750 mL\"\nprice = \"nan EUR\"\n"),
       "p.toml:6:9  there is no number in \"nan EUR\": write \"9.60 EUR\""},
      {bottle("size = \"750 mL\"\nprise = \"9.60 EUR\"\n"),
       "p.toml:6:1  \"prise\" is not known of what is bought. Near it: price."},
      {bottle("size = \"750 mL\"\nprice = \"9.60 EUR\"\nwaste = \"95 %\"\n"),
       "p.toml:7:9  lies between 0 % and 90 %"},
      {bottle("size = \"750 mL\"\nprice = \"9.60 EUR\"\nrest = \"drunk\"\n"),
       "p.toml:7:8  says what becomes of an opened bottle's rest: write \"kept\" or \"lost\""},
      {head + "[buy]\nwhat = \"salt\"\n", "p.toml:3:2  stands more than once: write [[buy]]"},
      {head + "[[overhead]]\nwhat = \"rent\"\nmonth = \"600 EUR\"\n",
       "p.toml:3:3  is by the month: say over how many loaves, loaves_a_month = 400 in [sell]"},
      {head + "[sell]\nmargin = \"120 %\"\n", "p.toml:4:10  lies between 0 % and 99 %"},
      {head + "[sell]\nslices = 0\n", "p.toml:4:10  is a whole number from 1 to 1000"},
      {head + "[oven]\nenergy = \"0.31 EUR\"\npower = \"6 kW\"\nbake = \"40 min\"\n",
       "p.toml:4:10  is per kilowatt hour: write \"0.32 EUR / kWh\""},
      {head + "[oven]\nenergy = \"0.31 EUR / kWh\"\npower = \"6 hp\"\nbake = \"40 min\"\n",
       "p.toml:5:9  is not in kW from 0 to 100000: write \"6 kW\""},
      {"currency = ",
       "p.toml:1:12  is not TOML: Error while parsing key-value pair: encountered "
       "end-of-file"},
  };
  for (const Mistake& mistake : mistakes) EXPECT_EQ(error_in(mistake.text), mistake.says);
}

TEST(PriceList, IsNotFoundWhereThereIsNone) {
  EXPECT_THAT(read_prices("no/such.toml"), test::FailsWith(ErrorCode::not_found));
  EXPECT_THAT(read_prices("/"), test::FailsWith(ErrorCode::not_found));
}

}  // namespace

}  // namespace barm::shop
