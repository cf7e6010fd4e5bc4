#pragma once
// What stands on a label and follows from no recipe.
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "base/result.h"
#include "units/units.h"

namespace barm::formula {

/// The [label] table of a bake file; a terminal's options and a page's fields go over it. What is
/// empty is still missing.
struct LabelFields {
  std::string legal_name;   ///< what the law calls such a food, beside the bread's own name
  std::string maker;        ///< who answers for it
  std::string address;      ///< of the maker
  std::string storage;      ///< "Keep dry and cool."
  std::string lot;          ///< "L 332"
  std::string best_before;  ///< "2026-12-03", or "same day" where it is eaten within a day
  std::string origin;       ///< of the primary ingredient: "flour: not from France"
  std::string language;     ///< of the sale: en, de, fr, it, es; empty: English
  std::string fortified;    ///< "no" where the United Kingdom's flour has nothing added
  int slices = 0;           ///< of a loaf
  std::optional<double> largest_side;  ///< of the pack [cm2]
  /// In 100 g of the loaf, from a laboratory or the makers: [g], [mg], [µg], [mg].
  std::optional<double> trans_fat, cholesterol, vitamin_d, iron;
};

/// The keys by which a field is set, in the order of a label.
[[nodiscard]] std::span<const std::string_view> label_field_keys();

/// Lays one field over the others; an empty text takes it away. Errors: bad_input (no such field, a
/// day that is none, a language that the labels do not speak, a number without its unit).
[[nodiscard]] Result<bool> set_field(LabelFields& fields,
                                     std::string_view key,
                                     std::string_view text);

}  // namespace barm::formula
