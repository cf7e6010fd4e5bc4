#include "base/require.h"

#include <gmock/gmock.h>

namespace barm {

namespace {

TEST(Require, LetsAKeptContractPass) { EXPECT_NO_THROW(require(true, "one is one")); }

TEST(Require, NamesThePlaceOfABrokenContract) {
  try {
    require(false, "a mass is not negative");
    FAIL() << "nothing was thrown";
  } catch (const ContractViolation& violation) {
    EXPECT_THAT(violation.what(), testing::HasSubstr("require_test.cpp:"));
    EXPECT_THAT(violation.what(), testing::HasSubstr("a mass is not negative"));
  }
}

}  // namespace

}  // namespace barm
