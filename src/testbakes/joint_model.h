#pragma once
// All doughs of a test bake run by one culture: what the jars should read when these causes act and
// those do not. docs/model/testbakes.md 3.
#include <cstdint>
#include <functional>
#include <memory>
#include <vector>

#include "base/result.h"
#include "forecast/many.h"
#include "kinetics/parameter.h"
#include "testbakes/causes.h"
#include "testbakes/observed.h"

namespace barm::testbakes {

/// Which causes act: one bit for each of JointModel::causes().
using Hypothesis = unsigned;

/// One jar whose readings are asked for.
struct JarAsked {
  std::size_t day = 0, dough = 0;
  std::vector<double> hours;
};

/// What is believed of a cause before this test bake.
struct CausePrior {
  Cause cause = Cause::alcohol;
  double half_speed_dose = 1;  ///< middle of what it may be, if the cause acts
  double doubt = 0.7;          ///< sd of its ln
  double power = 2;
  double chance = 0.5;      ///< that it acts at all
  double largest_dose = 0;  ///< in these doughs
  bool what_if = false;     ///< not the published dose, but one that would bite in these doughs
};

/// The priors of the causes asked about. Where the published figures have a half-speed dose that
/// bites in these doughs it is taken; else the question is "what if it bites all the same", with
/// half speed near the largest dose tried. What the published figures answer with no has a chance
/// of 1 in 10, all others of 1 in 2.
[[nodiscard]] std::vector<CausePrior> cause_priors(const std::vector<Rival>& rivals,
                                                   const std::vector<Cause>& causes);

/// Unknowns, all standard normal before the readings: numbers of culture and flour that all doughs
/// share; lag and yeast of each day's levain; a half-speed dose for each cause; the pace of each
/// jar and of each dough as it was mixed on its day, which all of its jars share.
///
///     speed in a jar = speed of the culture * e^{jar + dough} * prod_acting 1 / (1 + (z/z50)^k)
///
/// for all causes but alcohol, which runs through the kinetics themselves (its half-speed dose,
/// end, and weaker gluten), for it grows while the dough ferments.
class JointModel {
 public:
  /// `rivals` as in the test bake; `priors` of the causes asked about.
  JointModel(const std::vector<Rival>& rivals,
             std::vector<CausePrior> priors,
             std::size_t days,
             Temperature temperature,
             int threads = 0);

  /// Settles which jars are asked for; each, and each dough mixed on a day, has an own pace among
  /// the unknowns.
  void ask(std::vector<JarAsked> jars);

  [[nodiscard]] const std::vector<CausePrior>& causes() const { return priors_; }

  [[nodiscard]] const std::vector<JarAsked>& jars() const { return jars_; }

  [[nodiscard]] std::size_t unknowns() const;

  /// Where the half-speed dose of cause c stands among the unknowns.
  [[nodiscard]] std::size_t index_of_cause(std::size_t c) const;

  /// Where the pace of jar j stands.
  [[nodiscard]] std::size_t index_of_jar(std::size_t j) const;

  /// Where the pace of the dough in jar j stands: jars filled from one dough have one.
  [[nodiscard]] std::size_t index_of_mixed(std::size_t j) const;

  /// ln of the pace of jar j at these unknowns.
  [[nodiscard]] double ln_pace(std::size_t j, const std::vector<double>& z) const;

  /// Half-speed dose of cause c at these unknowns.
  [[nodiscard]] double half_speed_dose(std::size_t c, const std::vector<double>& z) const;

  /// Volume ratio of every jar at its hours, one jar after another. Errors: as foresee_many().
  [[nodiscard]] Result<std::vector<double>> predict(Hypothesis acting,
                                                    const std::vector<double>& z) const;

  /// The same for several sets of unknowns at once, one after another.
  [[nodiscard]] Result<std::vector<double>> predict(
      Hypothesis acting, const std::vector<std::vector<double>>& z) const;

  /// Predictions at z and their derivatives, by forward differences: column i is d/dz_i. Unknowns
  /// that touch few jars are moved together. Row-major, unknowns() columns.
  struct Slopes {
    std::vector<double> at, by;
  };

  [[nodiscard]] Result<Slopes> slopes(Hypothesis acting, const std::vector<double>& z) const;

  /// Hours until a dough rises to `target`, as mixed on `day` without a jar's own pace; the horizon
  /// where it never does. One for each (hypothesis, unknowns) pair given.
  [[nodiscard]] Result<std::vector<double>> hours_to(
      std::size_t dough,
      std::size_t day,
      double target,
      Time horizon,
      const std::vector<Hypothesis>& acting,
      const std::vector<std::vector<double>>& z) const;

  /// The dough of one jar under a hypothesis, at ln of its pace: for simulating a test bake.
  [[nodiscard]] forecast::Case case_of(Hypothesis acting,
                                       const std::vector<double>& z,
                                       std::size_t dough,
                                       std::size_t day,
                                       double ln_pace) const;

  std::function<bool()> cancelled;

 private:
  [[nodiscard]] Result<std::vector<double>> run(
      std::size_t count,
      const std::function<void(std::size_t, forecast::Case&)>& fill,
      const std::function<const JarAsked&(std::size_t)>& jar_of) const;

  std::vector<kinetics::Dough> doughs_;
  std::vector<Doses> doses_;
  std::vector<CausePrior> priors_;
  std::size_t days_;
  Temperature temperature_;
  int threads_;
  std::vector<JarAsked> jars_;
  std::vector<std::size_t> mixed_;  // of each jar: number of its dough among those mixed
  std::size_t mixed_count_ = 0;
};

}  // namespace barm::testbakes
