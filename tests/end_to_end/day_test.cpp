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
  // The plan kept, without naming the day again; and what does not go together.
  const Said kept = barm("day --fresh 200 --daybook '" + book + "'");
  EXPECT_EQ(kept.status, 0) << kept.out;
  EXPECT_THAT(kept.out, testing::AllOf(HasSubstr("Marsh day"), HasSubstr("BY THE CLOCK")));
  EXPECT_THAT(kept.out, Not(HasSubstr("PLANNED AGAIN")));
  EXPECT_EQ(barm("day").status, 2);
  EXPECT_EQ(barm("day '" + day + "' --stay --daybook '" + book + "'").status, 2);
}

// The dough of the plan is to be cooler than it was when the plan was kept: it is planned again,
// and left or taken.
TEST(TheDay, ThatIsKeptIsPlannedAgainAfterItsBakeChanged) {
  const std::string book = testing::TempDir() + "/again-day.barm";
  const std::string day = testing::TempDir() + "/again-day.toml";
  const std::string loaf = testing::TempDir() + "/again-loaf.toml";
  for (const char* end : {"", "-wal", "-shm"}) std::filesystem::remove(book + end);
  ASSERT_EQ(barm("daybook demo '" + book + "'").status, 0);
  const auto write_loaf = [&](const char* temperature) {
    std::ofstream(loaf) << R"(name = "Odd loaf"
pieces = 2
piece = "900 g"
[bowl]
"white bread flour" = "100 %"
water = "70 %"
salt = "2 %"
levain = "20 %"
[levain]
starter = "stiff ripe levain"
flour = "white bread flour"
temperature = "26 C"
since_feeding = "5 h"
[[stage]]
do = "mix"
[[stage]]
do = "bulk"
until = "doubled"
temperature = ")" << temperature
                        << R"("
[[stage]]
do = "divide"
[[stage]]
do = "shape"
[[stage]]
do = "proof"
temperature = "24 C"
for = "2 h"
)";
  };
  const std::string in_book = " --daybook '" + book + "'";
  write_loaf("26 C");
  ASSERT_EQ(barm("daybook add '" + loaf + "'" + in_book).status, 0);
  const Said listed = barm("daybook list 'Odd loaf' --json" + in_book);
  const std::size_t at = listed.out.find("\"id\": \"") + 7;
  ASSERT_LT(at, listed.out.size()) << listed.out;
  const std::string id = listed.out.substr(at, listed.out.find('"', at) - at);
  std::ofstream(day) << "name = \"Odd day\"\nbegins = 2099-11-27T05:00:00\n"
                        "bread = 2099-11-28T08:00:00\n[house]\nhands = 2\n"
                        "[[bake]]\nfile = \"Odd loaf\"\n";
  ASSERT_EQ(barm("day '" + day + "' --fresh 200 --keep" + in_book).status, 0);

  write_loaf("18 C");
  ASSERT_EQ(barm("daybook add '" + loaf + "' --as " + id + in_book).status, 0);
  const Said again = barm("day --fresh 200" + in_book);
  EXPECT_EQ(again.status, 0) << again.out;
  for (const char* words : {"PLANNED AGAIN", "Moved: ", " of the Odd loaf from ", "BY THE CLOCK"})
    EXPECT_THAT(again.out, HasSubstr(words));
  EXPECT_LE(widest_line(again.out), 80) << again.out;
  // To stay with it says nothing more; what comes in later is told again, and can be taken.
  EXPECT_THAT(barm("day --stay --fresh 200" + in_book).out, Not(HasSubstr("PLANNED AGAIN")));
  write_loaf("19 C");
  ASSERT_EQ(barm("daybook add '" + loaf + "' --as " + id + in_book).status, 0);
  EXPECT_THAT(barm("day --keep --fresh 200" + in_book).out, HasSubstr("PLANNED AGAIN"));
  EXPECT_THAT(barm("day --fresh 200" + in_book).out, Not(HasSubstr("PLANNED AGAIN")));
}

}  // namespace

}  // namespace barm::test
