#pragma once
// How a failing test shows our types; GoogleTest would print their bytes.
#include <ostream>

#include "units/fraction.h"
#include "units/quantity.h"
#include "units/temperature.h"

namespace barm {

template <Dimension D>
void PrintTo(Quantity<D> quantity, std::ostream* out) {
  *out << quantity.si() << " (SI)";
}

template <class Kind>
void PrintTo(Fraction<Kind> fraction, std::ostream* out) {
  *out << fraction.percent() << " %";
}

inline void PrintTo(Temperature temperature, std::ostream* out) {
  *out << temperature.celsius() << " °C";
}

inline void PrintTo(Ph ph, std::ostream* out) { *out << "pH " << ph.value(); }

}  // namespace barm
