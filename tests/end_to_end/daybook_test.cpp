// `barm daybook` as a user meets it.
#include <gmock/gmock.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <string>

#include "end_to_end/said.h"
#include "support/folder.h"

namespace {

using barm::test::Said;
using barm::test::widest_line;
using testing::HasSubstr;
using testing::Not;

class DaybookProgram : public testing::Test {
 protected:
  void SetUp() override { ASSERT_EQ(barm("demo demo.barm").status, 0); }

  // Runs barm daybook in the folder, with the demonstration as its daybook.
  [[nodiscard]] Said barm(const std::string& arguments) const {
    return barm::test::said_by("cd '" + folder_.path() +
                               "' && NO_COLOR=1 BARM_DAYBOOK=demo.barm '" BARM_BINARY "' daybook " +
                               arguments + " 2>&1");
  }

  barm::test::Folder folder_;
};

TEST_F(DaybookProgram, ShowsTheDemonstrationOn80Columns) {
  for (const char* command : {"today",
                              "equipment",
                              "list",
                              "list mead",
                              "show mead-live",
                              "show perry-done",
                              "trash",
                              "check"}) {
    const Said said = barm(command);
    EXPECT_EQ(said.status, 0) << command << said.out;
    EXPECT_LE(widest_line(said.out), 80) << command << "\n" << said.out;
    EXPECT_THAT(said.out, Not(HasSubstr("nan"))) << command;
    const auto json = nlohmann::json::parse(barm(std::string(command) + " --json").out);
    EXPECT_THAT(json["schema"].get<std::string>(), testing::StartsWith("barm.")) << command;
  }
  EXPECT_THAT(barm("today").out, HasSubstr("LATE"));
}

TEST_F(DaybookProgram, KeepsNotesAndTakesDeletionsBack) {
  EXPECT_EQ(barm("add '" BARM_ROOT "/examples/plain-loaf.toml' --state live --tag test").status, 0);
  EXPECT_EQ(barm("read mead-live --height 61 --sample 24C --id mine").status, 0);
  EXPECT_EQ(barm("delete reading mine").status, 0);
  EXPECT_THAT(barm("trash").out, HasSubstr("mine"));
  EXPECT_EQ(barm("undo reading mine").status, 0);
  EXPECT_THAT(barm("show mead-live").out, HasSubstr("61.0"));
}

TEST_F(DaybookProgram, LearnsAnOvenKeepsItAndUsesItInEveryBake) {
  const auto oven = [&](const std::string& arguments) {
    return barm::test::said_by("cd '" + folder_.path() + "' && NO_COLOR=1 '" BARM_BINARY "' " +
                               arguments + " 2>&1");
  };
  std::ofstream(folder_ / "core.csv")
      << "minutes,celsius\n0,25\n10,32\n20,62\n30,88\n35,94\n40,97\n";
  const std::string bake = "'" BARM_ROOT "/examples/perry-loaf.toml'";
  const std::string home = " --daybook house.barm --named 'Stone oven'";
  const Said learned = oven("oven " + bake +
                            " --bake 40min --set 230C --probe core.csv --weighed '14 %' "
                            "--cavity 80L --holds 2" +
                            home + " --keep");
  EXPECT_EQ(learned.status, 0) << learned.out;
  EXPECT_THAT(learned.out, HasSubstr("In the daybook: Stone oven, learned "));
  EXPECT_LE(widest_line(learned.out), 80) << learned.out;
  const Said kept = barm("equipment --daybook house.barm");
  EXPECT_THAT(kept.out, HasSubstr("from 1 bake"));
  EXPECT_THAT(kept.out, HasSubstr("holds = 2; cavity = \"80 L\""));
  EXPECT_THAT(oven("foresee " + bake + " --draws 40 --daybook house.barm").out,
              HasSubstr("Stone oven"));
  EXPECT_THAT(oven("oven " + bake + home).out, HasSubstr("from 1 bake"));
  EXPECT_THAT(oven("oven " + bake + " --daybook house.barm --named 'Deck'").out,
              testing::StartsWith("--named  no oven is called 'Deck': there is Stone oven"));
  EXPECT_THAT(oven("oven " + bake + " --keep").out, HasSubstr("goes with --daybook FILE"));
  EXPECT_THAT(oven("mix " + bake + " --keep --daybook house.barm").out,
              testing::StartsWith("--named  is needed to keep it, such as 'deck mixer'"));
  EXPECT_THAT(oven("oven " + bake + " --weighed '60 %'").out, testing::StartsWith("--weighed  "));
  const auto list = nlohmann::json::parse(barm("equipment --json --daybook house.barm").out);
  const std::string id = list["equipment"][0]["id"];
  EXPECT_EQ(barm("delete equipment " + id + " --daybook house.barm").status, 0);
  EXPECT_THAT(oven("oven " + bake + " --daybook house.barm").out, Not(HasSubstr("Stone oven")));
  EXPECT_EQ(barm("undo equipment " + id + " --daybook house.barm").status, 0);
  EXPECT_THAT(oven("oven " + bake + " --daybook house.barm").out, HasSubstr("Stone oven"));
}

TEST_F(DaybookProgram, CopiesRestoresExportsAndImports) {
  EXPECT_EQ(barm("backup copy.barm").status, 0);
  EXPECT_EQ(barm("delete bake mead-live").status, 0);
  EXPECT_EQ(barm("restore copy.barm").status, 0);
  EXPECT_EQ(barm("show mead-live").status, 0);
  EXPECT_EQ(barm("export all.zip").status, 0);
  EXPECT_EQ(barm("import all.zip --daybook again.barm").status, 0);
  EXPECT_EQ(barm("list --json").out, barm("list --json --daybook again.barm").out);
}

// The system ends a program that writes beyond its limit, unless it asked to be told instead.
TEST_F(DaybookProgram, TakesALimitOnTheSizeOfFilesForAFullDisk) {
  std::ifstream example(BARM_ROOT "/examples/plain-loaf.toml");
  std::ofstream(folder_ / "long.toml") << example.rdbuf() << "# " << std::string(400000, 'x');
  const Said refused =
      barm::test::said_by("ulimit -f 500; cd '" + folder_.path() +
                          "' && '" BARM_BINARY "' daybook add long.toml --daybook demo.barm 2>&1");
  EXPECT_EQ(refused.status, 7) << refused.out;
  EXPECT_THAT(refused.out, HasSubstr("no room left on the disk; nothing of this was saved"));
  EXPECT_EQ(barm("check").status, 0);
  EXPECT_EQ(barm("add long.toml").status, 0);
}

TEST_F(DaybookProgram, SaysOneClearErrorAndTheExitStatusOfItsKind) {
  EXPECT_EQ(barm("list --daybook none.barm").status, 3);
  EXPECT_EQ(barm("show nothing").status, 3);
  EXPECT_EQ(barm("undo reading mead-live-1").status, 3);
  EXPECT_EQ(barm("read mead-live").status, 2);
  EXPECT_EQ(barm("read mead-live --height -4").status, 2);
  EXPECT_EQ(barm("read mead-live --height nan").status, 2);
  EXPECT_EQ(barm("read mead-live --height 60 --at yesterday").status, 2);
  EXPECT_EQ(barm("delete table bake").status, 2);
  EXPECT_EQ(barm("export demo.barm").status, 2);
  EXPECT_EQ(barm("import demo.barm --daybook x.barm").status, 2);
  EXPECT_EQ(barm("list --state eaten").status, 64);
  EXPECT_EQ(barm("").status, 64);
  std::filesystem::resize_file(folder_ / "demo.barm", 50000);
  const Said cut = barm("list");
  EXPECT_EQ(cut.status, 2);
  EXPECT_THAT(cut.out, HasSubstr("barm daybook restore"));
}

}  // namespace
