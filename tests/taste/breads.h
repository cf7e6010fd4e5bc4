#pragma once
// Breads for the tests of what comes through.
#include "formula/bakes.h"
#include "taste/taste.h"

namespace barm::taste::test {

using formula::test::bake;

/// A kilogram of flour with so much of a drink and water, two loaves.
inline std::string loaf(const std::string& drink,
                        int grams,
                        int water,
                        const std::string& more = "") {
  std::string text = "pieces = 2\n[bowl]\n\"white bread flour\" = \"1 kg\"\n";
  if (grams > 0) text += "\"" + drink + "\" = \"" + std::to_string(grams) + " g\"\n";
  if (water > 0) text += "water = \"" + std::to_string(water) + " g\"\n";
  return text + "salt = \"20 g\"\n\"fresh yeast\" = \"10 g\"\n" + more;
}

inline Contents contents_of(const formula::Bake& of) {
  const auto settled = formula::settle(of);
  const auto bowl = formula::in_the_bowl(of, *settled);
  return contents(of, *bowl, *settled);
}

inline Tasted tasted_of(const std::string& text, double loss = 0.1, int draws = 200) {
  const Contents in = contents_of(bake(text));
  Luck luck(draws, 1);
  const auto out = tasted({.contents = &in, .baking = usual_baking(loss), .dough = {}}, luck);
  if (out) return *out;
  ADD_FAILURE() << out.error().text();
  return {};
}

inline const Note& note(const Tasted& of, std::string_view family) {
  for (const Note& one : of.notes) {
    if (one.family == family) return one;
  }
  ADD_FAILURE() << "no note " << family;
  static const Note none;
  return none;
}

}  // namespace barm::taste::test
