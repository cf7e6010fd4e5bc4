// How far the bulk may go, from what comes after it, beside what the trade does (common practice,
// no source). Nothing was set to agree with it: the 30 % of room for the oven is the upper end of
// the oven spring that is quoted.
#include "forecast/ready_for.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <map>

#include "formula/read.h"
#include "support/validation.h"

namespace barm::forecast {

namespace {

ReadyFor found(const std::string& levain, const std::string& after) {
  const auto bake = formula::parse_bake(
      fmt::format("pieces = 2\npiece = \"900 g\"\n[bowl]\n\"white bread flour\" = \"100 %\"\n"
                  "water = \"70 %\"\n\"{}\" = \"20 %\"\nsalt = \"2 %\"\n"
                  "[[stage]]\ndo = \"bulk\"\ntemperature = \"25 C\"\nuntil = \"doubled\"\n"
                  "[[stage]]\ndo = \"divide\"\n[[stage]]\ndo = \"shape\"\n{}",
                  levain,
                  after),
      "trade.toml");
  Options options;
  options.draws = 100;
  Made made;
  const auto ready = ready_for(*bake, options, made);
  return **ready;
}

const std::string proof = "[[stage]]\ndo = \"proof\"\ntemperature = \"25 C\"\nfor = \"2 h\"\n";
const std::string night = "[[stage]]\ndo = \"cold\"\nfor = \"12 h\"\n";

// Where the middle of ours does not lie in the trade's range, and why. A row here that begins to
// agree fails the test, so that docs/validation.md stays true.
const std::map<std::string, std::string> known_misses{
    {"bulk with liquid levain before 2 h proof",
     "how hard acid and an old liquid starter are on the gluten is a guess in the model"},
    {"bulk with liquid levain before 12 h cold", "as above"},
    {"bulk with stiff levain before 2 h proof",
     "doughs were measured to leak less than the model had it, and so are fuller after the same "
     "bulk; "
     "how far gluten then holds is the guess above"},
    {"bulk with stiff levain before 12 h cold", "as above, and gas goes on in the cold"},
    {"order before 12 h cold",
     "gas goes on in the cold, by a hair more in the stiff levain's dough, which is the milder"},
};

double row(const std::string& levain, const std::string& before) {
  const std::string what = fmt::format("bulk with {} levain before {}", levain, before);
  const ReadyFor ours = found(levain + " ripe levain", before == "2 h proof" ? proof : night);
  const TradeFigure& trade = levain == "stiff" ? ours.stiff_mild : ours.liquid_sour;
  const bool agrees = ours.p50 >= trade.least && ours.p50 <= trade.most;
  test::record("Practice: the whole model",
               what,
               "common practice, no source",
               fmt::format("{:g} to {:g}", trade.least, trade.most),
               ours.p50,
               "times",
               agrees);
  EXPECT_EQ(agrees, !known_misses.contains(what)) << what << ": " << ours.p50;
  return ours.p50;
}

TEST(Trade, LetsTheBulkGoAboutAsFar) {
  for (const std::string before : {"2 h proof", "12 h cold"}) {
    const bool sooner = row("liquid", before) < row("stiff", before);
    EXPECT_EQ(sooner, !known_misses.contains("order before " + before)) << before;
  }
}

}  // namespace

}  // namespace barm::forecast
