#pragma once
#include <span>

#include "formula/bake.h"
#include "formula/bowl.h"
#include "kinetics/dough.h"
#include "larder/composition.h"
#include "units/temperature.h"

namespace barm::forecast {

/// What a culture finds in a kilogram of this bowl. `settled` are the compositions the bowl was
/// added up with, in the order of bake.bowl; the levain's carries its cells, lag and what is left
/// of its gluten.
[[nodiscard]] kinetics::Dough dough_of(const formula::Bowl& bowl,
                                       std::span<const larder::Composition> settled);

/// The bowl's compositions with one thing taken out of everything but flour and starter: the
/// alcohol of the drinks turned to water, their acid neutralised, no salt, no added sugar, no
/// sulphite, sorbate or hops; a levain at its peak instead of a hungry one; the gluten of a whole
/// white bread flour, with nothing that dissolves it. Cold and warmth are not in the bowl.
[[nodiscard]] std::vector<larder::Composition> without(const formula::Bake& bake,
                                                       std::vector<larder::Composition> settled,
                                                       kinetics::Factor factor);

/// Whether there is any of it worth a run, at this temperature of the bulk.
[[nodiscard]] bool holds(const formula::Bowl& bowl,
                         std::span<const larder::Composition> settled,
                         Temperature bulk,
                         kinetics::Factor factor);

}  // namespace barm::forecast
