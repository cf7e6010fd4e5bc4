#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace barm::shop {

/// Whose label law.
enum class Law { eu, uk, us };

/// "eu", "uk" or "us". Errors: bad_input.
[[nodiscard]] Result<Law> law_of(std::string_view word);

[[nodiscard]] std::string_view name(Law law);

/// A rule that a line of the label follows. Source: data/tables/label_rules.csv.
struct LabelRule {
  std::string_view id;
  std::string_view law;     ///< "Reg. (EU) 1169/2011, Art. 18(1)"
  std::string_view says;    ///< in plain words
  std::string_view source;  ///< a key of data/sources.toml
  std::string_view
      standing;  ///< "published" or "remembered": how far our words of it can be trusted
};

/// The rule of that name; a name that is none is our own fault.
[[nodiscard]] LabelRule label_rule(std::string_view id);

}  // namespace barm::shop
