#include "taste/internal/offer.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "forecast/reach.h"
#include "generated/constants.h"
#include "generated/tables.h"
#include "larder/larder.h"

namespace barm::taste::internal {

using larder::Property;

namespace {

constexpr double density_of_water = 1000;

template <class Value>
void keep(const Value& value, Applied& applied) {
  applied.kept = value.value.si();
  applied.kept_doubt = value.doubt;
}

void keep_as(std::string_view word, Applied& applied) {
  namespace kept = constants::brushed;
  if (word == "cold") keep(kept::cold_left, applied);
  if (word == "hot") keep(kept::hot_left, applied);
  if (word == "syrup") keep(kept::syrup_left, applied);
  if (word == "butter") keep(kept::butter_left, applied);
  if (word == "soaked") keep(kept::soaked_left, applied);
}

/// What so many kilograms of the drink bring onto one loaf.
std::vector<Brought> of_drink(const Asked& drink, double kilograms) {
  std::vector<Brought> out = drink.scents;
  for (Brought& one : out)
    one.amount = {
        kilograms * one.amount.low, kilograms * one.amount.middle, kilograms * one.amount.high};
  return out;
}

std::vector<std::string> cautions_of(std::string_view list, const formula::Portion& portion) {
  std::vector<std::string> out;
  const auto holds = [&](std::string_view word) {
    return list.find(word) != std::string_view::npos;
  };
  const auto& strength = portion.ingredient[Property::strength];
  const bool alcohol = strength && strength->typical > 0.012;
  if (holds("alcohol unbaked") && alcohol)
    out.emplace_back(
        "Alcohol that is not baked stays: not for children, in pregnancy, or for those who drink "
        "none; bakers say so on the label.");
  if (holds("flame") && alcohol)
    out.emplace_back(
        "Warm vapour of alcohol catches fire: no flame and no hot oven near it, gas off when "
        "pouring; the stove maker's rules hold.");
  if (holds("vapour") && alcohol)
    out.emplace_back("Its vapour fills a kitchen: a hood on, a window open.");
  if (holds("concentrating") && alcohol)
    out.emplace_back(
        "Making a drink stronger by heat or frost may count as distilling: your country's law "
        "holds; boiling the alcohol off in an open pan usually does not.");
  if (holds("honey")) out.emplace_back("With honey: nothing for children under one year.");
  if (holds("milk")) out.emplace_back("Butter is milk: an allergen to name; keep it cold.");
  if (holds("sulphites"))
    out.emplace_back("Dried fruit often holds sulphites, seeds may be sesame: allergens to name.");
  if (holds("peel")) out.emplace_back("Only the peel of fruit that was not waxed or sprayed.");
  if (holds("caffeine")) out.emplace_back("Caffeine: say so, also for children.");
  if (holds("gluten"))
    out.emplace_back("Malt holds gluten; if it is not roasted its enzymes soften a dough.");
  if (holds("label")) out.emplace_back("An acid is an ingredient to name on the label.");
  return out;
}

Route begin(std::string_view means, std::string what, const Situation& now, const Asked& drink) {
  Route out;
  out.means = std::string(means);
  out.what = std::move(what);
  out.bake = now.bake;
  out.price_guessed = drink.price_guessed;
  return out;
}

Route put_on(std::string_view means,
             const Situation& now,
             const Asked& drink,
             double crust_share,
             double amount) {
  const auto& r = route_row(means);
  const double scale = amount * (now.piece.in(kilogram) / usual_piece);
  const double poured = scale * r.drink_g * 1e-3;
  Route out = begin(means,
                    fmt::format("{} ({:.0f} g of {} a loaf)", r.what, 1e3 * poured, drink.name),
                    now,
                    drink);
  Applied applied;
  applied.scents = of_drink(drink, poured);
  const bool crust = r.onto == "crust" && crust_share > 0.02;
  applied.onto =
      crust ? now.crust(crust_share) : std::max(r.drink_g + r.other_g, 20.0) * scale * gram;
  keep_as(r.kept, applied);
  out.applied.push_back(std::move(applied));
  out.coins = poured * drink.price + scale * r.coins;
  out.minutes = r.minutes;
  out.cautions = cautions_of(r.cautions, now.bake.bowl[drink.portion]);
  return out;
}

formula::Bake with_ingredient(const Situation& now,
                              const Asked& drink,
                              larder::Ingredient ingredient) {
  std::vector<Mass> masses;
  for (const formula::Weighed& line : now.bowl.lines) masses.push_back(line.actual);
  formula::Bake bake = formula::by_weight(now.bake, masses);
  bake.bowl[drink.portion].ingredient = std::move(ingredient);
  return bake;
}

Route stronger(std::string_view means,
               const Situation& now,
               const Asked& drink,
               double times,
               larder::Ingredient ingredient) {
  const auto& r = route_row(means);
  Route out = begin(means, std::string(r.what), now, drink);
  out.bake = with_ingredient(now, drink, std::move(ingredient));
  out.changes_dough = true;
  const double poured =
      now.bowl.lines[drink.portion].actual.in(kilogram) / std::max(1, now.bowl.pieces);
  out.coins = (times - 1) * poured * drink.price;
  out.minutes = r.minutes;
  out.cautions = cautions_of(r.cautions, now.bake.bowl[drink.portion]);
  return out;
}

Route kneaded_in(std::string_view means, const Situation& now, const Asked& drink, double amount) {
  const auto& r = route_row(means);
  const double grams = amount * r.other_g * now.piece.in(kilogram) / usual_piece;
  Route out = begin(means, fmt::format("{} ({:.1f} g a loaf)", r.what, grams), now, drink);
  out.coins = r.coins * grams / r.other_g;
  out.minutes = r.minutes;
  out.price_guessed = true;
  out.cautions = cautions_of(r.cautions, now.bake.bowl[drink.portion]);
  return out;
}

Route acid(const Situation& now, const Asked& drink, double amount) {
  Route out = kneaded_in("acid", now, drink, amount);
  formula::Portion portion;
  portion.ingredient = *larder::find(drink.family == "wine" ? "tartaric_acid" : "malic_acid");
  portion.measure = formula::Measure::mass;
  portion.amount = amount * route_row("acid").other_g * 1e-3 * std::max(1, now.bowl.pieces) *
                   now.piece.in(kilogram) / usual_piece;
  out.bake = with_ingredient(now, drink, now.bake.bowl[drink.portion].ingredient);
  out.bake.bowl.push_back(portion);
  out.changes_dough = true;
  out.what = fmt::format("stir in {} ({:.1f} g a loaf)",
                         portion.ingredient.name,
                         1e3 * portion.amount / std::max(1, now.bowl.pieces));
  return out;
}

double price_of(std::string_view drink) {
  for (const auto& one : tables::drink_families) {
    if (one.drink == drink) return one.price_per_litre;
  }
  return 0;
}

Route another(const Situation& now, const Asked& drink, std::string_view kin) {
  larder::Ingredient ingredient = now.bake.bowl[drink.portion].ingredient;
  for (const auto& one : tables::scents_of) {
    if (one.drink == kin && one.kinship == "same") ingredient = *larder::find(one.key);
  }
  ingredient.scents.clear();
  ingredient.smells_like = std::string(kin);
  Route out = begin("another drink", fmt::format("{} in its place", kin), now, drink);
  out.bake = with_ingredient(now, drink, std::move(ingredient));
  out.changes_dough = true;
  const double poured =
      now.bowl.lines[drink.portion].actual.in(kilogram) / std::max(1, now.bowl.pieces);
  out.coins = poured * (price_of(kin) - price_of(drink.like.drink));
  out.price_guessed = true;
  return out;
}

Result<Route> replace_more(const Situation& now, const Asked& drink) {
  Route out = begin("replace more", "all of the water replaced by it", now, drink);
  const auto most = forecast::poured(now.bake, drink.name);
  if (!most) return failure(most);
  auto bake = forecast::with_share(now.bake, drink.name, most->room);
  if (!bake) return failure(bake);
  out.bake = *std::move(bake);
  out.bake.pieces = now.bake.pieces;
  out.changes_dough = true;
  const double poured =
      out.bake.bowl[drink.portion].amount - now.bowl.lines[drink.portion].actual.in(kilogram);
  out.coins = poured / std::max(1, now.bowl.pieces) * drink.price;
  out.cautions = cautions_of("", now.bake.bowl[drink.portion]);
  return out;
}

bool holds_water(const Situation& now) {
  for (std::size_t i = 0; i < now.bake.bowl.size(); ++i) {
    if (now.bake.bowl[i].ingredient.group == larder::Group::water &&
        now.bowl.lines[i].actual.si() > 0)
      return true;
  }
  return false;
}

}  // namespace

Result<Asked> asked_drink(const formula::Bake& bake, const std::string& words) {
  Asked out;
  const auto main = words.empty() ? forecast::main_drink(bake) : std::optional(words);
  std::optional<std::size_t> at = main ? bake.find(*main) : std::nullopt;
  for (std::size_t i = 0; !at && words.empty() && i < bake.bowl.size(); ++i) {
    if (is_drink(bake.bowl[i])) at = i;
  }
  if (!at || !is_drink(bake.bowl[*at]))
    return failure(
        ErrorCode::not_found,
        bake.file,
        words.empty() ? "no drink in this bowl" : "'" + words + "' is not a drink of this bowl");
  const formula::Portion& portion = bake.bowl[*at];
  out.portion = *at;
  out.name = portion.ingredient.name;
  out.like = smells_like(portion.ingredient).value_or(SmellsLike{});
  for (const auto& one : tables::drink_families) {
    if (one.drink == out.like.drink) out.family = one.family;
  }
  const auto settled = larder::typical(portion.ingredient);
  if (!settled) return failure(settled);
  out.scents = scents_of_drink(portion, *at, *settled);
  out.ph = settled->ph().value();
  out.price_guessed = !portion.price;
  out.price = portion.price.value_or(1e3 * price_of(out.like.drink) / density_of_water);
  return out;
}

Result<std::vector<Route>> offers(const Situation& now,
                                  const Asked& drink,
                                  double crust_share,
                                  double amount) {
  std::vector<Route> out;
  for (const std::string_view means : {"brush", "brush hot", "syrup", "butter", "soaked fruit"})
    out.push_back(put_on(means, now, drink, crust_share, amount));
  const larder::Ingredient& ingredient = now.bake.bowl[drink.portion].ingredient;
  if (drink.family != "spirit")
    out.push_back(stronger(
        "simmer", now, drink, 1 / boiled_to, boiled_down(ingredient, boiled_to, drink.ph)));
  const auto& strength = ingredient[Property::strength];
  if (!strength || strength->typical < 0.012)
    out.push_back(stronger("freeze", now, drink, 3, frozen_out(ingredient)));
  for (const std::string_view means : {"zest", "grounds", "malt"}) {
    const bool fits = std::any_of(
        std::begin(tables::added_scents), std::end(tables::added_scents), [&](const auto& one) {
          return one.means == means && one.families == drink.family;
        });
    const bool citrus = means != "zest" || drink.like.drink == "orange juice";
    if (fits && citrus) out.push_back(kneaded_in(means, now, drink, 1));
  }
  if (drink.family == "wine" || drink.family == "cider and mead" || drink.family == "juice")
    out.push_back(acid(now, drink, 1));
  if (holds_water(now)) {
    auto more = replace_more(now, drink);
    if (!more) return failure(more);
    out.push_back(*std::move(more));
  }
  for (const std::string_view kin : kin_of(drink.like.drink))
    out.push_back(another(now, drink, kin));
  return out;
}

}  // namespace barm::taste::internal
