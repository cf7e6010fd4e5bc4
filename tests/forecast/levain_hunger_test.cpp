// A levain that goes hungry: older is never better, and one starter is one answer.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <stdexcept>
#include <string>

#include "forecast/draw.h"
#include "forecast/levain.h"
#include "formula/read.h"
#include "larder/larder.h"

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

// When a levain fed like this stands highest, and two hours later, when the larder's ripe ones are
// used (their lag says so).
std::string ripe_at(const std::string& name, const std::string& feed) {
  formula::Levain levain;
  levain.starter = *larder::find(name);
  levain.flour = *larder::find("white bread flour");
  if (std::sscanf(feed.c_str(), "%lf:%lf:%lf", &levain.ripe, &levain.fresh_flour, &levain.water) !=
      3)
    throw std::runtime_error("no feeding: " + feed);
  const auto course = levain_course(levain,
                                    *larder::typical(levain.starter),
                                    *larder::typical(levain.flour),
                                    kinetics::middle(kinetics::day_one()),
                                    48.0 * hour);
  return std::to_string(course.value().peak.value().in(hour) + 2) + " h";
}

// A levain by its name and the same levain fed at home until it is ripe.
TEST(NamedLevain, IsTheOneThatIsFedUntilItIsRipe) {
  const std::pair<const char*, const char*> levains[] = {
      {"liquid ripe levain", "1:1:1"}, {"ripe levain", "1:1:0.8"}, {"stiff ripe levain", "1:2:1"}};
  for (const auto& [name, feed] : levains) {
    const double named = doubled('"' + std::string(name) + '"');
    const double home = doubled(
        "starter = \"" + std::string(name) + "\"\nflour = \"white bread flour\"\nfeed = \"" + feed +
        "\"\ntemperature = \"26 C\"\nsince_feeding = \"" + ripe_at(name, feed) + "\"");
    EXPECT_NEAR(std::log(named / home), 0, 0.15) << name << ": " << named << " h, " << home << " h";
  }
}

}  // namespace

}  // namespace barm::forecast
