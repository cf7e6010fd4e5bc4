#include "shop/csv.h"

#include <gtest/gtest.h>

#include "base/csv.h"

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
  const csv::Table table = csv::table_of(text.text());
  ASSERT_EQ(table.rows.size(), 2U);
  const auto words = [](const csv::Row& row) {
    std::vector<std::string> out;
    for (const csv::Cell& cell : row) out.push_back(cell.text);
    return out;
  };
  EXPECT_EQ(words(table.rows[0]), (std::vector<std::string>{"a", "b \"c\"", "d,e"}));
  EXPECT_EQ(words(table.rows[1]), (std::vector<std::string>{"line\nbreak", "", "x"}));
}

}  // namespace

}  // namespace barm::shop
