#include "formula/internal/liquid_total.h"

#include <fmt/format.h>

#include "formula/amount.h"
#include "formula/internal/reading.h"
#include "units/units.h"

namespace barm::formula::internal {

namespace {

constexpr double least_share = 0.01;
constexpr double most_share = 10;

// [kg], of `flour`, or of the flours where each is a weight; else 0.
double flour_weighed(const Bake& bake) {
  if (bake.flour_total) return bake.flour_total->si();
  double sum = 0;
  for (const Portion& portion : bake.bowl) {
    if (!portion.ingredient.is_flour()) continue;
    if (portion.measure != Measure::mass) return 0;
    sum += portion.amount;
  }
  return sum;
}

// [kg], where it is a weight.
std::optional<double> weight_in(const Node& value) {
  if (value.kind != Node::Kind::text) return std::nullopt;
  const auto amount = parse_amount(value.text);
  const bool weight = amount && amount->kind == WrittenAmount::Kind::mass;
  return weight ? std::optional(amount->value) : std::nullopt;
}

}  // namespace

double liquid_of_flour(const Node& value, const Bake& bake) {
  const auto weight = weight_in(value);
  if (!weight) return share_of(value, "70 %", least_share, most_share);
  const double flour = flour_weighed(bake);
  if (!(flour > 0))
    stop(value.place,
         "is a weight: the flour must be one too (flour = \"1 kg\"), or write a share of it "
         "such as \"70 %\"");
  if (!(*weight > 0))
    stop(value.place, "is no weight of liquid: write one above zero, or \"70 %\"");
  const double share = *weight / flour;
  if (!(share >= least_share && share <= most_share))
    stop(value.place, fmt::format("is {:.0f} % of the flour; 1 to 1000 % can be", 100 * share));
  return share;
}

}  // namespace barm::formula::internal
