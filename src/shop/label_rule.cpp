#include "shop/label_rule.h"

#include <fmt/format.h>

#include <algorithm>

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

LabelRule label_rule(std::string_view id, Law law) {
  for (const auto& row : tables::label_rules) {
    if (row.id != id) continue;
    std::string where(row.law);
    constexpr std::string_view of_the_union = "Reg. (EU) 1169/2011";
    if (law == Law::uk && !row.uk_law.empty()) {
      where = row.uk_law;
    } else if (law == Law::uk && row.law.starts_with(of_the_union)) {
      where = "assimilated " + where;
    }
    return {row.id, where, row.says, row.source, row.standing, static_cast<int>(row.harm)};
  }
  require(false, "a rule of data/tables/label_rules.csv");
  return {};
}

std::vector<std::string> remembered_first(const std::vector<std::string>& ids) {
  std::vector<std::string> out;
  for (const std::string& id : ids) {
    const bool known = std::find(out.begin(), out.end(), id) != out.end();
    if (!known && label_rule(id).standing != "published") out.push_back(id);
  }
  std::stable_sort(out.begin(), out.end(), [](const std::string& a, const std::string& b) {
    return label_rule(a).harm < label_rule(b).harm;
  });
  return out;
}

}  // namespace barm::shop
