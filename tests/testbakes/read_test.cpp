#include "testbakes/read.h"

#include "mead_test.h"
#include "support/matchers.h"

namespace barm::testbakes {

namespace {

using test::FailsWith;
using test::from_text;
using test::Holds;
using testing::HasSubstr;

std::string error_of(const std::string& text) {
  const auto read = from_text(text);
  return read ? "" : read.error().text();
}

const std::string base = "base = \"../mead-loaf.toml\"\n";
const std::string plain = "[[dough]]\nmake = \"plain\"\n";

TEST(TestBakeFile, ExampleIsReadInFull) {
  const auto read = test::mead_test();
  ASSERT_THAT(read, Holds());
  EXPECT_EQ(read->doughs.size(), 6U);
  EXPECT_EQ(read->days, (std::vector<std::string>{"2026-11-28", "2026-12-05"}));
  EXPECT_DOUBLE_EQ(read->dough->in(gram), 400);
  EXPECT_DOUBLE_EQ(read->within.in(hour), 14);
  EXPECT_EQ(read->doughs[2].words, "plain, match alcohol with neutral spirit");
  ASSERT_EQ(read->doughs[2].steps.size(), 2U);
  EXPECT_TRUE(std::holds_alternative<step::Plain>(read->doughs[2].steps[0]));
  EXPECT_EQ(std::get<step::Match>(read->doughs[2].steps[1]).what, Alike::alcohol);
}

TEST(TestBakeFile, SeriesMakesADoughForEachShare) {
  const auto read =
      from_text(base + "[[series]]\nof = \"dry mead\"\nshares = [\"0 %\", \"25 %\", \"50 %\"]\n");
  ASSERT_THAT(read, Holds());
  ASSERT_EQ(read->doughs.size(), 3U);
  EXPECT_EQ(read->doughs[1].name, "dry mead 25 %");
}

TEST(TestBakeFile, SwapTakesTheOtherBottlesLabelAndPrice) {
  const auto read = from_text(base + plain +
                              "[[dough]]\nmake = \"swap dry mead for perry\"\n"
                              "[bottle.perry]\nstrength = \"6 % vol\"\nprice = \"4 EUR / 1 L\"\n");
  ASSERT_THAT(read, Holds());
  const auto& swap = std::get<step::Swap>(read->doughs[1].steps[0]);
  EXPECT_EQ(swap.to.key, "perry");
  ASSERT_TRUE(swap.price.has_value());
  EXPECT_NEAR(*swap.price, 4, 0.2);  // of a litre that weighs nearly a kilogram
}

TEST(TestBakeFile, SaysWhereWhatAndWhatWouldBeRight) {
  EXPECT_THAT(error_of("name = \"x\"\n"), HasSubstr("some-test.toml:1:1"));
  EXPECT_THAT(error_of("name = \"x\"\n"), HasSubstr("base = \"mead-loaf.toml\""));
  EXPECT_THAT(error_of("base = \"no-loaf.toml\"\n"), HasSubstr("some-test.toml:1"));
  EXPECT_THAT(error_of(base + plain), HasSubstr("compares nothing"));
  EXPECT_THAT(error_of(base + plain + "[[dough]]\nmake = \"match colour\"\n"),
              HasSubstr("some-test.toml:5"));
  EXPECT_THAT(error_of(base + plain + "[[dough]]\nmake = \"match colour\"\n"),
              HasSubstr("alcohol, sulphite, acid, sugar"));
  EXPECT_THAT(error_of(base + plain + "[[dough]]\nmake = \"swap salt for perry\"\n"),
              HasSubstr("is not a drink"));
  EXPECT_THAT(error_of(base + plain + "[[dough]]\nmake = \"swap dry mead for pery\"\n"),
              HasSubstr("Near it: perry"));
  EXPECT_THAT(error_of(base + plain + "[[dough]]\nmake = \"simmer dry mead for 5 min\"\n"),
              HasSubstr("15 min"));
  EXPECT_THAT(error_of(base + plain + "[[dough]]\nname = \"plain\"\n"), HasSubstr("twice"));
  EXPECT_THAT(error_of(base + "jars = 0\n" + plain), HasSubstr("from 1 to 12"));
  EXPECT_THAT(error_of(base + "jar = \"60 g\"\n" + plain), HasSubstr("60 mm"));
  EXPECT_THAT(error_of(base + "causes = [\"hunger\"]\n" + plain), HasSubstr("is no cause"));
  EXPECT_THAT(error_of(base + "doughs = 3\n" + plain), HasSubstr("Near it: dough"));
  EXPECT_THAT(error_of("base = \n"), HasSubstr("some-test.toml:1"));
  EXPECT_THAT(read_test_bake("/nowhere/x.toml"), FailsWith(ErrorCode::not_found));
}

TEST(TestBakeFile, HostileNumbersStop) {
  for (const char* line : {"seed = -1\n",
                           "jars = 1e9\n",
                           "days = 0\n",
                           "days = []\n",
                           "amount = \"-4 g\"\n",
                           "jar = \"1e300 mm\"\n",
                           "within = \"0 h\"\n",
                           "within = \"90 days\"\n",
                           "days = [\"a\", \"a\"]\n",
                           "seed = nan\n"}) {
    EXPECT_THAT(from_text(base + line + plain + "[[dough]]\nname=\"b\"\n"),
                FailsWith(ErrorCode::bad_input))
        << line;
  }
}

}  // namespace

}  // namespace barm::testbakes
