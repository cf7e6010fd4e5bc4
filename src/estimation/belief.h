#pragma once
// What is believed of a culture, a flour and their numbers before a dough is read: the parameters
// of the model, jointly normal in ln.
#include <vector>

#include "kinetics/parameter.h"

namespace barm::estimation {

/// Normal in  x = ln(value / book value)  of every kinetics::Parameter, in their order.
struct Belief {
  std::vector<double> mean;        ///< parameter_count
  std::vector<double> covariance;  ///< parameter_count squared, row by row, symmetric

  [[nodiscard]] double sd(kinetics::Parameter parameter) const;
};

/// The same as a prior of the kinetics.
[[nodiscard]] Belief belief_of(const kinetics::JointPrior& prior);

/// A belief as a prior of the kinetics, and so as what a forecast starts from.
[[nodiscard]] kinetics::JointPrior prior_of(const Belief& belief);

/// The published figures: every parameter at its value with its own doubt, none tied to another.
[[nodiscard]] Belief published_belief();

/// What a bakery starts from: the published figures after what practice says of known doughs.
[[nodiscard]] Belief day_one_belief();

}  // namespace barm::estimation
