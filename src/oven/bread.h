#pragma once
// A loaf in layers from the middle to the crust, and one step of heat and water through them.
#include <vector>

#include "heat/shape.h"

namespace barm::oven {

/// How heat passes in this loaf. All [W/(m K)], temperatures [C].
struct Passing {
  double cold = 0.2;   ///< of the dough as it goes in
  double gain = 0.9;   ///< what moving vapour adds in a hot crumb
  double crust = 0.2;  ///< dry
  double gain_at = 80, gain_slope = 0.1;
  double pump = 0;  ///< [1/s] alcohol carried out of a hot crumb
};

/// What surrounds it.
struct Around {
  double air = 20, walls = 20, stone = 20;  ///< [C]
  double convection = 5;                    ///< [W/(m2 K)]
  double emissivity = 0.9;
  double on_stone = 0, contact = 0;  ///< share of the surface [1], and h there [W/(m2 K)]
  double dew_point = 95, steam = 0;  ///< [C], [W/(m2 K)]: condensing on what is colder
  double vapour = 0;                 ///< [Pa] of water in the air
  double drying = 0;                 ///< [kg/(s m2 Pa)]; 0: covered, or too dry to matter
};

/// What went through the surface in a step, per m2 of it. All that comes in counts above zero.
struct Through {
  double heat = 0;        ///< [J/m2] by convection, radiation and contact, and by condensing
  double with_water = 0;  ///< [J/m2] that vapour and condensate carried, against liquid at the boil
  double water = 0;       ///< [kg/m2] below zero: left
  double ethanol = 0;     ///< [kg/m2] that left
  int rounds = 0;         ///< of Newton
};

struct Mesh {
  int layers = 44;
  double grading = 1.6;  ///< 1: equally thick; more: finer towards the crust
};

/// One loaf. The state of a layer is X, the heat it took up per kilogram of dry matter, worked out
/// from boiling, and w, the water it holds when it begins to boil:
///
///     X < 0                    T = T_b + X/(c_s + w c_w),             W = w
///     0 <= X <= L (w - w_c)    T = T_b + d X/(L (w - w_c)),           W = w - X/L
///     above                    T = T_b + d + (X - L (w - w_c))/(c_s + w_c c_w),   W = w_c
///
///     rho_s dX/dt = r^-n d/dr( r^n k dT/dr ),     k dT/dr = sum of h (T_around - T)  at r = R
///
/// Finite volumes; backward Euler with k of the step's beginning; X by Newton's method, which for a
/// straight-lined T(X) that only rises ends after a few rounds. Vapour leaves at once; what it
/// takes up on its way through the crust is not counted. Checked against:
/// tests/oven/bread_test.cpp, tests/truth/oven_test.cpp.
class Bread {
 public:
  /// None yet; to be assigned to.
  Bread() = default;

  /// `dry_density` [kg/m3] of the loaf's volume; `water`, `ethanol` [kg/kg dry]; `celsius`
  /// throughout.
  Bread(const heat::Shape& shape,
        double dry_density,
        double water,
        double ethanol,
        double celsius,
        const Passing& passing,
        const Mesh& mesh = {});

  Through step(double seconds, const Around& around);

  [[nodiscard]] double core() const { return celsius_.front(); }

  [[nodiscard]] double surface() const { return surface_; }

  [[nodiscard]] const std::vector<double>& celsius() const { return celsius_; }

  /// Volume of each layer, of m3 per m2 of surface.
  [[nodiscard]] const std::vector<double>& volumes() const { return volume_; }

  /// Means over the dry matter.
  [[nodiscard]] double water() const;    ///< [kg/kg dry]
  [[nodiscard]] double ethanol() const;  ///< [kg/kg dry]
  /// What would be left if the pump had been so many times as strong; what boiling takes alike.
  [[nodiscard]] double ethanol_if_pumped(double times) const;
  [[nodiscard]] double heat() const;  ///< [J/kg dry] X
  [[nodiscard]] double mean_celsius() const;

  /// Of dry crust from the surface in [m]; a layer counts by how dry it is.
  [[nodiscard]] double crust() const;

  /// Alcohol and water in the layers drier than half, over the whole loaf's [kg/kg dry].
  [[nodiscard]] double ethanol_in_crust() const;

  /// Dry matter per m2 of surface [kg/m2].
  [[nodiscard]] double dry() const { return dry_; }

  /// Lets vapour through the crust from the moist layer next to it [kg/(s m2 Pa)]; what left
  /// [kg/m2].
  double dry_through_crust(double seconds, double passes, double vapour_outside);

  /// What has boiled stays away: from here on the loaf cools.
  void come_out();

 private:
  [[nodiscard]] double temperature(std::size_t i, double x) const;
  [[nodiscard]] double water_of(std::size_t i) const;
  [[nodiscard]] double dryness(std::size_t i) const;
  [[nodiscard]] double conductivity(std::size_t i) const;
  void conductances();
  void warm_through();
  void lay_out();
  void look_up();
  int solve(double seconds, double at_surface, double offset);
  double draw_water(double mass);
  [[nodiscard]] double in_skin(std::size_t i) const;
  [[nodiscard]] double spare(std::size_t i) const;
  [[nodiscard]] double skin_water() const;   ///< that can still dry [kg/kg dry]
  [[nodiscard]] double dry_in_skin() const;  ///< [kg/m2]
  void settle(double seconds, Through& through);

  Passing passing_;
  double density_ = 0, dry_ = 0, start_water_ = 0;
  double exponent_ = 1, radius_ = 0.05;
  std::vector<double> volume_, area_, before_, behind_, in_skin_;  ///< geometry, per m2 of surface
  std::vector<double> x_, w_, kept_, ln_pumped_, celsius_, held_;  ///< kept_: of its ethanol, 0..1
  std::vector<double> active_;   ///< how far its vapour moves, 0..1
  std::vector<double> between_;  ///< [W/(m2 K)] of each inner face, times its area
  std::vector<double> slope_, warms_, boils_off_, start_, upper_, right_;  ///< of a step
  double outer_ = 0;  ///< [W/(m2 K)] from the last layer's middle to the surface
  double surface_ = 20, start_ethanol_ = 0;
};

}  // namespace barm::oven
