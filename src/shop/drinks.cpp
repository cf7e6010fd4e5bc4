#include "shop/drinks.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "formula/bowl.h"
#include "generated/constants.h"
#include "shop/cost.h"

namespace barm::shop {

namespace {

constexpr double tenths_in_cubic_metre = 1e7;
constexpr int batches = 5;
constexpr int least_looked_at = 24;

struct Sizes {
  std::vector<BottleSize> sizes;
  std::vector<std::string> words;
  double waste = 0;
};

Result<Sizes> sizes_of(const std::vector<const Package*>& packages) {
  Sizes out;
  for (const Package* package : packages) {
    if (!package->volume) continue;
    const auto tenths =
        static_cast<std::int64_t>(std::floor(package->volume->si() * tenths_in_cubic_metre + 1e-6));
    if (tenths < 10) {
      return failure(ErrorCode::bad_input, package->place, "a bottle holds at least 1 mL");
    }
    out.sizes.push_back({tenths, package->net});
    out.words.push_back(package->size);
    out.waste = std::max(out.waste, package->waste);
  }
  return out;
}

/// The table of a plan grows with what is needed over the sizes' common measure.
bool can_be_planned(double needed, const Sizes& sizes) {
  std::int64_t measure = 0;
  for (const BottleSize& size : sizes.sizes) measure = std::gcd(measure, size.tenths);
  constexpr double most_steps = 1'500'000;
  return needed / static_cast<double>(measure) < most_steps;
}

DrinkInBottles planned(const std::string& drink, double tenths, int pieces, int most, Sizes sizes) {
  const auto plans = bottle_plans(tenths, most, sizes.sizes);
  DrinkInBottles out;
  out.drink = drink;
  out.sizes = std::move(sizes.words);
  out.loaf = tenths / tenths_in_cubic_metre * cubic_metre;
  out.batch = plans[static_cast<std::size_t>(pieces - 1)];
  out.cheapest = cheapest(plans);
  const auto* whole = first_whole(plans, constants::bottles::used_up.value.si());
  if (whole != nullptr) out.whole.push_back(*whole);
  out.most = most;
  return out;
}

}  // namespace

Result<std::vector<DrinkInBottles>> in_bottles(const formula::Bake& bake,
                                               const PriceList& prices,
                                               int most) {
  const auto settled = formula::settle(bake);
  if (!settled) return failure(settled);
  const auto bowl = formula::in_the_bowl(bake, *settled);
  if (!bowl) return failure(bowl);
  std::vector<DrinkInBottles> out;
  for (std::size_t i = 0; i < bake.bowl.size() && bowl->pieces > 0; ++i) {
    const formula::Portion& portion = bake.bowl[i];
    const bool poured =
        portion.ingredient.is_liquid() && portion.ingredient.group != larder::Group::water;
    if (!poured || portion.levain) continue;
    auto sizes = sizes_of(prices.packages_of(portion.ingredient));
    if (!sizes) return failure(sizes);
    const Volume volume = bowl->lines[i].actual / (*settled)[i].density();
    const double tenths = volume.si() * tenths_in_cubic_metre / bowl->pieces / (1 - sizes->waste);
    if (sizes->sizes.empty() || !(tenths > 0)) continue;
    const int looked_at =
        std::max(bowl->pieces, most > 0 ? most : std::max(least_looked_at, batches * bowl->pieces));
    if (!can_be_planned(tenths * looked_at, *sizes)) {
      return failure(ErrorCode::bad_input,
                     prices.packages_of(portion.ingredient).front()->place,
                     "the sizes have no common measure for so many loaves: write them to whole "
                     "millilitres, or ask for fewer loaves");
    }
    out.push_back(planned(bowl->lines[i].name, tenths, bowl->pieces, looked_at, *std::move(sizes)));
  }
  return out;
}

}  // namespace barm::shop
