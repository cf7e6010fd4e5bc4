#pragma once
// A loaf and an oven that the tests bake.
#include "oven/oven.h"

namespace barm::oven {

inline Loaf usual_loaf() {
  Loaf loaf;
  loaf.makeup = {.water = 0.45,
                 .protein = 0.07,
                 .fat = 0.01,
                 .carbohydrate = 0.42,
                 .fibre = 0.02,
                 .ash = 0.018,
                 .ethanol = 0.012};
  return loaf;
}

inline Oven oven_at(double celsius) {
  Oven oven;
  oven.set = {{Time{}, Temperature::from_celsius(celsius)}};
  return oven;
}

}  // namespace barm::oven
