#pragma once
#include <set>
#include <string>
#include <vector>

#include "formula/bake.h"
#include "larder/composition.h"
#include "shop/ingredient_list.h"

namespace barm::shop::internal {

/// Flour within a sourdough.
struct SourFlour {
  std::string name;  ///< "{rye} flour"
  double mass = 0;   ///< [kg] of the batch
  bool named = false;
};

/// A line of the bowl on its way into the list. Masses in kg of the batch, handling loss taken off.
struct ListLine {
  std::string name;             ///< "dark chocolate"
  std::string list;             ///< "cocoa mass, sugar"; empty: it has none of its own
  std::set<std::string> holds;  ///< allergens, sulphites among them
  bool sulphited = false;       ///< brings sulphites of which the loaf keeps some
  double used = 0;
  double solids = 0;  ///< of it that stays
  double water = 0;   ///< of it that may leave
  double alcohol = 0;
  double counted = 0;
  bool added_water = false;
  bool drink = false;
  bool starter = false;
  bool additive = false;
  bool wine = false;
  bool named = false;
  bool usual_list = false;
  std::vector<SourFlour> flours;
};

/// The line of a portion of which `mass` is in the batch.
[[nodiscard]] ListLine list_line(const formula::Bake& bake,
                                 const formula::Portion& portion,
                                 const larder::Composition& composition,
                                 double mass,
                                 const ListOptions& options);

}  // namespace barm::shop::internal
