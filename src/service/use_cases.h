#pragma once
// What a user can ask, each as one function: a request in, an answer out. The terminal and the page
// call these; service/json.h turns the answers into JSON. A question about a bake takes the bake,
// or the path of its file.
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "data/source.h"
#include "forecast/ensemble.h"
#include "forecast/feeding.h"
#include "forecast/in_the_way.h"
#include "forecast/reach.h"
#include "forecast/ready_for.h"
#include "forecast/why_never.h"
#include "formula/read.h"
#include "formula/solve.h"
#include "formula/water_temperature.h"
#include "larder/ingredient.h"
#include "service/oven/oven.h"

namespace barm::service {

/// What is in the bowl.
struct BowlAnswer {
  formula::Bake bake;
  formula::Bowl bowl;  ///< with the levain as the model ferments it
  formula::Mend mend;
  std::vector<std::string> cautions;
  std::vector<std::string> doubts;
};

[[nodiscard]] Result<BowlAnswer> bowl(const formula::Bake& bake);
[[nodiscard]] Result<BowlAnswer> bowl(const std::string& path);

/// Whether and when the dough is ready, how sure that is, what holds it back.
struct ForeseeAnswer {
  BowlAnswer bowl;
  forecast::Forecast forecast;
  forecast::InTheWay in_the_way;
  std::optional<forecast::WhyNever> why_never;  ///< where fewer than half of the doughs get there
  std::optional<forecast::ReadyFor>
      ready_for;            ///< how far the bulk may go; empty when nothing comes after it
  Temperature temperature;  ///< of the dough in this run, or of its place
  std::optional<Time>
      look_again;  ///< when a look tells most: the first of the doughs have risen by a fifth
  std::vector<std::string> cautions;  ///< of time and temperature
  std::optional<Time> now;            ///< after mixing; empty: it is not mixed yet
  std::optional<OvenAnswer> oven;  ///< where the bake has an [oven]; its stages are in the timeline
};

[[nodiscard]] Result<ForeseeAnswer> foresee(const formula::Bake& bake,
                                            const forecast::Options& options);
[[nodiscard]] Result<ForeseeAnswer> foresee(const std::string& path,
                                            const forecast::Options& options);

/// How far a drink can go; an empty drink asks about the one that brings most alcohol.
struct ReachAnswer {
  formula::Bake bake;
  forecast::Reach reach;
  Probability wanted;
  int draws = 0;
};

[[nodiscard]] Result<ReachAnswer> reach(const formula::Bake& bake,
                                        const std::string& drink,
                                        Time within,
                                        Probability chance,
                                        const forecast::Options& options);
[[nodiscard]] Result<ReachAnswer> reach(const std::string& path,
                                        const std::string& drink,
                                        Time within,
                                        Probability chance,
                                        const forecast::Options& options);

/// The same alcohol and real water as another bake, from this bake's bottle.
struct MatchAnswer {
  formula::Bake bake, other;
  formula::Solution solution;
};

[[nodiscard]] Result<MatchAnswer> match(const formula::Bake& bake, const formula::Bake& other);
[[nodiscard]] Result<MatchAnswer> match(const std::string& path, const std::string& other);

/// Thinning a drink with water to a strength.
struct ThinAnswer {
  std::string drink;
  AlcoholByVolume wanted;
  formula::Thinned thinned;
};

/// Errors: bad_input, not_found, cannot_be_met when the drink is weaker than that.
[[nodiscard]] Result<ThinAnswer> thin(const std::string& drink,
                                      const std::string& strength,
                                      Mass total);

/// How warm the water must be, and how much of it to weigh as ice.
struct WaterRequest {
  formula::Mixing mixing;
  std::optional<Mass> water;  ///< with `tap`: how much of it as ice
  std::optional<Temperature> tap;
};

struct WaterAnswer {
  WaterRequest request;
  Temperature water;
  std::optional<Mass> ice;  ///< of the water's weight
};

[[nodiscard]] Result<WaterAnswer> water(const WaterRequest& request);

/// Any set of aims ("alcohol=60 g", "real water=70 %") over any set of free ingredients of a bake.
struct SolveAnswer {
  formula::Bake bake;
  std::vector<formula::Target> targets;
  formula::Solution solution;
};

/// Errors: bad_input for an aim that is none, not_found for an ingredient that is not in the bowl.
[[nodiscard]] Result<SolveAnswer> solve(const formula::Bake& bake,
                                        const std::vector<std::string>& aims,
                                        const std::vector<std::string>& free);
[[nodiscard]] Result<SolveAnswer> solve(const std::string& path,
                                        const std::vector<std::string>& aims,
                                        const std::vector<std::string>& free);

/// The names an aim may have, for errors and help.
[[nodiscard]] std::string aim_names();

/// Feeding the levain: a ratio and an hour of feeding, or the ratio for a peak after so many hours.
struct LevainRequest {
  std::string starter = "stiff ripe levain";
  std::string flour = "white bread flour";
  std::string ratio =
      "1:2:1";  ///< ripe : flour : water; also sets the hydration of a solved feeding
  Mass wanted = 300.0 * gram;
  Temperature temperature = Temperature::from_celsius(26);
  std::optional<Time> peak_in;  ///< solve the ratio for a peak so long after feeding
  std::string fed_at;           ///< local time of feeding, or empty
  std::string peak_at;          ///< local time wanted for the peak, or empty
};

struct LevainAnswer {
  LevainRequest request;
  forecast::Feeding feeding;
  std::string feed_at;  ///< local time to feed, when peak_at is given without fed_at
  int draws = 0;
  bool yeasted = false;  ///< a poolish or biga: the starter is baker's yeast
};

/// Errors: bad_input (a ratio that is none, an unknown starter), cannot_be_met.
[[nodiscard]] Result<LevainAnswer> levain(const LevainRequest& request,
                                          const forecast::Options& options);

/// Ingredients whose name, other names or group hold the words; all of them for no words.
/// Errors: not_found with near names.
[[nodiscard]] Result<std::vector<larder::Ingredient>> larder_with(const std::string& words);

/// Values and their sources, of data/ and of the larder. Errors: not_found.
[[nodiscard]] Result<std::vector<data::Entry>> sources_of(const std::string& words);

/// The numbers in doubt that the time to ready of a bake rests on, most first: each with the share
/// of the doubt that is its own (forecast::rests_on).
struct RestingAnswer {
  struct Number {
    data::Entry entry;
    double share = 0;
  };

  formula::Bake bake;
  std::vector<Number> numbers;
  int draws = 0;
};

[[nodiscard]] Result<RestingAnswer> sources_behind(const std::string& path,
                                                   const forecast::Options& options);

}  // namespace barm::service
