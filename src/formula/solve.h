#pragma once
// Solving the bowl: any set of targets over any set of free ingredients.
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "formula/bowl.h"

namespace barm::formula {

enum class Aim {
  real_hydration,      ///< real water over flour
  liquid_total,        ///< kg
  alcohol,             ///< kg of ethanol
  strength_of_liquid,  ///< % vol as a fraction
  alcohol_in_water,    ///< kg/m3 of the water phase
  sugar,
  salt,
  sulphite,
  acid,          ///< kg, kg, kg, mol
  dough_weight,  ///< kg
};

[[nodiscard]] std::string_view name(Aim aim);

struct Target {
  Aim aim = Aim::real_hydration;
  double value = 0;
};

struct Free {
  std::string ingredient;
  Mass least;
  Mass most = Mass::from_si(1e6);
};

struct Solution {
  std::vector<Mass> masses;  ///< same order as bake.bowl
  bool met = false;
  std::vector<std::string> conflicts;  ///< which targets cannot stand together, in words
  std::vector<double> reached;         ///< what each target comes to, same order
  std::vector<std::string> working;    ///< step by step, grams and millilitres kept apart
};

/// The aim's value of a bowl, in the unit of Target::value.
[[nodiscard]] double reached(Aim aim, const Bowl& bowl);

/// Masses of the free ingredients that meet every target, nearest to the plan when many do. When
/// they cannot be met: the nearest that can, `met` false, and a smallest set of targets that
/// conflict. Errors: not_found (a free ingredient is not in the bowl), no_convergence.
[[nodiscard]] Result<Solution> solve(const Bake& bake,
                                     const std::vector<Target>& targets,
                                     const std::vector<Free>& free);

/// Same alcohol and same real water as `other`, scaled to this bake's flour, from this bake's own
/// bottle and plain water. The working as on a whiteboard.
[[nodiscard]] Result<Solution> match(const Bake& bake, const Bake& other);

/// How to thin a drink with water to a strength: by mass, since volumes do not add.
struct Thinned {
  Mass drink, water;
  Volume drink_volume, water_volume, together;  ///< `together` is not the sum of the two
  std::vector<std::string> working;
};

/// `total` is the mass together, which is exact. Errors: bad_input (no strength or mass),
/// cannot_be_met (the drink is weaker than wanted). Checked against: tests/formula/thin_test.cpp.
[[nodiscard]] Result<Thinned> thin(const larder::Ingredient& drink,
                                   AlcoholByVolume wanted,
                                   Mass total);

/// What to add so that an over-pour is back to plan ("add 31 g water and 1 g salt"), or why not.
/// Nothing can be taken out, so every line grows to plan times the largest actual/plan. That is not
/// sensible above half as much dough again; then `possible` is false and `add` is the nearest: for
/// a drink, the water and salt that bring alcohol and salt in the dough's water back to plan; for
/// anything else, all to half as much again.
struct Mend {
  struct Addition {
    std::string ingredient;
    Mass mass;
  };

  /// Less of what is still to be poured, in place of more of all the rest: the water that holds the
  /// real water of the dough as planned.
  struct Less {
    std::string ingredient;
    Mass by;
    Mass leaves;  ///< what is then to be weighed of it
  };

  bool needed = false;
  bool possible = false;
  std::optional<Less> pour_less;  ///< needs nothing; empty when no water to come makes up for it
  std::vector<Addition> add;
  Mass extra_dough;
  std::string words;  ///< one sentence for the baker
};

[[nodiscard]] Result<Mend> mend(const Bake& bake);

}  // namespace barm::formula
