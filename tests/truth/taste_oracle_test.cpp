// The way of each scent against tools/oracle/taste_way.py: the same by numbers, with SciPy.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <sstream>
#include <string>

#include "support/validation.h"
#include "taste/passage.h"
#include "truth/oracle_scipy.h"

namespace barm::taste {

namespace {

constexpr Phases lean_dough{.water = 0.42, .dry_flour = 0.54, .fat = 0.0074 * 0.54};

struct Other {
  double volatility = 0, crumb = 0, crust = 0, loaf = 0, pan = 0;
};

std::map<std::string, Other> by_scipy() {
  const std::string root = BARM_ROOT;
  std::istringstream lines(barm::test::output_of(
      "/usr/bin/python3 '" + root + "/tools/oracle/taste_way.py' '" + root + "/data'"));
  std::map<std::string, Other> found;
  for (std::string line; std::getline(lines, line);) {
    std::istringstream cells(line);
    std::string name;
    std::getline(cells, name, '\t');
    Other one;
    cells >> one.volatility >> one.crumb >> one.crust >> one.loaf >> one.pan;
    found[name] = one;
  }
  return found;
}

// Heat integrated, Rayleigh's equation integrated for each share of steam and averaged, a pan
// integrated: the closed forms say the same to nine digits.
TEST(TasteAgainstSciPy, VolatilityOvenAndPanOfEveryScent) {
  const auto others = by_scipy();
  ASSERT_EQ(others.size(), scents().size());
  double worst = 0;
  const auto look = [&](double ours, double theirs) {
    if (theirs > 1e-200) worst = std::max(worst, std::abs(ours / theirs - 1));
  };
  for (const Scent& one : scents()) {
    const Other& other = others.at(std::string(one.name));
    const Passage way = usual_passage(one, lean_dough, usual_baking(0.1)).value();
    look(one.volatility, other.volatility);
    look(way.crumb, other.crumb);
    look(way.crust, other.crust);
    look(way.loaf, other.loaf);
    if (one.volatility < 100) look(left_in_pan(one, 0.5, 5), other.pan);
  }
  EXPECT_LT(worst, 1e-8);
  barm::test::record("taste",
                     "volatility, crumb, crust, loaf and pan of 97 scents: largest deviation",
                     "SciPy, quad and solve_ivp",
                     "0",
                     worst,
                     "of the value",
                     worst < 1e-8);
}

}  // namespace

}  // namespace barm::taste
