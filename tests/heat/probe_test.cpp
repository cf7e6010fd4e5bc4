#include "heat/probe.h"

#include <gmock/gmock.h>

#include "support/matchers.h"
#include "units/units.h"

namespace barm::heat {

namespace {

using ::barm::test::FailsWith;
using ::barm::test::Holds;
using testing::HasSubstr;

std::string message(std::string_view text) {
  const auto got = parse_probe(text, "p.csv");
  return got ? "" : got.error().where + " " + got.error().message;
}

TEST(Probe, ReadsTimesAndTemperaturesWhereverTheyStand) {
  const auto got =
      parse_probe("# a remark\nprobe,celsius,minutes\n1,24.5,0\n1,25,5\n\n1,27.25,10\n", "p.csv");
  ASSERT_THAT(got, Holds());
  ASSERT_EQ(got->size(), 3U);
  EXPECT_NEAR((*got)[2].at.in(minute), 10, 1e-9);
  EXPECT_NEAR((*got)[2].temperature.celsius(), 27.25, 1e-9);
  const auto european = parse_probe("hours;celsius\r\n0;4,5\r\n0,5;5\r\n1;6\r\n", "p.csv");
  ASSERT_THAT(european, Holds());
  EXPECT_NEAR((*european)[0].temperature.celsius(), 4.5, 1e-9);
}

TEST(Probe, SaysInOneErrorWhereAndWhatIsWrong) {
  EXPECT_THAT(message("minutes,core_F\n0,70\n1,71\n2,72\n"),
              HasSubstr("p.csv:1 the temperatures are in °F"));
  EXPECT_THAT(message("minutes,celsius\n0,70\n1,180\n2,200\n"),
              HasSubstr("p.csv:3 180 °C cannot be"));
  EXPECT_THAT(message("minutes,celsius\n0,70\n1,\n2,72\n"),
              HasSubstr("p.csv:3 a time or a temperature is missing"));
  EXPECT_THAT(message("minutes,celsius\n0,20\n1,21\n2,22\n40,60\n"),
              HasSubstr("p.csv:5 nothing was read from 2 to 40 min"));
  EXPECT_THAT(message("minutes,celsius\n0,20\n2,21\n1,22\n"), HasSubstr("p.csv:4 times ascend"));
  EXPECT_THAT(message("a,b\n0,20\n"), HasSubstr("p.csv:1 the first row names the columns"));
  EXPECT_THAT(message("minutes,celsius\n0,20\n"), HasSubstr("at least three readings"));
  EXPECT_THAT(message(""), HasSubstr("at least three readings"));
}

TEST(Probe, SaysWhereReadingsAreMissingAndWhatWasMadeOfIt) {
  const auto words = [](std::string_view text) {
    const auto readings = parse_probe(text, "p.csv");
    EXPECT_THAT(readings, Holds());
    return readings ? gaps_in_words(*readings) : "";
  };
  EXPECT_EQ(words("minutes,celsius\n0,20\n1,21\n2,22\n3,23\n4,24\n"), "");
  EXPECT_EQ(words("minutes,celsius\n0,20\n1,21\n3,22\n4,23\n5,24\n"), "") << "one is nothing";
  const auto gap =
      words("minutes,celsius\n0,20\n1,21\n2,22\n6,26\n7,27\n8,28\n9,29\n12,33\n13,34\n");
  EXPECT_THAT(gap, HasSubstr("from 2 to 6 min, from 9 to 12 min"));
  EXPECT_THAT(gap, HasSubstr("nothing was put in between"));
}

}  // namespace

}  // namespace barm::heat
