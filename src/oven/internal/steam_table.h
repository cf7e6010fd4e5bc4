#pragma once

// What the layers of a loaf look up many thousand times: pressures and volatility, from tables laid
// once.

namespace barm::oven {

/// Vapour pressure of water [Pa] from -10 to 130 C, between rows a degree apart.
[[nodiscard]] double water_pressure(double celsius);

/// How many times faster ethanol leaves a boiling mixture than water, by the share of each that is
/// there: d ln e = a d ln w. From boiling_point() at 1 atm; `ethanol` and `water` in one unit of
/// mass.
[[nodiscard]] double relative_volatility(double ethanol, double water);

/// Depth [m] from which water reaches the surface before it boils.
[[nodiscard]] double hot_skin();

[[nodiscard]] double stefan_boltzmann();

}  // namespace barm::oven
