#include "data/catalogue.h"

#include <gmock/gmock.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "generated/constants.h"

namespace barm::data {

namespace {

using testing::IsEmpty;
using testing::Not;

TEST(Catalogue, EveryNumberHasAUnitAndASource) {
  ASSERT_THAT(catalogue(), Not(IsEmpty()));
  for (const Entry& entry : catalogue()) {
    EXPECT_TRUE(std::isfinite(entry.value)) << entry.name;
    EXPECT_FALSE(entry.unit.empty()) << entry.name;
    EXPECT_NE(entry.source, nullptr) << entry.name;
    EXPECT_GE(entry.doubt, 0) << entry.name;
  }
}

TEST(Catalogue, EveryNameStandsOnce) {
  std::set<std::string_view> names;
  for (const Entry& entry : catalogue()) {
    EXPECT_TRUE(names.insert(entry.name).second) << entry.name;
  }
}

TEST(Catalogue, EverySourceHasATitleAndStandsOnce) {
  std::set<std::string_view> keys;
  for (const Source* source : sources()) {
    EXPECT_FALSE(source->title.empty()) << source->key;
    EXPECT_TRUE(keys.insert(source->key).second) << source->key;
  }
}

TEST(Catalogue, SearchFindsByNameInAnyCase) {
  const auto found = search("Gas Constant");
  ASSERT_EQ(found.size(), 1);
  EXPECT_EQ(found[0].name, "physics.gas_constant");
  EXPECT_EQ(found[0].source->key, "codata2018");
  EXPECT_EQ(found[0].file, "physics.toml");
}

TEST(Catalogue, SearchFindsBySource) {
  const auto found = search("sander2015");
  EXPECT_THAT(found, Not(IsEmpty()));
  for (const Entry& entry : found) EXPECT_EQ(entry.source->key, "sander2015") << entry.name;
}

TEST(Catalogue, EveryWordOfASearchMustBeThere) {
  EXPECT_THAT(search("gas constant sander2015"), IsEmpty());
  EXPECT_THAT(search("unobtainium"), IsEmpty());
}

TEST(Sourced, CarriesItsUnitSourceAndDoubt) {
  const auto& gas_constant = constants::physics::gas_constant;
  EXPECT_DOUBLE_EQ(gas_constant.value.si(), 8.314462618);
  EXPECT_EQ(gas_constant.source->key, "codata2018");
  EXPECT_EQ(gas_constant.doubt, 0);
}

TEST(Standing, IsShownInWords) {
  EXPECT_EQ(name(Standing::published), "published");
  EXPECT_EQ(name(Standing::common_practice), "common practice");
  EXPECT_EQ(name(Standing::guess), "a guess");
}

}  // namespace

}  // namespace barm::data
