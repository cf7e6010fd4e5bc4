#include "taste/tongue.h"

#include <algorithm>
#include <cmath>

#include "chemistry/acids.h"
#include "generated/constants.h"
#include "generated/tables.h"

namespace barm::taste {

namespace {

constexpr double milli = 1e3;
// Luck of the tongue: streams after those of the scents.
constexpr std::size_t of_sour = 1000;
constexpr std::size_t of_bitter = 1001;
constexpr std::size_t of_sweet = 1002;

const tables::tastes_row& row(std::string_view name) {
  return *std::find_if(std::begin(tables::tastes), std::end(tables::tastes), [&](const auto& one) {
    return one.name == name;
  });
}

constexpr std::string_view acid_words[] = {"lactic acid",
                                           "acetic acid",
                                           "tartaric acid",
                                           "malic acid",
                                           "citric acid",
                                           "succinic acid",
                                           "gluconic acid"};

/// What is in a mouthful over what is just noticed, many tongues drawn.
void draw_tongues(Sense& sense,
                  const tables::tastes_row& threshold,
                  std::size_t stream,
                  Luck& luck) {
  const Between range{threshold.threshold_low, threshold.threshold, threshold.threshold_high};
  std::vector<double> activity;
  double all = 0;
  double drink = 0;
  const bool stands_out = sense.of_drink >= constants::level::same_note_masks.value.si() *
                                                (sense.strength - sense.of_drink);
  for (const auto& z : luck.of(stream)) {
    const double tongue =
        constants::mouth::tongues.value.si() * z[static_cast<std::size_t>(Own::nose)];
    const double over =
        range.middle / range.at(z[static_cast<std::size_t>(Own::threshold)]) * std::exp(tongue);
    activity.push_back(sense.strength * over);
    sense.drink.push_back(stands_out ? sense.of_drink * over : 0);
    all += activity.back() >= 1 ? 1 : 0;
    drink += sense.drink.back() >= 1 ? 1 : 0;
  }
  std::sort(activity.begin(), activity.end());
  const auto count = static_cast<double>(activity.size());
  sense.low = activity[static_cast<std::size_t>(0.1 * (count - 1))];
  sense.high = activity[static_cast<std::size_t>(0.9 * (count - 1))];
  sense.noticed = all / count;
  sense.noticed_drink = drink / count;
  sense.source = threshold.threshold_source;
}

double litres(const Baking& baking) {
  // Of bolus for what a kilogram of dough becomes.
  return constants::mouth::bolus.value.in(litre / kilogram) * (1 - baking.loss);
}

Sense sour(const Contents& contents,
           const Baking& baking,
           const AtTheOven& dough,
           double acetic_left,
           Luck& luck) {
  Sense sense{.what = "sour", .most = "", .left = 1};
  double most = 0;
  double all = 0;
  double drinks = 0;
  double brought = 0;
  for (const Sour& one : contents.sour) {
    const auto k = static_cast<std::size_t>(one.acid);
    double total = one.of_drinks + one.of_rest;
    if (dough.known && one.acid == chemistry::Acid::lactic) total = dough.lactate;
    if (dough.known && one.acid == chemistry::Acid::acetic) total = dough.acetate;
    const double left = one.acid == chemistry::Acid::acetic ? acetic_left : 1;
    const double with = with_acid_group(one.acid, dough.ph, contents.salt_in_water);
    const double here = milli * total * left * with / litres(baking);
    all += here;
    drinks += milli * one.of_drinks * left * with / litres(baking);
    brought += milli * one.of_drinks * with / litres(baking);
    if (here <= most) continue;
    most = here;
    sense.most = acid_words[k];
  }
  const tables::tastes_row& threshold = row("sour in all (H+ and undissociated acid)");
  sense.strength = (all + milli * std::pow(10, -dough.ph)) / threshold.threshold;
  sense.of_drink = drinks / threshold.threshold;
  sense.left = brought > 0 ? drinks / brought : 1;
  draw_tongues(sense, threshold, of_sour, luck);
  return sense;
}

Sense bitter(const Contents& contents, const Baking& baking, Luck& luck) {
  Sense sense{.what = "bitter", .most = ""};
  const tables::tastes_row* most = &row("iso-alpha-acids");
  std::vector<double> sums(std::size(tables::tastes), 0.0);
  for (const Bitter& one : contents.bitter) sums[one.taste] += one.amount.middle;
  for (std::size_t i = 0; i < sums.size(); ++i) {
    const tables::tastes_row& taste = tables::tastes[i];
    if (taste.sense != "bitter" || sums[i] <= 0) continue;
    const double here =
        milli * sums[i] * taste.left * taste.free_share / litres(baking) / taste.threshold;
    if (here <= sense.strength) continue;
    sense.strength = here;
    sense.most = taste.name;
    sense.left = taste.left;
    most = &taste;
  }
  sense.of_drink = sense.strength;
  draw_tongues(sense, *most, of_bitter, luck);
  return sense;
}

Sense sweet(const Contents& contents, const Baking& baking, const AtTheOven& dough, Luck& luck) {
  constexpr double micrograms = 1e6;
  Sense sense{.what = "sweet", .most = "what the ferment leaves of the sugar"};
  const double sugar = dough.known ? dough.sugar : contents.sugar;
  const double of_sugar = micrograms * sugar / litres(baking) / row("glucose").threshold;
  sense.of_drink = micrograms * contents.glycerol / litres(baking) / row("glycerol").threshold;
  sense.strength = of_sugar + sense.of_drink;
  if (sense.of_drink > of_sugar) sense.most = "glycerol";
  draw_tongues(sense, row("glucose"), of_sweet, luck);
  return sense;
}

}  // namespace

double with_acid_group(chemistry::Acid acid, double ph, double ionic_strength) {
  // The last step is the last group to go: w_j as in chemistry::dissociated().
  const auto steps = chemistry::pka(acid, Molality::from_si(ionic_strength));
  double sum = 1;
  double weight = 1;
  for (const double pk : steps) {
    weight *= std::pow(10, ph - pk);
    sum += weight;
  }
  return 1 - weight / sum;
}

Tongue tongue(const Contents& contents,
              const Baking& baking,
              const AtTheOven& dough,
              double acetic_left,
              Luck& luck) {
  return {{sour(contents, baking, dough, acetic_left, luck),
           bitter(contents, baking, luck),
           sweet(contents, baking, dough, luck)}};
}

}  // namespace barm::taste
