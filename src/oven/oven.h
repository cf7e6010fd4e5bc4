#pragma once
// An oven and what goes into it, as heat sees them.
#include <optional>
#include <vector>

#include "base/result.h"
#include "heat/material.h"
#include "heat/shape.h"
#include "units/temperature.h"
#include "units/units.h"

namespace barm::oven {

using Power = decltype(joule / second);

/// What a loaf is like from outside.
enum class Form { round, stick, tin, flat };

/// "round", "long", "tin", "flat".
[[nodiscard]] std::string_view name(Form form);
[[nodiscard]] std::optional<Form> form_named(std::string_view words);

/// The shape of so much dough baked in that form; its proportions are data/oven.toml's.
[[nodiscard]] heat::Shape shape_of(Form form, Volume volume);

/// A dough as it goes in.
struct Loaf {
  Mass mass = 900.0 * gram;
  Form form = Form::round;
  Temperature temperature = Temperature::from_celsius(24);  ///< throughout
  heat::Makeup makeup;                                      ///< of the dough, ethanol included
  double gas = 0.6;                                         ///< share of its volume that is gas
  double room = 0.4;      ///< how much further it can rise before it tears, over its volume
  bool fermented = true;  ///< holds live yeast
};

/// From here on the oven is set to this.
struct Setting {
  Time from;
  Temperature to;
};

/// An oven as it is used.
struct Oven {
  std::vector<Setting> set;  ///< at least one, ascending, the first at 0
  bool fan = false;
  Time steam;           ///< from the beginning
  Time lid;             ///< covered from the beginning
  double on_stone = 0;  ///< share of the loaf's surface on a hot stone or steel
  int loaves = 1;
  std::optional<int> holds;  ///< loaves it takes
  Volume cavity = 60.0 * litre;
  std::optional<Power> power;        ///< empty: comes back by itself after loading
  std::optional<Temperature> walls;  ///< as the loaf goes in; empty: as the dial says
};

/// What is in doubt about a bake in this oven; all 0 for the typical loaf. Standard normal numbers.
struct Luck {
  double conduction = 0;  ///< how well a hot crumb passes heat on
  double crust = 0;       ///< how well a crust does
  double transfer = 0;    ///< heat from air and walls
  double dial = 0;        ///< the oven against its dial
  double pump = 0;        ///< alcohol that moving vapour carries out of the crumb
  double begins = 0;      ///< how warm a crumb is when its vapour begins to move; not drawn
  double cold = 0;        ///< how well the dough itself passes heat on; not drawn
};

inline constexpr std::size_t lucks = 5;

/// What was learned of an oven: the middle of each luck and how far it is still in doubt.
struct LearnedOven {
  Luck middle;
  Luck doubt{1, 1, 1, 1, 1, 1, 1};
};

/// One clear error for what cannot be: an oven at 900 C, a loaf of 0 g, more loaves than fit.
[[nodiscard]] Result<bool> check(const Loaf& loaf, const Oven& oven, Time lasts);

/// The dial's temperature at a time [C].
[[nodiscard]] double set_at(const Oven& oven, double seconds);

}  // namespace barm::oven
