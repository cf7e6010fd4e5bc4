#pragma once
// The shape in which tools/compile_larder writes data/larder/ into generated/larder_data.h.
#include <span>
#include <string_view>

#include "data/source.h"
#include "larder/ingredient.h"

namespace barm::larder::compiled {

/// One value as its file states it, in the file's own unit.
struct Value {
  Property property;
  double typical, low, high;
  std::string_view unit;
  const data::Source* source;
  std::string_view at;
  std::string_view note;
};

/// One ingredient as its file states it.
struct Row {
  std::string_view key;
  std::string_view name;
  Group group;
  std::string_view note;
  std::string_view file;
  std::string_view from;
  std::span<const std::string_view> also;
  std::span<const std::string_view> allergens;
  std::span<const Value> values;
  /// `other_carbohydrate` is a table's carbohydrate less fibre and starch: sugars, acids and
  /// glycerol are still in it.
  bool by_difference;
};

/// What to assume in a group for a property that is unknown.
struct Assumption {
  Group group;
  Value value;
};

}  // namespace barm::larder::compiled
