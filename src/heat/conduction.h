#pragma once
// How a dough takes on the temperature of the place it stands in.
//
//     const Body loaf{material(makeup, celsius(20), 0.4), heat::loaf(1.2 * litre, 0.5), 5.5};
//     const Warmed cold = warm(loaf, even(celsius(24)), fridge, {}, 12.0 * hour);
//     cold.track();                    // what the kinetics take
#include <vector>

#include "heat/material.h"
#include "heat/place.h"
#include "heat/shape.h"

namespace barm::heat {

/// A dough as heat sees it.
struct Body {
  Material material;
  Shape shape;
  double transfer = 6;  ///< h [W/(m2 K)] over its whole surface, convection and radiation together
};

/// The temperatures [C] of equally thick layers from the middle to the surface; one is enough when
/// all are alike.
using Profile = std::vector<double>;

struct Method {
  int layers = 16;
  Time step = 0.1 * hour;
  int doubles_after = 0;  ///< so many steps, then as many twice as long, and so on, up to sixteen
                          ///< times: a dough comes to rest; 0: never
};

/// One moment of it [C].
struct WarmthAt {
  double hours = 0;
  double middle = 0;
  double surface = 0;
  double mean = 0;     ///< by volume
  double working = 0;  ///< at which the whole would ferment as fast as its layers do together
};

struct Warmed {
  std::vector<WarmthAt> moments;  ///< each step, the first at 0
  Profile end;
  double through_surface = 0;  ///< [J/kg] that came in (out: below zero)
  double made = 0;             ///< [J/kg] by fermentation

  /// The working temperatures.
  [[nodiscard]] std::vector<ProbeReading> readings() const;

  /// The same in steps.
  [[nodiscard]] Track track(double step = Track::usual_step) const;
};

/// Conduction along one coordinate with constant properties, from a profile, for so long.
///
///     rho cp dT/dt = r^-n d/dr (r^n k dT/dr) + rho q,      -k dT/dr = h (T - T_place)  at r = R
///
/// Finite volumes in space; in time the trapezoidal rule and a backward difference of second order
/// in each step (TR-BDF2): second order in both, stable for any step, and without the ringing of
/// Crank and Nicolson. The matrix is factored once. Heat is kept to rounding:
/// cp (change of the mean) = through_surface + made. Bank and others, 1985. Source: remembered.
/// Checked against: tests/truth/conduction_test.cpp, tests/laws/conduction_test.cpp.
[[nodiscard]] Warmed warm(const Body& body,
                          const Profile& start,
                          const Place& place,
                          const std::vector<Warming>& warming,
                          Time lasts,
                          const Method& method = {});

/// Equally warm throughout.
[[nodiscard]] inline Profile even(Temperature temperature) { return {temperature.celsius()}; }

/// The mean by volume of a profile in this shape [C].
[[nodiscard]] double mean_celsius(const Profile& profile, const Shape& shape);

}  // namespace barm::heat
