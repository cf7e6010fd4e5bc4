#include "oven/oven.h"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <numbers>

#include "base/require.h"
#include "generated/constants.h"

namespace barm::oven {

namespace {

using std::numbers::pi;

constexpr std::array<std::string_view, 4> forms = {"round", "long", "tin", "flat"};

heat::Shape from(double shortest, double surface, double volume) {
  return {std::max(0.0, shortest * surface / volume - 1), Length::from_si(shortest)};
}

// Half an ellipse across, so many times as long as wide, its ends round.
heat::Shape stick(double volume) {
  namespace form = constants::form;
  const double flat = form::long_height.value.si();
  const double length = form::long_length.value.si();
  // V = pi/4 w (f w) (l w),  A by Ramanujan's perimeter of the ellipse and two ends
  const double width = std::cbrt(volume / (pi / 4 * flat * length));
  const double a = width / 2;
  const double b = flat * width / 2;
  const double around = pi * (3 * (a + b) - std::sqrt((3 * a + b) * (a + 3 * b)));
  return from(b, around * length * width + 2 * pi * a * b, volume);
}

heat::Shape brick(double volume) {
  namespace form = constants::form;
  const double high = form::tin_height.value.si();
  const double length = form::tin_length.value.si();
  const double width = std::cbrt(volume / (high * length));
  const double h = high * width;
  const double l = length * width;
  return from(std::min(h, width) / 2, 2 * (h * width + h * l + width * l), volume);
}

tl::unexpected<Error> wrong(const char* where, std::string message) {
  return failure(ErrorCode::bad_input, where, std::move(message));
}

}  // namespace

std::string_view name(Form form) { return forms.at(static_cast<std::size_t>(form)); }

std::optional<Form> form_named(std::string_view words) {
  for (std::size_t i = 0; i < forms.size(); ++i) {
    if (forms.at(i) == words) return static_cast<Form>(i);
  }
  return std::nullopt;
}

heat::Shape shape_of(Form form, Volume volume) {
  require(volume.si() > 0, "a loaf has a volume");
  switch (form) {
    case Form::round:
      return heat::loaf(volume, constants::form::round_height.value.si());
    case Form::stick:
      return stick(volume.si());
    case Form::tin:
      return brick(volume.si());
    case Form::flat:
      return heat::loaf(volume, constants::form::flat_height.value.si());
  }
  return heat::sphere(volume);
}

Result<bool> check(const Loaf& loaf, const Oven& oven, Time lasts) {
  if (!(loaf.mass >= 20.0 * gram && loaf.mass <= 10.0 * kilogram))
    return wrong("piece",
                 fmt::format("a loaf of {:g} g is none: from 20 g to 10 kg", loaf.mass.in(gram)));
  if (!(loaf.temperature.celsius() >= 0 && loaf.temperature.celsius() <= 45))
    return wrong("dough", "a dough goes in at 0 °C to 45 °C");
  if (!(loaf.gas >= 0.05 && loaf.gas <= 0.9))
    return wrong("gas", "gas is 5 % to 90 % of a dough's volume");
  if (oven.set.empty()) return wrong("oven", "an oven is set to something, such as 230C");
  for (const Setting& setting : oven.set) {
    if (!(setting.to.celsius() >= 100 && setting.to.celsius() <= 350))
      return wrong(
          "oven",
          fmt::format("an oven at {:.0f} °C bakes no bread: from 100 °C to 350 °C, such as "
                      "230C",
                      setting.to.celsius()));
  }
  if (!(lasts.in(minute) >= 1 && lasts.in(minute) <= 240))
    return wrong("bake", "a bake lasts 1 min to 4 h, such as 40min");
  if (oven.loaves < 1) return wrong("loaves", "at least one loaf goes in");
  if (oven.holds && oven.loaves > *oven.holds)
    return wrong("loaves",
                 fmt::format("{} loaves do not fit: this oven takes {}", oven.loaves, *oven.holds));
  if (!(oven.cavity.in(litre) >= 5 && oven.cavity.in(litre) <= 50000))
    return wrong("cavity", "an oven holds 5 L to 50000 L, such as 60L");
  if (oven.loaves * loaf.mass.in(kilogram) > oven.cavity.in(litre))
    return wrong("loaves",
                 "so many loaves do not fit into such an oven: fewer, or a larger cavity");
  if (oven.power && !(oven.power->si() >= 200 && oven.power->si() <= 1e6))
    return wrong("power", "an oven draws 0.2 kW to 1000 kW, such as 6kW");
  if (oven.steam > lasts || oven.lid > lasts)
    return wrong(oven.steam > lasts ? "steam" : "lid", "lasts no longer than the bake");
  if (!(oven.on_stone >= 0 && oven.on_stone <= 0.5))
    return wrong("stone", "the base is at most half of the surface");
  return true;
}

double set_at(const Oven& oven, double seconds) {
  double celsius = oven.set.front().to.celsius();
  for (const Setting& setting : oven.set) {
    if (setting.from.si() <= seconds) celsius = setting.to.celsius();
  }
  return celsius;
}

}  // namespace barm::oven
