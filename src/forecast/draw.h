#pragma once
// One dough out of the many that the bake may turn out to be.
#include <vector>

#include "base/result.h"
#include "formula/bowl.h"
#include "kinetics/dough.h"
#include "kinetics/parameter.h"
#include "larder/composition.h"

namespace barm::forecast {

/// One dough drawn from the priors: its parameters, its bowl, how it takes on warmth.
struct Draw {
  kinetics::Parameters<double> parameters;
  std::vector<larder::Composition> settled;
  formula::Bowl bowl;
  kinetics::Dough dough;
  double transfer_luck =
      0;  ///< standard normal: how much faster than the published figures heat goes in and out
};

/// Draw number `index` of a bake, the same whoever makes it; index < 0 gives the middle of the
/// prior and typical ingredients. What the bake tells of its levain's own rise goes into the prior
/// first (levain_told.h).
[[nodiscard]] Result<Draw> draw(const formula::Bake& bake,
                                unsigned long long seed,
                                int index,
                                const kinetics::JointPrior& prior = kinetics::day_one());

/// The parameters of that draw alone.
[[nodiscard]] Result<kinetics::Parameters<double>> parameters_of(
    const formula::Bake& bake,
    unsigned long long seed,
    int index,
    const kinetics::JointPrior& prior = kinetics::day_one());

/// The dough of these parameters, what is not known of its bottles and its levain settled by
/// standard normal numbers; with all of them 0 they are as typical.
[[nodiscard]] Result<Draw> draw_of(const formula::Bake& bake,
                                   const kinetics::Parameters<double>& parameters,
                                   const std::function<double()>& normal);

}  // namespace barm::forecast
