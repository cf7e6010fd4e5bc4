#include "formula/solve.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "chemistry/ethanol_water.h"
#include "formula/internal/contents.h"
#include "formula/internal/nearest.h"
#include "formula/internal/reading.h"
#include "formula/internal/say.h"
#include "generated/constants.h"
#include "units/units.h"

namespace barm::formula {

using internal::Contents;
using internal::Equation;
using internal::Part;

namespace {

constexpr std::array<std::string_view, 10> names = {"real water",
                                                    "liquid",
                                                    "alcohol",
                                                    "strength",
                                                    "alcohol in water",
                                                    "sugar",
                                                    "salt",
                                                    "sulphite",
                                                    "acid",
                                                    "dough"};

// Ours: residuals are shares of the whole.
constexpr double met = 1e-7;
constexpr double verified = 1e-6;

// --- what is known before solving ---

/// The bowl in grams, what a kilogram of each line brings, and which lines are free.
struct Setting {
  Bake bake;
  std::vector<Contents> brings;
  std::vector<double> plan;  ///< [kg]
  std::vector<std::size_t> free;
  std::vector<double> least, most;  ///< [kg], as `free`
};

tl::unexpected<Error> not_free(const Bake& bake, const std::string& words) {
  return failure(ErrorCode::not_found, bake.file, not_in_the_bowl(words, bake));
}

Result<Setting> setting_of(const Bake& bake, const std::vector<Free>& free) {
  const auto settled = settle(bake);
  if (!settled) return failure(settled);
  const auto bowl = in_the_bowl(bake, *settled);
  if (!bowl) return failure(bowl);
  std::vector<Mass> masses;
  for (const Weighed& line : bowl->lines) masses.push_back(line.plan);
  Setting setting;
  setting.bake = by_weight(bake, masses);
  for (const Free& one : free) {
    const bool water = one.ingredient == "water";
    if (water && !setting.bake.find("water")) setting.bake.bowl.push_back(internal::no_water());
    const auto at = setting.bake.find(one.ingredient);
    if (!at) return not_free(bake, one.ingredient);
    const bool twice = std::count(setting.free.begin(), setting.free.end(), *at) > 0;
    const bool bounded =
        one.least.si() >= 0 && one.most >= one.least && std::isfinite(one.most.si());
    if (twice || !bounded) {
      return failure(ErrorCode::bad_input,
                     one.ingredient,
                     twice ? "is named twice" : "has bounds that cannot be");
    }
    setting.free.push_back(*at);
    setting.least.push_back(one.least.si());
    setting.most.push_back(one.most.si());
  }
  const auto compositions = settle(setting.bake);
  if (!compositions) return failure(compositions);
  for (std::size_t i = 0; i < setting.bake.bowl.size(); ++i) {
    setting.brings.push_back(internal::per_kilogram(setting.bake.bowl[i], (*compositions)[i]));
    setting.plan.push_back(setting.bake.bowl[i].amount);
  }
  return setting;
}

// --- targets as equations ---

/// sum a_i x_i = value
struct Row {
  std::vector<double> a;
  double value = 0;
};

/// What a litre of the liquid's water and alcohol weighs now [kg/m3].
double poured_density(const Setting& setting, const std::vector<double>& x) {
  double water = 0;
  double ethanol = 0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    water += x[i] * setting.brings[i][Part::poured_water];
    ethanol += x[i] * setting.brings[i][Part::poured_ethanol];
  }
  const double volume = internal::mixture_volume(water, ethanol);
  return volume > 0 ? (water + ethanol) / volume : internal::mixture_volume(1, 0);
}

/// Ethanol by mass in water + ethanol that holds c per volume: the p of p rho(p) = c.
double mass_fraction(Concentration c) {
  return chemistry::ethanol_mass_fraction(chemistry::strength_of(c)).value();
}

/// V_e - q V of a kilogram of a portion, with rho [kg/m3] of the liquid's water and alcohol.
double strength_gap(const Contents& c, double q, double rho) {
  const double pure = chemistry::ethanol_per_volume(AlcoholByVolume(1)).si();
  const double solids = internal::poured_volume(0, 0, c[Part::poured_solids], c[Part::poured_fat]);
  const double volume = (c[Part::poured_water] + c[Part::poured_ethanol]) / rho + solids;
  return 1000 * (c[Part::poured_ethanol] / pure - q * volume);
}

double sugar_in(const Contents& c) {
  return c[Part::hexose] + c[Part::sucrose] + c[Part::maltose] + c[Part::lactose];
}

double acid_in(const Contents& c) {
  double moles = 0;
  for (std::size_t k = 0; k + 1 < chemistry::acid_count; ++k) moles += c.acid(k);
  return moles;
}

double coefficient(const Target& target, const Contents& c, double p, double rho) {
  switch (target.aim) {
    case Aim::real_hydration:
      return c[Part::added_water] - target.value * c[Part::flour];
    case Aim::liquid_total:
      return c[Part::liquid];
    case Aim::alcohol:
      return c[Part::ethanol];
    case Aim::strength_of_liquid:
      return strength_gap(c, target.value, rho);
    case Aim::alcohol_in_water:
      return c[Part::ethanol] - p * (c[Part::ethanol] + c[Part::water]);
    case Aim::sugar:
      return sugar_in(c);
    case Aim::salt:
      return c[Part::salt];
    case Aim::sulphite:
      return c[Part::total_sulphite];
    case Aim::acid:
      return acid_in(c);
    case Aim::dough_weight:
      return c[Part::mass];
  }
  return 0;
}

bool is_ratio(Aim aim) {
  return aim == Aim::real_hydration || aim == Aim::strength_of_liquid ||
         aim == Aim::alcohol_in_water;
}

Row row_of(const Setting& setting, const Target& target, double rho) {
  Row row;
  row.value = is_ratio(target.aim) ? 0 : target.value;
  const bool in_water = target.aim == Aim::alcohol_in_water;
  const double p = in_water ? mass_fraction(Concentration::from_si(target.value)) : 0;
  for (const Contents& c : setting.brings) row.a.push_back(coefficient(target, c, p, rho));
  return row;
}

/// A line that the plan has none of moves on the scale of the dough.
double scale_of(const Setting& setting, std::size_t line) {
  const double dough = std::accumulate(setting.plan.begin(), setting.plan.end(), 0.0);
  return std::max(setting.plan[line], 0.02 * dough);
}

/// The row over the free lines alone, in units of their scales and of the row's own size.
Equation scaled(const Setting& setting, const Row& row) {
  double size = std::abs(row.value);
  for (std::size_t i = 0; i < row.a.size(); ++i) size += std::abs(row.a[i]) * scale_of(setting, i);
  if (size <= 0) size = 1;
  Equation equation;
  equation.value = row.value;
  for (std::size_t i = 0; i < row.a.size(); ++i) {
    const bool fixed = std::count(setting.free.begin(), setting.free.end(), i) == 0;
    if (fixed) equation.value -= row.a[i] * setting.plan[i];
  }
  equation.value /= size;
  for (const std::size_t i : setting.free) {
    equation.coefficient.push_back(row.a[i] * scale_of(setting, i) / size);
  }
  return equation;
}

internal::Nearest problem_of(const Setting& setting,
                             const std::vector<Target>& targets,
                             double rho) {
  internal::Nearest problem;
  for (std::size_t j = 0; j < setting.free.size(); ++j) {
    const double scale = scale_of(setting, setting.free[j]);
    problem.plan.push_back(setting.plan[setting.free[j]] / scale);
    problem.least.push_back(setting.least[j] / scale);
    problem.most.push_back(setting.most[j] / scale);
  }
  for (const Target& target : targets) {
    problem.equations.push_back(scaled(setting, row_of(setting, target, rho)));
  }
  return problem;
}

// --- solving ---

struct Answer {
  std::vector<double> x;  ///< [kg]
  double residual = 0;
};

/// Only the strength of a liquid with solids needs repetition: its density follows from the answer.
Answer answer(const Setting& setting, const std::vector<Target>& targets) {
  Answer best{setting.plan, 0};
  double rho = poured_density(setting, best.x);
  constexpr int most_repetitions = 100;
  for (int step = 0; step < most_repetitions; ++step) {
    const auto found = internal::nearest(problem_of(setting, targets, rho));
    for (std::size_t j = 0; j < setting.free.size(); ++j) {
      best.x[setting.free[j]] = found.y[j] * scale_of(setting, setting.free[j]);
    }
    best.residual = found.residual;
    const double now = poured_density(setting, best.x);
    if (std::abs(now - rho) <= 1e-12 * rho) break;
    rho = now;
  }
  return best;
}

/// A smallest set of targets that cannot stand together: drop each that the conflict survives
/// without.
std::vector<Target> conflicting(const Setting& setting, std::vector<Target> targets) {
  for (std::size_t i = 0; i < targets.size() && targets.size() > 1;) {
    std::vector<Target> without = targets;
    without.erase(without.begin() + static_cast<std::ptrdiff_t>(i));
    if (answer(setting, without).residual > met) {
      targets = std::move(without);
    } else {
      ++i;
    }
  }
  return targets;
}

std::string in_words(const Target& target) {
  const double v = target.value;
  const std::string name(formula::name(target.aim));
  switch (target.aim) {
    case Aim::real_hydration:
      return fmt::format("{} {} of flour", name, internal::percent(v));
    case Aim::strength_of_liquid:
      return fmt::format("{} {} vol", name, internal::percent(v));
    case Aim::alcohol_in_water:
      return fmt::format("{} {:.3g} g/L", name, v);
    case Aim::sulphite:
      return fmt::format("{} {:.3g} mg", name, 1e6 * v);
    case Aim::acid:
      return fmt::format("{} {:.3g} mmol", name, 1000 * v);
    default:
      return fmt::format("{} {}", name, internal::grams(v * kilogram));
  }
}

std::string poured_words(const Weighed& line) {
  std::string mass = fmt::format("{} {}", internal::grams(line.actual), line.name);
  if (line.volume.si() <= 0) return mass;
  return mass + ", that is " + internal::millilitres(line.volume);
}

bool reaches(const Target& target, double value, double planned) {
  return std::abs(value - target.value) <=
         verified * std::max(std::abs(target.value), std::abs(planned));
}

Result<bool> check(const std::vector<Target>& targets, const std::vector<Free>& free) {
  if (free.empty()) return failure(ErrorCode::bad_input, "", "say which ingredients may change");
  for (const Target& target : targets) {
    const bool strength = target.aim == Aim::strength_of_liquid;
    const bool in_water = target.aim == Aim::alcohol_in_water;
    const double most = strength ? 1 : in_water ? 789 : 1e9;
    if (target.value >= 0 && target.value <= most) continue;
    return failure(
        ErrorCode::bad_input, std::string(name(target.aim)), "has a value that cannot be");
  }
  return true;
}

Result<Solution> told(const Setting& setting,
                      const std::vector<Target>& targets,
                      const Answer& found) {
  Solution solution;
  for (const double x : found.x) solution.masses.push_back(std::max(0.0, x) * kilogram);
  const auto bowl = in_the_bowl(by_weight(setting.bake, solution.masses));
  const auto before = in_the_bowl(setting.bake);
  if (!bowl) return failure(bowl);
  if (!before) return failure(before);
  solution.met = found.residual <= met;
  for (const Target& target : targets) {
    solution.reached.push_back(reached(target.aim, *bowl));
    const double planned = reached(target.aim, *before);
    if (solution.met && !reaches(target, solution.reached.back(), planned)) {
      return failure(ErrorCode::no_convergence,
                     "",
                     "the weights found do not give what was asked: " + in_words(target));
    }
    solution.working.push_back(in_words(target) + ": plan " + in_words({target.aim, planned}) +
                               ", now " + in_words({target.aim, solution.reached.back()}));
  }
  for (const std::size_t i : setting.free) {
    solution.working.push_back(fmt::format(
        "{} (plan {})", poured_words(bowl->lines[i]), internal::grams(before->lines[i].actual)));
  }
  solution.working.push_back("dough " + internal::grams(bowl->dough));
  return solution;
}

}  // namespace

