// A logger's temperatures, thinned to what a dough feels, against all of them.
#include <gmock/gmock.h>

#include <cmath>
#include <numbers>
#include <random>

#include "estimation/own_doughs.h"
#include "heat/felt.h"
#include "support/matchers.h"

namespace barm::estimation {
namespace {

using test::Holds;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

// A bakery that cools in the night, a probe that leaps from row to row.
std::string logged_rows(int rows, double hours, double swing, double leap) {
  std::mt19937 engine(11);
  std::uniform_real_distribution<double> from_row_to_row(-leap, leap);
  std::string table = "hours,ratio,sample [C],bulk [C]\n";
  for (int i = 0; i < rows; ++i) {
    const double t = hours * i / rows;
    const double celsius =
        24 + swing * std::sin(2 * std::numbers::pi * t / 24) + from_row_to_row(engine);
    const std::string cell = std::to_string(celsius);
    table += std::to_string(t) + ",," + cell + "," + cell + "\n";
  }
  return table;
}

std::vector<heat::ProbeReading> all_of_bulk(const Readings& readings) {
  std::vector<heat::ProbeReading> all;
  for (const Reading& row : readings.logged.empty() ? readings.rows : readings.logged)
    all.push_back({row.at, *row.bulk});
  return all;
}

double ready_at(const heat::Track& track) {
  forecast::Proving proving = bulk();
  proving.track = track;
  const auto course = forecast::run(test::plain_dough(), kinetics::book(), proving);
  EXPECT_THAT(course, Holds());
  return course->ready.value_or(0.0 * hour).in(hour);
}

TEST(Logger, ThinnedTemperaturesForeseeWhatAllOfThemDo) {
  struct Case {
    int rows;
    double hours, swing, leap;
    double off;        // K, at most
    double hours_off;  // at most: of ten
  };

  for (const Case& one : {Case{480, 12, 2, 0.1, 0.3, 0.02},
                          Case{480, 12, 2, 3, 0.6, 0.1},
                          Case{480, 48, 3, 1, 1.6, 0.15},
                          Case{59, 12, 2, 3, 1.3, 0.25}}) {
    SCOPED_TRACE(one.leap);
    const auto readings =
        parse_readings(logged_rows(one.rows, one.hours, one.swing, one.leap), "logger.csv", {});
    ASSERT_THAT(readings, Holds());
    DoughToRead batch = plain();
    follow(batch, *readings);
    const auto all = all_of_bulk(*readings);
    EXPECT_THAT(all, SizeIs(one.rows));
    EXPECT_LE(batch.bulk.track.segments().size(), heat::most_steps);
    EXPECT_LE(batch.sample.track.segments().size(), heat::most_steps);
    EXPECT_LE(heat::most_off(all, batch.bulk.track), one.off);
    EXPECT_NEAR(ready_at(batch.bulk.track), ready_at(heat::Track::through(all)), one.hours_off);
    ASSERT_THAT(batch.notes, SizeIs(2));
    EXPECT_THAT(batch.notes.front(),
                HasSubstr(std::to_string(one.rows) + " temperatures of the sample are followed"));
  }
}

TEST(Logger, AFewTemperaturesByHandAreFollowedAsTheyAre) {
  const auto readings = parse_readings("hours,bulk [C]\n0,25\n3,24\n6,23.5\n", "looks.csv", {});
  ASSERT_THAT(readings, Holds());
  DoughToRead batch = plain();
  follow(batch, *readings);
  EXPECT_THAT(batch.notes, IsEmpty());
  EXPECT_NEAR(batch.bulk.track.celsius_at(6.5), 23.5, 1e-9);
  EXPECT_LE(heat::most_off(all_of_bulk(*readings), batch.bulk.track), heat::well_felt);
}

}  // namespace
}  // namespace barm::estimation
