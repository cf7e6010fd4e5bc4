#pragma once
// An oven, a fridge or a mixer of the house, as its lines say it: what it can do, and what was
// learned of it. The keys of a bake's [oven] that belong to the oven and not to the bake; of a
// fridge `set`, `power` and `air`; of a mixer `friction` and its `spread` (docs/bake-file.md).
#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"
#include "formula/oven_table.h"

namespace barm::formula {

struct FridgeTable {
  std::optional<Temperature> set;
  std::optional<double> watts;                  ///< that it takes out of its air at most
  std::optional<double> kilojoules_per_kelvin;  ///< of air, shelves and walls
};

struct MixerTable {
  std::optional<double> watts_per_kilogram;         ///< of dough
  std::optional<double> spread_watts_per_kilogram;  ///< its standard error
};

/// Errors: bad_input with origin:line:column.
[[nodiscard]] Result<OvenTable> parse_oven(std::string_view toml, const std::string& origin);
[[nodiscard]] Result<FridgeTable> parse_fridge(std::string_view toml, const std::string& origin);
[[nodiscard]] Result<MixerTable> parse_mixer(std::string_view toml, const std::string& origin);

/// Those lines again: of an oven's table what belongs to the oven.
[[nodiscard]] std::string lines_of(const OvenTable& table);
[[nodiscard]] std::string lines_of(const FridgeTable& table);
[[nodiscard]] std::string lines_of(const MixerTable& table);

/// What `first` says, and where it says nothing what `then` says.
[[nodiscard]] OvenTable laid_over(const OvenTable& first, const OvenTable& then);

}  // namespace barm::formula