std::string_view name(Aim aim) { return names.at(static_cast<std::size_t>(aim)); }

double reached(Aim aim, const Bowl& bowl) {
  switch (aim) {
    case Aim::real_hydration:
      return bowl.real_hydration();
    case Aim::liquid_total:
      return bowl.liquid.si();
    case Aim::alcohol:
      return bowl.ethanol.si();
    case Aim::strength_of_liquid:
      return bowl.strength_of_liquid().value();
    case Aim::alcohol_in_water:
      return bowl.ethanol_in_water().si();
    case Aim::sugar:
      return (bowl.hexose + bowl.sucrose + bowl.maltose + bowl.lactose).si();
    case Aim::salt:
      return bowl.salt.si();
    case Aim::sulphite:
      return bowl.total_sulphite.si();
    case Aim::acid:
      return std::accumulate(bowl.acid.begin(), bowl.acid.end() - 1, Amount{}).si();
    case Aim::dough_weight:
      return bowl.dough.si();
  }
  return 0;
}

Result<Solution> solve(const Bake& bake,
                       const std::vector<Target>& targets,
                       const std::vector<Free>& free) {
  const auto checked = check(targets, free);
  if (!checked) return failure(checked);
  const auto setting = setting_of(bake, free);
  if (!setting) return failure(setting);
  const Answer found = answer(*setting, targets);
  auto solution = told(*setting, targets, found);
  if (!solution || solution->met) return solution;
  for (const Target& target : conflicting(*setting, targets)) {
    solution->conflicts.push_back(in_words(target));
  }
  return solution;
}

}  // namespace barm::formula
