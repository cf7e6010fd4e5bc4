// How far the bulk may go, from what comes after it, beside what the trade does (common practice,
// no source). Nothing was set to agree with it: the 30 % of room for the oven is the upper end of
// the oven spring that is quoted.
#include "forecast/ready_for.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

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
  const auto ready = ready_for(*bake, options);
  return **ready;
}

const std::string proof = "[[stage]]\ndo = \"proof\"\ntemperature = \"25 C\"\nfor = \"2 h\"\n";
const std::string night = "[[stage]]\ndo = \"cold\"\nfor = \"12 h\"\n";

// Agrees when the middle of ours lies in the trade's range.
bool row(const std::string& what, const ReadyFor& ours, const TradeFigure& trade) {
  const bool agrees = ours.p50 >= trade.least && ours.p50 <= trade.most;
  test::record("Practice: the whole model",
               what,
               "common practice, no source",
               fmt::format("{:g} to {:g}", trade.least, trade.most),
               ours.p50,
               "times",
               agrees);
  return agrees;
}

TEST(Trade, StiffMildStartersMayDouble) {
  for (const auto& [after, words] :
       {std::pair{proof, "2 h proof"}, std::pair{night, "12 h cold"}}) {
    const ReadyFor ours = found("stiff ripe levain", after);
    EXPECT_TRUE(row(fmt::format("bulk with stiff levain before {}", words), ours, ours.stiff_mild))
        << words << " " << ours.p50;
  }
}

// A known miss: liquid sour dough may go less far than stiff mild dough in ours too, but not by as
// much as bakers say. The acid's and the starter's grip on the gluten are guesses
// (docs/model/kinetics.md).
TEST(Trade, LiquidSourStartersMayGoLessFar) {
  for (const auto& [after, words] :
       {std::pair{proof, "2 h proof"}, std::pair{night, "12 h cold"}}) {
    const ReadyFor ours = found("liquid ripe levain", after);
    EXPECT_FALSE(
        row(fmt::format("bulk with liquid levain before {}", words), ours, ours.liquid_sour))
        << words << " agrees now: " << ours.p50;
    EXPECT_LT(ours.p50, found("stiff ripe levain", after).p50) << words;
  }
}

}  // namespace

}  // namespace barm::forecast
