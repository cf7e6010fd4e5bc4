#include <fmt/format.h>

#include <cmath>

#include "chemistry/ethanol_water.h"
#include "formula/internal/contents.h"
#include "formula/internal/say.h"
#include "formula/solve.h"
#include "larder/composition.h"

namespace barm::formula {

using internal::grams;
using internal::percent;
using larder::Property;

namespace {

/// What the other bake asks of this bake's flour.
struct Asked {
  Bowl other, own;
  double alcohol = 0;  ///< [kg]
  double water = 0;    ///< [kg]
};

Result<Asked> asked(const Bake& bake, const Bake& other) {
  auto theirs = in_the_bowl(other);
  if (!theirs) return failure(theirs);
  Bake planned = bake;
  for (Portion& portion : planned.bowl) portion.weighed.reset();
  auto own = in_the_bowl(planned);
  if (!own) return failure(own);
  const double scale = own->flour / theirs->flour;
  const double alcohol = scale * theirs->ethanol.si();
  const double water = scale * theirs->added_water.si();
  return Asked{*std::move(theirs), *std::move(own), alcohol, water};
}

std::vector<Free> drinks_of(const Bake& bake) {
  std::vector<Free> free;
  for (const Portion& portion : bake.bowl) {
    const auto composition = larder::typical(portion.ingredient);
    const bool drink = portion.ingredient.group == larder::Group::drink;
    if (drink && composition && (*composition)[Property::ethanol] > 0.001) {
      free.push_back({.ingredient = portion.ingredient.name, .least = Mass{}});
    }
  }
  return free;
}

/// "perry: 5.5 % vol = 43 g alcohol in a litre = 4.4 % by weight, not 5.5 g in 100 g".
std::string bottle_words(const larder::Ingredient& drink) {
  const auto composition = larder::typical(drink);
  if (!composition) return drink.name;
  const AlcoholByVolume strength((*composition)[Property::strength]);
  return fmt::format("{}: {} vol = {:.0f} g alcohol in a litre = {} by weight, not {:g} g in 100 g",
                     drink.name,
                     percent(strength.value()),
                     chemistry::ethanol_per_volume(strength).si(),
                     percent((*composition)[Property::ethanol]),
                     std::round(10 * strength.percent()) / 10);
}

std::string called(const Bake& bake) { return bake.name.empty() ? bake.file : bake.name; }

/// "falls from 1071 g to 650 g", "rises from …", "stays at …".
std::string change(Mass from, Mass to) {
  if (grams(from) == grams(to)) return "stays at " + grams(to);
  return fmt::format("{} from {} to {}", to < from ? "falls" : "rises", grams(from), grams(to));
}

std::vector<std::string> whiteboard(
    const Bake& bake, const Bake& other, const Asked& asked, const Bowl& now, bool met) {
  std::vector<std::string> lines;
  lines.push_back(fmt::format("{} holds {} alcohol and {} real water on {} flour",
                              called(other),
                              grams(asked.other.ethanol),
                              grams(asked.other.added_water),
                              grams(asked.other.flour)));
  lines.push_back(fmt::format("{} has {} flour: that asks for {} alcohol and {} real water",
                              called(bake),
                              grams(asked.own.flour),
                              grams(asked.alcohol * kilogram),
                              grams(asked.water * kilogram)));
  Mass brought;
  for (const Free& drink : drinks_of(bake)) {
    const std::size_t i = bake.find(drink.ingredient).value();
    const auto composition = larder::typical(bake.bowl[i].ingredient);
    lines.push_back(bottle_words(bake.bowl[i].ingredient));
    lines.push_back(fmt::format("{} {}, that is {}",
                                grams(now.lines[i].actual),
                                drink.ingredient,
                                internal::millilitres(now.lines[i].volume)));
    if (composition) brought += (*composition)[Property::water] * now.lines[i].actual;
  }
  Mass water_before;
  Mass water_now;
  for (std::size_t i = 0; i < now.lines.size(); ++i) {
    if (now.lines[i].name == "water") water_now = now.lines[i].actual;
    if (i < asked.own.lines.size() && now.lines[i].name == "water")
      water_before = asked.own.lines[i].actual;
  }
  const char* it = drinks_of(bake).size() > 1 ? "they bring" : "it brings";
  lines.push_back(fmt::format(
      "{} {} real water, so water {}", it, grams(brought), change(water_before, water_now)));
  lines.push_back(fmt::format("the dough {}", change(asked.own.dough, now.dough)));
  if (!met) {
    lines.push_back(
        fmt::format("too weak: with all the water from the bottle there are {} alcohol, not {}",
                    grams(now.ethanol),
                    grams(asked.alcohol * kilogram)));
  }
  return lines;
}

}  // namespace

Result<Solution> match(const Bake& bake, const Bake& other) {
  const auto asked = formula::asked(bake, other);
  if (!asked) return failure(asked);
  std::vector<Free> free = drinks_of(bake);
  if (free.empty()) {
    return failure(ErrorCode::not_found, bake.file, "has no drink with alcohol to match with");
  }
  const Target alcohol{Aim::alcohol, asked->alcohol};
  const Target water{Aim::real_hydration, asked->water / asked->own.flour.si()};
  std::vector<Free> with_water = free;
  with_water.push_back({.ingredient = "water", .least = Mass{}});
  auto solution = solve(bake, {alcohol, water}, with_water);
  if (!solution) return solution;
  const auto conflicts = solution->conflicts;
  const bool met = solution->met;
  if (!met) {
    with_water.back().most = Mass{};
    solution = solve(bake, {water}, with_water);
    if (!solution) return solution;
    solution->met = false;
    solution->conflicts = conflicts;
  }
  Bake solved = bake;
  if (solution->masses.size() > bake.bowl.size()) solved.bowl.push_back(internal::no_water());
  const auto now = in_the_bowl(by_weight(solved, solution->masses));
  if (!now) return failure(now);
  solution->reached = {reached(Aim::alcohol, *now), reached(Aim::real_hydration, *now)};
  solution->working = whiteboard(bake, other, *asked, *now, met);
  return solution;
}

}  // namespace barm::formula
