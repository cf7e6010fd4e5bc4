#pragma once
#include <span>

#include "formula/bake.h"
#include "formula/bowl.h"
#include "kinetics/dough.h"
#include "larder/composition.h"

namespace barm::forecast {

/// What a culture finds in a kilogram of this bowl. `settled` are the compositions the bowl was
/// added up with, in the order of bake.bowl; the levain's carries its cells, lag and what is left
/// of its gluten.
[[nodiscard]] kinetics::Dough dough_of(const formula::Bowl& bowl,
                                       std::span<const larder::Composition> settled);

/// The bowl's compositions with one thing taken out of everything but flour and starter: the
/// alcohol of the drinks turned to water, their acid neutralised, no salt, no added sugar, no
/// sulphite, sorbate or hops.
[[nodiscard]] std::vector<larder::Composition> without(const formula::Bake& bake,
                                                       std::vector<larder::Composition> settled,
                                                       kinetics::Factor factor);

/// Whether the bowl holds any of it worth a run.
[[nodiscard]] bool holds(const formula::Bowl& bowl, kinetics::Factor factor);

}  // namespace barm::forecast
