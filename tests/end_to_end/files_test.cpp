// Files the program writes and reads beside its answer, and what it does where output or names are
// out of the common.
#include <gmock/gmock.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <regex>
#include <sstream>
#include <string>

#include "end_to_end/said.h"
#include "support/folder.h"

namespace {

namespace fs = std::filesystem;
using barm::test::Said;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

std::string text_of(const std::string& path) {
  std::ostringstream text;
  text << std::ifstream(path, std::ios::binary).rdbuf();
  return text.str();
}

class Files : public testing::Test {
 protected:
  void SetUp() override {
    for (const char* name : {"mead-loaf.toml", "plain-loaf.toml", "marsh-prices.toml"})
      fs::copy(std::string(BARM_ROOT "/examples/") + name, folder_ / name);
  }

  // In the folder; with what was said as an error.
  [[nodiscard]] Said barm(const std::string& arguments) const {
    return barm::test::said_by("cd '" + folder_.path() + "' && NO_COLOR=1 '" BARM_BINARY "' " +
                               arguments + " 2>&1");
  }

  [[nodiscard]] std::string file(const std::string& name) const { return folder_ / name; }

  void write(const std::string& name, const std::string& text) const {
    std::ofstream(file(name), std::ios::binary) << text;
  }

  // What is in the folder beside what was there before.
  [[nodiscard]] std::size_t count() const {
    return static_cast<std::size_t>(
        std::distance(fs::directory_iterator(folder_.path()), fs::directory_iterator()));
  }

