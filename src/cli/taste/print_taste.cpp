#include "cli/taste/print_taste.h"

#include <fmt/format.h>

#include <algorithm>

#include "cli/print.h"
#include "service/words.h"
#include "taste/words.h"

namespace barm::cli {

namespace {

std::string percent_of(double share) { return fmt::format("{:.0f} %", 100 * share); }

bool worth_a_line(const taste::Note& note) {
  return note.in_drink >= 1 || note.level != taste::Level::gone;
}

void print_note(Paper& paper, const taste::Note& note) {
  std::string right_of =
      fmt::format("{}{}", name(note.level), note.cover.empty() ? "" : ", covered");
  paper.line(padded("", 8) + padded(std::string(note.family), 18) +
             right(percent_of(note.left.p50), 6) +
             right(fmt::format("{:.1f}", note.crumb.p50), 10) +
             right(fmt::format("{:.1f}", note.crust.p50), 10) + "   " + right_of);
}

std::string price_words(const taste::Gain& gain, const std::string& currency) {
  const taste::Route& route = gain.route;
  std::string out = fmt::format("{:+.2f}{}{}", route.coins, currency.empty() ? "" : " ", currency);
  return out + (route.price_guessed ? " a loaf (price guessed)" : " a loaf");
}

std::string dough_of(const taste::Gain& gain) {
  if (!gain.route.changes_dough) return "the dough as it is";
  if (gain.never) return "the middle dough is not ready in time";
  if (!gain.later) return "the dough changes";
  const Time later = *gain.later;
  const double hours = later.in(hour);
  if (std::abs(hours) < 0.125) return "ready as before";
  return hours > 0 ? "ready " + service::span(later) + " later"
                   : "ready " + service::span(-later) + " sooner";
}

std::string gained(const taste::Gain& gain) {
  if (gain.no_difference) return "no difference that anybody could be sure of";
  return fmt::format(
      "{:.1f} times as strong ({:.1f} to {:.1f})", gain.times.p50, gain.times.p10, gain.times.p90);
}

}  // namespace

void print(Paper& paper, const service::ThroughAnswer& answer) {
  const taste::Tasted& tasted = answer.tasted;
  paper.heading("TASTE   " + answer.bake.name,
                taste::tasters(tasted.noticed) + " would notice the drink");
  if (tasted.notes.empty()) {
    paper.wrapped("no drink in this bowl: nothing comes through but bread");
  } else {
    paper.wrapped(answer.line.empty() ? "nothing but alcohol is known to come through"
                                      : answer.line);
  }
  paper.wrapped(fmt::format("baked with {} of the dough's weight lost, {} of it crust",
                            percent_of(answer.situation.baking.loss),
                            percent_of(tasted.crust_share)));
  if (answer.judged) paper.wrapped(answer.judged->words);
  paper.line();
  if (!tasted.notes.empty()) {
    paper.line(padded("NOTES", 26) + right("left", 6) + right("crumb", 10) + right("crust", 10) +
               "   in the mouth");
    for (const taste::Note& note : tasted.notes) {
      if (worth_a_line(note)) print_note(paper, note);
    }
    paper.wrapped("crumb and crust: how many times the amount that an average nose just notices");
    paper.line();
  }
  paper.heading("TONGUE");
  for (const taste::Sense& sense : tasted.tongue.senses) paper.wrapped(taste::sentence(sense));
  if (tasted.alcohol.p90 > 0.05)
    paper.wrapped(fmt::format(
        "of its alcohol {} to {} stays (4 of 5): {:.1f} to {:.1f} g in a kilogram of bread",
        percent_of(tasted.alcohol_left.p10),
        percent_of(tasted.alcohol_left.p90),
        tasted.alcohol.p10,
        tasted.alcohol.p90));
  if (!answer.doubts.empty()) {
    paper.line();
    paper.heading("IN DOUBT");
    for (const std::string& doubt : answer.doubts) paper.wrapped(doubt);
  }
  paper.line();
  print_cautions(paper, answer.cautions);
}

void print(Paper& paper, const service::MoreTasteAnswer& answer) {
  const taste::RoutesAnswer& routes = answer.routes;
  std::string wish = "noticed now by " + taste::tasters(routes.now.noticed);
  if (answer.money) wish = fmt::format("for {:.2f} {} more a loaf", *answer.money, routes.currency);
  if (answer.by) wish = "ready by " + answer.clock.moment(*answer.by);
  paper.heading("MORE TASTE   " + routes.drink, wish);
  if (answer.in_time)
    paper.wrapped(fmt::format("{} of the liquid as {}: the middle dough is ready {}; {}",
                              percent_of(answer.in_time->share),
                              routes.drink,
                              answer.clock.moment(answer.in_time->ready),
                              answer.in_time->no_less
                                  ? "with the first route below it tastes as much as now"
                                  : "no route makes up for what is missing"));
  int place = 0;
  for (const taste::Gain& gain : routes.gains) {
    paper.item(fmt::format("{:>2}", ++place), gain.route.what, 4);
    paper.item("        taste", gained(gain), 15);
    paper.item("        costs",
               fmt::format("{}, {:.0f} min; {}",
                           price_words(gain, routes.currency),
                           gain.route.minutes,
                           dough_of(gain)),
               15);
    if (gain.alcohol > 0.5)
      paper.item("        left",
                 fmt::format("{:.0f} g of alcohol in and on a loaf, {:.0f} g as it is",
                             gain.alcohol,
                             routes.alcohol),
                 15);
  }
  paper.line();
  print_cautions(paper, answer.cautions);
}

void print(Paper& paper, const service::TasteAcrossAnswer& answer) {
  const taste::Corridor& corridor = answer.corridor;
  paper.heading("TASTE AND RISE   " + corridor.drink,
                fmt::format("ready within {}", service::span(answer.question.within)));
  paper.line(padded("", 8) + padded("share", 10) + padded("ready in time", 26) +
             "tasters who notice");
  constexpr double wide = 20;
  for (const taste::CorridorPoint& point : corridor.points) {
    paper.line(padded("", 8) + padded(percent_of(point.share), 10) +
               padded(bar(wide * point.ready), 26) + bar(wide * point.noticed));
  }
  paper.line();
  if (corridor.from && corridor.to) {
    paper.wrapped(
        fmt::format("both hold from {} to {}: {} ready in time, {} notice it; this bake has {}",
                    percent_of(*corridor.from),
                    percent_of(*corridor.to),
                    percent_of(answer.question.chance),
                    percent_of(answer.question.noticed),
                    percent_of(corridor.now)));
  } else {
    paper.wrapped(fmt::format(
        "nowhere do both hold ({} ready in time, {} of tasters): more time, more warmth, or taste "
        "by another way (barm taste FILE --more)",
        percent_of(answer.question.chance),
        percent_of(answer.question.noticed)));
  }
}

}  // namespace barm::cli
