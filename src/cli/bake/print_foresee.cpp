#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "cli/bake/print_in_the_way.h"
#include "cli/bake/print_jar.h"
#include "cli/bake/print_stages.h"
#include "cli/chart.h"
#include "cli/print.h"
#include "service/bake/head.h"
#include "service/bake/why.h"
#include "service/now.h"
#include "service/oven/words.h"
#include "service/words.h"

namespace barm::cli {

using service::span;

namespace {

std::string at_what(const service::ForeseeAnswer& answer) {
  return fmt::format(
      "{}, {}", service::risen(answer.forecast.target), service::warmth(answer.temperature));
}

// With blanks that do not break at the end of a line.
std::string whole(std::string text) {
  for (std::size_t at = text.find(' '); at != std::string::npos; at = text.find(' ', at)) {
    text.replace(at, 1, "\u00a0");
  }
  return text;
}

std::string never(const forecast::Forecast& forecast) {
  return service::odds(forecast.never, forecast.draws) +
         (forecast.never.value() > 0
              ? fmt::format(" not ready within\u00a0{}", whole(span(forecast.horizon)))
              : " never");
}

// What it can hold, which of three ends it, what mends it.
void print_why(Paper& paper, const service::ForeseeAnswer& answer, const time::WallClock& clock) {
  const std::string holds = service::limit_words(answer.forecast, answer.why_never, clock);
  if (answer.why_never) {
    paper.item("        why", std::string(service::words(answer.why_never->obstacle)), 18);
    if (answer.why_never->change)
      paper.item("        mended by", service::words(*answer.why_never->change), 18);
  }
  if (!holds.empty()) paper.item("        limit", holds, 18);
}

void print_when(Paper& paper, const service::ForeseeAnswer& answer, const time::WallClock& clock) {
  const forecast::Forecast& forecast = answer.forecast;
  if (!forecast.ready.p50 || forecast.never.value() > mostly_never) {
    paper.heading("READY   " + paper.strong(service::in_place_of_ready(forecast, answer.why_never)),
                  at_what(answer));
    print_why(paper, answer, clock);
    paper.wrapped(fmt::format(
        "{} doughs like this one get there in time{}",
        service::odds(Probability(1 - forecast.never.value()), forecast.draws),
        forecast.ready.p10 ? "; the first of them about " + clock.moment(*forecast.ready.p10)
                           : ""));
    if (forecast.fifth.p50) {
      paper.wrapped(fmt::format("it does move: risen by a fifth about {} (half of the doughs)",
                                clock.moment(*forecast.fifth.p50)));
    } else if (forecast.largest_rise < 1.05) {
      paper.wrapped("no visible rise is to be expected at all");
    }
    return;
  }
  paper.heading("READY   " + paper.strong(clock.moment(*forecast.ready.p50)) + "   most likely",
                at_what(answer));
  paper.line(padded("", 8) + padded(window_ruler(forecast.ready, clock, 22), 44) +
             " 4 of 5 doughs like this one");
  std::string more;
  if (answer.look_again) more += "look again at " + clock.short_moment(*answer.look_again) + " · ";
  if (forecast.past.p50)
    more += "past its best after " + clock.short_moment(*forecast.past.p50) + " · ";
  paper.wrapped(more + never(forecast));
  print_why(paper, answer, clock);
}

void print_doubt(Paper& paper, const service::ForeseeAnswer& answer) {
  std::vector<std::string> doubts;
  if (answer.bowl.bowl.ethanol_in_water().in(gram / litre) > 15) {
    doubts.emplace_back(
        "how much alcohol this culture copes with is not known: strains of one yeast differ, and "
        "none was measured in a sour dough. What your own doughs do will tell");
  } else {
    doubts.emplace_back(
        "how awake the levain is decides most; feed it so that it peaks when you mix");
  }
  for (const std::string& doubt : answer.bowl.doubts) doubts.push_back(doubt);
  for (const std::string& doubt : doubts) paper.item("        doubt", doubt, 18);
}

}  // namespace

void print(Paper& paper, const service::ForeseeAnswer& answer) {
  const time::WallClock clock = service::clock_of(answer.bowl.bake);
  paper.heading(answer.bowl.bake.name, clock.known() ? "mixed " + clock.moment(Time{}) : "");
  paper.line();
  const service::Head head =
      service::head_of(answer.forecast.timeline, answer.bowl.bake, clock, answer.now);
  if (head.next) {
    paper.item("NEXT", head.next_words, 8);
    if (!head.then_words.empty()) paper.item("THEN", head.then_words, 8);
    paper.line();
  }
  print_when(paper, answer, clock);
  paper.line();
  for (const std::string& line : rise_chart(answer.forecast, clock)) paper.line(line);
  paper.line("        ● the middle dough   ░ 4 of 5 doughs   volume against mixing");
  paper.line();
  print_stages(paper,
               {answer.forecast.timeline, answer.bowl.bake, answer.oven, "doughs like this one"},
               clock);
  if (answer.ready_for) {
    print_ready_for(paper, *answer.ready_for);
    paper.line();
  }
  print_in_the_way(paper, answer.in_the_way, {answer.bowl.bowl, answer.temperature}, clock);
  print_doubt(paper, answer);
  std::vector<std::string> cautions = answer.cautions;
  cautions.insert(cautions.end(), answer.bowl.cautions.begin(), answer.bowl.cautions.end());
  const std::string vapour = answer.oven ? service::vapour_in_short(*answer.oven) : "";
  if (!vapour.empty()) cautions.push_back(vapour);
  paper.line();
  print_cautions(paper, cautions);
}

}  // namespace barm::cli
