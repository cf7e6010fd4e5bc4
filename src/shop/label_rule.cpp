#include "shop/label_rule.h"

#include <fmt/format.h>

#include "base/require.h"
#include "generated/tables.h"

namespace barm::shop {

Result<Law> law_of(std::string_view word) {
  for (const Law law : {Law::eu, Law::uk, Law::us}) {
    if (name(law) == word) return law;
  }
  return failure(ErrorCode::bad_input, "", fmt::format("\"{:.20}\" is none of eu, uk, us", word));
}

std::string_view name(Law law) {
  if (law == Law::us) return "us";
  return law == Law::uk ? "uk" : "eu";
}

LabelRule label_rule(std::string_view id) {
  for (const auto& row : tables::label_rules) {
    if (row.id == id) return {row.id, row.law, row.says, row.source, row.standing};
  }
  require(false, "a rule of data/tables/label_rules.csv");
  return {};
}

}  // namespace barm::shop
