#pragma once
// The dough as heat sees it: the bulk in its tub, a piece in its basket, a little of it in a jar.
#include "forecast/draw.h"
#include "formula/bake.h"
#include "heat/conduction.h"

namespace barm::forecast {

/// What the dough is made of, for heat.
[[nodiscard]] heat::Makeup makeup_of(const Draw& draw);

/// A body in a vessel at a volume ratio: its shape, its bubbles, its surface. `luck` is a standard
/// normal number, 0 for the published figures: the transfer is drawn with the doubt of its
/// constant.
[[nodiscard]] heat::Body body_in(const formula::Surroundings& surroundings,
                                 formula::Vessel vessel,
                                 Mass mass,
                                 const heat::Makeup& makeup,
                                 Temperature about,
                                 double rise,
                                 double luck);

/// The sample in its jar.
[[nodiscard]] heat::Body body_in(const formula::Jar& jar,
                                 const heat::Makeup& makeup,
                                 Temperature about,
                                 double rise,
                                 double luck);

/// Of so much dough at mixing, the air in it included.
[[nodiscard]] Volume volume_at_mixing(Mass mass);

/// How much more of its gas a body with this height loses through its top than a tub does:
/// Proving::surface.
[[nodiscard]] double surface_of(Length height);

/// The air where a stage's dough stands.
[[nodiscard]] heat::Place place_of(const formula::Stage& stage, Temperature settles);

}  // namespace barm::forecast
