#pragma once
#include <array>
#include <cstddef>

namespace barm::kinetics {

/// The state of a kilogram of dough, in this order.
enum State : std::size_t {
  wild_yeast,    ///< [g dry]
  bakers_yeast,  ///< [g dry]
  bacteria,      ///< [g dry]
  wild_awake,    ///< adjustment alpha = q/(1+q) of Baranyi & Roberts, 0..1
  bakers_awake,
  bacteria_awake,
  hexose,           ///< [mmol]
  maltose,          ///< [mmol hexose]
  maltose_to_come,  ///< [mmol hexose] still in the flour
  yeast_gas,        ///< [mmol] CO2 made by yeasts so far
  bacteria_sugar,   ///< [mmol] hexose used by bacteria so far
  gas_held,         ///< [mmol] CO2 in the dough, dissolved and in bubbles
  strength,         ///< of the gluten, 0..1
  acidity,          ///< pH
  free_sulphite,    ///< [mg]
  pentosans,        ///< what is left of their hold, 0..1
  inside_fruit,     ///< share of whole fruit's sugar and acid that is not out yet, 0..1
  state_count
};

template <class T>
using StateOf = std::array<T, state_count>;

}  // namespace barm::kinetics
