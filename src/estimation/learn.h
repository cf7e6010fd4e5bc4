#pragma once
// What readings teach about a dough: many doughs that agree with them, each with its weight.
// docs/model/estimation.md 4.
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/result.h"
#include "estimation/dough_to_read.h"
#include "estimation/readings.h"

namespace barm::estimation {

/// How the draws were come by, from the cheapest on.
enum class Method {
  prior,     ///< no readings: the belief itself
  laplace,   ///< importance draws around the best fit
  adapted,   ///< the same after the proposal has learnt from its own draws
  ensemble,  ///< walkers that move by each other (Goodman & Weare)
};

[[nodiscard]] std::string_view name(Method method);

struct LearnOptions {
  int draws = 6000;
  unsigned long long seed = 1;
  int threads = 0;             ///< 0: as many as the machine has
  double least_effective = 0;  ///< else the next method is tried; 0: an eighth of the draws
  bool walk = true;            ///< whether the ensemble may be tried at all
  std::function<bool()> cancelled = nullptr;  ///< asked now and then; true stops the work
  bool until_past = false;                    ///< Timeline::past_hours of the outlook are wanted,
  std::optional<Time> wait = {};              ///< looked for so long
};

/// How much is known of one unknown before and after.
struct Taught {
  std::string name;   ///< "speed of the wild yeast"
  double before = 1;  ///< sd
  double after = 1;   ///< sd
  double shift = 0;   ///< of the mean, in the same unit
};

/// Draws z of the unknowns, row by row, with weights.
struct Learned {
  Method method = Method::prior;
  std::size_t dimension = 0;
  std::vector<double> z;          ///< draws x dimension
  std::vector<double> weight;     ///< sum 1
  double k_hat = 0;               ///< of the importance draws
  double r_hat = 1;               ///< of the walkers: how far their flocks lie apart
  double effective = 0;           ///< draws of equal weight that are worth as much
  double log_evidence = 0;        ///< ln p(readings); of the importance draws, also for an ensemble
  std::vector<double> best;       ///< z of the most probable dough
  std::vector<double> curvature;  ///< J'J of the data there, dimension squared
  double noise = 1;               ///< likely error of the readings over what is usual
  double misfit = 0;              ///< root mean square of the best fit's residuals, in their doubt
  std::vector<Taught> parameters;  ///< in the order of DoughToRead::parameters

  /// Whether the draws stand for what is believed: walkers whose flocks still differ do not.
  [[nodiscard]] bool settled() const { return r_hat < 1.1; }

  [[nodiscard]] std::size_t draws() const { return weight.size(); }

  [[nodiscard]] std::span<const double> draw(std::size_t i) const {
    return std::span(z).subspan(i * dimension, dimension);
  }
};

/// Errors: no_convergence when no dough of the belief can be run at all, cancelled.
[[nodiscard]] Result<Learned> learn(const DoughToRead& batch,
                                    const Readings& readings,
                                    const LearnOptions& options = {});

/// ln p(readings | z) of many draws at once, by lanes; z row by row. Minus infinity where a run
/// fails. Errors: cancelled.
[[nodiscard]] Result<std::vector<double>> log_likelihood(const DoughToRead& batch,
                                                         const Readings& readings,
                                                         std::span<const double> z,
                                                         const LearnOptions& options = {});

/// The parameters and the dough of one draw; its sample's temperature and drag play no part in the
/// bulk.
struct Drawn {
  kinetics::Parameters<double> parameters;
  kinetics::Dough dough;
};

[[nodiscard]] Drawn drawn(const DoughToRead& batch, std::span<const double> z);

/// What a baker would read off a sample that runs as draw z says, at these hours: heights in mm
/// over a start of `start_mark`, with errors by `normal()` when given. For trials of the estimator.
[[nodiscard]] Result<Readings> simulated(const DoughToRead& batch,
                                         std::span<const double> z,
                                         std::span<const double> hours,
                                         Length start_mark,
                                         const std::function<double()>& normal = nullptr);

}  // namespace barm::estimation
