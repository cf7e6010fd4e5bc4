#pragma once
// What comes through, as a baker says it.
#include <string>
#include <vector>

#include "taste/taste.h"

namespace barm::taste {

/// "a fifth", "half", "three quarters": a share in words, to the nearest that bakers use.
[[nodiscard]] std::string share_in_words(double share);

/// "its fruit is nearly gone; of its honey note a fifth; rose and walnut stay; its acidity stays".
/// Only notes that the drink itself smells of; the four strongest of each kind. Empty without a
/// drink.
[[nodiscard]] std::string in_a_line(const Tasted& tasted);

/// One note in a sentence: how much of it is left, how strong that is, what covers it.
[[nodiscard]] std::string sentence(const Note& note);

/// One sense in a sentence.
[[nodiscard]] std::string sentence(const Sense& sense);

/// "hardly anyone", "1 in 4 tasters", "3 of 4 tasters", "nearly everyone".
[[nodiscard]] std::string tasters(double share);

}  // namespace barm::taste
