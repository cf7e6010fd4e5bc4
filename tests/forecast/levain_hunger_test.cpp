// A levain that goes hungry: older is never better.
#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>
#include <string>

#include "forecast/draw.h"
#include "forecast/levain.h"
#include "formula/read.h"

namespace barm::forecast {

namespace {

// Hours to doubled of the middle dough with a fifth of its flour in this levain.
double doubled(const std::string& starter_lines, const std::string& percent = "20 %") {
  const auto bake = formula::parse_bake(
      "name = \"x\"\nflour = \"1 kg\"\n[bowl]\n\"white bread flour\" = \"100 %\"\nwater = \"60 "
      "%\"\nsalt = \"2 %\"\n" +
          (starter_lines[0] == '"' ? starter_lines + " = \"" + percent + "\"\n"
                                   : "levain = \"" + percent + "\"\n[levain]\n" + starter_lines) +
          "\n[[stage]]\ndo = \"bulk\"\ntemperature = \"24 C\"\nuntil = \"doubled\"\n",
      "x.toml");
  if (!bake) throw std::runtime_error(bake.error().text());
  const auto one = draw(*bake, 1, -1);
  if (!one) throw std::runtime_error(one.error().text());
  const auto course = run(one->dough, one->parameters, {});
  if (!course || !course->ready) throw std::runtime_error("never doubled");
  return course->ready->in(hour);
}

std::string fed(const std::string& rest) {
  return "starter = \"ripe levain\"\nflour = \"white bread flour\"\nfeed = \"1:2:1.6\"\n" + rest;
}

TEST(HungryLevain, LongerUnfedIsSlower) {
  double before = 0;
  for (const int hours : {8, 12, 24, 48, 72}) {
    const double now =
        doubled(fed("temperature = \"26 C\"\nsince_feeding = \"" + std::to_string(hours) + " h\""));
    EXPECT_GT(now, before) << hours << " h since feeding";
    before = now;
  }
}

TEST(HungryLevain, MoreDaysInTheFridgeAreSlower) {
  double before = 0;
  for (const int days : {1, 3, 7, 14, 30}) {
    const double now =
        doubled(fed("temperature = \"26 C\"\nsince_feeding = \"6 h\"\nin_the_cold = \"" +
                    std::to_string(days) + " days\""));
    EXPECT_GT(now, before) << days << " days";
    before = now;
  }
}

TEST(HungryLevain, MoreLevainIsFaster) {
  double before = INFINITY;
  for (const char* percent : {"2 %", "5 %", "10 %", "20 %", "40 %", "80 %"}) {
    const double now = doubled(fed("temperature = \"26 C\"\nsince_feeding = \"6 h\""), percent);
    EXPECT_LT(now, before) << percent;
    before = now;
  }
}

}  // namespace

}  // namespace barm::forecast
