// The manual and the completions against the help of each command, and in the shells they are for.
#include <gmock/gmock.h>

#include <filesystem>
#include <fstream>
#include <functional>
#include <sstream>

#include "end_to_end/help.h"
#include "end_to_end/said.h"

namespace {

using barm::test::barm;
using barm::test::Helped;
using barm::test::said_by;
using barm::test::with_every_command;
using testing::HasSubstr;

// From the first line that holds `begin` to the next that holds `end`.
std::string part(const std::string& text, const std::string& begin, const std::string& end) {
  const std::size_t at = text.find(begin);
  if (at == std::string::npos) return "";
  return text.substr(at, text.find(end, at + begin.size()) - at);
}

std::string with_hyphens_kept(const std::string& text) {
  std::string out;
  for (const char letter : text) out += letter == '-' ? "\\-" : std::string(1, letter);
  return out;
}

class File {
 public:
  explicit File(const std::string& form)
      : path_(std::filesystem::temp_directory_path() /
              ("barm-manual-" + std::to_string(getpid()) + "." + form)) {
    std::ofstream(path_, std::ios::binary) << barm("manual " + form).out;
  }

  ~File() { std::filesystem::remove(path_); }

  File(const File&) = delete;
  File& operator=(const File&) = delete;

  [[nodiscard]] std::string path() const { return path_.string(); }

 private:
  std::filesystem::path path_;
};

// What bash offers behind these words of a line, the last of which is not finished.
std::string bash_offers(const std::string& words) {
  static const File completion("bash");
  const std::string script = "compopt() { :; }; source " + completion.path() + "; COMP_WORDS=(" +
                             words +
                             "); COMP_CWORD=$((${#COMP_WORDS[@]} - 1)); _barm; "
                             "printf \"%s\\n\" \"${COMPREPLY[@]}\"";
  std::string quoted;
  for (const char letter : script)
    quoted += letter == '\'' ? std::string("'\\''") : std::string(1, letter);
  return said_by("cd '" BARM_ROOT "' && bash -euc '" + quoted + "'").out;
}

TEST(Manual, HasEveryCommandAndOption) {
  const std::string page = barm("manual man").out;
  int commands = 0;
  with_every_command([&](const std::string& words, const Helped& helped) {
    ++commands;
    const std::string section = words.empty()
                                    ? part(page, ".SH OPTIONS", ".SH COMMANDS")
                                    : part(page, ".SS barm " + with_hyphens_kept(words), ".S");
    EXPECT_FALSE(section.empty()) << words;
    for (const std::string& option : helped.options) {
      if (!words.empty() && (option == "-h" || option.starts_with("--help"))) continue;
      EXPECT_THAT(section, HasSubstr("\\fB" + with_hyphens_kept(option) + "\\fR")) << words;
    }
  });
  EXPECT_GT(commands, 30);
}

TEST(Manual, IsCleanGroff) {
  const File page("man");
  // At the true hour: the page bears the day of the commit, which the drawn one may be before.
  const auto said = said_by("env -u LD_PRELOAD mandoc -T lint -W warning " + page.path() + " 2>&1");
  EXPECT_EQ(said.status, 0) << said.out;
}

TEST(Completions, HaveEveryCommandAndOption) {
  const std::string bash = barm("manual bash").out;
  const std::string zsh = barm("manual zsh").out;
  const std::string fish = barm("manual fish").out;
  with_every_command([&](const std::string& words, const Helped& helped) {
    const std::string in_bash = part(bash, "    '" + words + "')\n", ";;");
    const std::string in_zsh = part(zsh, "    '" + words + "')\n", ";;");
    const std::string in_fish = "complete -c barm -n '__barm_at \\'" + words + "\\'' ";
    EXPECT_THAT(fish, HasSubstr(in_fish)) << words;
    for (const std::string& option : helped.options) {
      EXPECT_THAT(in_bash, testing::ContainsRegex("[' ]" + option + "[' ]")) << words;
      EXPECT_THAT(in_zsh, HasSubstr(option + "[")) << words;
      const bool is_long = option.starts_with("--");
      EXPECT_THAT(fish, testing::ContainsRegex(" -[ls] " + option.substr(is_long ? 2 : 1) + " "))
          << words;
    }
    for (const std::string& below : helped.commands) {
      EXPECT_THAT(in_bash, testing::ContainsRegex("[' ]" + below + "[' ]")) << words;
      EXPECT_THAT(in_zsh, HasSubstr("'" + below + ":")) << words;
      EXPECT_THAT(fish, HasSubstr(in_fish + "-a " + below + " ")) << words;
    }
  });
}

TEST(Completions, CanBeReadByTheirShells) {
  for (const std::string shell : {"bash", "zsh", "fish"}) {
    const File completion(shell);
    const auto said = said_by(shell + " -n " + completion.path() + " 2>&1");
    EXPECT_EQ(said.status, 0) << said.out;
    EXPECT_EQ(said.out, "") << shell;
  }
}

TEST(Completions, OfferInBashWhatFits) {
  EXPECT_EQ(bash_offers("barm fore"), "foresee\n");
  EXPECT_EQ(bash_offers("barm foresee --rea"), "--readings\n--reading\n");
  EXPECT_EQ(bash_offers("barm foresee examples/mead-loaf.toml --cale"), "--calendar\n");
  EXPECT_EQ(bash_offers("barm daybook ba"), "backup\n");
  EXPECT_EQ(bash_offers("barm daybook list --state dr"), "draft\n");
  EXPECT_EQ(bash_offers("barm manual z"), "zsh\n");
  EXPECT_EQ(bash_offers("barm bowl examples/mead-loaf.t"), "examples/mead-loaf.toml\n");
  EXPECT_EQ(bash_offers("barm foresee --readings = examples/mead-loaf-r"),
            "examples/mead-loaf-readings.csv\n");
  EXPECT_EQ(bash_offers("barm testbake show --out examples/day"), "examples/daybook\n");
  EXPECT_EQ(bash_offers("barm thin \"'dry me\""), "dry mead\n");
  EXPECT_EQ(bash_offers("barm reach --of 'dry\\ me'"), "dry mead\n");
  EXPECT_EQ(bash_offers("barm foresee --at ''"), "\n");
}

TEST(Completions, OfferInFishWhatFits) {
  const File completion("fish");
  const auto offers = [&](const std::string& line) {
    return said_by("cd '" BARM_ROOT "' && fish -N -c 'source " + completion.path() +
                   "; complete -C \"" + line + "\"'")
        .out;
  };
  EXPECT_THAT(offers("barm fore"), testing::StartsWith("foresee\twhether"));
  EXPECT_THAT(offers("barm daybook ba"), testing::StartsWith("backup\tcopy"));
  EXPECT_THAT(offers("barm daybook list --state dr"), testing::StartsWith("draft"));
  EXPECT_THAT(offers("barm bowl examples/mead-loaf.t"),
              testing::StartsWith("examples/mead-loaf.toml"));
  EXPECT_THAT(offers("barm reach --of neutral"), testing::StartsWith("neutral spirit"));
}

TEST(Program, SaysItsVersionCommitAndData) {
  const auto said = barm("--version");
  EXPECT_EQ(said.status, 0);
  EXPECT_THAT(said.out,
              testing::MatchesRegex("barm [0-9]+\\.[0-9]+\\.[0-9]+\n"
                                    "commit (unknown of unknown|[0-9a-f]+\\+? of "
                                    "[0-9]+-[0-9]+-[0-9]+)\n"
                                    "data [0-9a-f]+\n"));
}

}  // namespace
