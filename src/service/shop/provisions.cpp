#include "service/shop/provisions.h"

#include <fmt/format.h>

#include <algorithm>

#include "forecast/feeding.h"
#include "larder/larder.h"
#include "service/words.h"

namespace barm::service {

namespace {

constexpr int levains_to_draw = 100;

/// How much the shelf has of an ingredient, and whether it keeps account of it.
struct OnTheShelf {
  double left_g = 0, left_ml = 0;
  bool by_volume = false, kept = false;
};

OnTheShelf on_the_shelf(const std::string& ingredient, const std::vector<storage::Bottle>& shelf) {
  OnTheShelf out;
  for (const storage::Bottle& bottle : shelf) {
    const larder::Ingredient* called = larder::find(bottle.ingredient);
    if ((called == nullptr ? bottle.ingredient : called->name) != ingredient) continue;
    out.kept = true;
    out.by_volume = bottle.size_mL > 0;
    out.left_g += bottle.left_g + bottle.whole_bottles * bottle.size_g;
    out.left_ml += bottle.left_mL + bottle.whole_bottles * bottle.size_mL;
  }
  return out;
}

}  // namespace

std::optional<FedLevain> fed_levain(const formula::Bake& bake,
                                    const formula::Bowl& bowl,
                                    double times) {
  const auto& levain = bake.levain;
  if (!levain) return std::nullopt;
  const auto line = std::find_if(
      bowl.lines.begin(), bowl.lines.end(), [](const formula::Weighed& one) { return one.levain; });
  if (line == bowl.lines.end()) return std::nullopt;
  std::optional<Time> before = levain->since_feeding;
  if (!before) {
    forecast::Options options;
    options.draws = levains_to_draw;
    const auto feeding = forecast::feed(*levain, line->plan, options);
    if (feeding) before = feeding->peak.p50;
  }
  if (!before) return std::nullopt;
  const double parts = levain->ripe + levain->fresh_flour + levain->water;
  const Mass part = (times / parts) * line->plan;
  return FedLevain{*before + levain->in_the_cold,
                   fmt::format("{} {}, {} {}, {} water",
                               weight(levain->ripe * part),
                               levain->starter.name,
                               weight(levain->fresh_flour * part),
                               levain->flour.name,
                               weight(levain->water * part)),
                   levain->ripe * part,
                   levain->flour.name,
                   levain->fresh_flour * part,
                   levain->yeasted() ? levain->starter.name : "",
                   levain->yeasted() ? levain->ripe * part : Mass{}};
}

void add_needs(Needs& needs,
               const formula::Bake& bake,
               const formula::Bowl& bowl,
               const std::optional<FedLevain>& levain,
               double times) {
  for (std::size_t i = 0; i < bowl.lines.size() && i < bake.bowl.size(); ++i) {
    const larder::Group group = bake.bowl[i].ingredient.group;
    if (bake.bowl[i].levain || group == larder::Group::water || group == larder::Group::starter)
      continue;
    Need& need = needs[bowl.lines[i].name];
    need.mass = need.mass + times * bowl.lines[i].plan;
    need.volume = need.volume + times * bowl.lines[i].volume;
    need.drink = group == larder::Group::drink;
  }
  if (!levain) return;
  needs[levain->flour].mass = needs[levain->flour].mass + levain->flour_mass;
  if (!levain->yeast.empty())
    needs[levain->yeast].mass = needs[levain->yeast].mass + levain->yeast_mass;
}

std::vector<std::string> to_buy(const Needs& needs, const std::vector<storage::Bottle>& shelf) {
  std::vector<std::string> words;
  for (const auto& [ingredient, need] : needs) {
    const OnTheShelf there = on_the_shelf(ingredient, shelf);
    if (!there.kept && !need.drink) continue;
    const bool by_volume = there.kept ? there.by_volume : need.drink;
    if (by_volume && there.left_ml < need.volume.in(millilitre)) {
      words.push_back(fmt::format("{}: {} needed, {} on the shelf",
                                  ingredient,
                                  volume(need.volume),
                                  there.left_ml > 0 ? volume(there.left_ml * millilitre) : "none"));
    }
    if (!by_volume && there.left_g < need.mass.in(gram)) {
      words.push_back(fmt::format("{}: {} needed, {} on the shelf",
                                  ingredient,
                                  weight(need.mass),
                                  there.left_g > 0 ? weight(there.left_g * gram) : "none"));
    }
  }
  return words;
}

}  // namespace barm::service
