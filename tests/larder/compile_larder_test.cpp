// The build-time tool must stop, with file, line and key, at data that nobody could trust.
#include <gmock/gmock.h>

#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <memory>
#include <string>

namespace {

using testing::AllOf;
using testing::HasSubstr;

struct Outcome {
  int status = 0;
  std::string said;
};

/// Runs the tool over one file with this text beside the real sources and tables.
class CompileLarder : public testing::Test {
 protected:
  void SetUp() override {
    folder_ =
        std::filesystem::path(testing::TempDir()) /
        ("larder_" + std::string(testing::UnitTest::GetInstance()->current_test_info()->name()));
    std::filesystem::create_directories(folder_);
  }

  void TearDown() override { std::filesystem::remove_all(folder_); }

  Outcome compile(const std::string& text, const std::string& other_file = "") {
    const std::string file = (folder_ / "bad.toml").string();
    std::ofstream(file) << text;
    const std::string data = std::string(BARM_ROOT) + "/data/";
    const std::string command = std::string(BARM_COMPILE_LARDER) + " " +
                                (folder_ / "out.h").string() + " " + data + "sources.toml " + data +
                                "larder.toml " + data + "tables/ingredients_usda.csv " + data +
                                "tables/ingredients_ciqual.csv " + data + "tables/allergens.csv " +
                                data + "larder/unknown.toml " + file + " " + other_file + " 2>&1";
    Outcome outcome;
    FILE* pipe = popen(command.c_str(), "r");
    std::array<char, 512> buffer{};
    while (fgets(buffer.data(), buffer.size(), pipe) != nullptr) outcome.said += buffer.data();
    outcome.status = pclose(pipe);
    return outcome;
  }

  void refuses(const std::string& text, const std::string& line, const std::string& words) {
    const Outcome outcome = compile(text);
    EXPECT_NE(outcome.status, 0);
    EXPECT_THAT(outcome.said, AllOf(HasSubstr("bad.toml:" + line), HasSubstr(words)));
  }

  std::filesystem::path folder_;
};

const std::string sound = "[chalk]\nname = \"chalk\"\ngroup = \"egg\"\n";

TEST_F(CompileLarder, TakesASoundFile) {
  const Outcome outcome = compile(
      sound +
      "ash = { value = 99, low = 98, high = 100, unit = \"g/100g\", source = \"guess\" }\n");
  EXPECT_EQ(outcome.status, 0) << outcome.said;
  EXPECT_TRUE(std::filesystem::exists(folder_ / "out.h"));
}

TEST_F(CompileLarder, RefusesADivisionFromMemoryOfSugarsThatTheTableDivides) {
  refuses(
      "[sour]\nname = \"sour\"\ngroup = \"egg\"\nfrom = \"usda:rye_medium\"\n"
      "sugars = { sucrose = 0.6, maltose = 0.4, source = \"remembered\" }\n",
      "5",
      "usda:rye_medium divides its sugars itself");
}

TEST_F(CompileLarder, RefusesAnUnknownSource) {
  refuses(
      sound + "ash = { value = 99, unit = \"g/100g\", source = \"hearsay\" }\n", "4", "chalk.ash");
}

TEST_F(CompileLarder, RefusesAValueWithoutSource) {
  refuses(sound + "ash = { value = 99, unit = \"g/100g\" }\n", "4", "'chalk.ash' has no source");
}

TEST_F(CompileLarder, RefusesAUnitThatDoesNotFitTheProperty) {
  refuses(sound + "ph = { value = 9, unit = \"g/L\", source = \"guess\" }\n",
          "4",
          "'chalk.ph' cannot be in 'g/L'");
}

TEST_F(CompileLarder, RefusesAPropertyThatDoesNotExist) {
  refuses(sound + "colour = { value = 9, unit = \"one\", source = \"guess\" }\n",
          "4",
          "no property 'colour'");
}

TEST_F(CompileLarder, RefusesARangeOutOfOrder) {
  refuses(
      sound +
          "ash = { value = 99, low = 99.5, high = 100, unit = \"g/100g\", source = \"guess\" }\n",
      "4",
      "low <= value <= high");
}

TEST_F(CompileLarder, RefusesARowThatNoTableHas) {
  refuses("[chalk]\nname = \"chalk\"\ngroup = \"egg\"\nfrom = \"usda:chalk\"\n", "1", "usda:chalk");
}

TEST_F(CompileLarder, RefusesAnUnknownGroup) {
  refuses("[chalk]\nname = \"chalk\"\ngroup = \"rock\"\n", "1", "'rock'");
}

TEST_F(CompileLarder, RefusesADuplicateKeyInOneFileOrInTwo) {
  EXPECT_THAT(compile(sound + sound).said,
              AllOf(HasSubstr("bad.toml"), HasSubstr("line 4"), HasSubstr("chalk")));
  const std::string other = (folder_ / "other.toml").string();
  std::ofstream(other) << sound;
  EXPECT_THAT(compile(sound, other).said,
              AllOf(HasSubstr("other.toml:1"), HasSubstr("'chalk' is in the larder twice")));
}

TEST_F(CompileLarder, RefusesTwoIngredientsOfOneName) {
  refuses(sound + "[lime]\nname = \"Chalk\"\ngroup = \"egg\"\n", "4", "both called 'Chalk'");
}

TEST_F(CompileLarder, RefusesSugarsThatNobodyDivides) {
  refuses(
      "[chalk]\nname = \"chalk\"\ngroup = \"sugar\"\nfrom = \"usda:malt_syrup\"\n", "1", "sugars");
}

TEST_F(CompileLarder, RefusesADrinkThatLeavesSomethingUnsaid) {
  refuses("[chalk]\nname = \"chalk\"\ngroup = \"drink\"\n", "1", "says nothing of");
}

TEST_F(CompileLarder, RefusesAnUnknownWithNothingToAssume) {
  refuses(sound + "sorbate = \"unknown\"\n", "1", "what to assume");
}

}  // namespace
