#pragma once
// The doughs behind the rows of practice, run for many sets of parameters at once, and how well
// each set meets the rows.
#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <span>
#include <vector>

#include "forecast/ensemble.h"
#include "forecast/many.h"
#include "support/practice.h"

namespace barm::test {

/// What one set of parameters makes of one row.
struct Outcome {
  const PracticeRow* row;
  double value;
};

/// Runs the doughs of the rows. A row speaks of a typical dough: its ingredients are at their
/// typical values.
class PracticeDoughs {
 public:
  using Set = kinetics::Parameters<double>;

  explicit PracticeDoughs(int threads = 1) : threads_(threads) {
    add(two_days_,
        {{},
         {.levain = "20 %"},
         {.celsius = 18},
         {.celsius = 27},
         {.salt = 0},
         {.salt = 3},
         {.salt = 4},
         all_of("lager", "strength = \"5 % vol\""),
         all_of("lager", "strength = \"4 % vol\"")});
    add(week_,
        {all_wine(),
         all_wine(28),
         all_of("neutral spirit", "strength = \"12 % vol\""),
         all_of("fortified wine", "strength = \"18 % vol\""),
         all_of("pickle brine", "acetic_acid = \"10 g/L\"\nph = 2.9"),
         {.celsius = 4},
         {.celsius = 8}});
    add(yeast_, {yeasted(), yeasted(10), yeasted(20)});
    for (const auto& levain :
         {fed("stiff ripe levain", 1, 2, 1), fed("liquid ripe levain", 1, 1, 1)}) {
      const auto dough = forecast::freshly_fed(
          levain, *larder::typical(levain.starter), *larder::typical(levain.flour));
      levains_.push_back({*dough, {}, levain.temperature});
    }
  }

  /// The outcomes of every set, in the order of the sets.
  [[nodiscard]] std::vector<std::vector<Outcome>> outcomes(std::span<const Set> sets) const {
    const auto two_days = run(two_days_, sets, 48, 12, 2);
    const auto week = run(week_, sets, 168, 24, 2);
    const auto levains = run(levains_, sets, 14, 14, 3);
    const auto yeast = run({yeast_[0]}, sets, 6, 0, 2);
    std::vector<std::vector<Outcome>> out(sets.size());
    for (std::size_t i = 0; i < sets.size(); ++i) {
      const auto say = [&](std::string_view what, double value) {
        out[i].push_back({&practice_row(what), value});
      };
      plain_rows(two_days, i, say);
      drink_rows(two_days, week, i, say);
      levain_rows(levains, i, say);
      say("2 % fresh yeast, 27 C: doubled", 60 * yeast.passed[i].ready);
      sugar_rows(sets[i], say);
    }
    return out;
  }

 private:
  static constexpr double never = std::numeric_limits<double>::infinity();

  static void add(std::vector<forecast::Case>& to, const std::vector<Recipe>& recipes) {
    for (const Recipe& recipe : recipes) {
      const auto drawn = forecast::draw(bake_of(recipe), 1, -1);
      if (!drawn) throw std::runtime_error(drawn.error().text());
      to.push_back({drawn->dough, {}, Temperature::from_celsius(recipe.celsius)});
    }
  }

  [[nodiscard]] forecast::Many run(std::vector<forecast::Case> cases,
                                   std::span<const Set> sets,
                                   double horizon,
                                   double every,
                                   double target) const {
    forecast::ManyOptions options;
    options.threads = threads_;
    options.proving.horizon = horizon * hour;
    options.proving.sample_every = every * hour;
    options.proving.target = target;
    options.ph_too = true;
    auto many = forecast::foresee_many(
        sets.size() * cases.size(),
        [&](std::size_t i, forecast::Case& to_fill) {
          to_fill = cases[i % cases.size()];
          to_fill.parameters = sets[i / cases.size()];
        },
        options);
    if (!many) throw std::runtime_error(many.error().text());
    return *many;
  }

  static double rise(const forecast::Many& many, std::size_t which, std::size_t sample) {
    return static_cast<double>(many.rise[which * many.samples + sample]);
  }

  template <class Say>
  static void plain_rows(const forecast::Many& many, std::size_t set, const Say& say) {
    const auto at = [&](std::size_t dough) { return many.passed[set * 9 + dough]; };
    say("plain dough, 10 % stiff levain, 24 C: doubled", at(0).ready);
    say("plain dough: largest volume", at(0).largest_rise);
    say("plain dough: at its peak", at(0).peak);
    say("plain dough: at 24 h", rise(many, set * 9, 2));
    say("plain dough: at 36 h", rise(many, set * 9, 3));
    say("20 % levain, 24 C: doubled", at(1).ready);
    say("10 % levain, 18 C over 24 C", at(2).ready / at(0).ready);
    say("10 % levain, 27 C: doubled", at(3).ready);
    say("salt 2 %: slower than the step before", at(0).ready - at(4).ready);
    say("salt 3 %: slower than the step before", at(5).ready - at(0).ready);
    say("salt 4 %: slower than the step before", at(6).ready - at(5).ready);
    say("all liquid of 5 % vol: slower than plain", at(7).ready / at(0).ready);
    say("thinned to 4 % vol: slower than plain", at(8).ready / at(0).ready);
    say("thinned to 4 % vol: rises fully", at(8).largest_rise);
  }

