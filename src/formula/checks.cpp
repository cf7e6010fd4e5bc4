#include "formula/internal/checks.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "formula/bowl.h"
#include "formula/internal/contents.h"
#include "formula/internal/liquid_total.h"
#include "formula/internal/reading.h"
#include "formula/internal/weigh.h"

namespace barm::formula::internal {

namespace {

constexpr double most_of_flour = 10;
constexpr double most_salt = 0.20;
constexpr double most_dough = 5000;  // [kg]

const Portion* first_flour(const Bake& bake) {
  for (const Portion& portion : bake.bowl) {
    if (portion.ingredient.is_flour()) return &portion;
  }
  return nullptr;
}

/// Every flour in percent, summing to 100, or every flour by weight.
void check_flours(const Bake& bake, const SizePlaces& places) {
  const Portion* first = first_flour(bake);
  if (first == nullptr)
    stop(places.size, "the bowl holds no flour: write \"white bread flour\" = \"100 %\"");
  double sum = 0;
  for (const Portion& portion : bake.bowl) {
    if (!portion.ingredient.is_flour()) continue;
    if (portion.measure != first->measure) {
      stop(portion.place, "write every flour in percent or every flour by weight");
    }
    sum += portion.amount;
  }
  const bool percent = first->measure == Measure::of_flour;
  if (percent && std::abs(sum - 1) > 1e-6) {
    stop(first->place,
         fmt::format(
             "the flours come to {:.4g} %, not 100 %: percent is of {}",
             100 * sum,
             bake.percent_of_weighed ? "the flour weighed" : "all flour, the levain's included"));
  }
  if (!percent && !(sum > 0)) stop(first->place, "the bowl holds no flour");
  if (!percent && (bake.flour_total || bake.dough_total)) {
    stop(places.size,
         fmt::format("the flours are weighed already: leave out {}, or write them in percent",
                     bake.flour_total ? "flour" : "dough"));
  }
  if (percent && bake.flour_total && (bake.piece || bake.baked_piece || bake.dough_total)) {
    stop(places.size,
         fmt::format("flour and {} both say how much: leave one out",
                     bake.dough_total ? "dough" : "piece"));
  }
}

void check_liquids(const Bake& bake) {
  int rests = 0;
  for (const Portion& portion : bake.bowl) {
    const bool of_liquid =
        portion.measure == Measure::of_liquid || portion.measure == Measure::rest_of_liquid;
    if (!of_liquid) continue;
    if (!bake.liquid_total.given())
      stop(portion.place, "say how much liquid there is: liquid = \"70 %\"");
    if (!portion.ingredient.is_liquid()) {
      stop(portion.place,
           in_quotes(portion.ingredient.name) +
               " does not count as liquid: write a share of flour or a weight");
    }
    rests += portion.measure == Measure::rest_of_liquid ? 1 : 0;
    if (rests > 1) stop(portion.place, "only one line can be the rest of the liquid");
  }
}

/// The liquids come to the stated total.
void check_liquid_total(const Bake& bake,
                        const std::vector<double>& masses,
                        double flour,
                        const FilePlace& at) {
  const LiquidTotal& total = bake.liquid_total;
  if (!total.given()) return;
  const double wanted = total.of_flour + total.weight.in(kilogram) / flour;
  if (!(wanted >= least_liquid && wanted <= most_liquid))
    stop(at, fmt::format("is {:.0f} % of the flour; 1 to 1000 % can be", 100 * wanted));
  double liquid = 0;
  for (std::size_t i = 0; i < masses.size(); ++i) {
    const Portion& portion = bake.bowl[i];
    if (portion.ingredient.is_liquid() && !is_starter(portion)) liquid += masses[i];
  }
  if (std::abs(liquid / flour - wanted) <= 1e-4 * wanted) return;
  stop(at,
       fmt::format("the liquids come to {:.4g} % of flour, not {:.4g} %: make one of them \"rest "
                   "of the liquid\"",
                   100 * liquid / flour,
                   100 * wanted));
}

void check_amounts(const Bake& bake, const std::vector<double>& masses, double flour) {
  for (std::size_t i = 0; i < masses.size(); ++i) {
    const Portion& portion = bake.bowl[i];
    const double share = masses[i] / flour;
    if (share > most_of_flour) {
      stop(portion.place,
           fmt::format("{:.0f} % of flour is no dough: at most 1000 %", 100 * share));
    }
    if (portion.ingredient.group == larder::Group::salt && share > most_salt) {
      stop(
          portion.place,
          fmt::format("{:.3g} % of salt on flour: at most 20 %, bread has about 2 %", 100 * share));
    }
  }
}

}  // namespace

void check_bowl(const Bake& bake, const SizePlaces& places) {
  check_flours(bake, places);
  check_liquids(bake);
  auto settled = settle(bake);
  if (!settled) throw Stopped{settled.error()};
  auto masses = weigh(bake, *settled);
  if (!masses) throw Stopped{masses.error()};
  double flour = 0;
  for (std::size_t i = 0; i < masses->size(); ++i) {
    if (!bake.percent_of_weighed || bake.bowl[i].ingredient.is_flour())
      flour += (*masses)[i] * flour_share(bake.bowl[i], (*settled)[i]);
  }
  check_liquid_total(bake, *masses, flour, places.liquid);
  check_amounts(bake, *masses, flour);
  const double dough = std::accumulate(masses->begin(), masses->end(), 0.0);
  if (!(dough <= most_dough))
    stop(places.size, fmt::format("{:.3g} t of dough: at most 5 t", dough / 1000));
}

}  // namespace barm::formula::internal
