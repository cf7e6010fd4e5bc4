#pragma once
// One geometry for slab, cylinder, sphere and any dough between.
#include "units/quantity.h"

namespace barm::heat {

/// Heat flows along one coordinate r from the middle (0) to the surface (R), through an area that
/// grows as r^n:  n = 0 slab, 1 cylinder, 2 sphere, and what lies between for what is none of them.
///
///     n = R A/V - 1
///
/// with R the shortest way from the middle to the surface, so that volume over surface is right.
/// The
/// equivalent shape factor of chilling and freezing. Source: remembered. Checked against:
/// tests/heat/material_test.cpp.
struct Shape {
  double exponent = 2;
  Length radius;

  /// V/A = R/(n + 1)
  [[nodiscard]] Length volume_over_surface() const { return radius / (exponent + 1); }
};

[[nodiscard]] Shape slab(Length thickness);
[[nodiscard]] Shape sphere(Volume volume);

/// Heat goes through the side, the top and the bottom alike.
[[nodiscard]] Shape standing_cylinder(Volume volume, Length diameter);

/// A round loaf: a spheroid so many times as high as wide, 0 < flatness <= 1.
[[nodiscard]] Shape loaf(Volume volume, double flatness);

/// The width of a standing cylinder so many times as high as wide.
[[nodiscard]] Length width_of(Volume volume, double height_over_width);

/// The height of that much in a straight-walled jar: h = V / (pi d^2/4).
[[nodiscard]] Length height_in(Volume volume, Length diameter);

}  // namespace barm::heat