  const barm::test::Folder folder_;
};

TEST_F(Files, AreWrittenUnderNewNamesOrWithReplaceAndNeverOverWhatIsRead) {
  const std::vector<std::string> commands{
      "foresee mead-loaf.toml --draws 20 --calendar ",
      "till mead-loaf.toml --prices marsh-prices.toml --csv ",
      "till mead-loaf.toml --prices marsh-prices.toml --print ",
      "label mead-loaf.toml --draws 20 --print ",
      "swap mead-loaf.toml --drink 'dry mead' --share '40 %' --write ",
  };
  const std::string bake = text_of(file("mead-loaf.toml"));
  for (const std::string& command : commands) {
    write("mine.txt", "mine");
    const std::size_t before = count();
    Said said = barm(command + "mine.txt");
    EXPECT_EQ(said.status, 2) << command << said.out;
    EXPECT_THAT(said.out, HasSubstr("is there already: name a new file, or say --replace"));
    EXPECT_EQ(text_of(file("mine.txt")), "mine") << command;
    for (const char* input : {"mead-loaf.toml --replace", "./mead-loaf.toml --replace"}) {
      said = barm(command + input);
      EXPECT_EQ(said.status, 2) << command << input;
      EXPECT_THAT(said.out, HasSubstr("is read or written by this command too"));
    }
    EXPECT_EQ(text_of(file("mead-loaf.toml")), bake) << command;
    EXPECT_EQ(barm(command + "mine.txt --replace").status, 0) << command;
    EXPECT_NE(text_of(file("mine.txt")), "mine") << command;
    EXPECT_EQ(count(), before) << "nothing else is left beside it";
    fs::remove(file("mine.txt"));
    EXPECT_EQ(barm(command + "mine.txt").status, 0) << command;
    EXPECT_EQ(barm(command + "/dev/null --replace").status, 2) << command;
  }
  EXPECT_EQ(barm("till mead-loaf.toml --prices marsh-prices.toml --csv a --print a").status, 2);
  EXPECT_FALSE(fs::exists(file("a")));
}

TEST_F(Files, OfATestBakeAreAllNewOrNoneIsWritten) {
  const std::string command = "testbake show '" BARM_ROOT "/examples/test-bakes/mead.toml' --out ";
  ASSERT_EQ(barm(command + "shown").status, 0);
  const auto first = fs::directory_iterator(file("shown"))->path();
  const std::string page = text_of(first.string());
  std::ofstream(first) << "mine";
  EXPECT_EQ(barm(command + "shown").status, 2);
  EXPECT_EQ(text_of(first.string()), "mine");
  EXPECT_EQ(barm(command + "shown --replace").status, 0);
  EXPECT_EQ(text_of(first.string()), page);
}

TEST_F(Files, ThatAreNoneOrFarTooLargeAreRefused) {
  write("large.toml", std::string(3000000, '#'));
  fs::create_directory(file("folder"));
  std::ofstream(file("endless.csv")).close();
  fs::resize_file(file("endless.csv"), 3000000000);
  for (const char* command : {"bowl large.toml",
                              "bowl folder",
                              "bowl /dev/zero",
                              "foresee mead-loaf.toml --readings folder",
                              "foresee mead-loaf.toml --readings endless.csv",
                              "foresee mead-loaf.toml --readings /dev/zero",
                              "culture show folder",
                              "culture show endless.csv",
                              "till mead-loaf.toml --prices folder",
                              "till mead-loaf.toml --prices endless.csv",
                              "testbake plan folder",
                              "testbake plan endless.csv",
                              "daybook add folder",
                              "daybook add endless.csv"}) {
    const Said said = barm(command);
    EXPECT_GE(said.status, 2) << command << said.out;
    EXPECT_LE(said.status, 3) << command << said.out;
    EXPECT_EQ(std::count(said.out.begin(), said.out.end(), '\n'), 1) << command << said.out;
  }
}

TEST_F(Files, WithNamesThatAreNoTextAreSpokenOf) {
  for (const char* command : {"bowl $'m\\xe9li.toml'",
                              "bowl $'m\\xe9li.toml' --json",
                              "foresee mead-loaf.toml --readings $'m\\xe9li.csv' --json",
                              "daybook list --daybook $'m\\xe9li.barm' --json",
                              "daybook import $'m\\xe9li.zip' --json"}) {
    const Said said =
        barm::test::said_by("cd '" + folder_.path() + "' && bash -c \"" BARM_BINARY " " +
                            std::string(command) + "\" 2>&1");
    EXPECT_EQ(said.status, 3) << command << said.out;
    EXPECT_THAT(said.out, HasSubstr("m\xEF\xBF\xBDli")) << command;
  }
}

TEST_F(Files, NamesCannotCommandATerminal) {
  std::string bake = text_of(file("mead-loaf.toml"));
  const std::size_t name = bake.find("Mead loaf");
  bake.insert(name, "\\u001b]0;mine\\u0007\\u001b[2J");
  write("evil.toml", bake);
  for (const char* command : {"bowl evil.toml",
                              "foresee evil.toml --draws 20",
                              "daybook add evil.toml",
                              "daybook list",
                              "daybook today"}) {
    const Said said = barm(command);
    EXPECT_EQ(said.status, 0) << command << said.out;
    EXPECT_THAT(said.out, Not(HasSubstr("\x1b"))) << command;
    EXPECT_THAT(said.out, Not(HasSubstr("\x07"))) << command;
  }
  EXPECT_THAT(barm("bowl evil.toml").out, HasSubstr("␛[2J"));
  const Said usage = barm("bowl evil.toml \"$(printf 'two\\033[2J.toml')\"");
  EXPECT_EQ(usage.status, 64) << usage.out;
  EXPECT_THAT(usage.out, HasSubstr("two␛[2J.toml"));
}

TEST_F(Files, AnAnswerThatCannotBeWrittenIsNoSuccess) {
  const auto status = [&](const std::string& command) {
    // What tells it another hour would take the place of a closed descriptor.
    return barm::test::said_by("cd '" + folder_.path() +
                               "' && env -u LD_PRELOAD '" BARM_BINARY "' " + command)
        .status;
  };
  for (const char* command :
       {"bowl mead-loaf.toml", "bowl mead-loaf.toml --json", "larder", "manual", "--help"}) {
    EXPECT_EQ(status(std::string(command) + " 2>/dev/null >/dev/full"), 7) << command;
    EXPECT_EQ(status(std::string(command) + " 2>/dev/null >&-"), 7) << command;
  }
  EXPECT_EQ(status("bowl nowhere.toml 2>&-"), 3);
  EXPECT_EQ(status("bowl nowhere.toml 2>/dev/full"), 3);
  EXPECT_EQ(status("bowl mead-loaf.toml 2>&- >/dev/null"), 0);
  EXPECT_EQ(status("bowl nowhere.toml >&- 2>&- <&-"), 3);
}

TEST_F(Files, ADaybookIsNeverWrittenIntoByAComplaint) {
  ASSERT_EQ(barm("daybook demo demo.barm").status, 0);
  EXPECT_EQ(barm::test::said_by("cd '" + folder_.path() +
                                "' && '" BARM_BINARY
                                "' daybook show nothing --daybook demo.barm >&- 2>&- <&-")
                .status,
            3);
  EXPECT_THAT(barm("daybook check --daybook demo.barm").out, HasSubstr("is whole"));
}

TEST_F(Files, ALoggersNightIsFollowedInFewSteps) {
  std::ostringstream rows;
  rows << "hours,height [mm],sample [C],bulk [C]\n";
  for (int i = 0; i < 480; ++i) {
    const double h = i / 40.0;
    const int leap = i % 7 - 3;  // from row to row, in kelvin
    rows << h << ',';
    if (i % 40 == 0) rows << 40 * (1 + 0.01 * h * h);
    rows << ',' << 24 - 0.3 * h + leap << ',' << 24 - 0.2 * h + leap << '\n';
  }
  write("logger.csv", rows.str());
  const Said said = barm("foresee mead-loaf.toml --readings logger.csv --json");
  ASSERT_EQ(said.status, 0) << said.out;
  const auto notes = nlohmann::json::parse(said.out)["notes"];
  int followed = 0;  // of 480 temperatures each
  for (const std::string note : notes) {
    std::smatch steps;
    if (!std::regex_search(note, steps, std::regex("480 temperatures .* in ([0-9]+) steps")))
      continue;
    EXPECT_THAT(note, HasSubstr("a dough is never off by more than"));
    EXPECT_LT(std::stoi(steps[1]), 24) << note;  // no more than there are half hours
    ++followed;
  }
  EXPECT_EQ(followed, 2) << notes;
}

}  // namespace