  template <class Say>
  static void drink_rows(const forecast::Many&,
                         const forecast::Many& week,
                         std::size_t set,
                         const Say& say) {
    const auto at = [&](std::size_t dough) { return week.passed[set * 7 + dough]; };
    say("all wine of 12 % vol, 24 C: risen by 24 h", rise(week, set * 7, 1));
    say("all wine of 12 % vol, 24 C: risen by a fifth", at(0).fifth);
    say("the same at 28 C: hardly sooner", at(1).fifth / at(0).fifth);
    say("spirit dough of the same alcohol against wine: a fifth", at(2).fifth / at(0).fifth);
    say("all liquid of 18 % vol: largest volume in a week", at(3).largest_rise);
    say("pickle brine with 1 % acetic acid: risen by 24 h", rise(week, set * 7 + 4, 1));
    say("plain dough at 4 C: risen in 7 days", at(5).largest_rise);
    say("plain dough at 8 C: risen by a fifth", at(6).fifth / 24);
  }

  template <class Say>
  static void levain_rows(const forecast::Many& many, std::size_t set, const Say& say) {
    say("stiff levain fed 1:2:1, 26 C: tripled", many.passed[set * 2].ready);
    say("liquid levain fed 1:1:1, 26 C: largest volume", many.passed[set * 2 + 1].largest_rise);
    say("liquid levain fed 1:1:1, 26 C: at its peak", many.passed[set * 2 + 1].peak);
    say("liquid levain at 14 h: pH",
        static_cast<double>(many.ph[(set * 2 + 1) * many.samples + 1]));
  }

  template <class Say>
  void sugar_rows(const Set& set, const Say& say) const {
    forecast::Proving proving;
    proving.temperature = yeast_[0].temperature;
    proving.horizon = 1.0 * hour;
    proving.sample_every = 0.0 * hour;
    proving.accuracy.relative = 1e-4;
    double gas[3] = {};
    for (std::size_t d = 0; d < 3; ++d) {
      const auto course = forecast::run(yeast_[d].dough, set, proving);
      if (!course) throw std::runtime_error(course.error().text());
      gas[d] = course->at_end[kinetics::yeast_gas];
    }
    say("10 % sugar on flour: gas in the first hour", gas[1] / gas[0]);
    say("20 % sugar on flour: gas in the first hour", gas[2] / gas[0]);
  }

  int threads_;
  std::vector<forecast::Case> two_days_, week_, yeast_, levains_;
};

/// How far a value lies outside its row, in widths of the row on the row's scale: logarithmic where
/// both ends are positive. Zero inside.
inline double outside(const Outcome& outcome) {
  const PracticeRow& row = *outcome.row;
  double value = outcome.value;
  double least = row.least;
  double most = row.most;
  if (!std::isfinite(value)) return std::isnan(value) || value > 0 ? 1 : -1;
  if (row.least > 0 && value > 0 && row.unit != "log CFU/g") {
    value = std::log(value);
    least = std::log(least);
    most = std::log(most);
  }
  return std::max({0.0, least - value, value - most}) / (most - least);
}

/// ln of how well a set meets its rows. A row is a range that four of five bakers would give: level
/// inside, a normal tail outside with a tenth of the width as standard deviation (a fifth of a
/// level belief then lies outside). A row missed by all its width and more, or a time that never
/// comes, counts as missed by its width: such doughs are unlikely, not impossible, and the sampler
/// can find its way back from them.
///
/// Rows of one source share its faults, so a source weighs as one row however many it has: its rows
/// are averaged, then the sources added up, as the score of docs/evidence.md does.
/// Rows of what has been measured and those of the basis `without` are left out.
inline double log_likelihood(std::span<const Outcome> outcomes, std::string_view without = "") {
  std::map<std::string_view, double> count, sum;
  for (const Outcome& outcome : outcomes) {
    if (outcome.row->measured || outcome.row->basis == without) continue;
    const double off = std::min(1.0, std::abs(outside(outcome))) / 0.1;
    count[outcome.row->basis] += 1;
    sum[outcome.row->basis] -= 0.5 * off * off;
  }
  double all = 0;
  for (const auto& [basis, n] : count) all += sum[basis] / n;
  return all;
}

}  // namespace barm::test
