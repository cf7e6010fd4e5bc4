#pragma once
// A bake as far as its taste goes: what is in it, how it stands when it goes in, how it is baked.
#include <optional>

#include "base/result.h"
#include "forecast/ensemble.h"
#include "formula/bake.h"
#include "taste/taste.h"

namespace barm::taste {

/// What the oven says of a loaf, where anything does.
struct OvenSays {
  std::optional<double> loss;         ///< of the dough's weight; empty: the bake's own
  std::optional<double> crust_share;  ///< of the dough; empty: by the loss
  std::optional<Range> alcohol_kept;  ///< share of what goes in; empty: by the way of its scent
};

struct Situation {
  formula::Bake bake;
  formula::Bowl bowl;
  Contents contents;
  AtTheOven dough;
  Baking baking;
  Mass piece;                 ///< dough of one loaf
  std::optional<Time> ready;  ///< of the middle dough

  [[nodiscard]] Mass crust(double share) const;  ///< of one loaf, baked

  [[nodiscard]] Mass loaf() const { return piece * (1 - baking.loss); }
};

/// The middle dough run through its stages. Acids and sugar are those of the bulk when it is ready,
/// or of its end; pH that of the last stage. Errors: as foresee_middle().
[[nodiscard]] Result<Situation> situation_of(const formula::Bake& bake,
                                             const OvenSays& oven,
                                             const forecast::Options& options);

/// What comes through of it.
[[nodiscard]] Result<Tasted> tasted(const Situation& situation, Luck& luck);
[[nodiscard]] Result<Tasted> tasted(const Situation& situation,
                                    const std::vector<Applied>& applied,
                                    Luck& luck);

}  // namespace barm::taste
