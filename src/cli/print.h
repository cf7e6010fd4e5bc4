#pragma once
// Answers on paper, each as 80 columns of text.
#include <string>

#include "cli/paper.h"
#include "service/bake/bowl.h"
#include "service/bake/foresee.h"
#include "service/bake/levain.h"
#include "service/bake/match.h"
#include "service/bake/reach.h"
#include "service/bake/solve.h"
#include "service/bake/thin.h"
#include "service/bake/water.h"
#include "service/larder/larder.h"
#include "service/larder/sources.h"

namespace barm::cli {

/// Chance of never from which on an hour of readiness is not said any more.
inline constexpr double mostly_never = 0.5;

void print(Paper& paper, const service::BowlAnswer& answer);
void print(Paper& paper, const service::ForeseeAnswer& answer);
void print(Paper& paper, const service::ReachAnswer& answer);
void print(Paper& paper, const service::MatchAnswer& answer);
void print(Paper& paper, const service::ThinAnswer& answer);
void print(Paper& paper, const service::WaterAnswer& answer);
void print(Paper& paper, const service::SolveAnswer& answer);
void print(Paper& paper, const service::LevainAnswer& answer);

/// A short list, or one ingredient in full when there is only one.
void print(Paper& paper, const std::vector<larder::Ingredient>& ingredients);
void print(Paper& paper, const std::vector<data::Entry>& entries);
void print(Paper& paper, const service::RestingAnswer& answer);

/// Cautions, one a line, under their heading; nothing when there are none.
void print_cautions(Paper& paper, const std::vector<std::string>& cautions);

}  // namespace barm::cli
