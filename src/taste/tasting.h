#pragma once
// What a panel found: it weighs the draws of the model as a reading weighs doughs.
#include <string>
#include <vector>

#include "base/result.h"
#include "taste/taste.h"

namespace barm::taste {

/// A triangle test of this bread against one without the drink, or words that tasters gave it.
struct Tasting {
  int tasters = 0, right = 0;  ///< of a triangle test; 0 tasters: none
  std::vector<Level> words;    ///< how strong each taster called the drink
};

/// Reads "9 of 12 right", or a list of words "gone, a hint, there". Errors: bad_input.
[[nodiscard]] Result<Tasting> parse_tasting(const std::string& text);

/// What the model says after the tasting.
struct Judged {
  std::vector<double> weights;  ///< of each draw, summing to 1
  double effective = 0;         ///< draws that still count, 1 / sum w^2
  Range strength_before, strength_after;
  double told_before = 0, told_after = 0;
  double surprise = 0;  ///< chance of a result at least as unlikely, were the model right
  std::string words;
};

/// A draw d in which a share p of tasters notice the drink expects of a triangle test
///
///     right ~ Binomial(n, 1/3 + 2/3 p)                                          (15)
///
/// and of a taster's word a strength that is ln normal round its own with the spread of noses. The
/// weights are the likelihoods. Errors: bad_input when nothing was tasted. Checked against:
/// tests/taste/tasting_test.cpp.
[[nodiscard]] Result<Judged> judged(const Tasted& tasted, const std::vector<Tasting>& tastings);

}  // namespace barm::taste
