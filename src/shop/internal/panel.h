#pragma once
#include <fmt/format.h>

#include <string>
#include <string_view>

#include "base/markup.h"
#include "shop/label.h"

namespace barm::shop::internal {

[[nodiscard]] inline std::string cell(std::string_view text, bool number) {
  return fmt::format("<td{}>{}</td>", number ? " class=\"n\"" : "", escaped(text));
}

[[nodiscard]] inline std::string head(std::string_view text, bool number) {
  return fmt::format("<th{}>{}</th>", number ? " class=\"n\"" : "", escaped(text));
}

/// The table by 100 g, and by the portion where one was asked for.
[[nodiscard]] std::string nutrition_by_weight(const Label& label);

/// The panel of 21 CFR 101.9(d).
[[nodiscard]] std::string nutrition_facts(const Label& label);

}  // namespace barm::shop::internal
