#include "cli/bake/print_when.h"

#include <fmt/format.h>

#include "service/bake/head.h"
#include "service/words.h"

namespace barm::cli {

namespace {

std::string hours_before(const service::WhenAnswer& answer, Time from, Time to) {
  const std::string first = answer.clock.moment(-from);
  const std::string last = answer.clock.moment(-to);
  return first == last ? first : first + " to " + last;
}

std::string mix_and_feed(const service::WhenAnswer& answer, Time from, Time to) {
  std::string words = "mix " + hours_before(answer, from, to);
  if (const auto fed = answer.fed_before_mixing)
    words += ", feed the levain " + hours_before(answer, from + *fed, to + *fed);
  return words;
}

}  // namespace

void print(Paper& paper, const service::WhenAnswer& answer) {
  paper.heading(answer.bake.name, "into the oven " + answer.clock.moment(Time{}));
  paper.line();
  for (const service::MixingTimes& times : answer.mix) {
    const std::string chance = times.chance.value() < 0.9 ? "4 IN 5" : "19 IN 20";
    paper.item(chance,
               times.latest ? mix_and_feed(answer, *times.soonest, *times.latest)
                            : "no hour of mixing gives that",
               10);
  }
  if (answer.best_chance.value() <= 0) {
    paper.item("BEST", "none of such doughs would be ready then: name a later hour", 10);
    return;
  }
  paper.item("BEST",
             fmt::format("{}: {} such doughs are ready then and not past their best",
                         mix_and_feed(answer, answer.best, answer.best),
                         service::odds(answer.best_chance, answer.draws)),
             10);
  if (answer.bread.empty()) return;
  const auto about = [&](const forecast::Spread& spread) {
    return service::about_when(spread, answer.clock, answer.horizon);
  };
  const forecast::Bread& first = answer.bread.front();
  paper.item("OUT", about(first.out), 10);
  paper.item("CUT", "cool enough " + about(first.cut), 10);
  paper.item("BAG", "cool enough " + about(first.bag), 10);
  for (std::size_t i = 1; i < answer.bread.size(); ++i) {
    const forecast::Bread& load = answer.bread[i];
    paper.item(fmt::format("LOAD {}", i + 1),
               fmt::format("in {}; out {}; cool enough to cut {}, to bag {}",
                           about(load.in),
                           about(load.out),
                           about(load.cut),
                           about(load.bag)),
               10);
  }
}

}  // namespace barm::cli
