#pragma once
// How warm the dough comes out of the mixer, by a balance of heat, and what the liquid must be.
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <vector>

#include "formula/bake.h"
#include "heat/mixer.h"
#include "storage/records.h"

namespace barm::service {

struct MixRequest {
  std::optional<Temperature> dough;  ///< wanted; empty: as the bake's mix says, else 24 C
  Temperature flour = Temperature::from_celsius(20);
  Temperature room = Temperature::from_celsius(22);
  std::optional<Temperature> levain, drinks;  ///< empty: as the room; drinks: chilled as they are
  std::optional<Temperature> tap;             ///< as cold as the water comes; empty: 12 C
  Time runs = 8.0 * minute;
  std::vector<heat::MixerReading> readings;  ///< of this mixer, for its friction
  std::optional<storage::Equipment> of;      ///< the house's mixer that it is
  std::string with;                          ///< what is said of that one
  time::Instant measured_at;
};

struct MixAnswer {
  std::string name;
  MixRequest request;
  Temperature wanted;
  std::vector<heat::Poured> poured;  ///< the liquids at what they are to be
  std::vector<std::string> free;     ///< what is to be chilled or warmed
  heat::LiquidWanted liquid;
  heat::Warmth warmth;  ///< of the dough then, and where it comes from
  heat::Friction friction;
  bool friction_learned = false;
  std::string with;                        ///< what is known of the house's mixer; empty: nothing
  std::optional<storage::Equipment> keep;  ///< of a request `of` one: with what was learned of it
  std::optional<Temperature> by_factors;   ///< what the trade's rule would have the liquid be
  std::string no_rule;                     ///< why it has no answer; empty where it has
  TemperatureDifference factors_miss;      ///< how far the dough would come out from wanted by it
  std::vector<std::string> cautions;
};

/// Water and drinks are brought to one temperature, unless the drinks' own is given; then the water
/// alone. Errors: bad_input (no liquid, no bowl), cannot_be_met.
[[nodiscard]] Result<MixAnswer> mix(const formula::Bake& bake, const MixRequest& request);

/// "20 ± 5 W a kilogram, learned from your readings"; of the house's mixer, else of mixers.
[[nodiscard]] std::string friction_in_words(const MixAnswer& answer);

/// "2min 21.5C". Errors: bad_input.
[[nodiscard]] Result<heat::MixerReading> parse_mixer_reading(const std::string& text);

/// "barm.mix/1".
[[nodiscard]] nlohmann::json to_json(const MixAnswer& answer);

}  // namespace barm::service
