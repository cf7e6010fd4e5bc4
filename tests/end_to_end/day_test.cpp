#include <gmock/gmock.h>

#include <filesystem>
#include <fstream>
#include <sstream>

#include "said.h"

namespace barm::test {

namespace {

using testing::HasSubstr;
using testing::Not;

const std::string saturday =
    "'" BARM_ROOT "/examples/saltmarsh-saturday.toml' --draws 60 --fresh 200";

TEST(TheDay, IsOneListByTheClockOn80Columns) {
  const Said said = barm("day " + saturday);
  EXPECT_EQ(said.status, 0) << said.out;
  EXPECT_LE(widest_line(said.out), 80) << said.out;
  for (const char* words :
       {"BY THE CLOCK", "THE CHANCE", "counted on 200", "TAKE CARE", "Fri ", "Sat "})
    EXPECT_THAT(said.out, HasSubstr(words));
  EXPECT_THAT(said.out, Not(HasSubstr(" nan")));
}

TEST(TheDay, WritesItsCalendarOnceAndOverItWhenTold) {
  const std::string file = testing::TempDir() + "/saturday.ics";
  std::filesystem::remove(file);
  EXPECT_EQ(barm("day " + saturday + " --calendar " + file).status, 0);
  std::stringstream text;
  text << std::ifstream(file).rdbuf();
  EXPECT_THAT(text.str(), HasSubstr("BEGIN:VALARM"));
  EXPECT_NE(barm("day " + saturday + " --calendar " + file).status, 0);
  EXPECT_EQ(barm("day " + saturday + " --replace --calendar " + file).status, 0);
}

TEST(TheDay, AsksForBothHalvesOfAMove) {
  EXPECT_EQ(barm("day " + saturday + " --to 2026-11-27T12:00").status, 2);
  EXPECT_EQ(barm("day " + saturday + " --move 'Mead loaf, half and half: divide'").status, 2);
}

TEST(TheDay, OfADaybookIsKeptForToday) {
  const std::string book = testing::TempDir() + "/kept-day.barm";
  const std::string day = testing::TempDir() + "/kept-day.toml";
  for (const char* end : {"", "-wal", "-shm"}) std::filesystem::remove(book + end);
  ASSERT_EQ(barm("daybook demo '" + book + "'").status, 0);
  // Far enough ahead that nothing of it has gone by.
  std::ofstream(day) << "name = \"Marsh day\"\nbegins = 2099-11-27T05:00:00\n"
                        "bread = 2099-11-28T18:00:00\n[house]\nhands = 2\nfridge = 12\n"
                        "[[bake]]\nfile = \"Plain marsh loaf\"\n";
  EXPECT_EQ(barm("day '" + day + "' --keep").status, 2);
  const Said said =
      barm("day '" + day + "' --draws 60 --fresh 200 --keep --daybook '" + book + "'");
  EXPECT_EQ(said.status, 0) << said.out;
  EXPECT_LE(widest_line(said.out), 80) << said.out;
  for (const char* words : {"TO FEED", "TO WEIGH", "ALL OF IT TAKES", "TO BUY"})
    EXPECT_THAT(said.out, HasSubstr(words));
  const Said today = barm("daybook today --daybook '" + book + "'");
  EXPECT_THAT(today.out, testing::AllOf(HasSubstr("BY THE PLAN"), HasSubstr("Marsh day")));
  EXPECT_LE(widest_line(today.out), 80) << today.out;
}

}  // namespace

}  // namespace barm::test
