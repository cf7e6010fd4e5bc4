// Reading a dough and remembering a culture, as a user meets them in the terminal.
#include <gmock/gmock.h>

#include <cstdio>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>

#include "end_to_end/said.h"
#include "support/folder.h"

namespace {

using barm::test::barm;
using barm::test::Said;
using barm::test::widest_line;
using testing::HasSubstr;

std::string path_of(const std::string& name) {
  static const barm::test::Folder folder;
  return folder / name;
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

// A dough read goes on through its stages, the oven and the rack among them, as one foreseen does.
TEST(ReadingADough, ShowsItsStagesUpToTheBread) {
  for (const char* how : {"", " --reading '22:00 1.2x'"}) {
    const Said said = barm(std::string("foresee examples/perry-loaf.toml") + how);
    ASSERT_EQ(said.status, 0) << said.out;
    EXPECT_LE(widest_line(said.out), 80) << how;
    for (const char* part : {"THE STAGES", "cold", "oven", "cooling", "cool enough to cut"})
      EXPECT_THAT(said.out, HasSubstr(part)) << how;
  }
}

TEST(ReadingADough, NarrowsTheTimeToReadyInJson) {
  const auto answer = nlohmann::json::parse(barm("foresee " + mead + " --json").out);
  EXPECT_EQ(answer["schema"], "barm.read/2");
  const auto width = [&](const char* when) {
    return answer[when]["ready"]["p90_h"].get<double>() -
           answer[when]["ready"]["p10_h"].get<double>();
  };
  // Six looks at a rise leave the doubt of the law itself (docs/model/estimation.md 5).
  EXPECT_LT(width("after"), 0.65 * width("before"));
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
}

std::string of_logger(int rows) {
  std::string text = "hours,height [mm],sample [C]\n";
  for (int i = 0; i < rows; ++i) {
    const double h = 7.0 * i / rows;
    const int tenths =
        400 + static_cast<int>(6 * h * h) + (i * 7) % 11 - 5;  // a millimetre of noise
    text += std::to_string(h) + "," + std::to_string(tenths / 10) + "." +
            std::to_string(tenths % 10) + ",24\n";
  }
  return text;
}

// The words of a sheet as if it had no end of line.
std::string on_one_line(const std::string& sheet) {
  std::istringstream words(sheet);
  std::string line;
  for (std::string word; words >> word;) line += (line.empty() ? "" : " ") + word;
  return line;
}

// What goes wrong with readings at a bakery: each is named in words that say what would mend it, on
// a sheet of 80 columns, and none makes the program surer than it may be.
TEST(Faults, AreNamedWithWhatWouldMendThem) {
  struct Fault {
    const char* name;
    std::string table;
    const char* said;
  };

  const Fault faults[] = {
      {"constant",
       "time,height [mm]\n07:05,40\n09:00,40\n11:30,40\n14:30,40\n",
       "the sample has not moved in 7 h"},
      {"one", "time,height [mm]\n13:00,52\n", "one height tells little"},
      {"falling",
       "time,height [mm]\n07:05,40\n09:00,38\n11:00,36\n13:00,33\n",
       "some of these readings must be wrong"},
      {"two_loggers",
       "time,height [mm]\n07:05,40\n09:00,41\n09:00,49\n11:00,43\n11:00,60\n13:00,49\n13:00,74\n",
       "some of these readings must be wrong"},
      {"mark_misread",
       "time,height [mm]\n07:05,50\n09:00,41\n11:00,43\n12:30,47\n13:30,52\n14:00,55.5\n",
       "about 10 mm too high"},
      {"decimal_comma",
       "time;height [mm]\n07:05;40,0\n09:00;40,5\n11:00;43,5\n13:00;49,5\n",
       "4 of them, the last at 13:00"},
      {"logger", of_logger(4000), "4000 rows of the logger summed up in 40 stretches"},
  };
  for (const Fault& fault : faults) {
    const std::string path = path_of(std::string(fault.name) + ".csv");
    std::ofstream(path) << fault.table;
    const std::string asked = "foresee examples/mead-loaf.toml --readings " + path;
    const Said said = barm(asked);
    EXPECT_EQ(said.status, 0) << fault.name;
    EXPECT_LE(widest_line(said.out), 80) << fault.name;
    EXPECT_THAT(on_one_line(said.out), HasSubstr(fault.said)) << fault.name;
  }
}

/// The width of four of five hours to ready of the mead loaf, before the readings of a table and
/// after them.
struct Widths {
  double before = 0, after = 0;
};

Widths widths_with(const char* table) {
  const std::string path = path_of("wide.csv");
  std::ofstream(path) << table;
  const auto answer =
      nlohmann::json::parse(barm("foresee examples/mead-loaf.toml --json --readings " + path).out);
  const auto width = [&](const char* when) {
    return answer[when]["ready"]["p90_h"].get<double>() -
           answer[when]["ready"]["p10_h"].get<double>();
  };
  return {width("before"), width("after")};
}

TEST(Faults, DoNotMakeTheRangeNarrower) {
  for (const char* table : {"hours,height [mm]\n0,40\n2,38\n4,36\n6,33\n",
                            "hours,height [mm]\n0,40\n2,41\n2,49\n4,43\n4,60\n6,49\n6,74\n"}) {
    const Widths widths = widths_with(table);
    EXPECT_GT(widths.after, 0.85 * widths.before) << table;
  }
}

// One height says where the dough stands only as well as its start can be guessed.
TEST(AHeight, TellsLessWithoutItsStart) {
  const Widths alone = widths_with("hours,height [mm]\n6,52\n");
  const Widths with_start = widths_with("hours,height [mm]\n0,40\n6,52\n");
  EXPECT_LT(alone.after, alone.before);
  EXPECT_LT(with_start.after, 0.9 * alone.after);
}

TEST(Faults, ThatCannotBeReadAreRefusedWithTheirPlace) {
  const std::pair<const char*, const char*> refused[] = {
      {"hours,height [mm]\n0,40\n4,44\n3,43\n", ":4:1  hours: time runs backwards"},
      {"time,height [mm]\n07:05,40,0\n09:00,40,5\n", "a decimal comma needs another separator"},
  };
  for (const auto& [table, words] : refused) {
    const std::string path = path_of("refused.csv");
    std::ofstream(path) << table;
    const Said said = barm("foresee examples/mead-loaf.toml --readings " + path, true);
    EXPECT_EQ(said.status, 2);
    EXPECT_THAT(said.out, HasSubstr(words));
  }
}

// The night on which the clock is put back: an hour comes twice, and only the place says so.
TEST(Faults, AClockThatIsPutBackIsReadByItsPlace) {
  const std::string bake = path_of("night.toml");
  std::ostringstream text;
  text << std::ifstream(BARM_ROOT "/examples/mead-loaf.toml").rdbuf();
  std::string toml = text.str();
  const std::string day = "2026-11-28T07:00:00";
  toml.replace(toml.find(day), day.size(), "2026-10-25T00:00:00");
  std::ofstream(bake) << toml;
  const std::string path = path_of("night.csv");
  std::ofstream(path) << "time,height [mm]\n2026-10-25T00:10,40\n2026-10-25T02:30,41\n"
                         "2026-10-25T02:15,43\n2026-10-25T06:00,62\n";
  const std::string asked = "foresee " + bake + " --readings " + path;
  const Said without = barm(asked + " --zone Africa/Lagos", true);  // whose clocks do not change
  EXPECT_EQ(without.status, 2);
  EXPECT_THAT(without.out, HasSubstr("--zone Europe/Berlin"));
  const auto with = nlohmann::json::parse(barm(asked + " --zone Europe/Berlin --json").out);
  // 02:15 of the second time is three and a quarter hours after midnight.
  EXPECT_NEAR(with["readings"][2]["at_h"].get<double>(), 3.25, 1e-6);
  EXPECT_NEAR(with["readings"][3]["at_h"].get<double>(), 7, 1e-6);
}

TEST(ACulture, OfADaybookHasLearnedFromItsBakes) {
  const std::string daybook = path_of("demo.barm");
  ASSERT_EQ(barm("daybook demo " + daybook).status, 0);
  const std::string of = " sluice --daybook " + daybook;
  const Said shown = barm("culture show" + of);
  EXPECT_EQ(shown.status, 0);
  EXPECT_LE(widest_line(shown.out), 80);
  EXPECT_THAT(shown.out, HasSubstr("2 batches remembered"));
  const auto names = [&](const std::string& asked) {
    return nlohmann::json::parse(barm(asked + " --json").out);
  };
  const auto all = names("culture show" + of);
  EXPECT_EQ(all["schema"], "barm.culture_memory/1");
  EXPECT_EQ(barm("culture leave-out" + of + " plain-done").status, 0);
  const auto one = names("culture show" + of);
  EXPECT_NE(one["differences"], all["differences"]);
  EXPECT_EQ(barm("culture leave-out" + of + " plain-done --undo").status, 0);
  EXPECT_EQ(names("culture relearn" + of)["differences"], all["differences"]);
  EXPECT_EQ(barm("culture show nobody --daybook " + daybook, true).status, 3);
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
    const auto from_typical = nlohmann::json::parse(barm(test + "--json").out);
    auto begun_from = nlohmann::json::parse(barm(test + "--json --culture " + path).out);
    EXPECT_EQ(begun_from["culture"], "Marsh levain");
    begun_from["culture"] = from_typical["culture"];
    EXPECT_NE(begun_from, from_typical) << question;
    EXPECT_THAT(barm(test + "--culture " + path).out, HasSubstr("starting from what Marsh levain"));
  }
  EXPECT_EQ(barm("culture relearn " + path).status, 0);
  const Said shown = barm("culture show " + path + " --json");
  const auto answer = nlohmann::json::parse(shown.out);
  EXPECT_EQ(answer["schema"], "barm.culture/2");
  const auto batch = answer["batches"][0]["name"].get<std::string>();
  EXPECT_EQ(barm("culture leave-out " + path + " 'no such batch'", true).status, 3);
  EXPECT_EQ(barm("culture leave-out " + path + " '" + batch + "'").status, 0);
  EXPECT_THAT(barm("culture show " + path).out, HasSubstr("0 batches remembered"));
}

}  // namespace
