#pragma once
// Test bakes with a known truth, for trials of the verdict: designs fixed beforehand, truths drawn
// from the priors, the jars running by our own kinetics or by a growth law they do not know.
#include <algorithm>
#include <cmath>
#include <span>
#include <string>
#include <vector>

#include "numerics/random.h"
#include "testbakes/joint_model.h"
#include "testbakes/read.h"
#include "testbakes/verdict.h"
#include "units/units.h"

namespace barm::test {

/// A design: its doughs, from white wine as three quarters of the liquid.
struct Design {
  std::string name;
  std::string doughs;  ///< TOML
  int told_apart = 3;  ///< causes of the three that it can tell from the others
};

inline const std::vector<Design>& designs() {
  static const std::string plain = "[[dough]]\nname = \"plain\"\nmake = \"plain\"\n";
  static const std::string wine = "[[dough]]\nname = \"wine\"\n";
  const auto with = [](const std::string& name, const std::string& steps) {
    return "[[dough]]\nname = \"" + name + "\"\nmake = [\"plain\"" + steps + "]\n";
  };
  static const std::vector<Design> all{
      {"full factorial",
       plain + with("e", ", \"match alcohol\"") + with("a", ", \"match acid\"") +
           with("s", ", \"match sulphite\"") + with("ea", ", \"match alcohol\", \"match acid\"") +
           with("es", ", \"match alcohol\", \"match sulphite\"") +
           with("as", ", \"match acid\", \"match sulphite\"") +
           with("eas", ", \"match alcohol\", \"match acid\", \"match sulphite\"")},
      {"water and wine", plain + wine, 0},
      {"water, wine, alcohol alone", plain + wine + with("e", ", \"match alcohol\""), 1},
      {"water, wine, alcohol, acid",
       plain + wine + with("e", ", \"match alcohol\"") + with("a", ", \"match acid\""),
       2},
  };
  return all;
}

inline testbakes::TestBake test_of(const Design& design) {
  const auto read = testbakes::parse_test_bake(
      "base = \"wine-loaf.toml\"\nseed = 1\ndays = 2\ncauses = [\"alcohol\", \"acid\", "
      "\"sulphite\"]\n" +
          design.doughs,
      std::string(BARM_ROOT) + "/tests/testbakes/simulated.toml");
  return read.value();
}

struct Truth {
  testbakes::Hypothesis acting = 0;
  std::vector<double> z;  ///< unknowns of the joint model
  bool rival_law = false;
};

/// Gompertz growth of the volume in Zwietering's form, slowed as a whole:
///     R = 1 + A exp(-exp(mu e (lag - t) / A + 1)),  mu -> s mu, lag -> lag / s
inline double gompertz(double hours, double rise, double mu, double lag, double speed) {
  const double slope = mu * speed;
  return 1 + rise * std::exp(-std::exp(slope * std::exp(1.0) * (lag / speed - hours) / rise + 1));
}

/// What is read off the jars, to the millimetre, with the errors of mark and ruler.
inline std::vector<testbakes::Watched> simulate(const testbakes::TestBake& test,
                                                const std::vector<testbakes::Rival>& rivals,
                                                testbakes::JointModel& model,
                                                const std::vector<double>& hours,
                                                Truth& truth,
                                                numerics::Random& random) {
  std::vector<testbakes::JarAsked> asked;
  for (const testbakes::Jar& jar : testbakes::plan(test))
    asked.push_back({jar.day, jar.dough, hours});
  model.ask(asked);
  truth.z.resize(model.unknowns());
  for (double& z : truth.z) z = random.normal();
  const auto own = model.predict(truth.acting, truth.z).value();
  const double rise = 1.9 * std::exp(0.15 * random.normal());
  const double mu = 0.28 * std::exp(0.2 * random.normal());
  std::vector<double> lag(test.days.size());
  for (double& one : lag) one = 2.5 * std::exp(0.4 * random.normal());
  std::vector<testbakes::Watched> out;
  std::size_t look = 0;
  for (std::size_t j = 0; j < asked.size(); ++j) {
    double left = std::exp(model.ln_pace(j, truth.z));
    const auto doses = testbakes::doses_of(rivals[asked[j].dough]);
    for (std::size_t c = 0; c < model.causes().size(); ++c) {
      const auto& prior = model.causes()[c];
      if (((truth.acting >> c) & 1U) == 0) continue;
      left *= testbakes::speed_left(doses[static_cast<std::size_t>(prior.cause)],
                                    model.half_speed_dose(c, truth.z),
                                    prior.power);
    }
    testbakes::Watched jar{asked[j].day, asked[j].dough, 1, {}, test.jar};
    const double start = test.jar.in(millimetre);
    const double mark = std::round(start + random.normal());
    for (const double h : hours) {
      const double ratio =
          truth.rival_law ? gompertz(h, rise, mu, lag[asked[j].day], left) : own[look];
      ++look;
      jar.looks.push_back({h, std::round(ratio * start + random.normal()) / mark});
    }
    jar.start = mark * millimetre;
    out.push_back(std::move(jar));
  }
  return out;
}

/// Twelve looks within 30 h.
inline std::vector<double> twelve_looks() { return {2, 4, 6, 8, 10, 12, 14, 16, 18, 21, 25, 30}; }

struct Tally {
  int runs = 0, right = 0, wrong = 0, undecided = 0;
  /// Rightly named ones, by our law and by the rival one, and those whose half-speed dose lies in
  /// its range.
  int named[2] = {0, 0}, held[2] = {0, 0};
};

/// One cause acts: alcohol in runs 0 and 1, acid in 2 and 3, sulphite in 4 and 5, and so on in
/// turn; every second run by the rival law.
inline Tally tally(const Design& design, std::span<const int> runs, unsigned long long seed) {
  const auto test = test_of(design);
  const auto rivals = testbakes::rivals(test).value();
  const auto priors = testbakes::cause_priors(rivals, test.causes);
  Tally out;
  for (const int run : runs) {
    numerics::Random random(seed, static_cast<std::uint64_t>(run));
    testbakes::JointModel model(rivals, priors, test.days.size(), test.base.bulk_temperature());
    Truth truth;
    const auto cause = static_cast<std::size_t>(run / 2 % 3);
    truth.acting = 1U << cause;
    truth.rival_law = run % 2 == 1;
    const auto jars = simulate(test, rivals, model, twelve_looks(), truth, random);
    testbakes::VerdictOptions options;
    options.draws = 10;
    const auto verdict = testbakes::judge(test, rivals, jars, options).value();
    ++out.runs;
    bool right = false;
    bool wrong = false;
    for (std::size_t c = 0; c < verdict.causes.size(); ++c) {
      const bool named = verdict.causes[c].finding == testbakes::Finding::acts;
      (c == cause ? right : wrong) |= named;
    }
    out.right += right ? 1 : 0;
    out.wrong += wrong ? 1 : 0;
    out.undecided += !right && !wrong ? 1 : 0;
    if (!right) continue;
    const auto& found = verdict.causes[cause];
    const double half = model.half_speed_dose(cause, truth.z);
    const auto law = truth.rival_law ? 1U : 0U;
    ++out.named[law];
    out.held[law] += found.half_low <= half && half <= found.half_high ? 1 : 0;
  }
  return out;
}

}  // namespace barm::test
