#include "service/oven/simmer.h"

#include <fmt/format.h>

#include <array>
#include <nlohmann/json.hpp>

#include "drink/prepare.h"
#include "formula/amount.h"
#include "larder/composition.h"
#include "larder/larder.h"
#include "service/internal/object.h"
#include "service/words.h"

namespace barm::service {

using internal::object;
using larder::Composition;
using larder::Ingredient;
using larder::Property;
using nlohmann::json;

namespace {

using enum Property;

constexpr std::array acids_of_drinks{
    lactic_acid, acetic_acid, tartaric_acid, malic_acid, citric_acid, succinic_acid, gluconic_acid};
constexpr std::array sugars_of_drinks{glucose, fructose, sucrose, maltose, lactose};

template <std::size_t N>
Mass sum_of(const Composition& c, const std::array<Property, N>& properties, Mass mass) {
  double sum = 0;
  for (const Property property : properties) sum += c[property];
  return sum * mass;
}

// The whole range in which the sulphite may lie [mg].
std::pair<double, double> sulphite_of(const Ingredient& ingredient, Mass mass) {
  auto known = ingredient[total_sulphite];
  if (!known) known = larder::assumed(ingredient, total_sulphite);
  if (!known) return {0, 0};
  return {(known->low * mass).in(milligram), (known->high * mass).in(milligram)};
}

Held held(const Ingredient& ingredient, const Composition& c, Mass mass) {
  const auto [low, high] = sulphite_of(ingredient, mass);
  return {c[ethanol] * mass,
          sum_of(c, acids_of_drinks, mass),
          sum_of(c, sugars_of_drinks, mass),
          low,
          high};
}

std::vector<std::string> cautions_of(const SimmerAnswer& answer) {
  std::vector<std::string> out;
  if (answer.simmered.alcohol_out.in(gram) >= 1) {
    out.push_back(fmt::format(
        "{} of alcohol leaves as vapour, most of it early: it can catch fire at a flame, and a "
        "flame "
        "at the pan can follow it. Bakers simmer it in a wide pan without a lid, on a ring without "
        "a flame, in moved air, and keep face and sleeves away.",
        weight(answer.simmered.alcohol_out)));
  }
  if (answer.flash_point) {
    out.push_back(
        fmt::format("Its vapour can be lit from about {:.0f} °C on, long before it boils. The "
                    "stove maker's and "
                    "your local rules hold.",
                    answer.flash_point->celsius()));
  }
  if (answer.after.sulphite_high > 0) {
    out.emplace_back(
        "What sulphite leaves with the steam stings in nose and lungs, and some people are hurt by "
        "little of it; what stays still has to be named.");
  }
  return out;
}

}  // namespace

Result<drink::Until> parse_until(const std::string& text) {
  const auto amount = formula::parse_amount(text);
  if (!amount) return failure(amount);
  const bool percent = amount->kind == formula::WrittenAmount::Kind::percent && !amount->of_liquid;
  if (percent && amount->by_volume && amount->value >= 0.0005 && amount->value < 1)
    return drink::Until{0, AlcoholByVolume(amount->value)};
  if (percent && !amount->by_volume && amount->value >= 0.02 && amount->value <= 1)
    return drink::Until{amount->value, {}};
  return failure(ErrorCode::bad_input,
                 "",
                 "a share of the weight from 2 % such as \"60 %\", or a strength from 0.05 % vol "
                 "such as \"2 % vol\"");
}

Result<SimmerAnswer> simmer(const SimmerRequest& request) {
  const Ingredient* found = larder::find(request.drink);
  if (found == nullptr) {
    std::string hint;
    for (const std::string& name : larder::near(request.drink))
      hint += (hint.empty() ? " Near it: " : ", ") + name;
    return failure(ErrorCode::not_found,
                   "drink",
                   fmt::format("\"{}\" is not in the larder.{}", request.drink, hint));
  }
  if (!found->is_liquid())
    return failure(ErrorCode::bad_input, "drink", found->name + " is not poured: name a drink");
  const auto before = larder::typical(*found);
  if (!before) return failure(before);
  auto simmered = drink::simmer(*before, request.pan, request.until);
  if (!simmered) return failure(simmered.error().code, "to", simmered.error().message);
  const Ingredient left = drink::remade(*found, *before, simmered->left, true);
  const auto after = larder::typical(left);
  if (!after) return failure(after);
  SimmerAnswer answer;
  answer.drink = found->name;
  answer.request = request;
  answer.strength_before = AlcoholByVolume((*before)[strength]);
  answer.strength_after = AlcoholByVolume((*after)[strength]);
  answer.before = held(*found, *before, request.pan.drink);
  answer.after = held(left, *after, simmered->mass);
  answer.volume_after = simmered->mass / after->density();
  const double liquid = (*before)[Property::water] + (*before)[ethanol];
  answer.flash_point = drink::flash_point(MassFraction((*before)[ethanol] / liquid));
  answer.simmered = *std::move(simmered);
  answer.cautions = cautions_of(answer);
  return answer;
}

json to_json(const SimmerAnswer& answer) {
  const auto held_json = [](const Held& held) {
    return object(
        {{"alcohol_g", held.alcohol.in(gram)},
         {"acid_g", held.acid.in(gram)},
         {"sugar_g", held.sugar.in(gram)},
         {"sulphite_mg", object({{"low", held.sulphite_low}, {"high", held.sulphite_high}})}});
  };
  json course = json::array();
  for (const drink::Boiling& at : answer.simmered.course) {
    course.push_back(object({{"minutes", at.after.in(minute)},
                             {"left_g", at.left.in(gram)},
                             {"C", at.temperature.celsius()},
                             {"strength_percent_vol", at.strength.percent()}}));
  }
  return object(
      {{"schema", "barm.simmer/1"},
       {"drink", answer.drink},
       {"in_g", answer.request.pan.drink.in(gram)},
       {"heat_W", answer.request.pan.heat.si()},
       {"left_g", answer.simmered.mass.in(gram)},
       {"left_mL", answer.volume_after.in(millilitre)},
       {"to_the_boil_min", answer.simmered.to_the_boil.in(minute)},
       {"minutes", answer.simmered.lasts.in(minute)},
       {"strength_before_percent_vol", answer.strength_before.percent()},
       {"strength_after_percent_vol", answer.strength_after.percent()},
       {"before", held_json(answer.before)},
       {"after", held_json(answer.after)},
       {"acetic_kept", answer.simmered.acetic_kept},
       {"flash_point_C", answer.flash_point ? json(answer.flash_point->celsius()) : json()},
       {"course", course},
       {"cautions", answer.cautions}});
}

}  // namespace barm::service
