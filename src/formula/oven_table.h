#pragma once
// What a bake file says of the oven.
#include <optional>
#include <string>
#include <vector>

#include "units/temperature.h"
#include "units/units.h"

namespace barm::formula {

/// From here on the dial stands at this.
struct OvenSetting {
  Time from;
  Temperature to;
};

/// The [oven] table; what is left out is empty.
struct OvenTable {
  std::string name;  ///< of the house's oven; empty: its only one
  std::string form;  ///< "round", "long", "tin", "flat"; empty: round
  std::vector<OvenSetting> set;
  std::optional<Time> bake, steam, lid;
  std::optional<bool> stone, fan;
  std::optional<int> loaves, holds;  ///< at once, and as many as it takes
  std::optional<Volume> cavity;
  std::optional<double> kilowatts;
  std::optional<Temperature> room;  ///< where the loaf cools
  std::vector<double> learned;      ///< of this oven, as `barm oven --probe` says it
};

/// What is known of the oven that a bake goes into, beside what its file says.
struct HouseOven {
  std::string words;  ///< "Deck oven, learned 28 Nov from 2 bakes"
  OvenTable can;
};

}  // namespace barm::formula
