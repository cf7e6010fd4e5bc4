#pragma once
// The stages of a dough's way, a row each: all of a stage that others ask for stands in its row.
#include <optional>
#include <string_view>

#include "units/temperature.h"
#include "units/units.h"

namespace barm::formula {

enum class Step { mix, bulk, fold, divide, shape, proof, cold, oven, cooling };

inline constexpr int step_count = static_cast<int>(Step::cooling) + 1;

/// What becomes of a dough in a stage.
enum class StepKind {
  mixed,    ///< its hours begin
  stands,   ///< it ferments where it stands
  inside,   ///< a handling inside the stage before it, which goes on
  handled,  ///< a handling between two stages, which takes some of its gas out
  baked     ///< follows from [oven] and stands among no file's stages
};

struct StepRow {
  std::string_view name = {};  ///< in a bake file, as JSON and in words
  StepKind kind = StepKind::stands;
  std::optional<int> along =
      std::nullopt;        ///< how far along it is; empty: it may stand anywhere after mixing
  bool by_volume = false;  ///< one that stands may end at a volume
  Temperature place = Temperature::from_celsius(24);  ///< where the file does not say
  std::optional<Time> usual = std::nullopt;           ///< how long it stands where nothing ends it
  double gas_out = 0;                                 ///< share of the gas that a handling takes
};

[[nodiscard]] const StepRow& row(Step step);

[[nodiscard]] inline std::string_view name(Step step) { return row(step).name; }

[[nodiscard]] inline bool stands(Step step) { return row(step).kind == StepKind::stands; }

[[nodiscard]] inline bool is_handled(Step step) { return row(step).kind == StepKind::handled; }

}  // namespace barm::formula
