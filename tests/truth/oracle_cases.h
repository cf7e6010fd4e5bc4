#pragma once
// The doughs on which our run is held against the solvers of others, and what is compared.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <sstream>
#include <string>
#include <vector>

#include "forecast/course.h"
#include "kinetics/parameter.h"
#include "numerics/random.h"
#include "support/doughs.h"
#include "support/validation.h"

namespace barm::test {

/// What a run is asked [h]; NaN where it does not happen within the horizon.
struct Times {
  double fifth, ready, peak;
};

struct OracleCase {
  std::string name;
  kinetics::Dough dough;
  double celsius = 24;
  kinetics::Parameters<double> parameters = kinetics::book();
};

inline constexpr double oracle_horizon = 60;  // [h]
inline constexpr double oracle_target = 2;

/// A wine dough with baker's yeast, malt, dissolved gas and every acid of the table besides.
inline kinetics::Dough everything_dough() {
  kinetics::Dough dough = wine_dough();
  dough.bakers_yeast = 0.3;
  dough.added_maltose = 15;
  dough.carbon_dioxide = 4;
  dough.buffering = 1.5;
  dough.acid[static_cast<std::size_t>(chemistry::Acid::succinic)] = 1.5;
  dough.acid[static_cast<std::size_t>(chemistry::Acid::gluconic)] = 2;
  dough.acid[static_cast<std::size_t>(chemistry::Acid::carbonic)] = 0.5;
  return dough;
}

/// So strong that what lives in it slowly dies, and so much baker's yeast that it rises all the
/// same.
inline kinetics::Dough strong_dough() {
  kinetics::Dough dough = plain_dough();
  dough.ethanol = 50;
  dough.bakers_yeast = 8;
  return dough;
}

/// So sour and full of bacteria that it soon falls below pH 4, where flour buffers differently,
/// bacteria make acid without growing and baker's yeast slows down.
inline kinetics::Dough sour_dough() {
  kinetics::Dough dough = plain_dough();
  dough.ph = 4.05;
  dough.lactate = 40;
  dough.acetate = 10;
  dough.bacteria = 4e11;
  dough.bakers_yeast = 0.2;
  return dough;
}

/// Half rye, with whole fruit and raw pineapple, in a cold room: what only such a dough has.
inline kinetics::Dough rye_and_fruit_dough() {
  kinetics::Dough dough = plain_dough();
  dough.rise_limit = 2.6;
  dough.pentosan_rise = 0.35;
  dough.protease = 0.05;
  dough.slow_hexose = 200;
  dough.slow_acid = 6;
  dough.hydration = 0.9;
  dough.bakers_yeast = 4;
  return dough;
}

/// Each dough in a cool, an ordinary and a warm place, and wine doughs of cultures drawn from the
/// priors.
inline std::vector<OracleCase> oracle_cases() {
  std::vector<OracleCase> cases;
  for (const double celsius : {18.0, 24.0, 28.0}) {
    const std::string at = "At" + std::to_string(static_cast<int>(celsius));
    cases.push_back({"Plain" + at, plain_dough(), celsius});
    cases.push_back({"Wine" + at, wine_dough(), celsius});
    cases.push_back({"Everything" + at, everything_dough(), celsius});
  }
  cases.push_back({"Strong", strong_dough(), 28});
  cases.push_back({"Sour", sour_dough(), 24});
  cases.push_back({"RyeAndFruit", rye_and_fruit_dough(), 24});
  cases.push_back({"RyeAndFruitCold", rye_and_fruit_dough(), 7});
  for (const unsigned i : {1U, 3U, 4U}) {  // 2 never doubles
    numerics::Random random(2024, i);
    cases.push_back({"WineDrawn" + std::to_string(i), wine_dough(), 26, kinetics::drawn(random)});
  }
  return cases;
}

/// Our own answer. Throws when the run fails.
inline Times times_of(const OracleCase& c, const numerics::Accuracy& accuracy = {}) {
  forecast::Proving proving;
  proving.temperature = Temperature::from_celsius(c.celsius);
  proving.horizon = oracle_horizon * hour;
  proving.target = oracle_target;
  proving.accuracy = accuracy;
  const forecast::Course course = forecast::run(c.dough, c.parameters, proving).value();
  const auto hours = [](const std::optional<Time>& time) {
    return time ? time->in(hour) : std::numeric_limits<double>::quiet_NaN();
  };
  return {hours(course.fifth), hours(course.ready), hours(course.peak)};
}

/// How far two answers to the same question are apart at most [s].
struct Deviations {
  double fifth = 0, ready = 0, peak = 0;
};

/// Fails unless ours agree with theirs: a second for what the dough passes, a minute for its flat
/// top. Notes the largest deviations so far.
inline void compare(const OracleCase& c, const Times& theirs, Deviations& worst) {
  const Times ours = times_of(c);
  const auto agree =
      [&c](const char* what, double our, double their, double limit, double& largest) {
        const double apart = std::abs(our - their) * 3600;
        EXPECT_LE(apart, limit) << c.name << ", " << what << ": ours " << our << " h, theirs "
                                << their << " h";
        largest = std::max(largest, apart);
      };
  agree("risen by a fifth", ours.fifth, theirs.fifth, 1, worst.fifth);
  agree("doubled", ours.ready, theirs.ready, 1, worst.ready);
  agree("highest", ours.peak, theirs.peak, 60, worst.peak);
}

/// Notes for docs/validation.md how far we are from theirs.
inline void record_deviations(const Deviations& worst, const std::string& theirs) {
  const std::string doughs = std::to_string(oracle_cases().size()) + " doughs: largest deviation";
  const auto one = [&](const std::string& what, double apart, double limit) {
    std::ostringstream wanted;
    wanted << "0 to " << limit;
    record("equations of the dough",
           what + ", " + doughs,
           theirs,
           wanted.str(),
           apart,
           "s",
           apart <= limit);
  };
  one("time to rise by a fifth", worst.fifth, 1);
  one("time to double", worst.ready, 1);
  one("time of the highest rise", worst.peak, 60);
}

}  // namespace barm::test
