// Worked examples as printed in textbooks and manuals; tests/truth/data/worked_examples.csv has
// them all.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "support/csv.h"
#include "support/validation.h"
#include "truth/at_60_f.h"

namespace barm {

namespace {

using test::record;

// The printed text of an example, so that a test cannot drift from what it claims to check.
std::string published(const std::string& id) {
  const auto rows = test::read_csv("worked_examples.csv");
  const auto row = std::find_if(
      rows.begin(), rows.end(), [&](const test::CsvRow& r) { return r.at("id") == id; });
  return row == rows.end() ? "" : row->at("published");
}

// AL1, 27 CFR 30.64. The manual divides two table values of five digits: 0.02 lb of rounding in
// 1082 lb.
TEST(DilutionExamples, WaterThatTakesAThousandPoundsFrom200To190Proof) {
  ASSERT_EQ(published("AL1"), "82.03 lb water");
  const double ours = 1000 / test::mass_fraction_60_f(0.95) - 1000;
  EXPECT_NEAR(ours, 82.03, 0.03);
  record("worked examples",
         "water from 200 to 190 proof",
         "27 CFR 30.64",
         "82.03",
         ours,
         "lb",
         std::abs(ours - 82.03) <= 0.03);
}

// AL2, 27 CFR 30.66: 100 gallons of 191 proof to 188 proof. The manual rounds 191/188 down to 1.01;
// with the same ratio we agree to its last digit. Unrounded it is 1.884.
TEST(DilutionExamples, WaterThatTakesAHundredGallonsFrom191To188Proof) {
  ASSERT_EQ(published("AL2"), "5.59 and 7.36 parts; 1.84 gal per 100 gal (ratio rounded to 1.01)");
  const double ours = 1.01 * test::water_parts(188) - test::water_parts(191);
  EXPECT_NEAR(ours, 1.84, 0.005);
  EXPECT_NEAR(191.0 / 188 * test::water_parts(188) - test::water_parts(191), 1.884, 0.0005);
  record("worked examples",
         "water from 191 to 188 proof, their rounded ratio",
         "27 CFR 30.66",
         "1.84",
         ours,
         "gal",
         std::abs(ours - 1.84) <= 0.005);
}

// AL3, 27 CFR 30.66: each of the two table values is off by up to a unit of its last digit.
TEST(DilutionExamples, WaterThatTakesAHundredGallonsFrom112To100Proof) {
  ASSERT_EQ(published("AL3"), "1.12 x 53.73 - 47.75 = 12.42 gal");
  const double ours = 1.12 * test::water_parts(100) - test::water_parts(112);
  EXPECT_NEAR(ours, 12.42, 0.02);
  record("worked examples",
         "water from 112 to 100 proof",
         "27 CFR 30.66",
         "12.42",
         ours,
         "gal",
         std::abs(ours - 12.42) <= 0.02);
}

}  // namespace

}  // namespace barm
