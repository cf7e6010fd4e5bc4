#pragma once
// What can be read off a dough. A number beyond it is a slip of the hand or of the meter: whoever
// takes a reading refuses it, and whoever finds one leaves it out.
#include "units/units.h"

namespace barm {

struct Readable {
  double low, high;

  [[nodiscard]] constexpr bool holds(double value) const { return value >= low && value <= high; }
};

inline constexpr Readable readable_height_mm{1, 1000};  ///< of a sample in its jar
inline constexpr Readable readable_ratio{0.2, 20};      ///< of heights
inline constexpr Readable readable_warmth_C{-5, 60};    ///< of a dough or its room
inline constexpr Readable readable_ph{2.5, 8.5};        ///< of a dough

}  // namespace barm
