#pragma once
// The bake in its oven: how long, what core, how much lighter, how far it springs, what stays of
// the alcohol and what its vapour can do, when to cut and when to bag.
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <vector>

#include "forecast/ensemble.h"
#include "formula/bake.h"
#include "oven/calibrate.h"
#include "oven/draws.h"

namespace barm::service {

/// What is said beside the bake's [oven]; empty for what the file says.
struct OvenRequest {
  formula::OvenTable said;
  std::vector<heat::Reading> probe;  ///< in the core of an earlier loaf of this bake, in this oven
  std::optional<double> weighed;     ///< how much lighter that loaf was, 0..1
};

/// How ripe the dough is for the oven.
enum class Ripeness { young, right, ripe };

struct OvenAnswer {
  std::string name;
  oven::Loaf loaf;
  oven::Oven oven;
  Time lasts;
  Temperature room;
  Mass ethanol;  ///< of a loaf as it goes in
  oven::Many many;
  std::optional<oven::Learned> learned;  ///< from the probe of this request
  oven::Known known;
  Ripeness ripeness = Ripeness::right;
  std::vector<std::string> assumed;  ///< what nobody said
  std::vector<std::string> cautions;
};

/// The dough is the bake's middle one at the end of its stages. Errors: those of foresee_middle(),
/// oven::check() and oven::learn().
[[nodiscard]] Result<OvenAnswer> oven(const formula::Bake& bake,
                                      const OvenRequest& request,
                                      const forecast::Options& options);

/// What the oven leaves of a bake whose file has an [oven]: its loss where the file types none, and
/// the alcohol kept as a range. Empty without an [oven].
struct OvenLeaves {
  double loss = 0.12;
  oven::Range alcohol_kept;
  double kilowatt_hours = 0;  ///< of one load
};

[[nodiscard]] Result<std::optional<OvenLeaves>> oven_leaves(const formula::Bake& bake);

/// The bake with that loss in place of the usual one, where its file types none.
[[nodiscard]] formula::Bake with_loss(formula::Bake bake, const std::optional<OvenLeaves>& leaves);

/// "barm.oven/1".
[[nodiscard]] nlohmann::json to_json(const OvenAnswer& answer);

}  // namespace barm::service
