#pragma once
// How much of the carbon dioxide is in bubbles, and how large the dough is.
#include "numerics/generic.h"

namespace barm::kinetics {

/// Constants of the split between water and bubbles at one temperature and 1 atm, per kg of dough.
template <class T>
struct GasTerms {
  T air{0.0};              ///< [mmol] trapped in mixing
  T capacity{0.0};         ///< [mmol] CO2 the water holds under pure CO2
  T volume_per_gas{0.0};   ///< [L/mmol] R T / (P - p_w)
  T gas_free_volume{0.0};  ///< [L]
};

/// CO2 in bubbles [mmol] when `held` mmol are in the dough, at equilibrium (docs/model/kinetics.md
/// eq. 12):
///     N - n = K n / (n + n_air)   =>   n = ( -(n_air + K - N) + sqrt((n_air + K - N)^2 + 4 N
///     n_air) ) / 2
template <class T>
inline T gas_in_bubbles(const T& held, const GasTerms<T>& gas) {
  using std::sqrt;
  const T b = gas.air + gas.capacity - held;
  return (sqrt(b * b + T(4.0) * held * gas.air) - b) * 0.5;
}

/// Volume of a kilogram of dough [L].
template <class T>
inline T volume(const T& held, const GasTerms<T>& gas) {
  return gas.gas_free_volume + (gas_in_bubbles(held, gas) + gas.air) * gas.volume_per_gas;
}

}  // namespace barm::kinetics
