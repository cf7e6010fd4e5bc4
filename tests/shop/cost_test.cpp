#include "shop/cost.h"

#include <gtest/gtest.h>

#include "formula/read.h"
#include "shop/bakes.h"
#include "shop/drinks.h"
#include "shop/price.h"
#include "support/matchers.h"
#include "support/printers.h"

namespace barm::shop {

namespace {

using barm::test::bake;
using test::FailsWith;
using test::Holds;

// 1000 g of flour, 700 g of water, 20 g of salt; ten loaves.
constexpr const char* plain_loaf =
    "pieces = 10\npiece = \"172 g\"\nloss = { handling = \"0 %\", bake = \"10 %\" }\n[bowl]\n"
    "\"white bread flour\" = \"1000 g\"\nwater = \"700 g\"\nsalt = \"20 g\"\n";

const std::string top = "currency = \"EUR\"\ndate = 2026-11-20\n";
const std::string flour =
    "[[buy]]\nwhat = \"white bread flour\"\nsize = \"10 kg\"\nprice = \"12.00 EUR\"\n";
const std::string salt = "[[buy]]\nwhat = \"salt\"\nsize = \"1 kg\"\nprice = \"0.50 EUR\"\n";

PriceList prices(const std::string& text) {
  const auto read = parse_prices(text, "p.toml");
  if (read) return *read;
  ADD_FAILURE() << read.error().text();
  return {};
}

Costing costed(const std::string& of, const std::string& by) {
  const auto costing = cost(bake(of), prices(by));
  if (costing) return *costing;
  ADD_FAILURE() << costing.error().text();
  return {};
}

const CostPart& part(const CostPart& of, const std::string& name) {
  for (const CostPart& one : of.parts) {
    if (one.name == name) return one;
  }
  ADD_FAILURE() << "no part " << name;
  return of;
}

TEST(Cost, OfIngredientsIsPriceTimesWeight) {
  const Costing costing = costed(plain_loaf, top + flour + salt);
  const CostPart& ingredients = part(costing.all, "ingredients");
  EXPECT_EQ(part(ingredients, "white bread flour").batch, Cash::from_minor(120));
  EXPECT_EQ(part(ingredients, "salt").batch, Cash::from_minor(1));
  EXPECT_EQ(part(ingredients, "water").batch, Cash());
  EXPECT_EQ(costing.all.batch, Cash::from_minor(121));
  EXPECT_EQ(costing.all.loaf, Cash::from_minor(121).shared_by(10));
  ASSERT_FALSE(costing.not_counted.empty());
  EXPECT_EQ(costing.not_counted.front(), "water: no price, so it is counted as free");
}

TEST(Cost, CountsWasteDepositAndTheRestOfABottle) {
  // 300 g out of packages of 1 kg at 10 EUR, a tenth of it wasted: 333.3 g are drawn.
  const std::string water =
      "[[buy]]\nwhat = \"water\"\nsize = \"1 kg\"\nprice = \"10 EUR\"\nwaste = \"10 %\"\n"
      "deposit = \"1 EUR\"\ncomes_back = \"50 %\"\nrest = \"lost\"\n";
  const std::string wet =
      "pieces = 1\npiece = \"1 kg\"\n[bowl]\n\"white bread flour\" = \"700 g\"\nwater = \"300 "
      "g\"\n";
  const Costing costing = costed(wet, top + flour + water);
  const CostPart& bought = part(part(costing.all, "ingredients"), "water");
  EXPECT_EQ(part(bought, "in the bowl").batch, Cash::from_minor(300));
  EXPECT_NEAR(part(bought, "wasted").batch.number({}), 1.0 / 3, 1e-6);
  // The rest is lost, so a whole bottle is used up: half its deposit does not come back.
  EXPECT_NEAR(part(bought, "deposit").batch.number({}), 0.5, 1e-6);
  EXPECT_NEAR(part(bought, "rest of the last one").batch.number({}), 20.0 / 3, 1e-6);
}

TEST(Cost, CountsWorkOvenWrappingAndOverhead) {
  const Costing costing = costed(
      plain_loaf,
      top + flour + salt +
          "[work]\nhourly = \"18 EUR\"\n[[work.step]]\ndo = \"shape\"\nbatch = \"10 min\"\nloaf = "
          "\"2 min\"\nlost = \"10 %\"\n[[work.step]]\ndo = \"bake\"\nbatch = \"20 min\"\nhourly = "
          "\"30 "
          "EUR\"\n[oven]\nenergy = \"0.30 EUR / kWh\"\npower = \"8 kW\"\npreheat = \"30 "
          "min\"\nbake = "
          "\"45 min\"\nloaves = 6\nduty = \"50 %\"\n[[wrap]]\nwhat = \"bag\"\nprice = \"20 "
          "EUR\"\nholds = "
          "500\n[[overhead]]\nwhat = \"rent\"\nmonth = \"500 EUR\"\n[[overhead]]\nwhat = "
          "\"cleaning\"\n"
          "batch = \"2 EUR\"\n[sell]\nloaves_a_month = 250\n");
  EXPECT_EQ(part(part(costing.all, "work"), "shape").batch, Cash::from_minor(900));
  EXPECT_EQ(part(part(costing.all, "work"), "bake").batch, Cash::from_minor(1000));
  EXPECT_EQ(part(costing.all, "oven").batch, Cash::from_minor(300));  // 4 kWh + 2 loads of 3 kWh
  EXPECT_EQ(part(costing.all, "wrapping").batch, Cash::from_minor(40));
  EXPECT_EQ(part(part(costing.all, "overhead"), "rent").batch, Cash::from_minor(1800));
  EXPECT_DOUBLE_EQ(costing.sold(), 9);
  EXPECT_EQ(costing.fixed, Cash::from_minor(300 + 1000 + 300 + 200));
  EXPECT_TRUE(costing.not_counted.size() == 1) << "only the water";
  ASSERT_EQ(costing.yields.size(), 3U);
  EXPECT_EQ(costing.yields[2].sunk, costing.all.batch.times(1, 10));
}

TEST(Cost, GoesByTheMeterWhereThereIsOne) {
  const Costing costing =
      costed(plain_loaf,
             top + flour + salt + "[oven]\nenergy = \"0.30 EUR / kWh\"\nmetered = \"9 kWh\"\n");
  EXPECT_EQ(part(costing.all, "oven").batch, Cash::from_minor(270));
}

TEST(Cost, OfALevainIsThatOfItsFlourAndWater) {
  const std::string with_levain =
      "pieces = 1\nflour = \"1 kg\"\n[bowl]\n\"white bread flour\" = \"100 %\"\nwater = \"50 %\"\n"
      "salt = \"2 %\"\nlevain = \"30 %\"\n[levain]\nstarter = \"stiff ripe levain\"\nflour = "
      "\"white bread flour\"\nfeed = \"1:2:1\"\n";
  const Costing costing = costed(with_levain, top + flour + salt);
  const CostPart& ingredients = part(costing.all, "ingredients");
  const Cash of_flour =
      part(ingredients, "white bread flour").batch + part(ingredients, "levain").batch;
  // Baker's percent counts the levain's flour: a kilogram in all, 1.20 EUR.
  EXPECT_NEAR(of_flour.number({}), 1.20, 1e-9);
}

TEST(Cost, NamesWhatHasNoPriceAndWhatCannotBeWeighed) {
  EXPECT_EQ(
      cost(bake(plain_loaf), prices(top + flour)).error().text(),
      "p.toml  has no price for \"salt\": add [[buy]] with what = \"salt\", size = \"1 kg\" and "
      "price = \"1.20 EUR\"");
  const std::string by_volume = "[[buy]]\nwhat = \"samphire\"\nsize = \"1 L\"\nprice = \"1 EUR\"\n";
  const std::string green =
      "pieces = 1\n[bowl]\n\"white bread flour\" = \"1000 g\"\nsamphire = \"20 g\"\n"
      "[ingredient.samphire]\ngroup = \"other\"\nwater = \"90 g/100 g\"\nfibre = \"10 g/100 g\"\n";
  EXPECT_EQ(cost(bake(green), prices(top + flour + by_volume)).error().text(),
            "p.toml:7:1  the density of \"samphire\" is not known: give the size by weight");
  const std::string no_pieces = "[bowl]\n\"white bread flour\" = \"1000 g\"\n";
  EXPECT_THAT(cost(bake(no_pieces), prices(top + flour)), FailsWith(ErrorCode::bad_input));
  const std::string other_money =
      "pieces = 1\n[bowl]\n\"white bread flour\" = \"1000 g\"\nsalt = \"20 g\"\n[bottle.salt]\n"
      "price = \"1.00 USD / kg\"\n";
  EXPECT_EQ(
      cost(bake(other_money), prices(top + flour)).error().text(),
      "b.toml:4:1  the bake's own price is in USD, the price file's in EUR: write one currency "
      "in both");
}

TEST(Effects, AreWhatCostingAgainGives) {
  const std::string list = top + flour + salt +
                           "[work]\nhourly = \"18 EUR\"\n[[work.step]]\ndo = "
                           "\"mix\"\nbatch = \"20 min\"\n";
  const auto all = effects(bake(plain_loaf), prices(list));
  ASSERT_THAT(all, Holds());
  EXPECT_EQ(all->front().part, "one loaf more in the batch");
  for (const Effect& one : *all) {
    if (one.part == "white bread flour") {
      EXPECT_EQ(one.loaf, Cash::from_billionths(1'200'000'000));
    }
    if (one.part == "an hour of work") {
      EXPECT_EQ(one.loaf, Cash::from_minor(6));
    }
    if (one.part == "bake loss") {
      EXPECT_EQ(one.loaf, Cash());
      EXPECT_GT(one.kilogram, Cash());
    }
  }
}

// --- prices ---

Costing flat(Cash batch, int pieces) {
  Costing costing;
  costing.all.batch = batch;
  costing.all.loaf = batch.shared_by(pieces);
  costing.pieces = pieces;
  costing.sold_millionths = pieces * 1'000'000LL;
  return costing;
}

TEST(Offer, ShelfPriceIsNetAndTaxToTheCent) {
  for (int cents = 1; cents < 3000; cents += 7) {
    const Costing costing = flat(Cash::from_minor(10 * cents), 10);
    const PriceList list = prices(top +
                                  "[tax]\non_bread = \"7 %\"\n[sell]\nmargin = \"33 %\"\nstep = "
                                  "\"0.05 EUR\"\n");
    const Offer offer = offers(costing, list).front();
    EXPECT_EQ(offer.net + offer.tax, offer.shelf);
    EXPECT_EQ(offer.shelf.minor() % 5, 0);
    EXPECT_EQ(Cash::from_minor(offer.net.minor()), offer.net);
    EXPECT_GE(offer.net + Cash::from_minor(1), costing.all.loaf.times(100, 67));
  }
}

// Whatever the tax, a price asked is the price shown: 7.90 at 8.875 % once came back as 7.91.
TEST(Offer, ThePriceAskedIsThePriceOnTheShelf) {
  for (const char* tax : {"0 %", "5 %", "5.5 %", "7 %", "8.875 %", "19 %", "25 %"}) {
    PriceList list = prices(top + flour + salt + "[tax]\non_bread = \"" + tax + "\"\n");
    const auto costing = cost(bake(plain_loaf), list);
    ASSERT_THAT(costing, Holds());
    for (std::int64_t cents = 1; cents < 2000; ++cents) {
      list.selling.asked = Cash::from_minor(cents);
      const Offer offer = offers(*costing, list).back();
      ASSERT_EQ(offer.shelf, Cash::from_minor(cents)) << tax;
      ASSERT_EQ(offer.net + offer.tax, offer.shelf);
      const double net = static_cast<double>(cents) / (1 + list.tax.on_bread);
      ASSERT_NEAR(static_cast<double>(offer.net.minor()), net, 0.5 + 1e-6) << tax;
    }
  }
}

TEST(Offer, HoursOfWorkEarnWhatWasAskedOfThem) {
  Costing costing = flat(Cash::from_minor(6000), 10);
  costing.work = Cash::from_minor(2000);
  costing.worked = 2.0 * hour;
  const Offer offer = offers(costing, prices(top + "[sell]\nhourly_pay = \"30 EUR\"\n")).front();
  EXPECT_EQ(offer.net, Cash::from_minor(1000));  // 40 EUR of the rest and 60 of work over 10 loaves
  EXPECT_EQ(*offer.an_hour, Cash::from_minor(3000));
}

// 40 EUR by the batch, 2 EUR by the loaf: at 6 EUR net ten loaves earn it, nine do not.
TEST(Offer, BreaksEvenAtTheFirstLoafThatDoes) {
  Costing costing = flat(Cash::from_minor(6000), 10);
  costing.fixed = Cash::from_minor(4000);
  const Offer offer = offer_at(costing, prices(top), Cash::from_minor(600), "");
  EXPECT_EQ(offer.break_even_batch, 10);
  EXPECT_EQ(offer_at(costing, prices(top), Cash::from_minor(601), "").break_even_batch, 10);
  EXPECT_EQ(offer_at(costing, prices(top), Cash::from_minor(599), "").break_even_batch, 11);
  EXPECT_FALSE(offer_at(costing, prices(top), Cash::from_minor(200), "").break_even_batch);
}

TEST(PriceRise, MovesASliceByItsShare) {
  const std::string wine =
      "pieces = 4\n[bowl]\n\"white bread flour\" = \"1000 g\"\n\"white wine\" = \"600 g\"\n";
  const std::string list =
      top + flour +
      "[[buy]]\nwhat = \"white wine\"\nsize = \"600 g\"\nprice = \"6 EUR\"\n[sell]\n"
      "slices = 10\nmargin = \"50 %\"\n";
  const formula::Bake of = bake(wine);
  const PriceList by = prices(list);
  const auto costing = cost(of, by);
  ASSERT_THAT(costing, Holds());
  const auto more = price_rise(
      of, by, of.bowl[1].ingredient, Cash::from_minor(200), offers(*costing, by).front());
  ASSERT_THAT(more, Holds());
  EXPECT_EQ(more->loaf, Cash::from_minor(50));
  EXPECT_EQ(*more->slice, Cash::from_minor(5));
  EXPECT_NEAR(more->shelf.number({}), 1.00, 0.01);  // the same margin, so twice as much
}

TEST(Bottles, OfABakeCoverWhatItNeeds) {
  const auto of = formula::read_bake(BARM_ROOT "/examples/mead-loaf.toml");
  const auto by = read_prices(BARM_ROOT "/examples/marsh-prices.toml");
  ASSERT_THAT(of, Holds());
  ASSERT_THAT(by, Holds());
  const auto drinks = in_bottles(*of, *by);
  ASSERT_THAT(drinks, Holds());
  ASSERT_EQ(drinks->size(), 1U);
  const DrinkInBottles& mead = drinks->front();
  const double needed = mead.loaf.in(millilitre)*mead.batch.loaves;
  const double bought = 750.0 * static_cast<double>(mead.batch.bottles[0]) +
                        5000.0 * static_cast<double>(mead.batch.bottles[1]);
  EXPECT_NEAR(bought - needed, static_cast<double>(mead.batch.rest_tenths) / 10, 0.1);
  EXPECT_LE(mead.cheapest.loaf, mead.batch.loaf);
}

// Prices of a file are net where tax comes back; so is one that stands in the bake file.
TEST(Cost, TakesTheTaxOutOfTheBakeFilesOwnPrice) {
  const std::string with_mead =
      "pieces = 1\npiece = \"1 kg\"\n[bowl]\n\"white bread flour\" = \"600 g\"\n\"dry mead\" = "
      "\"400 g\"\n[bottle.\"dry mead\"]\nprice = \"11.90 EUR/kg\"\n";
  const auto mead = [&](const std::string& tax) {
    return part(part(costed(with_mead, top + tax + flour).all, "ingredients"), "dry mead").batch;
  };
  EXPECT_EQ(mead("[tax]\nreclaimed = true\nbottles = \"19 %\"\n"), Cash::from_minor(400));
  EXPECT_EQ(mead("[tax]\nreclaimed = false\nbottles = \"19 %\"\n"), Cash::from_minor(476));
  EXPECT_EQ(mead("[tax]\nreclaimed = true\n"), Cash::from_minor(476));
  const auto words = costed(with_mead, top + "[tax]\nreclaimed = true\n" + flour).not_counted;
  EXPECT_NE(words[1].find("bottles = \"19 %\""), std::string::npos) << words[1];
}

TEST(Cost, TakesTheTaxOutOfTheOvensPrice) {
  const std::string oven =
      "[oven]\nenergy = \"0.238 EUR / kWh\"\ntax = \"19 %\"\nmetered = \"10 kWh\"\n";
  const auto heat = [&](const std::string& tax) {
    return part(costed(plain_loaf, top + tax + flour + salt + oven).all, "oven").batch;
  };
  EXPECT_EQ(heat("[tax]\nreclaimed = true\n"), Cash::from_minor(200));
  EXPECT_EQ(heat(""), Cash::from_minor(238));
}

// 4 loaves a load, 1 EUR a load, 1 EUR to heat up; a loaf leaves 0.50 EUR: 6 loaves need 2 loads,
// 3 EUR in all. One load alone would be earned by 4: 2 EUR.
TEST(Price, BreaksEvenWithTheLoadsOfThatNumber) {
  const std::string oven =
      "[oven]\nenergy = \"1 EUR / kWh\"\npower = \"1 kW\"\npreheat = \"60 min\"\nbake = \"60 "
      "min\"\n"
      "loaves = 4\n";
  const PriceList list = prices(top + flour + salt + oven);
  const Costing costing = costed(plain_loaf, top + flour + salt + oven);
  const Cash varying = Cash::from_minor(121).shared_by(10);
  const auto at = [&](std::int64_t left) {
    return offer_at(costing, list, varying + Cash::from_minor(left), "").break_even_batch;
  };
  EXPECT_EQ(at(55), 4);   // 4 times 0.55 are over 2 EUR
  EXPECT_EQ(at(48), 7);   // 4 leave 1.92 of 2 EUR; then 2 loads, 3 EUR: 6.25
  EXPECT_EQ(at(30), 20);  // 16 leave 4.80 of 5 EUR, 20 are 6.00 of 6 EUR
  EXPECT_FALSE(at(20).has_value()) << "a full load leaves 0.80 of its 1 EUR";
}

// 600 g of a drink simmered to 60 % is a kilogram of it.
TEST(Cost, OfAPreparedDrinkIsThatOfWhatItWasMadeOf) {
  const Costing costing = costed(
      "pieces = 2\n[bowl]\n\"white bread flour\" = \"1 kg\"\n\"my stout\" = \"600 g\"\n"
      "[prepared.\"my stout\"]\nof = \"stout\"\nsimmer_to = \"60 %\"\n",
      top + flour + "[[buy]]\nwhat = \"stout\"\nsize = \"1 kg\"\nprice = \"4 EUR\"\n");
  const CostPart& stout = part(part(costing.all, "ingredients"), "my stout");
  EXPECT_NEAR(stout.batch.number({}), 4, 1e-4);
}

}  // namespace

}  // namespace barm::shop
