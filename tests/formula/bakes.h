#pragma once
// Bakes for the tests of the formula: short files, read as a baker would write them.
#include <gtest/gtest.h>

#include <string>

#include "formula/bowl.h"
#include "formula/read.h"
#include "support/matchers.h"
#include "support/printers.h"
#include "units/units.h"

namespace barm::formula::test {

/// The bake of that text; the test fails when it cannot be read.
inline Bake bake(const std::string& text) {
  const auto read = parse_bake(text, "test.toml");
  if (read) return *read;
  ADD_FAILURE() << read.error().text();
  return {};
}

inline Bowl bowl(const Bake& of) {
  const auto in = in_the_bowl(of);
  if (in) return *in;
  ADD_FAILURE() << in.error().text();
  return {};
}

inline Bowl bowl(const std::string& text) { return bowl(bake(text)); }

/// The line of the bowl with that name.
inline const Weighed& line(const Bowl& of, const std::string& name) {
  for (const Weighed& one : of.lines) {
    if (one.name == name) return one;
  }
  ADD_FAILURE() << "no line " << name;
  static const Weighed none;
  return none;
}

inline double grams(Mass mass) { return mass.in(gram); }

inline Bake example(const std::string& name) {
  const auto read = read_bake(std::string(BARM_ROOT) + "/examples/" + name);
  if (read) return *read;
  ADD_FAILURE() << read.error().text();
  return {};
}

/// Straight dough without a levain, so that every weight can be checked by head.
inline const std::string plain = R"(flour = "1 kg"
[bowl]
"white bread flour" = "100 %"
water = "65 %"
salt = "2 %"
"fresh yeast" = "1 %"
)";

/// Half of the liquid a mead of known strength.
inline const std::string mead = R"(flour = "1 kg"
[bowl]
"white bread flour" = "100 %"
liquid = "70 %"
"dry mead" = "50 % of the liquid"
water = "rest of the liquid"
salt = "2 %"
[bottle."dry mead"]
strength = "11.5 % vol"
)";

/// A second drink beside it, which leaves mead and water four fifths of the liquid.
inline const std::string two_drinks = R"(flour = "1 kg"
[bowl]
"white bread flour" = "100 %"
liquid = "70 %"
"dry mead" = "40 % of the liquid"
"apple juice" = "20 % of the liquid"
water = "rest of the liquid"
salt = "2 %"
"fresh yeast" = "1 %"
)";

}  // namespace barm::formula::test
