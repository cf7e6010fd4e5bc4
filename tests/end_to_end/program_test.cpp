// The program as a user meets it: the built binary, its output, its exit status.
#include <gmock/gmock.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <regex>
#include <string>

#include "end_to_end/said.h"
#include "support/folder.h"

namespace {

using barm::test::barm;
using barm::test::Said;
using barm::test::widest_line;
using testing::HasSubstr;
using testing::Not;
using testing::StartsWith;

std::string temporary(const std::string& name, const std::string& text) {
  static const barm::test::Folder folder;
  std::ofstream(folder / name, std::ios::binary) << text;
  return folder / name;
}

const std::vector<std::string>& demo_commands() {
  static const std::vector<std::string> commands{
      "bowl examples/mead-loaf.toml",
      "foresee examples/mead-loaf.toml --draws 60",
      "jar examples/mead-loaf.toml --draws 40",
      "levain --need 300g --peak-in 8h --at 26C --draws 40",
      "reach examples/mead-loaf.toml --of 'dry mead' --within 14h --chance 0.8 --draws 40",
      "rescue examples/mead-loaf.toml --now 14h --by 02:00 --risen 1.3 --draws 60",
      "rescue examples/mead-loaf.toml --readings examples/mead-loaf-readings.csv --draws 60",
      "match examples/perry-loaf.toml --like examples/mead-loaf.toml",
      "thin 'neutral spirit' --to '10 % vol' --need 1kg",
      "simmer 'red wine' --to '60 %'",
      "mix examples/mead-loaf.toml --dough 24C --read '2min 21C' --read '8min 24C'",
      "fridge examples/mead-loaf.toml --pieces 6",
      "oven examples/mead-loaf.toml --set 250C --set '15min 220C' --bake 40min --steam 10min "
      "--draws 60",
      "solve examples/mead-loaf.toml --aim 'real water=70 %' --aim 'alcohol=60 g' --free 'dry "
      "mead' --free water",
      "swap examples/plain-loaf.toml --drink 'dry mead' --share '50 %'",
      "taste examples/mead-loaf.toml --draws 40 --tasted '9 of 12 right'",
      "taste examples/plain-loaf.toml --draws 40",
      "taste examples/cold-coffee-loaf.toml --draws 40 --more",
      "taste examples/mead-loaf.toml --draws 40 --more",
      "taste examples/mead-loaf.toml --draws 40 --money 0.20",
      "taste examples/mead-loaf.toml --draws 40 --by 14h",
      "taste examples/mead-loaf.toml --draws 40 --across --within 14h",
      "water --dough 24C --flour 24C --room 27C --levain 26C --friction 6 --water 2kg --tap 18C",
      "till examples/mead-loaf.toml --prices examples/marsh-prices.toml --buyers "
      "examples/buyers.csv",
      "till examples/mead-loaf.toml --prices examples/marsh-prices.toml --open",
      "testbake plan examples/test-bakes/mead.toml",
      "testbake plan examples/test-bakes/mead.toml --key",
      "testbake plan examples/test-bakes/mead-taste.toml",
      "testbake before examples/test-bakes/mead.toml --draws 40 --working",
      "testbake after examples/test-bakes/mead.toml --working",
      "testbake next examples/test-bakes/mead.toml --before --candidate 'plain, match acid' "
      "--candidate 'dry mead 25 % of the liquid'",
      "testbake map examples/test-bakes/mead.toml --draws 40",
      "testbake map examples/test-bakes/mead.toml --draws 40 --up time",
      "testbake taste --tasters 30 --right 12",
      "testbake taste --tell 60% --sheets",
      "label examples/mead-loaf.toml --rules eu --draws 20",
      "label examples/stout-loaf.toml --rules uk --draws 20 --portion 80g",
      "label examples/perry-loaf.toml --rules us --draws 20",
      "label examples/mead-loaf.toml --language de --field lot=L332 --draws 20",
      "larder mead",
      "source ethanol_half",
      "source --behind examples/mead-loaf.toml",
  };
  return commands;
}

TEST(Program, AnswersTheMainJobOn80Columns) {
  for (const std::string& command : demo_commands()) {
    const Said said = barm(command);
    EXPECT_EQ(said.status, 0) << command;
    EXPECT_FALSE(said.out.empty()) << command;
    EXPECT_LE(widest_line(said.out), 80) << command << "\n" << said.out;
    EXPECT_FALSE(std::regex_search(said.out, std::regex("\\b(nan|inf)\\b"))) << command << said.out;
    EXPECT_THAT(said.out, Not(HasSubstr("\x1b["))) << command;
  }
}

// One processor adds and multiplies in one step and another in two: the last bit of a number
// differs between them, and no answer may. A look that the one took in was refused as impossible by
// the other.
TEST(Program, SaysTheSameOnAnotherProcessor) {
  const std::string elsewhere = "GLIBC_TUNABLES=glibc.cpu.hwcaps=-AVX2,-FMA";
  for (const std::string asked : {"foresee examples/mead-loaf.toml --draws 60",
                                  "testbake after examples/test-bakes/mead.toml --working"}) {
    const Said here = barm(asked);
    ASSERT_EQ(here.status, 0) << asked;
    EXPECT_EQ(barm(asked, false, elsewhere).out, here.out) << asked;
  }
  // Draws that agree with a look are drawn from many: one that lies on the edge may be another.
  const std::string asked =
      "rescue examples/mead-loaf.toml --now 14h --risen 1.3 --draws 60 --json";
  const auto here = nlohmann::json::parse(barm(asked).out);
  const auto there = nlohmann::json::parse(barm(asked, false, elsewhere).out);
  for (const char* of : {"p10", "p50", "p90"})
    EXPECT_NEAR(here["rise_now"][of].get<double>(), there["rise_now"][of].get<double>(), 0.03);
}

// What was asked wrongly is told by the option that was typed, not by a field's name inside.
TEST(Program, NamesTheOptionThatIsWrong) {
  EXPECT_THAT(barm("rescue examples/mead-loaf.toml", true).out, StartsWith("--now"));
  EXPECT_THAT(barm("rescue examples/mead-loaf.toml --now 14h --by 13h", true).out,
              StartsWith("--by"));
  EXPECT_THAT(barm("when examples/mead-loaf.toml --oven noon", true).out, StartsWith("--oven"));
  EXPECT_THAT(barm("levain --feed 1", true).out, StartsWith("--feed"));
}

TEST(Program, SaysWhatIsWrongWithAWeight) {
  const Said bare = barm("thin stout --to '2 % vol' --need 500", true);
  EXPECT_THAT(bare.out, HasSubstr("--need  '500' is no weight: write it with its unit"));
  EXPECT_THAT(barm("thin stout --to '2 % vol' --need '500 mL'", true).out, StartsWith("--need"));
}

// Who is to steep and to thin is told how much of each, and not told that as a doubt.
TEST(Program, SaysWhatAPreparedDrinkIsMadeFrom) {
  const std::string file = temporary("steeped.toml", R"(flour = "1 kg"
[bowl]
"white bread flour" = "100 %"
water = "40 %"
"my stout" = "30 %"
salt = "2 %"
[prepared."my stout"]
of = "stout"
flat = true
steep = "raisins"
dose = "5 %"
thin_to = "2 % vol"
)");
  const Said said = barm("bowl " + file);
  ASSERT_EQ(said.status, 0) << said.out;
  const std::string words = std::regex_replace(said.out, std::regex("\\s+"), " ");
  EXPECT_THAT(words, HasSubstr("before 300 g of my stout: from "));
  EXPECT_THAT(words, HasSubstr("g of raisins and "));
  EXPECT_THAT(words, HasSubstr("let go flat, raisins steeped in it and strained off, thinned"));
  EXPECT_THAT(words, Not(HasSubstr("doubt my stout: let go flat")));
  // What goes in is what comes out and what the raisins hold back.
  const auto bowl = nlohmann::json::parse(barm("bowl --json " + file).out)["bowl"];
  double in = 0;
  for (const auto& from : bowl["to_prepare"][0]["from"]) in += from["mass_g"].get<double>();
  const double raisins = bowl["to_prepare"][0]["from"][1]["mass_g"];
  EXPECT_GT(in - 300, 2 * raisins);
  EXPECT_LT(in - 300, 3.1 * raisins);
}

// A dough that has all but stopped starts again; that is not said as hundreds of times as fast.
TEST(Program, SaysNoFactorThatNobodyCanPicture) {
  const Said said =
      barm("rescue examples/stout-loaf.toml --now 30h --readings examples/stout-loaf-readings.csv");
  EXPECT_EQ(said.status, 0);
  const std::string words = std::regex_replace(said.out, std::regex("\\s+"), " ");
  EXPECT_FALSE(std::regex_search(words, std::regex("[0-9]{3,} times as fast"))) << said.out;
}

// An oven in the file is the last of the stages, wherever the bake is asked about.
TEST(Program, GoesOnToTheBagWhereTheBakeHasAnOven) {
  const Said said = barm("foresee examples/perry-loaf.toml --draws 40");
  EXPECT_EQ(said.status, 0);
  const std::string words = std::regex_replace(said.out, std::regex("\\s+"), " ");
  EXPECT_THAT(words,
              HasSubstr("250 °C, from 20 min on 220 °C, under a lid for 20 min, 2 loaves at once, "
                        "52 min: core"));
  EXPECT_THAT(words, HasSubstr("cool enough to cut about"));
  EXPECT_THAT(words, HasSubstr("Alcohol vapour can burn"));
  // Far enough ahead for every dough, whatever the hour is now.
  const std::string day = said_by("LC_ALL=C date -d '3 days' +%a").out.substr(0, 3);
  const Said when = barm("when examples/perry-loaf.toml --oven '" + day + " 08:30' --draws 40");
  EXPECT_EQ(when.status, 0);
  EXPECT_THAT(when.out, HasSubstr("OUT       " + day + " 09:15"));
  EXPECT_THAT(when.out, HasSubstr("CUT       cool enough about"));
  EXPECT_LE(widest_line(when.out), 80);
  EXPECT_THAT(barm("foresee examples/plain-loaf.toml --draws 40").out, Not(HasSubstr("cooling")));
}

TEST(Program, GivesEachAnswerAsJson) {
  for (const std::string& command : demo_commands()) {
    const Said said = barm(command + " --json");
    ASSERT_EQ(said.status, 0) << command;
    const auto json = nlohmann::json::parse(said.out, nullptr, false);
    ASSERT_FALSE(json.is_discarded()) << command;
    EXPECT_THAT(json.at("schema").get<std::string>(), testing::MatchesRegex("barm\\.[a-z-]+/[12]"));
  }
}

TEST(Program, SaysTheSameTwice) {
  const std::string command = "foresee examples/mead-loaf.toml --draws 60 --json --threads ";
  EXPECT_EQ(barm(command + "1").out, barm(command + "3").out);
}

TEST(Program, EveryExampleIsForeseen) {
  for (const auto& entry : std::filesystem::directory_iterator(BARM_ROOT "/examples")) {
    if (!entry.path().string().ends_with("-loaf.toml")) continue;
    const Said said = barm("foresee '" + entry.path().string() + "' --draws 40");
    EXPECT_EQ(said.status, 0) << entry.path();
    EXPECT_LE(widest_line(said.out), 80) << entry.path() << "\n" << said.out;
    EXPECT_THAT(said.out, HasSubstr("READY"));
  }
}

TEST(Program, HelpOfEachCommandHasAnExample) {
  for (const char* name : {"bowl",
                           "foresee",
                           "levain",
                           "reach",
                           "rescue",
                           "match",
                           "thin",
                           "water",
                           "solve",
                           "till",
                           "label",
                           "larder",
                           "source"}) {
    const Said said = barm(std::string(name) + " --help");
    EXPECT_EQ(said.status, 0) << name;
    EXPECT_THAT(said.out, HasSubstr("Example:")) << name;
  }
}

TEST(Program, NamesTheUnknownIngredientAndThoseNearIt) {
  const std::string path = temporary("unknown.toml",
                                     "name = \"x\"\nflour = \"1 kg\"\n[bowl]\n"
                                     "\"white bread flour\" = \"100 %\"\nmeade = \"60 %\"\n");
  const Said said = barm("foresee '" + path + "'", true);
  EXPECT_EQ(said.status, 2);
  EXPECT_THAT(said.out, HasSubstr(":5:1"));
  EXPECT_THAT(said.out, HasSubstr("meade"));
  EXPECT_THAT(said.out, HasSubstr("mead"));
  EXPECT_EQ(std::count(said.out.begin(), said.out.end(), '\n'), 1);
}

TEST(Program, SaysOneClearErrorForEachBadInput) {
  const std::string noise(2 << 20, '\x7f');
  const std::vector<std::string> bad{
      "bowl /nowhere/at/all.toml",
      "bowl /tmp",
      "bowl '" + temporary("noise.toml", noise) + "'",
      "bowl '" + temporary("utf8.toml", "name = \"\xff\xfe\"\n") + "'",
      "bowl '" + temporary("empty.toml", "") + "'",
      "bowl '" + temporary("percent.toml", "name = \"x\"\n[bowl]\nwater = \"60 %\"\n") + "'",
      "bowl '" +
          temporary("negative.toml",
                    "name=\"x\"\n[bowl]\n\"white bread flour\"=\"1 kg\"\nwater=\"-60 %\"\n") +
          "'",
      "reach examples/mead-loaf.toml --of gravel",
      "reach examples/mead-loaf.toml --chance 7",
      "foresee examples/mead-loaf.toml --at 900C",
      "foresee examples/mead-loaf.toml --horizon soon",
      "rescue examples/mead-loaf.toml --now 14h --by 13h",
      "rescue examples/mead-loaf.toml --now soon",
      "rescue examples/mead-loaf.toml --now 2h --risen 5.5",
      "rescue examples/mead-loaf.toml --now 14h --place 80C",
      "levain --feed 1:0:0",
      "levain --need none",
      "levain --feed inf:1:1",
      "levain --fed 2026-02-31T07:00",
      "levain --peak-at soon",
      "water --flour 20C --room 20C --friction nan",
      "water --flour 20C --room 20C --water -2kg --tap 18C",
      "levain --peak-in 1min",
      "larder zzzzzz",
      "water --flour 60C --room 60C",
      "water --flour warm --room 20C",
      "source zzzzzz",
      "source --behind /nowhere/at/all.toml",
      "thin water --to '10 % vol' --need 1kg",
      "solve examples/mead-loaf.toml --aim 'gravel=3 g' --free water",
      "till examples/mead-loaf.toml --prices no-such.toml",
      "till examples/mead-loaf.toml --prices examples/mead-loaf.toml",
      "till examples/marsh-prices.toml --prices examples/marsh-prices.toml",
      "till examples/mead-loaf.toml --prices examples/marsh-prices.toml --margin 120%",
      "till examples/mead-loaf.toml --prices examples/marsh-prices.toml --pay '20 USD'",
      "till examples/mead-loaf.toml --prices examples/marsh-prices.toml --asked -3EUR",
      "till examples/mead-loaf.toml --prices examples/marsh-prices.toml --buyers README.md",
      "till examples/mead-loaf.toml --prices examples/marsh-prices.toml --csv /no/such/folder/x",
      "label examples/mead-loaf.toml --rules fr",
      "label examples/mead-loaf.toml --portion -5g",
      "label examples/mead-loaf.toml --language nl",
      "label examples/mead-loaf.toml --field lott=L332",
      "label examples/mead-loaf.toml --field best_before=2026-02-30",
      "label examples/mead-loaf.toml --width 5mm --print x.html",
      "label examples/mead-loaf.toml --print /no/such/folder/x.html",
      "label examples/marsh-prices.toml",
  };
  for (const std::string& command : bad) {
    const Said said = barm(command, true);
    EXPECT_GE(said.status, 2) << command;
    EXPECT_LE(said.status, 5) << command << said.out;
    EXPECT_EQ(std::count(said.out.begin(), said.out.end(), '\n'), 1) << command << "\n" << said.out;
    EXPECT_LT(said.out.size(), 500U) << command;
  }
}

TEST(Program, RefusesWrongUsage) {
  EXPECT_EQ(barm("foresee").status, 64);
  EXPECT_EQ(barm("dance").status, 64);
  EXPECT_EQ(barm("foresee examples/mead-loaf.toml --draws 1").status, 64);
}

// A jar that stands warmer than the bulk has its mark higher; more dough in a jar reads finer.
TEST(Jar, MarksFollowTheRoomAndTheDough) {
  const auto marks = [](const std::string& options) {
    return nlohmann::json::parse(
        barm("jar examples/mead-loaf.toml --json --draws 40 " + options).out);
  };
  const auto beside = marks("--grams 60g");
  const auto warm = marks("--grams 60g --room 30C");
  const auto more = marks("--grams 120g");
  EXPECT_EQ(beside["schema"], "barm.jar/1");
  EXPECT_GT(warm["ready_mark_mm"]["p50"], beside["ready_mark_mm"]["p50"]);
  EXPECT_GT(warm["sample_at_ready_C"].get<double>(), 28);
  EXPECT_NEAR(more["start_mark_mm"].get<double>(), 2 * beside["start_mark_mm"].get<double>(), 1e-6);
  EXPECT_LT(more["minutes_per_mm"]["p50"], beside["minutes_per_mm"]["p50"]);
}

TEST(Jar, ReadsWellForEveryExampleOn80Columns) {
  for (const auto& entry : std::filesystem::directory_iterator(BARM_ROOT "/examples")) {
    if (entry.path().filename().string().find("-loaf.toml") == std::string::npos) continue;
    const Said said = barm("jar " + entry.path().string() + " --draws 40 --diameter 45mm");
    EXPECT_EQ(said.status, 0) << entry.path();
    EXPECT_LE(widest_line(said.out), 80) << said.out;
    EXPECT_THAT(said.out, HasSubstr("READY"));
    EXPECT_THAT(said.out, HasSubstr("START"));
    EXPECT_THAT(said.out, HasSubstr("burst"));
    EXPECT_THAT(said.out, Not(HasSubstr("nan")));
  }
}

TEST(Jar, NamesTheOptionThatIsWrong) {
  EXPECT_THAT(barm("jar examples/mead-loaf.toml --diameter 7", true).out,
              HasSubstr("--diameter  a length is above zero and names its unit"));
  EXPECT_THAT(barm("jar examples/mead-loaf.toml --diameter 2m", true).out,
              HasSubstr("--diameter  a jar is 15 to 300 mm across inside"));
  EXPECT_THAT(barm("jar examples/mead-loaf.toml --grams 60mL", true).out, HasSubstr("--grams  "));
  EXPECT_THAT(barm("jar examples/mead-loaf.toml --room 80C", true).out, HasSubstr("--room  "));
  EXPECT_THAT(barm("jar examples/mead-loaf.toml --target 0.5", true).out, HasSubstr("--target  "));
}

TEST(Target, FollowsWhatComesAfterWhenAsked) {
  const auto fixed = nlohmann::json::parse(
      barm("foresee examples/mead-loaf.toml --json --draws 40 --target 1.6").out);
  EXPECT_NEAR(fixed["target_volume_ratio"].get<double>(), 1.6, 1e-9);
  const auto after = nlohmann::json::parse(
      barm("foresee examples/mead-loaf.toml --json --draws 40 --target after").out);
  EXPECT_EQ(after["target_volume_ratio"], after["ready_for"]["bulk_p50_ratio"]);
  EXPECT_EQ(after["stages"][0]["step"], "mix");
  EXPECT_TRUE(after["stages"][0]["volume_ratio"]["p50"].is_null());
  EXPECT_EQ(after["stages"][1]["step"], "bulk");
  EXPECT_GT(after["stages"][1]["volume_ratio"]["p50"].get<double>(), 1.5);
}

}  // namespace
