#pragma once
#include "formula/bake.h"

namespace barm::formula::internal {

/// Where the file says how much.
struct SizePlaces {
  FilePlace size;    ///< pieces, piece, baked or flour; the file when it has none
  FilePlace liquid;  ///< the liquid total
};

/// Stops at what cannot be: flours that do not sum to 100 %, liquids that do not sum to the liquid
/// total, two statements of size, over 1000 % of flour, over 20 % of salt, over 5 t of dough.
void check_bowl(const Bake& bake, const SizePlaces& places);

}  // namespace barm::formula::internal
