#pragma once
// What every drawn loaf takes along, and what comes of all of them around the loaf itself: the
// vapour in the oven, the rack.
#include <functional>
#include <vector>

#include "oven/draws.h"
#include "oven/internal/laid.h"

namespace barm::oven {

inline constexpr double never = 1e9;  // [s]

/// One drawn loaf: where it lies among the solved, and what only scales its answers.
struct Drawn {
  Z z{};
  double gas = 1, brown = 1, vent = 0, rack = 0;
  std::vector<double> core;  ///< [C] at each moment
};

[[nodiscard]] Range range_of(std::vector<double> values);

/// Each of so many pieces of work once, on so many threads; 0: all of the machine's.
void each(std::size_t count, int threads, const std::function<void(std::size_t)>& work);

/// Many::vapour, vented, warned. `kept`: of the alcohol, by each draw.
void vent(const Oven& oven,
          Mass ethanol,
          const std::vector<Drawn>& draws,
          const std::vector<double>& kept,
          Many& out);

/// Many::cut, bag and their ranges, cooled, cooling_loss.
void let_cool(
    const Loaf& loaf, Temperature room, const std::vector<Drawn>& draws, int threads, Many& out);

}  // namespace barm::oven
