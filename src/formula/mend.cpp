#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "formula/internal/contents.h"
#include "formula/internal/say.h"
#include "formula/solve.h"

namespace barm::formula {

using internal::grams;

namespace {

// Ours: beyond half as much dough again a baker has no tub, no oven and no customers for it.
constexpr double most_growth = 1.5;
// Ours: what a scale in a bakery tells and a dough feels. Two hundredths of a line are worth
// mending; so is a gram and more, where it is half a hundredth of its line.
constexpr double much_of_a_line = 0.02;
constexpr double little_of_a_line = 0.005;
constexpr Mass on_the_scale = 1.0 * gram;
// Ours: a hundred-thousandth of a line is not added.
constexpr double nothing_to_add = 1e-5;
// Ours: with more water taken back than this of what is planned, it is another dough.
constexpr double most_taken_back = 0.9;

bool differs(const Weighed& line) {
  const double off = std::abs((line.actual - line.plan).si());
  return off > much_of_a_line * line.plan.si() ||
         (off > little_of_a_line * line.plan.si() && off >= on_the_scale.si());
}

/// Largest actual / plan; infinite for what was poured without being planned.
double growth(const Bowl& bowl) {
  double most = 1;
  for (const Weighed& line : bowl.lines) {
    if (differs(line)) most = std::max(most, (line.actual / line.plan).si());
  }
  return most;
}

/// What brings every line to `times` its plan; nothing for a line beyond it.
std::vector<Mend::Addition> additions(const Bowl& bowl, double times) {
  std::vector<Mend::Addition> add;
  for (const Weighed& line : bowl.lines) {
    const Mass missing = times * line.plan - line.actual;
    if (missing.si() > nothing_to_add * line.plan.si()) add.push_back({line.name, missing});
  }
  return add;
}

Mass sum(const std::vector<Mend::Addition>& add) {
  Mass all;
  for (const auto& one : add) all += one.mass;
  return all;
}

std::string listed(const std::vector<Mend::Addition>& add) {
  std::vector<std::string> words;
  for (const auto& one : add) words.push_back(grams(one.mass) + " " + one.ingredient);
  return internal::listed(words);
}

Mass planned_dough(const Bowl& bowl) {
  Mass all;
  for (const Weighed& line : bowl.lines) all += line.plan;
  return all;
}

/// The line that was poured furthest beyond its plan.
const Weighed& worst(const Bowl& bowl) {
  return *std::max_element(
      bowl.lines.begin(), bowl.lines.end(), [](const Weighed& a, const Weighed& b) {
        return a.actual * b.plan < b.actual * a.plan;
      });
}

// --- when it cannot be mended ---

Mass missing(double wanted, Mass now) { return std::max(Mass{}, wanted * kilogram - now); }

/// Water until there is as much for each gram of alcohol as planned, then salt until there is as
/// much for each gram of water: the culture then feels the dough it was meant to feel.
Result<std::vector<Mend::Addition>> alcohol_and_salt(const Bake& bake,
                                                     const Bowl& plan,
                                                     const Bowl& now) {
  std::vector<Mend::Addition> add;
  if (plan.ethanol.si() <= 0) return add;
  const double wanted = now.ethanol.si() * (plan.water / plan.ethanol);
  const Mass water = missing(wanted, now.water);
  const Mass salt = missing((now.water + water).si() * (plan.salt / plan.water), now.salt);
  if (water.si() > 0) add.push_back({"water", water});
  for (const Portion& portion : bake.bowl) {
    if (portion.ingredient.group != larder::Group::salt || salt.si() <= 0) continue;
    const auto composition = larder::typical(portion.ingredient);
    if (!composition) return failure(composition);
    add.push_back({portion.ingredient.name, salt / (*composition)[larder::Property::salt]});
    break;
  }
  return add;
}

Bake as_planned(Bake bake) {
  for (Portion& portion : bake.bowl) portion.weighed.reset();
  return bake;
}

/// The water that is not in the bowl yet, poured so much less that the dough's real water is as
/// planned: by - what all that was poured brings of water beyond its plan.
std::optional<Mend::Less> pour_less(const Bake& bake, const Bowl& plan, const Bowl& now) {
  const Mass by = now.added_water - plan.added_water;
  if (by < on_the_scale) return std::nullopt;
  for (std::size_t i = 0; i < bake.bowl.size(); ++i) {
    const Portion& portion = bake.bowl[i];
    if (portion.ingredient.group != larder::Group::water || portion.weighed) continue;
    const Mass planned = now.lines[i].plan;
    if (by > most_taken_back * planned) return std::nullopt;
    return Mend::Less{now.lines[i].name, by, planned - by};
  }
  return std::nullopt;
}

bool is_drink(const Bake& bake, const Bowl& bowl, const Weighed& line) {
  const auto i = static_cast<std::size_t>(&line - bowl.lines.data());
  return bake.bowl[i].ingredient.group == larder::Group::drink;
}

Result<Mend> compromise(const Bake& bake, const Bowl& now, double times) {
  const auto plan = in_the_bowl(as_planned(bake));
  if (!plan) return failure(plan);
  Mend mend;
  mend.needed = true;
  const Weighed& line = worst(now);
  const Mass most = most_growth * plan->dough;
  const std::string why =
      std::isfinite(times)
          ? fmt::format("{} is {:.3g} times its plan: mending would take {} more dough",
                        line.name,
                        times,
                        grams((times - 1) * plan->dough))
          : fmt::format("{} was not planned at all", line.name);
  if (is_drink(bake, now, line)) {
    auto add = alcohol_and_salt(bake, *plan, now);
    if (!add) return failure(add);
    if (!add->empty() && now.dough + sum(*add) <= most) {
      mend.add = *std::move(add);
      mend.words =
          fmt::format("{}; nearest: add {}, so that alcohol and salt are right in a softer dough",
                      why,
                      listed(mend.add));
    }
  }
  if (mend.add.empty()) {
    mend.add = additions(now, most_growth);
    mend.words =
        fmt::format("{}; nearest: add {}, so that all the rest is right", why, listed(mend.add));
  }
  mend.extra_dough = now.dough + sum(mend.add) - plan->dough;
  return mend;
}

}  // namespace

Result<Mend> mend(const Bake& bake) {
  const auto bowl = in_the_bowl(bake);
  if (!bowl) return failure(bowl);
  Mend mend;
  mend.needed = std::any_of(bowl->lines.begin(), bowl->lines.end(), differs);
  if (!mend.needed) {
    mend.possible = true;
    mend.words = "Everything is as planned.";
    return mend;
  }
  const double times = growth(*bowl);
  if (times > most_growth) return compromise(bake, *bowl, times);
  const auto plan = in_the_bowl(as_planned(bake));
  if (!plan) return failure(plan);
  mend.pour_less = pour_less(bake, *plan, *bowl);
  mend.possible = true;
  mend.add = additions(*bowl, times);
  mend.extra_dough = (times - 1) * planned_dough(*bowl);
  if (mend.add.empty()) {
    mend.pour_less.reset();
    mend.words = fmt::format("Everything is in proportion; there is {} ({}) more dough.",
                             grams(mend.extra_dough),
                             internal::percent(times - 1));
    return mend;
  }
  if (mend.pour_less)
    mend.words =
        fmt::format("Pour {} less {}, {} of it, and the dough holds the water it should; or ",
                    grams(mend.pour_less->by),
                    mend.pour_less->ingredient,
                    grams(mend.pour_less->leaves));
  mend.words += fmt::format("{} {}", mend.pour_less ? "add" : "Add", listed(mend.add));
  mend.words += mend.extra_dough.in(gram) < 0.5 ? "; the dough is as planned."
                                                : fmt::format("; that makes {} ({}) more dough.",
                                                              grams(mend.extra_dough),
                                                              internal::percent(times - 1));
  return mend;
}

}  // namespace barm::formula
