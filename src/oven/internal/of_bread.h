#pragma once
// What the layers of a loaf are, in plain numbers: [C], [J/kg], [J/(kg K)], [kg/kg].
#include "generated/constants.h"

namespace barm::oven::of_bread {

inline constexpr double boils = constants::hot::boils.value.celsius();
inline constexpr double bound = constants::hot::bound.value.si();
inline constexpr double dries_over = constants::hot::dries_over.value.si();
inline constexpr double latent = constants::hot::vaporisation.value.si();
inline constexpr double solid = constants::hot::solid_capacity.value.si();
inline constexpr double liquid = constants::hot::water_capacity.value.si();
inline constexpr double vapour = constants::hot::vapour_capacity.value.si();
inline constexpr double crust_capacity = solid + bound * liquid;
inline constexpr double wet_skin = 0.25;  // [kg/kg] of free water below which drying slows down
inline constexpr double nearly_dry =
    1e-6;  // [kg/kg] over the bound water: no range left to boil in

}  // namespace barm::oven::of_bread
