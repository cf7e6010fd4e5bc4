#include "cli/daybook/brought_along.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <fstream>

namespace {

namespace fs = std::filesystem;
using barm::cli::brought_along;
using barm::cli::zone_of_link;

// A program unpacked from the archive, beside a system of which nothing is there yet.
class BroughtAlong : public testing::Test {
 protected:
  void SetUp() override {
    fs::create_directories(folder_ / "ours/bin");
    fs::create_directories(folder_ / "ours/share/zoneinfo");
  }

  void TearDown() override { fs::remove_all(folder_); }

  fs::path folder_ =
      fs::temp_directory_path() / ("barm-brought-along-" + std::to_string(::getpid()));
  fs::path program_ = folder_ / "ours/bin/barm";
  fs::path system_ = folder_ / "usr/share/zoneinfo";
};

TEST_F(BroughtAlong, IsTakenWhereTheSystemHasNone) {
  EXPECT_EQ(brought_along(system_, program_, "zoneinfo"), folder_ / "ours/share/zoneinfo");
}

TEST_F(BroughtAlong, IsLeftWhereTheSystemHasItsOwn) {
  fs::create_directories(system_);
  EXPECT_EQ(brought_along(system_, program_, "zoneinfo"), std::nullopt);
}

TEST_F(BroughtAlong, IsNothingForAProgramThatCameWithoutIt) {
  EXPECT_EQ(brought_along(system_, program_, "fonts/fonts.conf"), std::nullopt);
}

TEST_F(BroughtAlong, ReadsTheZoneOfALinkThatLeadsNowhere) {
  fs::create_symlink("../usr/share/zoneinfo/Europe/Berlin", folder_ / "localtime");
  EXPECT_EQ(zone_of_link(folder_ / "localtime"), "Europe/Berlin");
  std::ofstream(folder_ / "copied") << "TZif";
  EXPECT_EQ(zone_of_link(folder_ / "copied"), std::nullopt);
  EXPECT_EQ(zone_of_link(folder_ / "none"), std::nullopt);
}

}  // namespace
