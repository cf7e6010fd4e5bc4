#include <fmt/format.h>

#include "cli/print.h"
#include "service/words.h"

namespace barm::cli {

using service::weight;

namespace {

void print_solution(Paper& paper, const formula::Bake& bake, const formula::Solution& solution) {
  for (const std::string& step : solution.working) paper.item("      ·", step);
  if (!solution.met) {
    paper.line();
    paper.wrapped("This cannot be met in full; what follows is the nearest.");
    for (const std::string& conflict : solution.conflicts) paper.item("      ·", conflict);
  }
  paper.line();
  paper.heading("WEIGH OUT");
  for (std::size_t i = 0; i < solution.masses.size(); ++i) {
    const std::string name = i < bake.bowl.size() ? bake.bowl[i].ingredient.name : "water";
    paper.line(padded("", 8) + padded(name, 30) + right(weight(solution.masses[i]), 10));
  }
}

}  // namespace

void print(Paper& paper, const service::MatchAnswer& answer) {
  paper.heading("MATCH   " + answer.bake.name);
  paper.wrapped("as strong and as wet as " + answer.other.name);
  print_solution(paper, answer.bake, answer.solution);
}

void print(Paper& paper, const service::SolveAnswer& answer) {
  paper.heading("SOLVE   " + answer.bake.name);
  print_solution(paper, answer.bake, answer.solution);
}

void print(Paper& paper, const service::WaterAnswer& answer) {
  paper.heading("WATER   " + paper.strong(service::warmth(answer.water)),
                "for a dough of " + service::warmth(answer.request.mixing.dough));
  if (answer.ice) {
    const Mass ice = *answer.ice;
    const Mass rest = *answer.request.water - ice;
    paper.wrapped(
        ice.si() > 0
            ? fmt::format("{} of the water as ice, {} from the tap", weight(ice), weight(rest))
            : "no ice needed: warm the water");
  }
}

void print(Paper& paper, const service::ThinAnswer& answer) {
  const formula::Thinned& thinned = answer.thinned;
  paper.heading("THIN    " + answer.drink, fmt::format("to {:.3g} % vol", answer.wanted.percent()));
  for (const std::string& step : thinned.working) paper.item("      ·", step);
  paper.line();
  paper.heading("WEIGH OUT");
  paper.line(padded("", 8) + padded(answer.drink, 30) + right(weight(thinned.drink), 10));
  paper.line(padded("", 8) + padded("water", 30) + right(weight(thinned.water), 10));
}

}  // namespace barm::cli
