#pragma once
// The answers of the program to an ask of data/evidence/asked.toml: many doughs, each with what is
// in doubt and what the source does not tell drawn anew.
#include <cmath>
#include <functional>
#include <limits>
#include <map>
#include <stdexcept>
#include <string>
#include <vector>

#include "forecast/draw.h"
#include "forecast/ensemble.h"
#include "formula/read.h"
#include "kinetics/system.h"
#include "kinetics/terms.h"
#include "numerics/random.h"
#include "support/evidence_asked.h"

namespace barm::test {

struct AnswerOptions {
  std::size_t draws = 400;
  std::uint64_t seed = 1;
  const kinetics::JointPrior* prior = &kinetics::day_one();
  std::function<void(kinetics::Parameters<double>&)> adjust = nullptr;  ///< to break the model
};

/// One dough of an ask, run as far as an answer needs it; no run is made twice.
class AskedDough {
 public:
  AskedDough(const Ask& ask, std::size_t index, const AnswerOptions& options)
      : horizon_(ask.horizon) {
    numerics::Random assumed(options.seed + 1000, index);
    for (const Assumption& one : ask.drawn) told_[one.name] = one.drawn(assumed);
    auto bake = formula::parse_bake("name = \"asked\"\n" + filled(ask.bake, told_), "asked.toml");
    if (!bake) throw std::runtime_error(ask.what + ": " + bake.error().text());
    numerics::Random random(options.seed, index);
    auto parameters = kinetics::drawn(random, *options.prior);
    if (options.adjust) options.adjust(parameters);
    auto draw = forecast::draw_of(*bake, parameters, [&]() -> double { return random.normal(); });
    if (!draw) throw std::runtime_error(ask.what + ": " + draw.error().text());
    dough_ = draw->dough;
    parameters_ = draw->parameters;
    for (const auto& [name, by] : ask.scaled) scale(name, std::stod(filled(by, told_)));
    proving_ = forecast::proving_of(*bake, {});
    proving_.accuracy.relative = 1e-5;
    std::vector<heat::ProbeReading> track;
    for (const auto& [at, celsius] : ask.track)
      track.push_back({at * hour, Temperature::from_celsius(std::stod(filled(celsius, told_)))});
    if (!track.empty()) proving_.track = heat::Track::through(track);
  }

  [[nodiscard]] double answer(const Asked& asked) {
    using W = Asked::What;
    const double target = asked.target.empty() ? 2 : std::stod(filled(asked.target, told_));
    switch (asked.what) {
      case W::half_of_highest:
        return half_of_highest();
      case W::hours_to_rise:
        return hours(until(horizon_, target).ready) - asked.from;
      case W::hours_to_highest:
        return hours(until(horizon_).peak);
      case W::hours_to_ph:
        return hours(until(horizon_, 2, target).sour) - asked.from;
      case W::rise:
        return until(asked.at).curve.back().rise;
      case W::ph:
        return asked.at > 0 ? until(asked.at).at_end[kinetics::acidity] : dough_.ph;
      case W::generations:
        return std::log2(yeasts(asked.at) / yeasts(asked.from));
      case W::bacteria:
      case W::yeast:
      case W::lactic_acid:
      case W::acetic_acid:
        break;
    }
    return held(asked);
  }

 private:
  static constexpr double never = std::numeric_limits<double>::infinity();

  static double hours(const std::optional<Time>& time) { return time ? time->in(hour) : never; }

  void scale(const std::string& name, double by) {
    using P = kinetics::Parameter;
    if (name != "amylase") throw std::runtime_error("only the amylase is scaled, not " + name);
    parameters_[P::amylase] *= by;
  }

  const forecast::Course& until(double end, double target = 2, double sour_at = 4) {
    const auto key = std::tuple(end, target, sour_at);
    const auto found = courses_.find(key);
    if (found != courses_.end()) return found->second;
    forecast::Proving proving = proving_;
    proving.horizon = end * hour;
    proving.target = target;
    proving.sour_at = sour_at;
    auto course = forecast::run(dough_, parameters_, proving);
    if (!course) throw std::runtime_error(course.error().text());
    return courses_.emplace(key, std::move(*course)).first->second;
  }

  double half_of_highest() {
    const forecast::Course& course = until(horizon_);
    if (course.largest_rise < 1.02) return never;
    const double half = 0.5 * (1 + course.largest_rise);
    for (std::size_t i = 1; i < course.curve.size(); ++i) {
      const auto& before = course.curve[i - 1];
      const auto& after = course.curve[i];
      if (after.rise < half) continue;
      return before.hours +
             (half - before.rise) / (after.rise - before.rise) * (after.hours - before.hours);
    }
    return never;
  }

  double yeasts(double at) {
    const auto& y = until(std::max(at, 0.01)).at_end;
    return y[kinetics::wild_yeast] + y[kinetics::bakers_yeast];
  }

  // Counts [log CFU/g] and acids [mmol/kg].
  double held(const Asked& asked) {
    using P = kinetics::Parameter;
    using W = Asked::What;
    const auto& y = until(std::max(asked.at, 0.01)).at_end;
    if (asked.what == W::bacteria)
      return std::log10(y[kinetics::bacteria] / parameters_[P::bacteria_cell_mass] / 1000);
    if (asked.what == W::yeast)
      return std::log10(y[kinetics::wild_yeast] / parameters_[P::wild_cell_mass] / 1000);
    const double celsius = proving_.temperature.celsius();
    const auto terms = kinetics::terms(dough_, parameters_, celsius, celsius);
    const kinetics::System<double> system(terms, kinetics::present(dough_));
    return asked.what == W::lactic_acid ? system.lactate(y) : system.acetate(y);
  }

  double horizon_;
  Told told_;
  kinetics::Dough dough_;
  kinetics::Parameters<double> parameters_;
  forecast::Proving proving_;
  std::map<std::tuple<double, double, double>, forecast::Course> courses_;
};

/// The answers of every draw, by answer of the ask; readings stray as theirs do.
inline std::vector<std::vector<double>> answers(const Ask& ask, const AnswerOptions& options) {
  std::vector<std::vector<double>> all(ask.answers.size());
  for (std::size_t i = 0; i < options.draws; ++i) {
    AskedDough dough(ask, i, options);
    numerics::Random reading(options.seed + 2000, i);
    for (std::size_t a = 0; a < ask.answers.size(); ++a) {
      const Asked& asked = ask.answers[a];
      const double astray = asked.read * reading.normal();
      const double value = dough.answer(asked);
      all[a].push_back(asked.is_logarithm() ? value + astray : value * std::exp(astray));
    }
  }
  return all;
}

}  // namespace barm::test
