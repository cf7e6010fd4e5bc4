#pragma once
// What bakes take: how a levain is fed for one, what it needs of each ingredient, and what the
// shelf has not.
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "formula/bake.h"
#include "formula/bowl.h"
#include "storage/records.h"

namespace barm::service {

/// The levain of a bake as it is fed.
struct FedLevain {
  Time before_mixing;  ///< the cold it waits in counted
  std::string words;   ///< "40 g stiff ripe levain, 80 g white bread flour, 40 g water"
  Mass ripe;           ///< starter that it takes
  std::string flour;
  Mass flour_mass;
  std::string yeast;  ///< that a poolish or biga is raised with; a ripe starter is nothing to buy
  Mass yeast_mass;
};

/// For `times` as much dough as the bowl has. Nothing for a bake without a levain of its own, or
/// one whose hours nobody knows.
[[nodiscard]] std::optional<FedLevain> fed_levain(const formula::Bake& bake,
                                                  const formula::Bowl& bowl,
                                                  double times = 1);

struct Need {
  Mass mass;
  Volume volume;
  bool drink = false;
};

/// By the ingredient's name.
using Needs = std::map<std::string, Need>;

/// Adds `times` the bowl, water and starters left out, and the flour and yeast of its levain.
void add_needs(Needs& needs,
               const formula::Bake& bake,
               const formula::Bowl& bowl,
               const std::optional<FedLevain>& levain,
               double times = 1);

/// What is short, in words. Only what the shelf keeps account of, and drinks: a bakery's flour need
/// not be written down.
[[nodiscard]] std::vector<std::string> to_buy(const Needs& needs,
                                              const std::vector<storage::Bottle>& shelf);

}  // namespace barm::service
