// What a header says of its sources and its checks must be there: keys in data/sources.toml, files
// in the tree.
#include <gmock/gmock.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <regex>
#include <string>
#include <vector>

#include "data/catalogue.h"

namespace barm::data {

namespace {

namespace fs = std::filesystem;

struct Mention {
  std::string file;
  std::string what;
};

// The words that follow `label` in a doc comment, up to the full stop.
std::vector<Mention> mentions(const std::string& label) {
  const std::regex sentence("///.*" + label + ": ([a-z0-9_/., ]*[a-z0-9_])\\.(\\s|$)");
  const std::regex word("[a-z0-9_/.]+");
  std::vector<Mention> found;
  for (const auto& entry : fs::recursive_directory_iterator(fs::path(BARM_ROOT) / "src")) {
    if (entry.path().extension() != ".h") continue;
    std::ifstream in(entry.path());
    for (std::string line; std::getline(in, line);) {
      std::smatch match;
      if (!std::regex_search(line, match, sentence)) continue;
      const std::string list = match[1];
      for (std::sregex_iterator w(list.begin(), list.end(), word), end; w != end; ++w) {
        found.push_back({entry.path().filename(), w->str()});
      }
    }
  }
  return found;
}

bool is_source(const std::string& key) {
  return std::any_of(
      sources().begin(), sources().end(), [&](const Source* source) { return source->key == key; });
}

TEST(References, EverySourceOfAHeaderIsInTheBibliography) {
  const auto found = mentions("Source");
  EXPECT_THAT(found, testing::Not(testing::IsEmpty()));
  for (const auto& [file, what] : found) {
    EXPECT_TRUE(is_source(what) || fs::exists(fs::path(BARM_ROOT) / what)) << file << ": " << what;
  }
}

TEST(References, EveryCheckOfAHeaderExists) {
  const auto found = mentions("Checked against");
  EXPECT_THAT(found, testing::Not(testing::IsEmpty()));
  for (const auto& [file, what] : found) {
    EXPECT_TRUE(fs::exists(fs::path(BARM_ROOT) / what)) << file << ": " << what;
  }
}

}  // namespace

}  // namespace barm::data
