// The kept batches of rival laws are whole; a mistake in them is told with file and line.
#include <gmock/gmock.h>

#include <string>

#include "support/kept_rivals.h"

namespace barm::test {

namespace {

const std::string kept_file = std::string(BARM_ROOT) + "/data/evidence/rival_batches.csv";

TEST(KeptRivals, AreManyAndWhole) {
  const KeptRivals kept = rivals_of_file(kept_file);
  EXPECT_GE(kept.size(), 200U);
  std::map<Law, int> laws;
  for (const auto& [number, batch] : kept) {
    ++laws[batch.law];
    EXPECT_EQ(number % 2, 1U);
    EXPECT_GE(batch.ready, 2.5) << number;
    EXPECT_LE(batch.ready, 48) << number;
    EXPECT_GT(batch.before, 0) << number;
    ASSERT_FALSE(batch.readings.rows.empty()) << number;
    for (const auto& reading : batch.readings.rows) {
      EXPECT_GT(reading.height->in(millimetre), 0.5 * batch.readings.start_mark->in(millimetre));
      EXPECT_LT(reading.at.in(hour), batch.ready + 0.3) << number;
    }
  }
  EXPECT_GE(laws[Law::gompertz], 80);
  EXPECT_GE(laws[Law::baranyi], 80);
}

TEST(KeptRivals, AreWhatTheirNumberSaysAndOwnDoughsAreMadeAnew) {
  const WithKeptRivals batches(1, rivals_of_file(kept_file));
  std::uint64_t rival = 1;
  while (!batches.batch(rival)) rival += 2;
  EXPECT_NE(batches.batch(rival)->law, Law::ours);
  std::uint64_t own = 0;
  while (!batches.batch(own)) own += 2;
  EXPECT_EQ(batches.batch(own)->law, Law::ours);
  EXPECT_THROW(static_cast<void>(batches.batch(rivals_drawn_to + 1)), std::runtime_error);
}

TEST(KeptRivals, AnUnknownLawIsToldWithItsLine) {
  EXPECT_THAT(
      [] {
        kept_rivals(
            "# remark\nbatch,law,bake,ready_h,before_h,start_mark_mm,at_h,height_mm\n"
            "1,hearsay,0,8,8,40,1,40\n",
            "rival_batches.csv");
      },
      testing::ThrowsMessage<std::runtime_error>(
          testing::HasSubstr("rival_batches.csv:3: law is gompertz or baranyi, not 'hearsay'")));
}

}  // namespace

}  // namespace barm::test
