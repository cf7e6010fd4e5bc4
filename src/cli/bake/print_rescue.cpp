#include "cli/bake/print_rescue.h"

#include <fmt/format.h>

#include "cli/print.h"
#include "service/now.h"

namespace barm::cli {

using service::span;

namespace {

std::string when(const forecast::WayOut& way, Time now, const time::WallClock& clock) {
  if (way.remedy == forecast::Remedy::flatbread) return "";
  if (!way.ready.p50) return "more than half of such doughs do not get there in the time left";
  if (service::ready_now(way, now)) return "ready now";
  std::string text = "ready about " + clock.moment(*way.ready.p50);
  if (way.ready.p10 && way.ready.p90) {
    text += fmt::format(", {} to {} in 4 of 5",
                        clock.short_moment(*way.ready.p10),
                        clock.short_moment(*way.ready.p90));
  } else if (way.ready.p10) {
    text += fmt::format(", the first at {}, some not in the time left",
                        clock.short_moment(*way.ready.p10));
  }
  return text;
}

std::string chance(const service::ToldWay& told, const forecast::Rescue& rescue) {
  if (told.way.remedy == forecast::Remedy::flatbread) return "bread in any case";
  return service::odds(told.way.in_time, rescue.draws) + " in time";
}

}  // namespace

void print(Paper& paper, const service::RescueAnswer& answer) {
  const forecast::Rescue& rescue = answer.rescue;
  const time::WallClock& clock = answer.clock;
  paper.heading(answer.bake.name,
                clock.known() ? fmt::format("now {}, {} after mixing",
                                            clock.moment(rescue.options.now),
                                            span(rescue.options.now))
                              : span(rescue.options.now) + " after mixing");
  paper.wrapped(fmt::format("wanted: {} by {}{}, {} so far",
                            service::risen(rescue.target),
                            clock.moment(rescue.options.by),
                            rescue.options.not_before
                                ? ", still good at " + clock.moment(*rescue.options.not_before)
                                : "",
                            service::warmth(rescue.temperature)));
  paper.wrapped(fmt::format(
      "by the forecast it stands at {:.1f} times its volume ({:.1f} to {:.1f} in 4 of 5 doughs)",
      rescue.rise_middle,
      rescue.rise_low,
      rescue.rise_high));
  paper.wrapped(answer.rests_on);
  paper.line();
  int place = 0;
  for (const service::ToldWay& told : answer.ways) {
    const std::string head = fmt::format("{:>2}  {}", ++place, told.what);
    paper.heading(told.advised ? paper.strong(head) + "   advised" : head, chance(told, rescue));
    if (const std::string hours = when(told.way, rescue.options.now, clock); !hours.empty())
      paper.wrapped(hours);
    paper.item("        why", told.reason, 15);
    paper.item("        costs", told.cost, 15);
  }
  paper.line();
  paper.item("GIVE UP", answer.giving_up);
  paper.line();
  print_cautions(paper, answer.cautions);
}

}  // namespace barm::cli
