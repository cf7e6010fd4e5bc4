// Reading a dough and remembering a culture, as a user meets them in the terminal.
#include <gmock/gmock.h>
#include <unistd.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <string>

#include "end_to_end/said.h"

namespace {

using barm::test::barm;
using barm::test::Said;
using barm::test::widest_line;
using testing::HasSubstr;

std::string path_of(const std::string& name) {
  return (std::filesystem::temp_directory_path() /
          ("barm-reading-" + std::to_string(getpid()) + "-" + name))
      .string();
}

const std::string mead = "examples/mead-loaf.toml --readings examples/mead-loaf-readings.csv";

TEST(ReadingADough, FitsTheSheetAndShowsBeforeAndAfter) {
  for (const std::string& asked :
       {"foresee " + mead,
        std::string("foresee examples/stout-loaf.toml --readings examples/stout-loaf-readings.csv"),
        std::string(
            "foresee examples/mead-loaf.toml --reading '11:00 1.1x' --reading '13:00 1.3x'")}) {
    const Said said = barm(asked);
    EXPECT_EQ(said.status, 0) << asked;
    EXPECT_LE(widest_line(said.out), 80) << asked;
    EXPECT_THAT(said.out, HasSubstr("before the readings")) << asked;
    EXPECT_THAT(said.out, HasSubstr("THE READINGS TELL")) << asked;
    EXPECT_THAT(said.out, HasSubstr("◆")) << asked;
  }
}

TEST(ReadingADough, NarrowsTheTimeToReadyInJson) {
  const auto answer = nlohmann::json::parse(barm("foresee " + mead + " --json").out);
  EXPECT_EQ(answer["schema"], "barm.read/1");
  const auto width = [&](const char* when) {
    return answer[when]["ready"]["p90_h"].get<double>() -
           answer[when]["ready"]["p10_h"].get<double>();
  };
  EXPECT_LT(width("after"), 0.5 * width("before"));
  EXPECT_EQ(answer["readings"].size(), 7);
}

TEST(ReadingADough, NamesABadRowAndLearnsNothing) {
  const std::string path = path_of("bad.csv");
  std::ofstream(path) << "hours,height [mm]\n0,40\n2,forty\n3,45\n";
  const Said refused = barm("foresee examples/mead-loaf.toml --readings " + path, true);
  EXPECT_EQ(refused.status, 2);
  EXPECT_THAT(refused.out, HasSubstr(path + ":3:3"));
  EXPECT_THAT(refused.out, HasSubstr("'forty' is no number"));
  const Said kept = barm("foresee examples/mead-loaf.toml --keep-good-rows --readings " + path);
  EXPECT_EQ(kept.status, 0);
  EXPECT_THAT(kept.out, HasSubstr("left out"));
  std::filesystem::remove(path);
}

TEST(ACulture, IsLearnedShownForgottenAndStartedFrom) {
  const std::string path = path_of("culture.toml");
  const Said learned = barm("culture learn " + path + " " + mead + " --name 'Marsh levain'");
  EXPECT_EQ(learned.status, 0);
  EXPECT_LE(widest_line(learned.out), 80);
  EXPECT_THAT(learned.out, HasSubstr("1 batch remembered"));
  EXPECT_THAT(learned.out, HasSubstr("after 12 h past its peak it starts about"));
  const Said begun = barm("foresee examples/mead-loaf.toml --culture " + path);
  EXPECT_EQ(begun.status, 0);
  EXPECT_THAT(begun.out, HasSubstr("Marsh levain"));
  const std::string asked = "rescue examples/mead-loaf.toml --now 1h --by 9h --json";
  const auto usual = nlohmann::json::parse(barm(asked).out);
  const auto of_culture = nlohmann::json::parse(barm(asked + " --culture " + path).out);
  EXPECT_EQ(of_culture["culture"], "Marsh levain");
  EXPECT_NE(of_culture["rise_now"], usual["rise_now"]);
  for (const std::string question : {"map", "before"}) {
    const std::string test = "testbake " + question + " examples/test-bakes/mead.toml --draws 40 ";
    const auto by_the_book = nlohmann::json::parse(barm(test + "--json").out);
    auto begun_from = nlohmann::json::parse(barm(test + "--json --culture " + path).out);
    EXPECT_EQ(begun_from["culture"], "Marsh levain");
    begun_from["culture"] = by_the_book["culture"];
    EXPECT_NE(begun_from, by_the_book) << question;
    EXPECT_THAT(barm(test + "--culture " + path).out, HasSubstr("begun from what Marsh levain"));
  }
  EXPECT_EQ(barm("culture relearn " + path).status, 0);
  const Said shown = barm("culture show " + path + " --json");
  const auto answer = nlohmann::json::parse(shown.out);
  EXPECT_EQ(answer["schema"], "barm.culture/1");
  const auto batch = answer["batches"][0]["name"].get<std::string>();
  EXPECT_EQ(barm("culture leave-out " + path + " 'no such batch'", true).status, 3);
  EXPECT_EQ(barm("culture leave-out " + path + " '" + batch + "'").status, 0);
  EXPECT_THAT(barm("culture show " + path).out, HasSubstr("0 batches remembered"));
  std::filesystem::remove(path);
}

}  // namespace
