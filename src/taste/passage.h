#pragma once
// The passage of a scent from the drink through proof, oven and mouth. docs/model/taste.md (1) to
// (9).
#include <optional>

#include "base/result.h"
#include "taste/scent.h"

namespace barm::taste {

/// What a kilogram of dough is made of, as far as a scent cares [kg/kg].
struct Phases {
  double water = 0;      ///< all of it
  double dry_flour = 0;  ///< flour without its water
  double fat = 0;        ///< that a scent can reach: the flour's in part, all other
};

/// Four of five draws lie between the ends.
struct Range {
  double p10 = 0, p50 = 0, p90 = 0;
};

/// How a dough is baked and how it stands before; what is not known has a default of the data.
struct Baking {
  double loss = 0.12;                 ///< of the dough's weight, 0..1
  std::optional<double> crust_share;  ///< of the dough; empty: by the loss, (6)
  double vented = 0;                  ///< share of the crumb's water that leaves
  double crust_depth = 0;             ///< ln of the crust's water before over after
  double gas = 0;                     ///< that leaves until then [L/kg]
  double ph = 5;                      ///< of the dough when it goes in
  double starch_share = 0;            ///< of what its weight of fat would hold
  std::optional<Range> alcohol_kept;  ///< share, as the oven says; empty: by the way of its scent
};

/// The data's middle of everything but the loss.
[[nodiscard]] Baking usual_baking(double loss);

/// Share of a scent that is dissolved in the dough's water:
///
///     h = F 10^(0.95 log Kow) + S s 10^(0.55 log Kow)       what fat and flour hold
///     f = u W / (W + h),   u = 1 / (1 + 10^(pH - pKa))      u: of an acid; else 1      (2)
///
/// Range: log Kow -2 to 8. Source: guess. Checked against: tests/truth/taste_oracle_test.cpp.
[[nodiscard]] double free_share(const Scent& scent, const Phases& phases, const Baking& baking);

/// Share of the dough that becomes crust, by the loaf's weight loss L:
///
///     x = (L/W - v) / (1 - e^-E - v),   0 where the crumb alone loses more        (6)
///
/// so that crumb and crust together lose just L. Errors: bad_input where a crust over the whole
/// dough would not lose so much.
[[nodiscard]] Result<double> crust_share(const Phases& phases, const Baking& baking);

/// What is left of a scent at each step, as a share of what the drink brought.
struct Passage {
  double free = 1;      ///< share in the dough's water
  double microbes = 1;  ///< what they leave; above 1 where they make more of it
  double gas = 1;       ///< what the gas of the proof leaves
  double crumb = 1;     ///< of what goes into the oven
  double crust = 1;
  double loaf = 1;  ///< (1 - x) crumb + x crust

  [[nodiscard]] double proved() const { return microbes * gas; }

  [[nodiscard]] double left() const { return proved() * loaf; }
};

/// The way of a scent with these numbers for what is in doubt about it:
///
///     P = B exp(-G K f / W)                                                       (3)
///     crumb = 1 / (1 + a f v),   crust = 1 / (1 + a f E)                          (5)
///     loaf = (1 - x) crumb + x crust                                              (7)
///
/// The crumb's is Rayleigh's d ln m = a f d ln W over a share of vented water that is spread
/// exponentially with mean v. Source: deroos1995, guess. Checked against:
/// tests/truth/taste_oracle_test.cpp, tests/taste/passage_test.cpp.
[[nodiscard]] Passage passage(const Scent& scent,
                              double hcp,
                              double volatility,
                              double microbes,
                              const Phases& phases,
                              const Baking& baking,
                              double crust);

/// With the middle of all that is in doubt. Errors: as crust_share().
[[nodiscard]] Result<Passage> usual_passage(const Scent& scent,
                                            const Phases& phases,
                                            const Baking& baking);

/// By how much chewing and what holds a scent raise its threshold:
///
///     M = m (1 + h),   m = 2                                                      (8)
///
/// Source: guess. Checked against: tests/truth/taste_oracle_test.cpp.
[[nodiscard]] double matrix(const Scent& scent,
                            const Phases& phases,
                            const Baking& baking,
                            double dilution);

/// Share of what a pan holds that is left when `left` of its liquid is, boiled without a lid:
/// left^a (Rayleigh), of an acid by its undissociated share. Source: snitkjaer2017. Checked
/// against: tests/truth/taste_oracle_test.cpp.
[[nodiscard]] double left_in_pan(const Scent& scent, double left, double ph);

}  // namespace barm::taste
