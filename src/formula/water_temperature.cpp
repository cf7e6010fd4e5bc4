#include "formula/water_temperature.h"

#include <fmt/format.h>

#include "generated/constants.h"

namespace barm::formula {

Result<Temperature> water_temperature(const Mixing& mixing) {
  const double others = mixing.flour.celsius() + mixing.room.celsius() +
                        (mixing.levain ? mixing.levain->celsius() : 0);
  const double count = mixing.levain ? 4 : 3;
  const double celsius = count * mixing.dough.celsius() - others - mixing.friction.si();
  if (celsius < -5) {
    return failure(
        ErrorCode::cannot_be_met,
        "",
        fmt::format("the water would have to be at {:.0f} °C: cool the flour or the room",
                    celsius));
  }
  if (celsius > constants::water_heat::hottest.value.celsius()) {
    return failure(ErrorCode::cannot_be_met,
                   "",
                   fmt::format("the water would have to be at {:.0f} °C, too hot for a culture: "
                               "warm the flour or the room",
                               celsius));
  }
  return Temperature::from_celsius(celsius);
}

Result<Mass> ice(Mass water, Temperature tap, Temperature wanted) {
  if (tap.celsius() < 0)
    return failure(ErrorCode::bad_input, "tap", "tap water below 0 °C is ice already");
  if (wanted.celsius() < 0) {
    return failure(ErrorCode::cannot_be_met, "", "ice and water together do not come below 0 °C");
  }
  if (tap <= wanted) return Mass{};
  namespace heat = constants::water_heat;
  const auto cooled = heat::capacity.value * (tap - wanted);
  const auto melted =
      heat::melting.value + heat::capacity.value * (tap - Temperature::from_celsius(0));
  return water * (cooled / melted).si();
}

}  // namespace barm::formula
