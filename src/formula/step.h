#pragma once
// The stages of a dough's way, a row each: all of a stage that others ask for stands in its row.
#include <array>
#include <optional>
#include <string_view>

#include "generated/constants.h"
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

/// In the order of Step.
[[nodiscard]] inline const StepRow& row(Step step) {
  using Kind = StepKind;
  namespace gas = constants::gas;
  static const std::array rows{
      StepRow{.name = "mix", .kind = Kind::mixed, .along = 0},
      StepRow{.name = "bulk", .along = 1, .by_volume = true},
      StepRow{.name = "fold", .kind = Kind::inside, .along = 1},
      StepRow{.name = "divide",
              .kind = Kind::handled,
              .along = 2,
              .gas_out = gas::divide_out.value.si()},
      StepRow{
          .name = "shape", .kind = Kind::handled, .along = 3, .gas_out = gas::shape_out.value.si()},
      StepRow{.name = "proof", .along = 4, .by_volume = true, .usual = 2.0 * hour},
      StepRow{.name = "cold", .place = Temperature::from_celsius(4)},
      StepRow{.name = "oven", .kind = Kind::baked},
      StepRow{.name = "cooling", .kind = Kind::baked},
  };
  static_assert(std::tuple_size_v<decltype(rows)> == step_count, "a row for each stage");
  return rows[static_cast<std::size_t>(step)];
}

[[nodiscard]] inline std::string_view name(Step step) { return row(step).name; }

[[nodiscard]] inline bool stands(Step step) { return row(step).kind == StepKind::stands; }

[[nodiscard]] inline bool is_handled(Step step) { return row(step).kind == StepKind::handled; }

}  // namespace barm::formula
