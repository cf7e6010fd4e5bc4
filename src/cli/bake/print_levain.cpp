#include <fmt/format.h>

#include "cli/print.h"
#include "service/now.h"
#include "service/words.h"

namespace barm::cli {

using service::span;

void print(Paper& paper, const service::LevainAnswer& answer) {
  const forecast::Feeding& feeding = answer.feeding;
  const service::LevainRequest& request = answer.request;
  const std::string raised_with = answer.yeasted ? request.starter : "ripe";
  const std::string parts =
      answer.yeasted ? fmt::format("{:.2g} % {}, {:.3g} % water",
                                   100 / feeding.fresh_flour,
                                   raised_with,
                                   100 * feeding.water / feeding.fresh_flour)
                     : fmt::format("1 : {:.2g} : {:.2g}", feeding.fresh_flour, feeding.water);
  paper.heading("FEED    " + paper.strong(parts) +
                    (answer.yeasted ? "   of its flour" : "   ripe : flour : water"),
                fmt::format("{}, {}", request.starter, service::warmth(request.temperature)));
  paper.line(padded("", 8) + fmt::format("{} {} · {} flour · {} water   for {}",
                                         service::weight(feeding.ripe_mass),
                                         raised_with,
                                         service::weight(feeding.flour_mass),
                                         service::weight(feeding.water_mass),
                                         service::weight(request.wanted)));
  if (!answer.feed_at.empty()) {
    paper.wrapped(fmt::format("{} it {} so that it peaks about {}",
                              answer.yeasted ? "stir" : "feed",
                              answer.feed_at,
                              request.peak_at));
  }
  const time::WallClock& clock = answer.clock;
  if (feeding.peak.p10 && feeding.peak.p50 && feeding.peak.p90) {
    const auto say = [&](Time t) { return clock.known() ? clock.moment(t) : span(t); };
    paper.wrapped(
        fmt::format("at its peak {} {} (4 of 5 levains: {} to {}), at about {:.1f} times its "
                    "volume and pH {:.1f}",
                    clock.known() ? "about" : "after",
                    say(*feeding.peak.p50),
                    say(*feeding.peak.p10),
                    say(*feeding.peak.p90),
                    feeding.largest_rise,
                    feeding.ph_at_peak.value()));
  } else {
    paper.wrapped("most such levains have no clear peak within two days");
  }
  if (feeding.tripled.p50)
    paper.wrapped(fmt::format("tripled after {} in half of the cases", span(*feeding.tripled.p50)));
  if (!answer.yeasted)
    paper.wrapped(
        "how awake the ripe starter is decides most: past its peak or from the cold it takes "
        "longer");
}

}  // namespace barm::cli
