#include "formula/read.h"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

#include "formula/bakes.h"
#include "larder/larder.h"
#include "units/units.h"

namespace barm::formula {

namespace {

using ::barm::test::FailsWith;
using ::barm::test::Holds;

const std::string straight =
    "[bowl]\n\"white bread flour\" = \"1000 g\"\nwater = \"650 g\"\nsalt = \"20 g\"\n";

// --- what a good file gives ---

TEST(ReadBake, ReadsTheWholeOfAnExample) {
  const Bake bake = test::example("mead-loaf.toml");
  EXPECT_EQ(bake.name, "Mead loaf, half and half");
  EXPECT_EQ(bake.mixed_at.value().text(), "2026-11-28T07:00");
  EXPECT_EQ(bake.pieces, 6);
  EXPECT_EQ(bake.piece, 900.0 * gram);
  EXPECT_DOUBLE_EQ(bake.handling_loss, 0.02);
  EXPECT_DOUBLE_EQ(bake.bake_loss, 0.12);
  EXPECT_DOUBLE_EQ(bake.liquid_total.of_flour, 0.7);
  EXPECT_DOUBLE_EQ(bake.target, 2);
  ASSERT_EQ(bake.bowl.size(), 5U);
  EXPECT_EQ(bake.bowl[1].ingredient.key, "dry_mead");
  EXPECT_EQ(bake.bowl[1].measure, Measure::of_liquid);
  EXPECT_EQ(bake.bowl[1].currency, "EUR");
  EXPECT_EQ(bake.bowl[1].place.line, 12);
  EXPECT_TRUE(bake.bowl[4].levain);
  ASSERT_TRUE(bake.levain);
  EXPECT_EQ(bake.levain->ripe, 1);
  EXPECT_EQ(bake.levain->fresh_flour, 2);
  EXPECT_EQ(bake.levain->water, 1);
  EXPECT_DOUBLE_EQ(bake.levain->hydration(), 0.5);
  EXPECT_EQ(bake.levain->since_feeding, 5.0 * hour);
  ASSERT_EQ(bake.stages.size(), 6U);
  EXPECT_EQ(bake.stages[0].order,
            (std::vector<std::string>{"white bread flour", "water", "dry mead", "levain", "salt"}));
  EXPECT_EQ(bake.stages[1].until, 2.0);
  EXPECT_EQ(bake.stages[2].after, 1.0 * hour);
  EXPECT_EQ(bake.stages[5].lasts, 2.0 * hour);
  EXPECT_NEAR(bake.bulk_temperature().celsius(), 24, 1e-9);
}

TEST(ReadBake, ReadsEveryExampleAndEachSaysThatItIsInvented) {
  int count = 0;
  for (const auto& entry :
       std::filesystem::directory_iterator(std::string(BARM_ROOT) + "/examples")) {
    if (!entry.path().string().ends_with("-loaf.toml")) continue;
    ++count;
    EXPECT_THAT(read_bake(entry.path()), Holds());
    std::string first;
    std::ifstream in(entry.path());
    std::getline(in, first);
    EXPECT_NE(first.find("invented"), std::string::npos) << entry.path();
  }
  EXPECT_GE(count, 6);
}

TEST(ReadBake, TakesLocalMoments) {
  EXPECT_EQ(test::bake("mixed = \"07:00\"\n" + straight).mixed_at.value().text(), "07:00");
  EXPECT_EQ(test::bake("mixed = 07:00:00\n" + straight).mixed_at.value().text(), "07:00");
  EXPECT_EQ(test::bake("mixed = \"2026-11-28 07:00\"\n" + straight).mixed_at.value().text(),
            "2026-11-28T07:00");
  EXPECT_EQ(test::bake("mixed = 2024-02-29T23:59:59\n" + straight).mixed_at.value().text(),
            "2024-02-29T23:59");
}

TEST(ReadBake, TakesTargetsInWordsAndNumbers) {
  EXPECT_DOUBLE_EQ(test::bake("target = \"by half\"\n" + straight).target, 1.5);
  EXPECT_DOUBLE_EQ(test::bake("target = 1.8\n" + straight).target, 1.8);
  EXPECT_DOUBLE_EQ(test::bake("target = \"1,8 x\"\n" + straight).target, 1.8);
}

TEST(ReadBake, ReadsWhatTheLevainDidInItsJar) {
  const std::string levain =
      "levain = \"200 g\"\n[levain]\nstarter = \"stiff ripe levain\"\nflour = \"white bread "
      "flour\"\n";
  const Bake told = test::bake(straight + levain + "doubled_in = \"4 h\"\nrose = \"2.5 times\"\n");
  EXPECT_EQ(told.levain->doubled_in, 4.0 * hour);
  EXPECT_EQ(told.levain->rose, 2.5);
  const auto wrong =
      parse_bake("name = \"x\"\n" + straight + levain + "doubled_in = \"9 days\"\n", "x.toml");
  ASSERT_THAT(wrong, FailsWith(ErrorCode::bad_input));
  EXPECT_EQ(wrong.error().text(),
            "x.toml:10:14  a levain doubles in half an hour to two days: write \"4 h\"");
}

TEST(ReadBake, WithoutALevainTableTakesTheStiffOneOfTheLarder) {
  const Bake bake = test::bake(straight + "levain = \"200 g\"\n");
  EXPECT_EQ(bake.bowl[3].ingredient.key, "stiff_ripe_levain");
  EXPECT_FALSE(bake.bowl[3].levain);
  EXPECT_FALSE(bake.levain);
}

TEST(ReadBake, KeepsTheOrderOfTheFile) {
  const Bake bake =
      test::bake("[bowl]\nwater = \"650 g\"\nsalt = \"20 g\"\n\"white bread flour\" = \"1 kg\"\n");
  EXPECT_EQ(bake.bowl[0].ingredient.key, "water");
  EXPECT_EQ(bake.bowl[2].ingredient.key, "white_bread_flour");
}

TEST(ReadBake, FindsALineByAnyOfItsNames) {
  const Bake bake = test::bake(test::mead);
  EXPECT_EQ(bake.find("mead"), 1U);
  EXPECT_EQ(bake.find("Honey Wine"), 1U);
  EXPECT_EQ(bake.find("dry-mead"), 1U);
  EXPECT_FALSE(bake.find("levain"));
}

TEST(ReadBake, FindsAnOwnNameBeforeAnotherNameOfTheLarder) {
  const Bake bake = test::bake(
      straight +
      "\"dry mead\" = \"10 g\"\nmead = \"20 g\"\n[ingredient.mead]\nlike = \"sweet mead\"\n");
  EXPECT_EQ(bake.find("mead"), 4U);
  EXPECT_EQ(bake.find("dry mead"), 3U);
  EXPECT_EQ(bake.find("honey wine"), 3U);
}

// --- what cannot be read ---

TEST(ReadBake, SaysWhatIsWrongWithTheFileItself) {
  EXPECT_THAT(read_bake("/nowhere/none.toml"), FailsWith(ErrorCode::not_found));
  const auto folder = read_bake(std::string(BARM_ROOT) + "/examples");
  ASSERT_THAT(folder, FailsWith(ErrorCode::not_found));
  EXPECT_EQ(folder.error().message, "is a folder, not a file");
}

struct Wrong {
  const char* why;
  std::string text;
  std::string error;
};

void PrintTo(const Wrong& wrong, std::ostream* out) { *out << wrong.why; }

class WrongFile : public ::testing::TestWithParam<Wrong> {};

TEST_P(WrongFile, SaysWhereAndWhatWouldBeRight) {
  const auto bake = parse_bake(GetParam().text, "x.toml");
  ASSERT_THAT(bake, FailsWith(ErrorCode::bad_input));
  EXPECT_EQ(bake.error().text(), GetParam().error);
}

INSTANTIATE_TEST_SUITE_P(
    Bytes,
    WrongFile,
    ::testing::Values(
        Wrong{
            "over 1 MB", std::string(1'000'001, '#'), "x.toml  is over 1 MB: that is no such file"},
        Wrong{"not UTF-8",
              "name = \"a\"\nnote = \"\xff\"\n",
              "x.toml:2:9  is not UTF-8 here: save the file as UTF-8"},
        Wrong{"UTF-8 cut short",
              "note = \"\xc3",
              "x.toml:1:9  is not UTF-8 here: save the file as UTF-8"},
        Wrong{"half a surrogate",
              "note = \"\xed\xa0\x80\"",
              "x.toml:1:9  is not UTF-8 here: save the file as UTF-8"},
        Wrong{"a NUL byte",
              std::string("name = \"a\0b\"", 12),
              "x.toml:1:10  has a NUL byte here: that is not a text file"},
        Wrong{"not TOML",
              "name = \n",
              "x.toml:1:8  is not TOML: Error while parsing key-value pair: expected value, saw "
              "'\\n'"},
        Wrong{"nested lists",
              "note = [[[[[[[[[[1]]]]]]]]]]\n" + straight,
              "x.toml:1:16  is nested too deeply"},
        Wrong{"nested keys",
              "a" +
                  [] {
                    std::string dots;
                    for (int i = 0; i < 300; ++i) dots += ".a";
                    return dots;
                  }() +
                  " = 1\n",
              "x.toml:1:1  has too many dots outside quotes: keys are not nested so deeply"}));

INSTANTIATE_TEST_SUITE_P(
    Top,
    WrongFile,
    ::testing::Values(
        Wrong{"unknown key",
              "pices = 3\n" + straight,
              "x.toml:1:1  \"pices\" is not known at the top of a bake file. Near it: pieces, "
              "piece."},
        Wrong{"no bowl", "name = \"a\"\n", "x.toml  has no [bowl]"},
        Wrong{"bowl is no table", "bowl = 3\n", "x.toml:1:1  \"bowl\" is a table: write [bowl]"},
        Wrong{"empty bowl", "[bowl]\n", "x.toml:1:2  the bowl is empty"},
        Wrong{"name is a number",
              "name = 3\n" + straight,
              "x.toml:1:8  is not text in quotes: write \"Mead loaf\""},
        Wrong{"a time zone",
              "mixed = 2026-11-28T07:00:00Z\n" + straight,
              "x.toml:1:9  names a time zone: write local time without one"},
        Wrong{"a date alone",
              "mixed = 2026-11-28\n" + straight,
              "x.toml:1:9  is a date without a time of day"},
        Wrong{"no such day",
              "mixed = \"2026-02-30T07:00\"\n" + straight,
              "x.toml:1:9  is no local time: write \"2026-11-28T07:00\" or \"07:00\""},
        Wrong{"half a piece",
              "pieces = 2.5\n" + straight,
              "x.toml:1:10  pieces is a whole number from 1 to 100000: write pieces = 6"},
        Wrong{"no pieces",
              "pieces = 0\n" + straight,
              "x.toml:1:10  pieces is a whole number from 1 to 100000: write pieces = 6"},
        Wrong{"piece in litres",
              "piece = \"1 L\"\n" + straight,
              "x.toml:1:9  is not a weight: write \"900 g\""},
        Wrong{"a loss above all",
              "loss = { bake = \"90 %\" }\n" + straight,
              "x.toml:1:17  lies between 0 % and 60 %"},
        Wrong{"a loss by weight",
              "loss = { bake = \"90 g\" }\n" + straight,
              "x.toml:1:17  is not a share: write \"12 %\""},
        Wrong{
            "target below one",
            "target = 0.5\n" + straight,
            "x.toml:1:10  a rise is a ratio above 1 and at most 8: write \"doubled\" or \"1.8 x\""},
        Wrong{"two sizes of piece",
              "piece = \"900 g\"\nbaked = \"780 g\"\n" + straight,
              "x.toml:2:1  piece and baked both say how much: leave one out"}));

INSTANTIATE_TEST_SUITE_P(
    BowlTable,
    WrongFile,
    ::testing::Values(
        Wrong{"not in the larder",
              straight + "meade = \"100 g\"\n",
              "x.toml:5:1  \"meade\" is not in the larder. Near it: mead, dry mead, sweet mead."},
        Wrong{"a bare number",
              straight + "honey = 30\n",
              "x.toml:5:9  30 has no unit: write \"500 g\" or \"50 %\""},
        Wrong{"a bare text",
              straight + "honey = \"30\"\n",
              "x.toml:5:9  \"30\" has no unit: write \"500 g\" or \"50 %\""},
        Wrong{
            "negative", straight + "honey = \"-30 g\"\n", "x.toml:5:9  an amount is not negative"},
        Wrong{"a strength as amount",
              straight + "honey = \"3 % vol\"\n",
              "x.toml:5:9  a strength stands in [bottle]: write \"500 g\" or \"50 %\""},
        Wrong{
            "thousands",
            straight + "honey = \"1,200 g\"\n",
            "x.toml:5:9  \"1,200\" can be read two ways: write it without a comma or with a point"},
        Wrong{
            "no unit",
            straight + "honey = \"3 jars\"\n",
            "x.toml:5:9  \"jars\" is no unit here: write g, kg, oz, lb, mL, cl, L, tsp, tbsp or %"},
        Wrong{"a cup",
              straight + "honey = \"1 cup\"\n",
              "x.toml:5:9  \"cup\" is not one size: weigh it, or write mL"},
        Wrong{"twice",
              straight + "\"tap water\" = \"10 g\"\n",
              "x.toml:5:1  \"tap water\" stands in the bowl already, in line 3"},
        Wrong{"no flour",
              "[bowl]\nwater = \"1 kg\"\n",
              "x.toml:1:2  the bowl holds no flour: write \"white bread flour\" = \"100 %\""},
        Wrong{
            "flours of 98 %",
            "flour = \"1 kg\"\n[bowl]\n\"white bread flour\" = \"90 %\"\n\"rye flour\" = \"8 %\"\n",
            "x.toml:3:1  the flours come to 98 %, not 100 %: percent is of all flour, the levain's "
            "included"},
        Wrong{"flours mixed",
              "[bowl]\n\"white bread flour\" = \"90 %\"\n\"rye flour\" = \"100 g\"\n",
              "x.toml:3:1  write every flour in percent or every flour by weight"},
        Wrong{"zero flour",
              "[bowl]\n\"white bread flour\" = \"0 g\"\nwater = \"1 g\"\n",
              "x.toml:2:1  the bowl holds no flour"},
        Wrong{"no size",
              "[bowl]\n\"white bread flour\" = \"100 %\"\nwater = \"70 %\"\n",
              "x.toml  does not say how much: give pieces and piece, dough = \"1.8 kg\" or "
              "flour = \"3 kg\""},
        Wrong{"flour twice over",
              "flour = \"1 kg\"\n" + straight,
              "x.toml:1:1  the flours are weighed already: leave out flour, or write them in "
              "percent"},
        Wrong{"dough twice over",
              "dough = \"1 kg\"\n" + straight,
              "x.toml:1:1  the flours are weighed already: leave out dough, or write them in "
              "percent"},
        Wrong{"flour and dough",
              "flour = \"1 kg\"\ndough = \"2 kg\"\n[bowl]\n\"white bread flour\" = \"100 %\"\n",
              "x.toml:2:1  flour and dough both say how much: leave one out"},
        Wrong{"piece and dough",
              "pieces = 2\npiece = \"900 g\"\ndough = \"2 kg\"\n[bowl]\n\"white bread flour\" = "
              "\"100 %\"\n",
              "x.toml:3:1  piece and dough both say how much: leave one out"},
        Wrong{"more weighed than dough",
              "dough = \"500 g\"\n[bowl]\n\"white bread flour\" = \"100 %\"\nwater = \"600 g\"\n",
              "x.toml  what is weighed in the bowl comes to 600 g already, more than the dough of "
              "500 g"},
        Wrong{"flour and piece",
              "flour = \"1 kg\"\npieces = 2\npiece = \"900 g\"\n[bowl]\n\"white bread flour\" = "
              "\"100 %\"\n",
              "x.toml:2:1  flour and piece both say how much: leave one out"},
        Wrong{"share of no liquid",
              straight + "\"dry mead\" = \"50 % of the liquid\"\n",
              "x.toml:5:1  say how much liquid there is: liquid = \"70 %\""},
        Wrong{"liquids of half",
              "flour = \"1 kg\"\n[bowl]\n\"white bread flour\" = \"100 %\"\nliquid = \"70 "
              "%\"\nwater = \"50 % of the liquid\"\n",
              "x.toml:4:1  the liquids come to 35 % of flour, not 70 %: make one of them \"rest of "
              "the liquid\""},
        Wrong{"two rests",
              "flour = \"1 kg\"\n[bowl]\n\"white bread flour\" = \"100 %\"\nliquid = \"70 "
              "%\"\nwater = \"rest\"\nmilk = \"rest\"\n",
              "x.toml:6:1  only one line can be the rest of the liquid"},
        Wrong{"honey of the liquid",
              "flour = \"1 kg\"\n[bowl]\n\"white bread flour\" = \"100 %\"\nliquid = \"70 "
              "%\"\nwater = \"rest\"\nhoney = \"5 % of the liquid\"\n",
              "x.toml:6:1  \"honey\" does not count as liquid: write a share of flour or a weight"},
        Wrong{"rest below nothing",
              "flour = \"1 kg\"\n[bowl]\n\"white bread flour\" = \"100 %\"\nliquid = \"70 "
              "%\"\nwater = \"rest\"\nmilk = \"80 %\"\n",
              "x.toml:5:1  the other liquids come to more than the liquid total"},
        Wrong{"over 1000 %",
              straight + "honey = \"10.1 kg\"\n",
              "x.toml:5:1  1010 % of flour is no dough: at most 1000 %"},
        Wrong{"over 20 % salt",
              "[bowl]\n\"white bread flour\" = \"1 kg\"\nsalt = \"21 %\"\n",
              "x.toml:3:1  21 % of salt on flour: at most 20 %, bread has about 2 %"},
        Wrong{"over 5 t",
              "pieces = 60000\npiece = \"100 g\"\n[bowl]\n\"white bread flour\" = \"100 %\"\n",
              "x.toml:1:1  6 t of dough: at most 5 t"},
        Wrong{"a levain of more than the flour",
              "flour = \"1 kg\"\n[bowl]\n\"white bread flour\" = \"90 %\"\n\"rye flour\" = \"10 "
              "%\"\nlevain = \"60 %\"\n[levain]\nstarter = \"stiff ripe levain\"\nflour = \"rye "
              "flour\"\n",
              "x.toml:4:1  the levain holds more flour than the bowl asks for"},
        Wrong{"201 lines",
              [] {
                std::string text = "[bowl]\n";
                for (int i = 0; i < 201; ++i) text += "a" + std::to_string(i) + " = \"1 g\"\n";
                return text;
              }(),
              "x.toml:1:2  the bowl holds over 200 ingredients"}));

INSTANTIATE_TEST_SUITE_P(
    Bottle,
    WrongFile,
    ::testing::Values(
        Wrong{"not in the bowl",
              straight + "[bottle.\"dry mead\"]\nstrength = \"11 % vol\"\n",
              "x.toml:5:9  \"dry mead\" is not in the bowl"},
        Wrong{"not in the larder",
              straight + "[bottle.meade]\n",
              "x.toml:5:9  \"meade\" is not in the larder. Near it: mead, dry mead, sweet mead."},
        Wrong{"unknown word",
              straight + "[bottle.water]\nstrenght = \"11 % vol\"\n",
              "x.toml:6:1  \"strenght\" is not known of a bottle. Near it: strength."},
        Wrong{"strength in percent",
              straight + "[bottle.water]\nstrength = \"11 %\"\n",
              "x.toml:6:12  \"%\" is no unit here: write \"11.5 % vol\""},
        Wrong{"strength above all",
              straight + "[bottle.water]\nstrength = \"110 % vol\"\n",
              "x.toml:6:12  110 % vol cannot be: write something like \"11.5 % vol\""},
        Wrong{"pH of 20",
              straight + "[bottle.water]\nph = 20\n",
              "x.toml:6:6  20 cannot be: write something like \"3.4\""},
        Wrong{"more sugar than drink",
              straight + "[bottle.water]\nsugar = \"130 g/100 g\"\n",
              "x.toml:6:9  130 g/100 g cannot be: write something like \"8 g/L\""},
        Wrong{"parts above the whole",
              straight + "[bottle.water]\nsugar = \"60 g/100 g\"\nsalt = \"60 g/100 g\"\n",
              "x.toml:5:1  \"water\" cannot hold so much: its parts weigh more than the whole"},
        Wrong{"no such acid",
              straight + "[bottle.water]\nacid = \"6 g/L as sulphuric\"\n",
              "x.toml:6:8  \"sulphuric\" is no acid here: write \"6 g/L as tartaric\""},
        Wrong{"price of nothing",
              straight + "[bottle.water]\nprice = \"2 EUR\"\n",
              "x.toml:6:9  a price is per weight or volume: write \"9.60 EUR / 750 mL\""},
        Wrong{"price without currency",
              straight + "[bottle.water]\nprice = \"2 / kg\"\n",
              "x.toml:6:9  a price names its currency: write \"9.60 EUR / 750 mL\""},
        Wrong{"a drink of no strength",
              straight + "brew = \"1 g\"\n[ingredient.brew]\ngroup = \"drink\"\n",
              "x.toml:6:1  \"brew\" is a drink without a strength"},
        Wrong{"neither group nor like",
              straight + "brew = \"1 g\"\n[ingredient.brew]\nsalt = \"1 %\"\n",
              "x.toml:6:13  an ingredient of your own needs group = \"drink\" or like = \"perry\""},
        Wrong{"no such group",
              straight + "brew = \"1 g\"\n[ingredient.brew]\ngroup = \"drinks\"\n",
              "x.toml:7:9  \"drinks\" is no group. Near it: drink."},
        Wrong{"like nothing",
              straight + "brew = \"1 g\"\n[ingredient.brew]\nlike = \"peri\"\n",
              "x.toml:7:8  \"peri\" is not in the larder. Near it: perry."},
        Wrong{"a spoon of unknown density",
              straight + "moss = \"1 tsp\"\n[ingredient.moss]\ngroup = \"other\"\n",
              "x.toml:5:8  weigh it: the density of \"moss\" is not known"}));

INSTANTIATE_TEST_SUITE_P(
    LevainAndStages,
    WrongFile,
    ::testing::Values(
        Wrong{"a levain that no straight has",
              straight + "[levain]\nstarter = \"ripe levain\"\nflour = \"rye flour\"\n",
              "x.toml:5:2  the bowl holds no levain: write levain = \"20 %\" in [bowl]"},
        Wrong{"no starter",
              straight + "levain = \"100 g\"\n[levain]\nflour = \"rye flour\"\n",
              "x.toml:6:2  the levain needs starter = \"stiff ripe levain\""},
        Wrong{"starter is a flour",
              straight +
                  "levain = \"100 g\"\n[levain]\nstarter = \"rye flour\"\nflour = \"rye flour\"\n",
              "x.toml:7:11  \"medium rye flour\" is no starter: write \"stiff ripe levain\", or "
              "\"fresh yeast\" for a poolish or biga"},
        Wrong{"flour is a starter",
              straight + "levain = \"100 g\"\n[levain]\nstarter = \"ripe levain\"\nflour = \"ripe "
                         "levain\"\n",
              "x.toml:8:9  \"ripe levain\" is no flour: write \"white bread flour\""},
        Wrong{"two parts",
              straight + "levain = \"100 g\"\n[levain]\nstarter = \"ripe levain\"\nflour = \"rye "
                         "flour\"\nfeed = \"1:2\"\n",
              "x.toml:9:8  feed is three parts by weight: write \"1:2:1\", ripe : flour : water"},
        Wrong{"four parts",
              straight + "levain = \"100 g\"\n[levain]\nstarter = \"ripe levain\"\nflour = \"rye "
                         "flour\"\nfeed = \"1:2:1:1\"\n",
              "x.toml:9:8  feed is three parts by weight: write \"1:2:1\", ripe : flour : water"},
        Wrong{"no such stage",
              straight + "[[stage]]\ndo = \"prove\"\n",
              "x.toml:6:6  \"prove\" is no stage. Near it: proof."},
        Wrong{"nothing to do",
              straight + "[[stage]]\nfor = \"2 h\"\n",
              "x.toml:5:1  a stage says what to do: write do = \"bulk\""},
        Wrong{"key of another stage",
              straight + "[[stage]]\ndo = \"divide\"\nuntil = \"doubled\"\n",
              "x.toml:7:1  \"until\" is not known of the stage \"divide\". There are: do, for, "
              "where."},
        Wrong{"proof before bulk",
              straight + "[[stage]]\ndo = \"proof\"\n\n[[stage]]\ndo = \"bulk\"\n",
              "x.toml:8:1  \"bulk\" stands after \"proof\" (line 5): bulk comes before proof"},
        Wrong{"mix after bulk",
              straight + "[[stage]]\ndo = \"bulk\"\n\n[[stage]]\ndo = \"mix\"\n",
              "x.toml:8:1  \"mix\" stands after another stage: it comes first"},
        Wrong{"fold before bulk",
              straight + "[[stage]]\ndo = \"fold\"\nafter = \"1 h\"\n",
              "x.toml:5:1  \"fold\" stands before any bulk: a fold happens inside one"},
        Wrong{"fold at no time",
              straight + "[[stage]]\ndo = \"bulk\"\n\n[[stage]]\ndo = \"fold\"\n",
              "x.toml:8:1  a fold says when: write after = \"1 h\""},
        Wrong{"too hot",
              straight + "[[stage]]\ndo = \"bulk\"\ntemperature = \"75 C\"\n",
              "x.toml:7:15  75 °C is no temperature for a dough: -5 to 60 °C"},
        Wrong{"too cold",
              straight + "[[stage]]\ndo = \"cold\"\ntemperature = \"-18 C\"\n",
              "x.toml:7:15  -18 °C is no temperature for a dough: -5 to 60 °C"},
        Wrong{"no scale",
              straight + "[[stage]]\ndo = \"bulk\"\ntemperature = 24\n",
              "x.toml:7:15  is not text in quotes: write \"24 C\""},
        Wrong{"no unit of time",
              straight + "[[stage]]\ndo = \"bulk\"\nfor = \"2\"\n",
              "x.toml:7:7  a time has a unit: write \"5 h\", \"90 min\" or \"2 days\""},
        Wrong{"a year",
              straight + "[[stage]]\ndo = \"bulk\"\nfor = \"365 d\"\n",
              "x.toml:7:7  is longer than 60 days"},
        Wrong{"order of what is not there",
              straight + "[[stage]]\ndo = \"mix\"\norder = [\"water\", \"meade\"]\n",
              "x.toml:7:19  \"meade\" is not in the bowl. There are: white bread flour, water, "
              "salt."},
        Wrong{"order is no list",
              straight + "[[stage]]\ndo = \"mix\"\norder = \"water\"\n",
              "x.toml:7:9  is a list: write order = [\"white bread flour\", \"water\", "
              "\"levain\"]"}));

INSTANTIATE_TEST_SUITE_P(
    WeighedTable,
    WrongFile,
    ::testing::Values(Wrong{"not in the bowl",
                            straight + "[weighed]\nwatre = \"600 g\"\n",
                            "x.toml:6:1  \"watre\" is not in the bowl. Near it: water."},
                      Wrong{"in percent",
                            straight + "[weighed]\nwater = \"65 %\"\n",
                            "x.toml:6:9  what was poured is a weight: write \"600 g\""},
                      Wrong{"twice",
                            straight + "[weighed]\nwater = \"600 g\"\n\"tap water\" = \"600 g\"\n",
                            "x.toml:7:1  \"tap water\" is weighed twice"}));

TEST(ReadBake, PercentIsOfOneFlourOrTheOther) {
  const auto neither = parse_bake("percent_of = \"the rye\"\n" + straight, "x.toml");
  ASSERT_THAT(neither, FailsWith(ErrorCode::bad_input));
  EXPECT_EQ(neither.error().text(),
            "x.toml:1:14  percent is of \"all flour\", the levain's too, or of \"the flour "
            "weighed\"");
}

TEST(ReadBake, TheLiquidMayBeAWeight) {
  const std::string rest = "liquid = \"700 g\"\nwater = \"rest of the liquid\"\n";
  const auto of_total =
      parse_bake("flour = \"1 kg\"\n[bowl]\n\"white bread flour\" = \"100 %\"\n" + rest, "b");
  ASSERT_THAT(of_total, Holds());
  EXPECT_EQ(of_total->liquid_total.weight, 700.0 * gram);
  const auto of_lines = parse_bake(
      "[bowl]\n\"white bread flour\" = \"900 g\"\n\"rye flour\" = \"100 g\"\n" + rest, "b");
  ASSERT_THAT(of_lines, Holds());
  EXPECT_EQ(of_lines->liquid_total.weight, 700.0 * gram);
  const auto flooded =
      parse_bake("flour = \"10 g\"\n[bowl]\n\"white bread flour\" = \"100 %\"\n" + rest, "b");
  ASSERT_THAT(flooded, FailsWith(ErrorCode::bad_input));
  EXPECT_NE(flooded.error().message.find("7000 % of the flour"), std::string::npos);
}

TEST(ReadBake, ALevainWithoutAFlourTakesTheOnlyOneOfTheBowl) {
  const std::string one =
      "flour = \"1 kg\"\n[bowl]\n\"rye flour\" = \"100 %\"\nwater = \"80 %\"\nlevain = \"20 %\"\n"
      "[levain]\nstarter = \"stiff ripe levain\"\n";
  const auto bake = parse_bake(one, "one.toml");
  ASSERT_TRUE(bake) << bake.error().text();
  EXPECT_EQ(bake->levain->flour.key, larder::find("rye flour")->key);
  std::string two = one;
  two.replace(two.find("\"100 %\""), 7, "\"60 %\"\n\"white bread flour\" = \"40 %\"");
  const auto refused = parse_bake(two, "two.toml");
  ASSERT_FALSE(refused);
  EXPECT_NE(refused.error().message.find("not just one flour"), std::string::npos);
}

}  // namespace

}  // namespace barm::formula
