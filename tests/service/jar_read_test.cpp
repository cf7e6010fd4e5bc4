// The sample of a bake whose jar does not say how much dough is in it.
#include <gmock/gmock.h>

#include "forecast/jar.h"
#include "formula/read.h"
#include "service/bake/read.h"
#include "support/matchers.h"

namespace barm::service {
namespace {

formula::Bake read_bake_with(const std::string& dough) {
  return formula::parse_bake(
             "name = \"x\"\nflour = \"2 kg\"\n[bowl]\n\"white bread flour\" = \"100 %\"\nwater = "
             "\"70 "
             "%\"\nsalt = \"2 %\"\n\"stiff ripe levain\" = \"20 %\"\n[jar]\ndiameter = \"70 "
             "mm\"\ntemperature = \"18 C\"\nheight = \"140 mm\"\n" +
                 dough + "[[stage]]\ndo = \"bulk\"\ntemperature = \"26 C\"\nuntil = \"doubled\"\n",
             "x.toml")
      .value();
}

// How warm the sample is after an hour: a spoonful follows its place sooner than half a jar.
double warmth_of(const std::string& dough, const std::optional<Length>& mark) {
  estimation::Readings readings;
  readings.start_mark = mark;
  const auto batch = dough_to_read({.bake = read_bake_with(dough), .readings = readings}, {});
  return batch.value().sample.track.celsius_at(1);
}

TEST(JarThatIsRead, HoldsWhatItsMarkAndDiameterSay) {
  const Length mark = 48.0 * millimetre;
  const Mass there = forecast::dough_up_to(mark, read_bake_with("").jar.value());
  // 48 mm of 70 mm across are 185 mL of dough.
  EXPECT_NEAR(there.in(gram), 185 * 1.1, 20);
  const std::string said = "dough = \"" + std::to_string(there.in(gram)) + " g\"\n";
  EXPECT_NEAR(warmth_of("", mark), warmth_of(said, mark), 1e-6);
  EXPECT_GT(warmth_of("", mark), warmth_of("dough = \"60 g\"\n", mark) + 0.2);
}

TEST(JarThatIsRead, HoldsWhatSuitsItWhereNoMarkIsKnown) {
  const Mass suits = forecast::suitable_dough(read_bake_with("").jar.value(), 2);
  const std::string said = "dough = \"" + std::to_string(suits.in(gram)) + " g\"\n";
  EXPECT_NEAR(warmth_of("", std::nullopt), warmth_of(said, std::nullopt), 1e-6);
}

}  // namespace
}  // namespace barm::service
