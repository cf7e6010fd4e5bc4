#include "shop/internal/starter.h"

#include "base/require.h"
#include "larder/larder.h"

namespace barm::shop::internal {

namespace {

MadeOf part_of_levain(const larder::Ingredient& ingredient, double share) {
  MadeOf part;
  part.portion.ingredient = ingredient;
  const auto settled = larder::typical(ingredient);
  require(settled.has_value(), "what a levain was stirred of has a composition");
  part.composition = *settled;
  part.share = share;
  return part;
}

}  // namespace

std::vector<MadeOf> made_of(const formula::Bake& bake,
                            const formula::Portion& portion,
                            const larder::Composition& composition) {
  if (!portion.levain || !bake.levain || !bake.levain->yeasted())
    return {MadeOf{portion, composition, 1}};
  const formula::Levain& levain = *bake.levain;
  const double all = levain.ripe + levain.fresh_flour + levain.water;
  return {part_of_levain(levain.flour, levain.fresh_flour / all),
          part_of_levain(*larder::find("water"), levain.water / all),
          part_of_levain(levain.starter, levain.ripe / all)};
}

}  // namespace barm::shop::internal
