#include "cli/bake/print_in_the_way.h"

#include <fmt/format.h>

#include <algorithm>

#include "cli/chart.h"
#include "cli/print.h"
#include "service/words.h"

namespace barm::cli {

using service::span;

namespace {

std::string remark(const DoughInIt& dough, kinetics::Factor factor) {
  const formula::Bowl& bowl = dough.bowl;
  switch (factor) {
    case kinetics::Factor::alcohol:
      return fmt::format("{:.0f} g/L in the dough's water",
                         bowl.ethanol_in_water().in(gram / litre));
    case kinetics::Factor::salt:
      return fmt::format("{:.0f} g/L in the dough's water", bowl.salt_in_water().in(gram / litre));
    case kinetics::Factor::sugar:
      return fmt::format("{:.0f} g/L from what is added", bowl.sugar_in_water().in(gram / litre));
    case kinetics::Factor::acid:
      return fmt::format("pH {:.1f} to start", bowl.ph.value());
    case kinetics::Factor::sulphite:
      return bowl.ph.value() >= 4.4 ? fmt::format("at pH {:.1f} it has no bite", bowl.ph.value())
                                    : fmt::format("at pH {:.1f} some of it bites", bowl.ph.value());
    case kinetics::Factor::sorbate:
      return "preservative: slows yeast";
    case kinetics::Factor::hops:
      return "slow bacteria, not yeast";
    case kinetics::Factor::hunger:
      return "past its peak: feed it before";
    case kinetics::Factor::weak_flour:
      return "holds less than white flour";
    case kinetics::Factor::cold:
    case kinetics::Factor::warmth:
      return service::warmth(dough.temperature);
  }
  return "";
}

std::string cost(const forecast::Hindrance& hindrance, bool at_least) {
  if (hindrance.said < Time{}) return span(-hindrance.said) + " sooner";
  if (hindrance.said == Time{}) return "nothing";
  return (at_least ? "over " : "") + span(hindrance.said);
}

}  // namespace

void print_in_the_way(Paper& paper,
                      const forecast::InTheWay& way,
                      const DoughInIt& dough,
                      const time::WallClock& clock) {
  paper.heading("WHAT SLOWS IT",
                way.bare ? "with nothing in the way: ready at " + clock.moment(*way.bare)
                         : "with nothing in the way: not ready in time either");
  double most = 1;
  for (const auto& hindrance : way.hindrances) most = std::max(most, hindrance.costs.in(hour));
  for (const auto& hindrance : way.hindrances) {
    const double length = hindrance.said > Time{} ? hindrance.costs.in(hour) / most * 13 : 0;
    paper.line(padded("", 8) + padded(forecast::name(hindrance.factor), 14) +
               padded(bar(length), 14) + right(cost(hindrance, way.at_least), 14) + "   " +
               remark(dough, hindrance.factor));
  }
  if (way.hindrances.empty()) paper.wrapped("nothing slows this dough");
}

}  // namespace barm::cli
