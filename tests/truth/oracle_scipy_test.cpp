// The equations against SciPy, on five doughs that hold all there is between them: every acid and
// both yeasts, dying, bacteria below pH 4, a drawn culture, rye and whole fruit. It would catch an
// error of algebra in any term: with the speed of the wild yeast a thousandth higher the doughs
// double half a minute early. All sixteen: oracle_scipy_long_test.cpp.
#include "truth/oracle_scipy.h"

#include <gtest/gtest.h>

#include <set>

namespace barm {

namespace {

TEST(SciPy, WrittenAgainTheDoughRisesAtTheSameSecond) {
  const std::set<std::string> asked{
      "EverythingAt18", "Strong", "Sour", "WineDrawn1", "RyeAndFruit"};
  std::vector<test::OracleCase> cases;
  for (const test::OracleCase& c : test::oracle_cases()) {
    if (asked.contains(c.name)) cases.push_back(c);
  }
  ASSERT_EQ(cases.size(), asked.size());
  test::compare_with_scipy(cases);
}

}  // namespace

}  // namespace barm
