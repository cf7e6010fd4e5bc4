#pragma once
// Whole bottles: what an opened one's rest costs, and how many loaves use bottles up.
#include <cstdint>
#include <span>
#include <vector>

#include "shop/money.h"
#include "units/units.h"

namespace barm::shop {

/// A size in which a drink can be bought. Contents count in tenths of a millilitre, rounded down.
struct BottleSize {
  std::int64_t tenths = 0;
  Cash price;
};

/// Bottles to buy for so many loaves.
struct BottlePlan {
  int loaves = 0;
  std::vector<std::int64_t> bottles;  ///< of each size
  std::int64_t rest_tenths = 0;       ///< left over
  Cash price;                         ///< of all bottles
  Cash rest;                          ///< of what is left over, at the plan's mean price
  Cash loaf;                          ///< price over loaves: the rest poured away
};

/// The cheapest bottles that hold `needed` tenths of a millilitre together; of equally cheap ones
/// those that leave least. Exact, by dynamic programming over the greatest common measure of the
/// sizes (equation 6 of docs/model/shop.md):
///
///     f(v) = min over sizes (f(v - size) + price),  f(v <= 0) = 0
///
/// Range: sizes of at least 1 mL, at most 2e6 steps. Empty when no size holds anything.
/// Checked against: tests/shop/bottles_test.cpp (every combination tried).
[[nodiscard]] std::vector<std::int64_t> cheapest_cover(std::int64_t needed,
                                                       std::span<const BottleSize> sizes);

/// The plan for each number of loaves from 1 to `most`; `loaf_tenths` is what one loaf needs,
/// rounded up.
[[nodiscard]] std::vector<BottlePlan> bottle_plans(double loaf_tenths,
                                                   int most,
                                                   std::span<const BottleSize> sizes);

/// The plan that costs least a loaf; of equal ones the one with fewer loaves.
[[nodiscard]] const BottlePlan& cheapest(std::span<const BottlePlan> plans);

/// The first plan that leaves at most this share of what is bought, or nullptr.
[[nodiscard]] const BottlePlan* first_whole(std::span<const BottlePlan> plans, double share);

}  // namespace barm::shop
