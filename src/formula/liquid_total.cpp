#include "formula/internal/liquid_total.h"

#include "formula/amount.h"
#include "formula/internal/reading.h"
#include "units/units.h"

namespace barm::formula::internal {

namespace {

// [kg], where it is a weight.
std::optional<double> weight_in(const Node& value) {
  if (value.kind != Node::Kind::text) return std::nullopt;
  const auto amount = parse_amount(value.text);
  const bool weight = amount && amount->kind == WrittenAmount::Kind::mass;
  return weight ? std::optional(amount->value) : std::nullopt;
}

}  // namespace

LiquidTotal liquid_of(const Node& value) {
  const auto weight = weight_in(value);
  if (!weight) return {share_of(value, "70 %", least_liquid, most_liquid), {}};
  if (!(*weight > 0))
    stop(value.place, "is no weight of liquid: write one above zero, or \"70 %\"");
  return {0, *weight * kilogram};
}

}  // namespace barm::formula::internal
