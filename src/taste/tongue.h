#pragma once
// What the tongue has of a bread: sour, bitter, sweet, and the drink's part in it.
#include <string>
#include <string_view>
#include <vector>

#include "taste/contents.h"
#include "taste/luck.h"
#include "taste/passage.h"

namespace barm::taste {

/// How the dough stands when it goes in, brought and made [per kg dough].
struct AtTheOven {
  double ph = 5;
  double lactate = 0;  ///< [mol]
  double acetate = 0;  ///< [mol]
  double sugar = 0;    ///< [g] that the ferment has left
  bool known = false;  ///< false: only what was brought is used
};

/// One sense: how many times what is just noticed.
struct Sense {
  std::string_view what = {};              ///< "sour", "bitter", "sweet"
  std::string_view most = {};              ///< what brings most of it, "malic acid"
  double low = 0, strength = 0, high = 0;  ///< four of five
  double of_drink = 0;                     ///< the drink's part of the middle
  double left = 1;                         ///< of what the drink brought
  double noticed = 0;                      ///< share of tasters who notice the whole
  double noticed_drink = 0;                ///< share who would notice the drink's part alone
  std::vector<double> drink = {};  ///< of each draw: the drink's part, 0 where the rest covers it
  std::string_view source = {};    ///< of the threshold
};

struct Tongue {
  std::vector<Sense> senses;  ///< sour, bitter, sweet
};

/// One kilogram of bread in a litre:
///
///     sour = [H+] + sum of the molecules with an undissociated acid group, over 0.6 mmol/L   (10)
///     bitter = the largest of what is free of each over its threshold                        (11)
///     sweet = sugar left over glucose's threshold + glycerol over its own                    (12)
///
/// Of acetic acid what baking leaves of it; sugar counts as glucose. The threshold is drawn, and
/// the tongue. Source: neta2007, sour_h_ion, kolpin2009, wang2004. Checked against:
/// tests/taste/tongue_test.cpp.
[[nodiscard]] Tongue tongue(const Contents& contents,
                            const Baking& baking,
                            const AtTheOven& dough,
                            double acetic_left,
                            Luck& luck);

/// Molecules of an acid that still have an acid group, as a share of all.
[[nodiscard]] double with_acid_group(chemistry::Acid acid, double ph, double ionic_strength);

}  // namespace barm::taste
