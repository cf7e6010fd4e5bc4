#include <fmt/format.h>

#include "cli/print.h"
#include "service/words.h"

namespace barm::cli {

using service::odds;
using service::share;
using service::span;

namespace {

std::string rounded_share(double fraction) { return fmt::format("{:.0f} %", 100 * fraction); }

}  // namespace

void print(Paper& paper, const service::ReachAnswer& answer) {
  const forecast::Reach& reach = answer.reach;
  const std::string wish = fmt::format(
      "ready within {} with a chance of {}", span(reach.within), odds(answer.wanted, answer.draws));
  if (reach.none) {
    paper.heading("REACH   " + paper.strong("not even without " + reach.drink), wish);
    paper.wrapped(
        fmt::format("with plain water in its place the chance is {}. Allow more time, warm the "
                    "dough, or use more levain",
                    odds(reach.chance, answer.draws)));
    return;
  }
  const bool all = reach.all_of_it && reach.room > 0.995;
  const std::string most =
      all ? "all of the liquid" : "up to " + rounded_share(reach.share) + " of the liquid";
  paper.heading("REACH   " + paper.strong(reach.drink + ": " + most), wish);
  if (reach.ready && reach.without) {
    paper.wrapped(
        fmt::format("there it is ready after about {}, {} later than with plain water ({})",
                    span(*reach.ready),
                    span(*reach.ready - *reach.without),
                    span(*reach.without)));
  }
  paper.wrapped(fmt::format("this bake has {} of the liquid as {}: {} to be ready in that time",
                            rounded_share(reach.now),
                            reach.drink,
                            odds(reach.chance_now, answer.draws)));
}

}  // namespace barm::cli
