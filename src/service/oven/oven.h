#pragma once
// The bake in its oven: how long, what core, how much lighter, how far it springs, what stays of
// the alcohol and what its vapour can do, when to cut and when to bag.
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <vector>

#include "forecast/ensemble.h"
#include "forecast/oven_stages.h"
#include "formula/bake.h"
#include "oven/calibrate.h"
#include "oven/draws.h"
#include "storage/records.h"

namespace barm::service {

/// What is said beside the bake's [oven]; empty for what the file says.
struct OvenRequest {
  formula::OvenTable said;
  std::vector<heat::ProbeReading>
      probe;                      ///< in the core of an earlier loaf of this bake, in this oven
  std::optional<double> weighed;  ///< how much lighter that loaf was, 0..1
  /// The house's oven that it was: what was measured is learned together with what it was learned
  /// from before, and `keep` of the answer is the record with that.
  std::optional<storage::Equipment> of;
  time::Instant measured_at;
};

/// How ripe the dough is for the oven.
enum class Ripeness { young, right, ripe };

/// A load behind the first, as it stands when its turn comes.
struct FurtherLoad {
  int loaves = 1;
  Time waited;       ///< behind the first load, in its last place
  oven::Loaf loaf;   ///< of the middle dough
  oven::Range room;  ///< how much further the doughs can rise
  oven::Range rise;  ///< volume at the end over that at going in
  Ripeness ripeness = Ripeness::right;
  Temperature oven_has, oven_set;  ///< its walls and its dial as they go in
  Time longer;                     ///< than the first load, until the core is done; 0 where typed
  Temperature core;                ///< of the middle loaf as it comes out
};

struct OvenAnswer {
  std::string name;
  oven::Loaf loaf;
  oven::Oven oven;
  Time lasts;
  bool typed = false;    ///< somebody said how long; else until the middle loaf is done
  bool counted = false;  ///< it is known how many go in at once
  Temperature cools_at;  ///< the room's
  Mass ethanol;          ///< of a loaf as it goes in
  oven::Many many;
  std::optional<oven::Learned> learned;  ///< from the probe of this request
  oven::LearnedOven known;
  std::string with;  ///< what is known of the house's oven: "Deck oven, learned 28 Nov 2026 from 2
                     ///< bakes"; empty: nothing
  std::optional<storage::Equipment> keep;  ///< of a request `of` one: with what it says and teaches
  oven::Range room;                        ///< how much further the doughs can rise as they go in
  oven::Range rise;                        ///< volume at the end over that at going in
  Ripeness ripeness = Ripeness::right;
  std::vector<FurtherLoad> further;  ///< where the loaves do not all fit
  std::vector<std::string> assumed;  ///< what nobody said
  std::vector<std::string> notes;    ///< on what was measured: gaps, a file that fits no oven well
  std::vector<std::string> cautions;

  /// [s] From the door to the rack: as said, else until each core is done.
  [[nodiscard]] oven::Range in_oven() const;
};

/// The dough is the bake's middle one at the end of its stages. Errors: those of foresee_middle(),
/// oven::check() and oven::learn().
[[nodiscard]] Result<OvenAnswer> oven(const formula::Bake& bake,
                                      const OvenRequest& request,
                                      const forecast::Options& options);

/// The alcohol kept and the loss of oven() and nothing else, the same numbers for less. Errors: as
/// oven().
[[nodiscard]] Result<oven::Left> left_by_the_oven(const formula::Bake& bake,
                                                  const forecast::Options& options);

/// The answer to which every screen, sheet and sum of a bake keeps: by its file's [oven] alone, of
/// the dough as it is written; without an [oven] that of a usual one, all of it assumed. Of
/// `options` count the bulk's temperature and target where they are another, threads, and what
/// stops it. Errors: as oven().
[[nodiscard]] Result<OvenAnswer> oven_as_written(const formula::Bake& bake,
                                                 const forecast::Options& options = {});

/// The same for what says nothing of an oven that nobody named: empty without an [oven].
[[nodiscard]] Result<std::optional<OvenAnswer>> its_oven(const formula::Bake& bake,
                                                         const forecast::Options& options = {});

/// The same with its stages added to a timeline of the bake; what is done is that of `options`.
[[nodiscard]] Result<std::optional<OvenAnswer>> through_the_oven(forecast::Timeline& timeline,
                                                                 const formula::Bake& bake,
                                                                 const forecast::Options& options);

/// What it takes of each draw.
[[nodiscard]] forecast::InTheOven hours_of(const OvenAnswer& answer);

/// What the oven leaves of a bake whose file has an [oven]: its loss where the file types none, and
/// the alcohol kept as a range. Empty without an [oven].
struct OvenLeaves {
  double loss = 0.12;
  oven::Range alcohol_kept;
  Time lasts;                 ///< in the oven
  std::optional<int> loaves;  ///< at once, where that is known
};

[[nodiscard]] Result<std::optional<OvenLeaves>> oven_leaves(const formula::Bake& bake);

/// The bake with that loss in place of the usual one, where its file types none.
[[nodiscard]] formula::Bake with_loss(formula::Bake bake, const std::optional<OvenLeaves>& leaves);

/// What other answers say of it; null without one.
[[nodiscard]] nlohmann::json in_brief(const std::optional<OvenAnswer>& answer);

/// "barm.oven/1".
[[nodiscard]] nlohmann::json to_json(const OvenAnswer& answer);

}  // namespace barm::service
