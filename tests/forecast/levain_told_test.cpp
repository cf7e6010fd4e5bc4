// What a levain tells in its jar before mixing, and how wide a plain dough's answer is.
#include "forecast/levain_told.h"

#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "forecast/draw.h"
#include "forecast/ensemble.h"
#include "forecast/levain.h"
#include "formula/read.h"
#include "larder/larder.h"

namespace barm::forecast {

namespace {

formula::Bake plain_with(const std::string& told, const std::string& flour = "white bread flour") {
  auto bake = formula::parse_bake(
      "name = \"x\"\nflour = \"1 kg\"\n[bowl]\n\"white bread flour\" = \"100 %\"\nwater = \"60 "
      "%\"\nsalt = \"2 %\"\nlevain = \"20 %\"\n[levain]\nstarter = \"stiff ripe levain\"\nflour = "
      "\"" +
          flour + "\"\nfeed = \"1:2:1\"\ntemperature = \"26 C\"\n" + told +
          "\n[[stage]]\ndo = \"bulk\"\ntemperature = \"24 C\"\nuntil = \"doubled\"\n",
      "x.toml");
  if (!bake) throw std::runtime_error(bake.error().text());
  return *bake;
}

Spread ready(const std::string& told) {
  Options options;
  options.draws = 400;
  const auto forecast = foresee(plain_with(told), options);
  if (!forecast) throw std::runtime_error(forecast.error().text());
  return forecast->ready;
}

double width(const Spread& spread) { return *spread.p90 / *spread.p10; }

// How long the middle levain takes to double in its jar, as one would write it.
std::string as_usual() {
  const formula::Levain levain = *plain_with("").levain;
  const auto course = levain_course(levain,
                                    *larder::typical(levain.starter),
                                    *larder::typical(levain.flour),
                                    kinetics::middle(kinetics::day_one()),
                                    48.0 * hour);
  return "doubled_in = \"" + std::to_string(course.value().ready->in(hour)) + " h\"";
}

TEST(ToldLevain, NarrowsThePlainDough) {
  const Spread before = ready("");
  const Spread after = ready(as_usual());
  EXPECT_LE(width(before), 2.5);
  EXPECT_LE(width(after), 1.7);
  EXPECT_LT(std::log(width(after)), 0.85 * std::log(width(before)));
}

TEST(ToldLevain, SlowerInTheJarIsSlowerInTheDough) {
  const Spread quick = ready("doubled_in = \"2 h\"");
  const Spread slow = ready("doubled_in = \"6 h\"");
  EXPECT_GT(*slow.p50, 1.15 * *quick.p50);
}

TEST(ToldLevain, LeavesThePriorAloneWhenItTellsNothing) {
  const auto prior = told_by_levain(*plain_with("").levain, kinetics::day_one());
  EXPECT_EQ(prior.value().centre, kinetics::day_one().centre);
  EXPECT_EQ(prior.value().factor, kinetics::day_one().factor);
}

TEST(ToldLevain, NoDoubtGrows) {
  const auto prior = told_by_levain(*plain_with("doubled_in = \"3 h\"\nrose = \"3 times\"").levain,
                                    kinetics::day_one());
  double narrowest = 1;
  for (const auto& one : kinetics::priors()) {
    const double before = kinetics::day_one().doubt(one.parameter);
    const double after = prior.value().doubt(one.parameter);
    EXPECT_LE(after, before * (1 + 1e-9)) << one.name;
    if (before > 0) narrowest = std::min(narrowest, after / before);
  }
  EXPECT_LT(narrowest, 0.95);
}

TEST(ToldLevain, SaysWhenSuchALevainNeverDoubles) {
  const auto forecast = foresee(plain_with("doubled_in = \"4 h\"", "rye flour"), {});
  ASSERT_FALSE(forecast.has_value());
  EXPECT_EQ(forecast.error().code, ErrorCode::bad_input);
  EXPECT_NE(forecast.error().message.find("rose ="), std::string::npos);
}

}  // namespace

}  // namespace barm::forecast
