#include "cli/day/print_day.h"

#include <fmt/format.h>

#include "cli/print.h"
#include "service/words.h"

namespace barm::cli {

namespace {

constexpr int when_width = 11;
constexpr int what_width = 36;
constexpr int step_width = 10;
constexpr int hands_width = 8;
constexpr int indent = 6;
constexpr std::int64_t shortest_span = 3600;  // [s]

std::string chance_said(const dayplan::Chance& chance) {
  return fmt::format("{:.0f} of 100 times ({:.0f} to {:.0f}, counted on {} fresh draws)",
                     100 * chance.value(),
                     100 * chance.low(),
                     100 * chance.high(),
                     chance.draws);
}

std::string places_of(const service::DayStep& step) {
  std::string out;
  for (const std::string& place : step.places) out += (out.empty() ? "" : ", ") + place;
  return out;
}

/// When and what, as every list of steps begins.
std::string line_of(const service::DayAnswer& answer,
                    const service::DayStep& step,
                    const std::string& what) {
  return padded("  " + service::day_clock(answer, step.begins), when_width) + " " +
         padded(fitted(what, what_width - 2), what_width - 1);
}

void print_steps(Paper& paper, const service::DayAnswer& answer) {
  paper.heading("BY THE CLOCK");
  paper.line(padded("  when", when_width) + padded(" what", what_width) +
             padded("hands", hands_width) + "free  places");
  for (const service::DayStep& step : answer.steps) {
    const std::string what =
        padded(step.what, step_width) + step.bake + (step.begun ? " (started)" : "");
    const std::string places = places_of(step);
    paper.line(
        fitted(line_of(answer, step, what) + padded(fmt::format("{:>3}", step.hands), hands_width) +
                   fmt::format("{:>3}", step.hands_free) + (places.empty() ? "" : "   " + places),
               sheet_width));
  }
}

/// How far each step could move with the house to itself.
void print_room(Paper& paper, const service::DayAnswer& answer) {
  paper.line();
  paper.heading("ROOM TO MOVE", "earliest and latest, with the house to itself");
  for (const service::DayStep& step : answer.steps) {
    if (!step.earliest || !step.latest || step.begun) continue;
    paper.line(fitted(line_of(answer, step, padded(step.what, step_width) + step.bake) +
                          service::day_clock(answer, *step.earliest) + " to " +
                          service::day_clock(answer, *step.latest),
                      sheet_width));
  }
}

/// The longer spans in which the same hands are free.
void print_free(Paper& paper, const service::DayAnswer& answer) {
  std::string spans;
  for (const service::FreeHands& free : answer.free) {
    if (free.to.seconds - free.from.seconds < shortest_span) continue;
    spans += fmt::format("{}{} to {}: {}",
                         spans.empty() ? "" : ", ",
                         service::day_clock(answer, free.from),
                         service::day_clock(answer, free.to),
                         free.pairs);
  }
  if (spans.empty()) return;
  paper.line();
  paper.heading("HANDS FREE", "pairs, an hour and longer");
  paper.wrapped(spans, indent);
}

void print_lines(Paper& paper, std::string_view heading, const std::vector<std::string>& lines) {
  if (lines.empty()) return;
  paper.line();
  paper.heading(heading);
  for (const std::string& line : lines) paper.item("      ·", line, indent + 2);
}

std::string amounts(const std::vector<service::DayLine>& lines) {
  std::string out;
  for (const service::DayLine& line : lines) {
    out += fmt::format("{}{} {}",
                       out.empty() ? "" : ", ",
                       line.volume ? service::volume(*line.volume) : service::weight(line.mass),
                       line.ingredient);
  }
  return out;
}

/// What to feed, weigh and buy.
void print_lists(Paper& paper, const service::DayAnswer& answer) {
  const service::DayLists& lists = answer.lists;
  const auto entry = [&](time::Instant at, const std::string& bake, const std::string& words) {
    paper.line(padded("  " + service::day_clock(answer, at), when_width) + " " + bake);
    paper.wrapped(words, when_width + 1);
  };
  if (!lists.feedings.empty()) {
    paper.line();
    paper.heading("TO FEED");
    for (const auto& one : lists.feedings) entry(one.at, one.bake, one.words);
  }
  if (!lists.weighings.empty()) {
    paper.line();
    paper.heading("TO WEIGH", "in the order of mixing");
    for (const auto& one : lists.weighings) {
      entry(one.at,
            fmt::format("{}, {} {}", one.bake, one.loaves, one.loaves == 1 ? "loaf" : "loaves"),
            amounts(one.lines));
    }
  }
  if (!lists.needs.empty()) {
    paper.line();
    paper.heading("ALL OF IT TAKES", "water and ripe starter left out");
    paper.wrapped(amounts(lists.needs), indent);
  }
  if (lists.buy) {
    paper.line();
    paper.heading("TO BUY", lists.buy->empty() ? "nothing is short" : "");
    for (const std::string& line : *lists.buy) paper.wrapped(line, indent);
  }
}

void print_chance(Paper& paper, const service::DayAnswer& answer) {
  paper.line();
  paper.heading("THE CHANCE");
  paper.wrapped(
      "All bread in time and no dough past its window, the doughs looked at and the plan "
      "worked by hand: " +
          chance_said(*answer.chance) + ".",
      indent);
  paper.wrapped(fmt::format("By the clock alone, nobody looking: {:.0f} of 100.",
                            100 * answer.by_the_clock->value()),
                indent);
  for (const auto& [bake, chance] : answer.each)
    paper.wrapped(fmt::format("{}: {:.0f} of 100", bake, 100 * chance.value()), indent + 2);
}

}  // namespace

void print(Paper& paper, const service::DayAnswer& answer) {
  paper.heading(answer.name, "bread by " + service::day_clock(answer, answer.bread));
  if (!answer.planned) {
    paper.wrapped(paper.strong("There is no plan."), indent);
    print_lines(paper, "WHY NOT", answer.why_not);
    paper.line();
    print_cautions(paper, answer.cautions);
    return;
  }
  for (const std::string& way : answer.ways) paper.wrapped(way, indent);
  print_lines(paper, "MOVED BY HAND", answer.moved);
  paper.line();
  print_steps(paper, answer);
  print_lists(paper, answer);
  print_room(paper, answer);
  print_free(paper, answer);
  print_lines(paper, "WHERE BAKES WOULD MEET", answer.collisions);
  print_chance(paper, answer);
  print_lines(paper, "WHERE IT MAY FAIL", answer.doubts);
  paper.line();
  print_cautions(paper, answer.cautions);
}

void print(Paper& paper, const service::DayAgain& again) {
  if (!again.told.empty()) {
    if (again.day)
      paper.heading("PLANNED AGAIN", "by what was read or ticked off since it was kept");
    else
      paper.heading("IT DOES NOT HOLD");
    for (const std::string& line : again.told) paper.item("      ·", line, indent + 2);
    if (again.day) {
      paper.wrapped("--keep takes the new plan, --stay stays with the one kept", indent);
      paper.line();
    }
  }
  if (again.day) print(paper, *again.day);
}

}  // namespace barm::cli
