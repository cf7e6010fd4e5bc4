#pragma once
// How far a drink can go.
#include "forecast/ensemble.h"

namespace barm::forecast {

struct Reach {
  std::string drink;
  double share = 0;  ///< largest share of the liquid that still gets there with the wanted chance
  double room = 1;   ///< as Poured::room
  bool all_of_it = false;       ///< even in place of all the water it gets there
  bool none = false;            ///< not even without it
  Probability chance;           ///< at that share
  std::optional<Time> ready;    ///< middle of the draws at that share
  std::optional<Time> without;  ///< middle of the draws with water in its place
  Time within;
  double now = 0;  ///< the bake's own share of the liquid
  Probability chance_now;
};

/// How much of a liquid is poured.
struct Poured {
  double share = 0;  ///< of the liquid: what the file calls so, else all that is poured but levain
  double room = 1;   ///< what it and the water are of that: more of it than this cannot be
};

/// Of line `line` of the bowl.
[[nodiscard]] Poured poured(const formula::Bake& bake, const formula::Bowl& bowl, std::size_t line);

/// The same of a drink by its name. Errors: not_found, those of in_the_bowl().
[[nodiscard]] Result<Poured> poured(const formula::Bake& bake, const std::string& drink);

/// The same bake with the drink as `share` of the liquid, and water that much less or more. Errors:
/// not_found when the bowl does not hold it, cannot_be_met where the water does not suffice.
[[nodiscard]] Result<formula::Bake> with_share(const formula::Bake& bake,
                                               const std::string& drink,
                                               double share);

/// Largest share of `drink` with which the dough is ready within `within` with at least `chance`,
/// to half a percent of the liquid, by bisection over the same draws. Errors: not_found, bad_input,
/// as foresee().
[[nodiscard]] Result<Reach> reach(const formula::Bake& bake,
                                  const std::string& drink,
                                  Time within,
                                  Probability chance,
                                  const Options& options = {});

/// The drink a question about reach is most likely to be about: the one that brings most alcohol,
/// else acid.
[[nodiscard]] std::optional<std::string> main_drink(const formula::Bake& bake);

}  // namespace barm::forecast
