#include "formula/step.h"

#include <array>

#include "generated/constants.h"

namespace barm::formula {

const StepRow& row(Step step) {
  using Kind = StepKind;
  namespace gas = constants::gas;
  static const std::array<StepRow, step_count> rows = {{
      {.name = "mix", .kind = Kind::mixed, .along = 0},
      {.name = "bulk", .along = 1, .by_volume = true},
      {.name = "fold", .kind = Kind::inside, .along = 1},
      {.name = "divide", .kind = Kind::handled, .along = 2, .gas_out = gas::divide_out.value.si()},
      {.name = "shape", .kind = Kind::handled, .along = 3, .gas_out = gas::shape_out.value.si()},
      {.name = "proof", .along = 4, .by_volume = true, .usual = 2.0 * hour},
      {.name = "cold", .place = Temperature::from_celsius(4)},
      {.name = "oven", .kind = Kind::baked},
      {.name = "cooling", .kind = Kind::baked},
  }};
  return rows[static_cast<std::size_t>(step)];
}

}  // namespace barm::formula
