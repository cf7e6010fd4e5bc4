#include "larder/ingredient.h"

namespace barm::larder {

namespace {

/// An acid or dairy ingredient that is more water than anything else is poured, not spooned.
bool pours(const Ingredient& ingredient) {
  const auto& water = ingredient[Property::water];
  return water && water->typical > 0.5;
}

}  // namespace

std::string_view name(Group group) {
  switch (group) {
    case Group::flour:
      return "flour";
    case Group::starter:
      return "starter";
    case Group::yeast:
      return "yeast";
    case Group::water:
      return "water";
    case Group::drink:
      return "drink";
    case Group::dairy:
      return "dairy";
    case Group::egg:
      return "egg";
    case Group::salt:
      return "salt";
    case Group::sugar:
      return "sugar";
    case Group::fat:
      return "fat";
    case Group::seed:
      return "seed";
    case Group::fruit:
      return "fruit";
    case Group::acid:
      return "acid";
    case Group::malt:
      return "malt";
    case Group::other:
      return "other";
  }
  return "unknown";
}

bool Ingredient::is_liquid() const {
  if (group == Group::water || group == Group::drink) return true;
  return (group == Group::dairy || group == Group::acid) && pours(*this);
}

}  // namespace barm::larder
