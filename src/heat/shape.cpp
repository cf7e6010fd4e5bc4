#include "heat/shape.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/require.h"

namespace barm::heat {

namespace {

using std::numbers::pi;

Shape shape_of(double shortest, double surface, double volume) {
  return {std::max(0.0, shortest * surface / volume - 1), Length::from_si(shortest)};
}

}  // namespace

Shape slab(Length thickness) {
  require(thickness.si() > 0, "a slab has a thickness");
  return {0, thickness / 2};
}

Shape sphere(Volume volume) {
  require(volume.si() > 0, "a sphere has a volume");
  return {2, Length::from_si(std::cbrt(volume.si() * 3 / (4 * pi)))};
}

Shape standing_cylinder(Volume volume, Length diameter) {
  const double d = diameter.si();
  const double h = height_in(volume, diameter).si();
  return shape_of(std::min(d, h) / 2, pi * d * h + pi * d * d / 2, volume.si());
}

//  V = 4/3 pi a^2 c,   A = 2 pi a^2 (1 + (1 - e^2)/e artanh e),   e^2 = 1 - (c/a)^2
Shape loaf(Volume volume, double flatness) {
  require(volume.si() > 0 && flatness > 0 && flatness <= 1, "a loaf is at most as high as wide");
  const double a = std::cbrt(volume.si() * 3 / (4 * pi * flatness));
  const double c = flatness * a;
  const double e = std::sqrt(1 - flatness * flatness);
  const double bulge = e > 1e-6 ? flatness * flatness / e * std::atanh(e) : 1;
  return shape_of(c, 2 * pi * a * a * (1 + bulge), volume.si());
}

Length width_of(Volume volume, double height_over_width) {
  require(volume.si() > 0 && height_over_width > 0, "a dough has a volume and a height");
  return Length::from_si(std::cbrt(volume.si() * 4 / (pi * height_over_width)));
}

Length height_in(Volume volume, Length diameter) {
  require(volume.si() > 0 && diameter.si() > 0, "a jar has a width, and something in it");
  return Length::from_si(volume.si() / (pi / 4 * diameter.si() * diameter.si()));
}

}  // namespace barm::heat
