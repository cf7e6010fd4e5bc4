#include "estimation/readings.h"

#include <gmock/gmock.h>

#include "support/matchers.h"

namespace barm::estimation {
namespace {

using test::FailsWith;
using test::Holds;
using testing::HasSubstr;

Result<Readings> parse(const std::string& text,
                       const std::string& mixed = "2026-11-28T07:00",
                       const time::Zone& zone = time::Zone::fixed(3600),
                       bool keep = false) {
  ReadingOptions options{.keep_good_rows = keep, .start_mark = {}};
  options.clock = time::WallClock::mixed(mixed, zone).value();
  return parse_readings(text, "jar.csv", options);
}

TEST(Readings, AreReadWithTheirUnits) {
  const auto readings = parse(
      "time,height [mm],sample [C],bulk [F],room_C,pH,remark\r\n"
      "2026-11-28T07:00,40,24,75.2,21,5.4,mixed\r\n"
      "2026-11-28T09:30,44.5,24.5,,21.5,,\"a fold, gentle\"\r\n"
      "14:30,61,,,,4.6,\r\n");
  ASSERT_THAT(readings, Holds());
  ASSERT_EQ(readings->rows.size(), 3);
  const Reading& first = readings->rows[0];
  EXPECT_EQ(first.at.in(hour), 0);
  EXPECT_NEAR(first.bulk->celsius(), 24, 1e-9);
  EXPECT_NEAR(readings->start_mark->in(millimetre), 40, 1e-9);
  const Reading& second = readings->rows[1];
  EXPECT_NEAR(second.at.in(hour), 2.5, 1e-9);
  EXPECT_NEAR(second.height->in(millimetre), 44.5, 1e-9);
  EXPECT_EQ(second.remark, "a fold, gentle");
  EXPECT_FALSE(second.ph.has_value());
  EXPECT_NEAR(readings->rows[2].at.in(hour), 7.5, 1e-9);
}

TEST(Readings, TakeADecimalCommaAndOtherSeparators) {
  for (const char* text : {"hours;height [cm]\n1,5;4,25\n",
                           "hours\theight [cm]\n1,5\t4,25\n",
                           "hours,height [cm]\n\"1,5\",\"4,25\"\n"}) {
    const auto readings = parse(text);
    ASSERT_THAT(readings, Holds());
    EXPECT_NEAR(readings->rows[0].at.in(hour), 1.5, 1e-9);
    EXPECT_NEAR(readings->rows[0].height->in(millimetre), 42.5, 1e-9);
  }
}

TEST(Readings, MeanADomeWithItsEdge) {
  const auto readings = parse("hours,edge [mm],dome [mm]\n2,50,56\n");
  ASSERT_THAT(readings, Holds());
  EXPECT_NEAR(readings->rows[0].height->in(millimetre), 53, 1e-9);
}

TEST(Readings, NameABadRowByFileLineAndColumn) {
  const struct {
    const char* text;
    const char* where;
    const char* words;
  } cases[] = {
      {"hours,height [mm]\n1,45\n2,tall\n", "jar.csv:3:3", "'tall' is no number"},
      {"hours,height [mm]\n1,45\n2,4500\n", "jar.csv:3:3", "no height"},
      {"hours,height [mm]\n2,45\n1,46\n", "jar.csv:3:1", "time runs backwards"},
      {"hours,height [mm]\n-1,45\n", "jar.csv:2:1", "before mixing"},
      {"hours,height [mm]\n1,45,9\n", "jar.csv:2:6", "3 cells in a table of 2"},
      {"hours,height\n1,45\n", "jar.csv:1:7", "needs its unit"},
      {"height [mm]\n45\n", "jar.csv:1", "no column of time"},
      {"hours,colour\n1,beige\n", "jar.csv:1", "no column to learn from"},
      {"hours,pH\n1,12\n", "jar.csv:2:3", "no pH of a dough"},
      {"time,height [mm]\n25:10,45\n", "jar.csv:2:1", "is no time"},
      {"hours,remark,height [mm]\n1,\"open,45\n", "jar.csv:2", "never closes"},
  };

  for (const auto& [text, where, words] : cases) {
    const auto readings = parse(text);
    ASSERT_THAT(readings, FailsWith(ErrorCode::bad_input)) << text;
    EXPECT_EQ(readings.error().where, where) << text;
    EXPECT_THAT(readings.error().message, HasSubstr(words)) << text;
  }
}

TEST(Readings, KeepTheGoodRowsOnlyWhenTold) {
  const std::string text = "hours,height [mm]\n1,45\n2,tall\n3,50\n2.5,51\n4,55\n";
  EXPECT_THAT(parse(text), FailsWith(ErrorCode::bad_input));
  const auto kept = parse(text, "", time::Zone::fixed(0), true);
  ASSERT_THAT(kept, Holds());
  EXPECT_EQ(kept->rows.size(), 3);
  ASSERT_EQ(kept->left_out.size(), 2);
  EXPECT_EQ(kept->left_out[1].where, "jar.csv:5:1");
}

// Europe/Berlin put the clock back at 03:00 on 25 October 2026 and forward at 02:00 on 29 March
// 2026 (rule C-Eur/EU of the IANA time zone database: last Sundays, 01:00 UTC).
TEST(Readings, CountTrueHoursAcrossAClockThatIsPutBack) {
  const auto readings = parse(
      "time,height [mm]\n2026-10-25 01:30,45\n2026-10-25 02:30,46\n2026-10-25 02:30,48\n"
      "2026-10-25 03:30,50\n",
      "2026-10-24T22:00",
      time::Zone::named("Europe/Berlin").value());
  ASSERT_THAT(readings, Holds());
  EXPECT_NEAR(readings->rows[0].at.in(hour), 3.5, 1e-9);
  EXPECT_NEAR(readings->rows[1].at.in(hour), 4.5, 1e-9);
  EXPECT_NEAR(readings->rows[3].at.in(hour), 6.5, 1e-9);
}

TEST(Readings, CountTrueHoursAcrossAClockThatIsPutForward) {
  const auto readings = parse("time,height [mm]\n2026-03-29T03:30,45\n",
                              "2026-03-29T01:00",
                              time::Zone::named("Europe/Berlin").value());
  ASSERT_THAT(readings, Holds());
  EXPECT_NEAR(readings->rows[0].at.in(hour), 1.5, 1e-9);
  const auto never = parse("time,height [mm]\n2026-03-29T02:30,45\n",
                           "2026-03-29T01:00",
                           time::Zone::named("Europe/Berlin").value());
  ASSERT_THAT(never, FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(never.error().message, HasSubstr("did not exist"));
}

TEST(Readings, GoOnPastMidnightButNotBack) {
  const auto on = parse("time,height [mm]\n23:30,45\n00:30,47\n", "2026-11-28T20:00");
  ASSERT_THAT(on, Holds());
  EXPECT_NEAR(on->rows[1].at.in(hour), 4.5, 1e-9);
  EXPECT_THAT(parse("time,height [mm]\n14:30,45\n14:00,47\n"), FailsWith(ErrorCode::bad_input));
}

TEST(Readings, SumUpALogger) {
  std::string text = "hours,height [mm],sample [C]\n";
  for (int i = 0; i < 5000; ++i) {
    const double h = i * 0.002;
    text += std::to_string(h) + "," + std::to_string(40 + 3 * h + (i % 2 == 0 ? 0.4 : -0.4)) +
            ",24.2\n";
  }
  const auto readings = parse(text);
  ASSERT_THAT(readings, Holds());
  EXPECT_EQ(readings->rows_in_file, 5000);
  EXPECT_LE(readings->rows.size(), 41);
  for (const Reading& row : readings->rows) {
    EXPECT_NEAR(row.height->in(millimetre), 40 + 3 * row.at.in(hour), 0.5);
    EXPECT_GT(row.heights, 50);
    EXPECT_NEAR(row.sample->celsius(), 24.2, 1e-9);
  }
}

TEST(TypedReading, SaysWhatABakerSays) {
  const ReadingOptions options{
      .clock = time::WallClock::mixed("2026-11-28T07:00", time::Zone::fixed(3600)).value(),
      .start_mark = {}};
  const auto clock = parse_reading("14:30 52 mm", options);
  ASSERT_THAT(clock, Holds());
  EXPECT_NEAR(clock->at.in(hour), 7.5, 1e-9);
  EXPECT_NEAR(clock->height->in(millimetre), 52, 1e-9);
  const auto hours = parse_reading("6.5h 1.4x", options);
  ASSERT_THAT(hours, Holds());
  EXPECT_NEAR(*hours->ratio, 1.4, 1e-9);
  // The second at which the daybook has it, by hours of five decimals.
  for (const auto& [typed, at] :
       {std::pair{"0.01278h 44 mm", 46.0}, std::pair{"2.01278h 44 mm", 7246.0}}) {
    const auto exact = parse_reading(typed, options);
    ASSERT_THAT(exact, Holds());
    EXPECT_EQ(exact->at.in(second), at);
  }
  const auto sour = parse_reading("3h pH 4.9 23.5C", options);
  ASSERT_THAT(sour, Holds());
  EXPECT_NEAR(*sour->ph, 4.9, 1e-9);
  EXPECT_NEAR(sour->sample->celsius(), 23.5, 1e-9);
  for (const char* wrong : {"14:30", "soon 52 mm", "14:30 52 apples", "3h pH", ""})
    EXPECT_THAT(parse_reading(wrong, options), FailsWith(ErrorCode::bad_input)) << wrong;
}

// However many looks come by whichever way, the same ones are learned from.
TEST(TypedReading, ManyAreSummedUpAsThoseOfADaybookAre) {
  std::vector<std::string> typed;
  std::vector<Reading> known;
  for (int i = 0; i < 300; ++i) {
    Reading one;
    one.at = (i * 72.0) * second;
    one.height = (40 + i * 0.1) * millimetre;
    one.sample = Temperature::from_celsius(24);
    typed.push_back(std::to_string(i * 72.0 / 3600) + "h " + std::to_string(40 + i * 0.1) +
                    " mm 24 C");
    known.push_back(one);
  }
  const Readings by_daybook = readings_from(known, {});
  const auto by_hand = with_typed({}, typed, {});
  ASSERT_THAT(by_hand, Holds());
  ASSERT_EQ(by_hand->rows.size(), by_daybook.rows.size());
  EXPECT_LE(by_hand->rows.size(), 40);
  EXPECT_EQ(by_hand->notes, by_daybook.notes);
  EXPECT_NEAR(by_hand->start_mark->in(millimetre), 40, 1e-9);
  EXPECT_NEAR(by_daybook.start_mark->in(millimetre), 40, 1e-9);
  for (std::size_t i = 0; i < by_daybook.rows.size(); ++i) {
    EXPECT_NEAR(by_hand->rows[i].at.in(second), by_daybook.rows[i].at.in(second), 1);
    EXPECT_NEAR(
        by_hand->rows[i].height->in(millimetre), by_daybook.rows[i].height->in(millimetre), 1e-4);
  }
}

}  // namespace
}  // namespace barm::estimation
