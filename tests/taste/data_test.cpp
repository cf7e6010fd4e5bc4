// The tables of scents: every name is known where it is used, every number has a source.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <set>
#include <string>

#include "data/catalogue.h"
#include "generated/tables.h"
#include "larder/larder.h"
#include "taste/contents.h"

namespace barm::taste {

namespace {

bool is_source(std::string_view key) {
  return std::any_of(data::sources().begin(),
                     data::sources().end(),
                     [&](const data::Source* source) { return source->key == key; });
}

bool is_taste(std::string_view name) {
  return std::any_of(std::begin(tables::tastes), std::end(tables::tastes), [&](const auto& row) {
    return row.name == name;
  });
}

std::set<std::string_view> drinks() {
  std::set<std::string_view> out;
  for (const auto& row : tables::drinks_scents) out.insert(row.drink);
  return out;
}

TEST(ScentTables, EveryNumberHasASource) {
  for (const auto& row : tables::scents) {
    for (const std::string_view key : {row.hcp_source, row.kow_source, row.threshold_source})
      EXPECT_TRUE(is_source(key)) << row.name << ": " << key;
    EXPECT_TRUE(row.wine_source.empty() || is_source(row.wine_source)) << row.name;
  }
  for (const auto& row : tables::tastes) {
    for (const std::string_view key : {row.threshold_source, row.left_source, row.free_source})
      EXPECT_TRUE(is_source(key)) << row.name << ": " << key;
  }
  for (const auto& row : tables::drinks_scents)
    EXPECT_TRUE(is_source(row.source)) << row.drink << ", " << row.compound;
  for (const auto& row : tables::breads_own) EXPECT_TRUE(is_source(row.source)) << row.compound;
  for (const auto& row : tables::added_scents) EXPECT_TRUE(is_source(row.source)) << row.compound;
}

TEST(ScentTables, EveryRangeHoldsItsMiddle) {
  const auto holds = [](double low, double middle, double high) {
    return low > 0 && low <= middle && middle <= high;
  };
  for (const auto& row : tables::scents) {
    EXPECT_TRUE(holds(row.hcp_low, row.hcp, row.hcp_high)) << row.name;
    EXPECT_TRUE(holds(row.threshold_low, row.threshold, row.threshold_high)) << row.name;
    EXPECT_TRUE(holds(row.left_low, row.left, row.left_high)) << row.name;
  }
  for (const auto& row : tables::drinks_scents)
    EXPECT_TRUE(holds(row.low, row.typical, row.high)) << row.drink << ", " << row.compound;
  for (const auto& row : tables::breads_own)
    EXPECT_TRUE(holds(row.low, row.typical, row.high)) << row.compound;
}

TEST(ScentTables, EveryCompoundIsAScentOrATaste) {
  for (const auto& row : tables::drinks_scents)
    EXPECT_TRUE(scent_named(row.compound) || is_taste(row.compound)) << row.compound;
  for (const auto& row : tables::breads_own)
    EXPECT_TRUE(scent_named(row.compound) || is_taste(row.compound)) << row.compound;
  for (const auto& row : tables::added_scents)
    EXPECT_TRUE(scent_named(row.compound)) << row.compound;
}

TEST(ScentTables, EveryDrinkHasAFamilyAndEveryKeyIsInTheLarder) {
  const auto known = drinks();
  std::set<std::string_view> with_family;
  for (const auto& row : tables::drink_families) with_family.insert(row.drink);
  EXPECT_EQ(known, with_family);
  for (const auto& row : tables::scents_of) {
    EXPECT_NE(larder::find(row.key), nullptr) << row.key;
    EXPECT_TRUE(row.kinship == "unknown" ? row.drink.empty() : known.contains(row.drink))
        << row.key;
  }
}

// A drink that the larder knows must be like one of the table, or said to be unknown.
TEST(ScentTables, EveryDrinkOfTheLarderIsLikeOneOrKnownToBeUnknown) {
  for (const larder::Ingredient& ingredient : larder::all()) {
    if (ingredient.group != larder::Group::drink) continue;
    const bool plain = ingredient.key == "neutral_spirit" || ingredient.key == "strong_spirit";
    EXPECT_NE(smells_like(ingredient).has_value(), plain) << ingredient.key;
  }
}

TEST(ScentTables, ADrinkIsNotItsOwnKin) {
  EXPECT_THAT(kin_of("mead"), testing::ElementsAre("dry cider"));
  EXPECT_THAT(kin_of("stout"), testing::Not(testing::Contains("stout")));
  EXPECT_THAT(kin_of("nothing"), testing::IsEmpty());
}

}  // namespace

}  // namespace barm::taste
