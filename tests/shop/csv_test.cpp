#include "shop/csv.h"

#include <gtest/gtest.h>

#include "shop/internal/csv.h"
#include "support/matchers.h"

namespace barm::shop {

namespace {

TEST(CsvCell, IsNeverRunAsAFormula) {
  EXPECT_EQ(csv_cell("=1+1"), "'=1+1");
  EXPECT_EQ(csv_cell("+cmd|' /C calc'!A0"), "'+cmd|' /C calc'!A0");
  EXPECT_EQ(csv_cell("-2+3"), "'-2+3");
  EXPECT_EQ(csv_cell("@SUM(A1)"), "'@SUM(A1)");
  EXPECT_EQ(csv_cell("\tx"), "'\tx");
  EXPECT_EQ(csv_cell("=HYPERLINK(\"a\",\"b\")"), "\"'=HYPERLINK(\"\"a\"\",\"\"b\"\")\"");
}

TEST(CsvCell, LeavesNumbersAndWordsAlone) {
  EXPECT_EQ(csv_cell("-0.99"), "-0.99");
  EXPECT_EQ(csv_cell("13.80"), "13.80");
  EXPECT_EQ(csv_cell("dry mead"), "dry mead");
  EXPECT_EQ(csv_cell("salt, coarse"), "\"salt, coarse\"");
}

TEST(Csv, ReadsBackWhatItWrites) {
  CsvText text;
  text.line({"a", "b \"c\"", "d,e"});
  text.line({"line\nbreak", "", "x"});
  const auto lines = internal::parse_csv(text.text(), "t.csv");
  ASSERT_THAT(lines, test::Holds());
  ASSERT_EQ(lines->size(), 2U);
  EXPECT_EQ((*lines)[0].cells, (std::vector<std::string>{"a", "b \"c\"", "d,e"}));
  EXPECT_EQ((*lines)[1].cells, (std::vector<std::string>{"line\nbreak", "", "x"}));
}

}  // namespace

}  // namespace barm::shop
