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
  std::string law;          ///< "Reg. (EU) 1169/2011, Art. 18(1)"
  std::string_view says;    ///< in plain words
  std::string_view source;  ///< a key of data/sources.toml
  std::string_view
      standing;  ///< "published" or "remembered": how far our words of it can be trusted
  int harm = 3;  ///< of an error: 1 somebody can be hurt, 2 a buyer is misled, 3 a form
};

/// The rule of that name, cited as that law has it; a name that is none is our own fault.
[[nodiscard]] LabelRule label_rule(std::string_view id, Law law = Law::eu);

/// Those of the rules that were not read but remembered, each once, those first that can hurt.
[[nodiscard]] std::vector<std::string> remembered_first(const std::vector<std::string>& ids);

}  // namespace barm::shop
