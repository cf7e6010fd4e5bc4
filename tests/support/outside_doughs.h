#pragma once
// Jars of a test bake that follow no law of ours: one of two outside laws of growth, doughs that
// scatter as doughs do, and, where it is asked, a cause that is none of those offered.
#include <algorithm>
#include <cmath>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "numerics/random.h"
#include "support/batches.h"
#include "testbakes/observed.h"
#include "testbakes/plan.h"
#include "testbakes/read.h"
#include "testbakes/rivals.h"

namespace barm::test {

/// A test bake of white wine as three quarters of the liquid, on two days.
inline testbakes::TestBake wine_test(const std::vector<std::string>& doughs, int days, int jars) {
  std::string text = "base = \"wine-loaf.toml\"\nseed = 1\ndays = " + std::to_string(days) +
                     "\njars = " + std::to_string(jars) +
                     "\ncauses = [\"alcohol\", \"acid\", \"sulphite\"]\n";
  for (const std::string& make : doughs) {
    text += "[[dough]]\nname = \"" + (make.empty() ? "wine" : make) + "\"\n";
    if (make.empty()) continue;
    text += "make = [\"plain\"";
    for (const auto& [letter, what] :
         std::map<char, std::string>{{'e', "alcohol"}, {'a', "acid"}, {'s', "sulphite"}})
      if (make != "plain" && make.find(letter) != std::string::npos)
        text += ", \"match " + what + "\"";
    text += "]\n";
  }
  return testbakes::parse_test_bake(text, std::string(BARM_ROOT) + "/tests/testbakes/outside.toml")
      .value();
}

/// What scatters between jars that should be alike.
struct OutsideScatter {
  double dough = 0.10;   ///< sd of ln speed between doughs weighed out anew
  double jar = 0.05;     ///< between jars of one dough
  double day = 0.15;     ///< between days
  double reading = 1.0;  ///< [mm]
};

/// A culture by an outside law: its doughs differ in the speed alone, so that time is stretched.
class OutsideCulture {
 public:
  OutsideCulture(bool gompertz, numerics::Random& random) {
    const double top = 1.6 + 1.0 * random.uniform();
    const double doubled = 8 * std::exp(0.25 * random.normal());
    const double fifth = doubled * (0.45 + 0.15 * random.uniform());
    if (gompertz)
      rise_ = std::make_unique<GompertzRise>(top, fifth, doubled);
    else
      rise_ = std::make_unique<BaranyiRise>(top, 0.5 + 2.5 * random.uniform(), fifth, doubled);
  }

  [[nodiscard]] double at(double hours) const { return rise_->at(hours); }

 private:
  std::unique_ptr<Rise> rise_;
};

/// Looks at all jars; `left` has the share of the speed that each dough keeps.
inline std::vector<testbakes::Watched> outside_jars(const testbakes::TestBake& test,
                                                    const std::vector<double>& left,
                                                    const OutsideCulture& culture,
                                                    const std::vector<double>& hours,
                                                    const OutsideScatter& scatter,
                                                    numerics::Random& random) {
  std::vector<testbakes::Watched> out;
  std::map<std::pair<std::size_t, std::size_t>, double> of_dough;
  std::map<std::size_t, double> of_day;
  for (const testbakes::Jar& place : testbakes::plan(test)) {
    const auto day = of_day.try_emplace(place.day, scatter.day * random.normal()).first->second;
    const auto dough =
        of_dough.try_emplace({place.day, place.dough}, scatter.dough * random.normal())
            .first->second;
    const double speed = left[place.dough] * std::exp(day + dough + scatter.jar * random.normal());
    testbakes::Watched jar{place.day, place.dough, place.repeat, {}, test.jar};
    const double start = test.jar.in(millimetre);
    const double mark = std::round(start + scatter.reading * random.normal());
    for (const double h : hours) {
      const double mm = culture.at(speed * h) * start + scatter.reading * random.normal();
      jar.looks.push_back({h, std::round(mm) / mark});
    }
    jar.start = mark * millimetre;
    out.push_back(std::move(jar));
  }
  return out;
}

/// Whether a dough of these holds the drink itself.
inline bool holds_the_wine(const testbakes::Rival& rival) {
  return std::any_of(rival.bake.bowl.begin(), rival.bake.bowl.end(), [](const auto& portion) {
    return portion.ingredient.key.starts_with("white_wine") ||
           portion.ingredient.name == "white wine";
  });
}

}  // namespace barm::test
