// The program as a user meets it: the built binary, its output, its exit status.
#include <gmock/gmock.h>
#include <sys/wait.h>

#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <string>

namespace {

using testing::HasSubstr;
using testing::Not;

struct Said {
  std::string out;
  int status = 0;
};

// Runs barm in the project's folder; standard error is kept with the output when `errors` is set.
Said barm(const std::string& arguments, bool errors = false) {
  const std::string command = "cd '" BARM_ROOT "' && NO_COLOR=1 '" BARM_BINARY "' " + arguments +
                              (errors ? " 2>&1 >/dev/null" : " 2>/dev/null");
  Said said;
  std::FILE* pipe = popen(command.c_str(), "r");
  std::array<char, 4096> buffer{};
  while (const std::size_t n = std::fread(buffer.data(), 1, buffer.size(), pipe))
    said.out.append(buffer.data(), n);
  const int status = pclose(pipe);
  said.status = WIFEXITED(status) ? WEXITSTATUS(status) : 128;
  return said;
}

std::string temporary(const std::string& name, const std::string& text) {
  const auto path =
      std::filesystem::temp_directory_path() / ("barm-" + std::to_string(getpid()) + "-" + name);
  std::ofstream(path, std::ios::binary) << text;
  return path.string();
}

int widest_line(const std::string& text) {
  int widest = 0;
  int width = 0;
  for (const char c : text) {
    if (c == '\n') {
      width = 0;
    } else if ((static_cast<unsigned char>(c) & 0xC0U) != 0x80U) {
      widest = std::max(widest, ++width);
    }
  }
  return widest;
}

const std::vector<std::string>& demo_commands() {
  static const std::vector<std::string> commands{
      "bowl examples/mead-loaf.toml",
      "foresee examples/mead-loaf.toml --draws 60",
      "levain --need 300g --peak-in 8h --at 26C --draws 40",
      "reach examples/mead-loaf.toml --of 'dry mead' --within 14h --chance 0.8 --draws 40",
      "rescue examples/mead-loaf.toml --now 14h --by 02:00 --risen 1.3 --draws 60",
      "match examples/perry-loaf.toml --like examples/mead-loaf.toml",
      "thin 'neutral spirit' --to '10 % vol' --need 1kg",
      "solve examples/mead-loaf.toml --aim 'real water=70 %' --aim 'alcohol=60 g' --free 'dry "
      "mead' --free water",
      "swap examples/plain-loaf.toml --drink 'dry mead' --share '50 %'",
      "water --dough 24C --flour 24C --room 27C --levain 26C --friction 6 --water 2kg --tap 18C",
      "till examples/mead-loaf.toml --prices examples/marsh-prices.toml --buyers "
      "examples/buyers.csv",
      "till examples/mead-loaf.toml --prices examples/marsh-prices.toml --open",
      "larder mead",
      "source ethanol_half",
  };
  return commands;
}

TEST(Program, AnswersTheMainJobOn80Columns) {
  for (const std::string& command : demo_commands()) {
    const Said said = barm(command);
    EXPECT_EQ(said.status, 0) << command;
    EXPECT_FALSE(said.out.empty()) << command;
    EXPECT_LE(widest_line(said.out), 80) << command << "\n" << said.out;
    EXPECT_THAT(said.out, Not(HasSubstr("nan"))) << command;
    EXPECT_THAT(said.out, Not(HasSubstr("inf "))) << command;
    EXPECT_THAT(said.out, Not(HasSubstr("\x1b["))) << command;
  }
}

TEST(Program, GivesEachAnswerAsJson) {
  for (const std::string& command : demo_commands()) {
    const Said said = barm(command + " --json");
    ASSERT_EQ(said.status, 0) << command;
    const auto json = nlohmann::json::parse(said.out, nullptr, false);
    ASSERT_FALSE(json.is_discarded()) << command;
    EXPECT_THAT(json.at("schema").get<std::string>(), testing::MatchesRegex("barm\\.[a-z]+/1"));
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

}  // namespace
