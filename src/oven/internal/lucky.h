#pragma once
#include <cmath>

namespace barm::oven {

/// A constant with its doubt drawn: `luck` is a standard normal number.
template <class Constant>
double lucky(const Constant& constant, double luck) {
  return constant.value.si() * std::exp(constant.doubt * luck);
}

}  // namespace barm::oven
