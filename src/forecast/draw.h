#pragma once
// One dough out of the many that the bake may turn out to be.
#include <functional>
#include <vector>

#include "base/result.h"
#include "forecast/levain.h"
#include "forecast/options.h"
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

/// Draws number `first` and on of a bake, so many, the same whoever makes them and however many are
/// made at once. Number -1 is the middle of the prior and typical ingredients. What the bake tells
/// of its levain's own rise goes into the prior first (levain_told.h). Of `options` count the seed,
/// the prior, threads and what stops it. Errors: bad_input (from the bowl), those of fermented().
[[nodiscard]] Result<std::vector<Draw>> draws(const formula::Bake& bake,
                                              const Options& options,
                                              int first,
                                              int count);

/// One of them alone.
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

/// What a dough is to be: its parameters, and standard normal numbers, asked one after the other,
/// that settle what is not known of its bottles and its levain.
struct Asked {
  kinetics::Parameters<double> parameters;
  std::function<double()> normal;
};

/// For Asked::normal: all as it is typical.
[[nodiscard]] double all_typical();

/// Doughs of a bake, their levains run in lanes: `asked` says what each of them is to be. Errors:
/// those of `asked`, bad_input (from the bowl), those of fermented().
[[nodiscard]] Result<std::vector<Draw>> doughs_of(
    const formula::Bake& bake,
    std::size_t count,
    const std::function<Result<Asked>(std::size_t)>& asked,
    const Together& together);

/// One of them alone.
[[nodiscard]] Result<Draw> draw_of(const formula::Bake& bake,
                                   const kinetics::Parameters<double>& parameters,
                                   const std::function<double()>& normal = all_typical);

/// The same dough without these things in its bowl (dough_of.h). Errors: bad_input.
[[nodiscard]] Result<Draw> without(const formula::Bake& bake,
                                   Draw drawn,
                                   const std::vector<kinetics::Factor>& factors);

}  // namespace barm::forecast
