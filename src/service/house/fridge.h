#pragma once
// Doughs in a fridge whose air warms when it is loaded.
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <vector>

#include "formula/bake.h"
#include "heat/fridge.h"
#include "storage/records.h"

namespace barm::service {

struct FridgeRequest {
  int pieces = 0;  ///< 0: all of the bake's
  std::optional<Temperature>
      set;                      ///< empty: as the house's is, the bake's cold stage says, else 4 C
  std::optional<double> power;  ///< [W]
  Time lasts = 12.0 * hour;
  std::optional<Temperature> wanted;      ///< of a piece's middle; empty: 10 C
  std::optional<Time> within;             ///< empty: 5 h
  std::vector<heat::ProbeReading> probe;  ///< in the air, from the moment so many pieces came in
  std::optional<storage::Equipment> of;   ///< the house's fridge that it is
  std::string with;                       ///< what is said of that one
  time::Instant measured_at;
};

struct FridgeAnswer {
  std::string name;
  FridgeRequest request;
  heat::Fridge fridge;
  Mass each;
  Temperature start, wanted;
  Time within;
  std::vector<heat::Chilled> course;
  double air_peak = 0, air_peak_h = 0;     ///< [C], [h]
  std::optional<Time> cold_after;          ///< until the middle has what is wanted
  int at_once = 0;                         ///< the most that still have it in time
  std::optional<double> air_off;           ///< [K] of a probe's readings
  std::vector<std::string> notes;          ///< on that file: gaps, that it fits no fridge well
  std::string with;                        ///< what is known of the house's fridge; empty: nothing
  std::optional<storage::Equipment> keep;  ///< of a request `of` one: with what it says and teaches
};

/// The pieces as they come from shaping, at the bulk's temperature, in baskets or as the bake's
/// cold stage says; with the heat of their own fermentation at the model's pace for a dough at its
/// target. Errors: bad_input (no pieces, a fridge that is none), those of learn_fridge(),
/// parse_fridge().
[[nodiscard]] Result<FridgeAnswer> fridge(const formula::Bake& bake, const FridgeRequest& request);

/// "barm.fridge/1".
[[nodiscard]] nlohmann::json to_json(const FridgeAnswer& answer);

}  // namespace barm::service
