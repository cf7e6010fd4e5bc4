#include "cli/bake/print_read.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "cli/bake/print_in_the_way.h"
#include "cli/bake/print_stages.h"
#include "cli/chart.h"
#include "cli/print.h"
#include "service/bake/begun.h"
#include "service/bake/head.h"
#include "service/now.h"
#include "service/words.h"

namespace barm::cli {

using service::span;

namespace {

constexpr int as_draws = 1000;  // to how many a chance is told

std::string at_what(const service::ReadAnswer& answer) {
  return fmt::format(
      "{}, {}", service::risen(answer.after.target), service::warmth(answer.temperature));
}

std::string odds(Probability chance) { return service::odds(chance, as_draws); }

std::string range(const forecast::Spread& ready, const time::WallClock& clock) {
  if (!ready.p10) return "not in the time looked at";
  return clock.short_moment(*ready.p10) + " to " +
         (ready.p90 ? clock.short_moment(*ready.p90) : "never");
}

void print_next_look(Paper& paper,
                     const service::ReadAnswer& answer,
                     const time::WallClock& clock) {
  if (estimation::some_must_be_wrong(answer.suspicions)) {
    paper.wrapped(
        "some of these readings must be wrong (see the doubt below): settle that before you go by "
        "these hours");
    return;
  }
  const auto& next = answer.after.next;
  if (!next) {
    paper.wrapped("another reading would add little now; watch the dough itself");
    return;
  }
  paper.wrapped(fmt::format("look again at {}: it would narrow {} to about {}",
                            clock.short_moment(next->at),
                            span(next->width_now * hour),
                            span(next->width_after * hour)));
}

void print_window(Paper& paper, const service::ReadAnswer& answer, const time::WallClock& clock) {
  const estimation::Outlook& after = answer.after;
  std::string text;
  if (after.good_from && after.good_until && *after.good_until > *after.good_from) {
    text = fmt::format("good from {} to {}, most surely at {} ({}) · ",
                       clock.short_moment(*after.good_from),
                       clock.short_moment(*after.good_until),
                       clock.short_moment(*after.best_at),
                       odds(after.best_chance));
  }
  if (after.already.value() > 0.02)
    text += fmt::format("ready already: {} · ", odds(after.already));
  text += fmt::format("not ready within {}: {}", span(after.horizon), odds(after.never));
  paper.wrapped(text);
}

void print_head(Paper& paper, const service::ReadAnswer& answer, const time::WallClock& clock) {
  const service::Head head =
      service::head_of(answer.after.timeline, answer.bowl.bake, clock, answer.now);
  if (!head.next) return;
  paper.item("NEXT", head.next_words, 8);
  if (!head.then_words.empty()) paper.item("THEN", head.then_words, 8);
  paper.line();
}

void print_when(Paper& paper, const service::ReadAnswer& answer, const time::WallClock& clock) {
  print_head(paper, answer, clock);
  const estimation::Outlook& after = answer.after;
  const bool ready = after.ready.p50 && after.never.value() <= mostly_never;
  if (ready) {
    paper.heading("READY   " + paper.strong(clock.moment(*after.ready.p50)) + "   most likely",
                  at_what(answer));
    paper.line(padded("", 8) + padded(window_ruler(after.ready, clock, 22), 44) +
               " 4 of 5 doughs that rise so");
  } else {
    paper.heading("READY   " + paper.strong(fmt::format("not within {}", span(after.horizon))),
                  at_what(answer));
    paper.wrapped(fmt::format(
        "{} doughs that rise so get there in time{}",
        odds(Probability(1 - after.never.value())),
        after.ready.p10 ? "; the first of them about " + clock.moment(*after.ready.p10) : ""));
  }
  paper.wrapped("before the readings: " + range(answer.before.ready, clock));
  print_window(paper, answer, clock);
  print_next_look(paper, answer, clock);
}

void print_taught(Paper& paper, const service::ReadAnswer& answer, const time::WallClock& clock) {
  const auto& rows = answer.readings.rows;
  if (rows.empty()) {
    paper.heading("BEGUN FROM WHAT " + answer.culture + " HAS TAUGHT");
    paper.wrapped("no reading yet; see 'barm culture show'");
    return;
  }
  paper.heading("THE READINGS TELL",
                rows.empty() ? ""
                             : fmt::format("{} of them, the last at {}",
                                           rows.size(),
                                           clock.short_moment(rows.back().at)));
  std::string nothing;
  for (const estimation::Lesson& lesson : answer.lessons) {
    const std::string subject(estimation::name(lesson.topic));
    if (!lesson.tells) {
      nothing += (nothing.empty() ? "" : ", ") + subject;
      continue;
    }
    paper.item("        " + subject, lesson.words, 20);
  }
  if (!nothing.empty()) paper.item("        not yet", "nothing so far about: " + nothing, 20);
  if (!answer.culture.empty())
    paper.item("        culture", "starting from what " + answer.culture + " has taught", 20);
  for (const std::string& note : answer.readings.notes) paper.item("        note", note, 20);
  for (const Error& error : answer.readings.left_out)
    paper.item("        left out", error.text(), 20);
  for (const estimation::Suspicion& suspicion : answer.suspicions)
    paper.item("        doubt", suspicion.words, 20);
  for (const std::string& doubt : answer.bowl.doubts) paper.item("        doubt", doubt, 20);
}

double last_hour_of(const service::ReadAnswer& answer) {
  const estimation::Outlook& after = answer.after;
  const double horizon = after.horizon.in(hour);
  const double latest = after.ready.p90 ? after.ready.p90->in(hour) * 1.25 : horizon;
  return std::clamp(std::max(latest, after.now.in(hour) * 1.2), 4.0, horizon);
}

}  // namespace

void print(Paper& paper, const service::ReadAnswer& answer) {
  const time::WallClock& clock = answer.clock;
  paper.heading(answer.bowl.bake.name, clock.known() ? "mixed " + clock.moment(Time{}) : "");
  paper.line();
  print_when(paper, answer, clock);
  paper.line();
  const ReadChart chart{answer.before.band,
                        answer.after.band,
                        answer.seen,
                        answer.after.target,
                        last_hour_of(answer)};
  for (const std::string& line : read_chart(chart, clock)) paper.line(line);
  paper.line("        ◆ read   ● the middle dough   ▒ 4 of 5 doughs   · before the readings");
  paper.line();
  print_stages(
      paper, {answer.after.timeline, answer.bowl.bake, answer.oven, "doughs that rise so"}, clock);
  print_in_the_way(paper, answer.in_the_way, {answer.bowl.bowl, answer.temperature}, clock);
  paper.line();
  print_taught(paper, answer, clock);
  paper.line();
  print_cautions(paper, answer.bowl.cautions);
}

namespace {

// What is known of a culture, after how many batches.
void print_known(Paper& paper, const service::CultureAnswer& answer) {
  const std::size_t count = answer.culture.batches.size();
  paper.heading(answer.culture.name.empty() ? "A culture" : answer.culture.name,
                fmt::format("{} batch{} remembered", count, count == 1 ? "" : "es"));
  paper.line();
  paper.heading("AGAINST THE BOOK", "4 of 5 such cultures   batch to batch");
  std::string unknown;
  for (const estimation::Difference& d : answer.differences) {
    if (!d.known) {
      unknown += (unknown.empty() ? "" : ", ") + d.about;
      continue;
    }
    const std::string figures = fmt::format("{:.2f} to {:.2f} times", d.low, d.high);
    paper.line(padded("", 8) + padded(d.about, 20) + padded(figures, 24) +
               right(fmt::format("±{:.0f} %", 100 * std::expm1(d.between)), 28));
    paper.wrapped(d.words, 28);
  }
  if (!unknown.empty()) paper.item("        not yet", "nothing known about: " + unknown, 28);
  paper.item("        levain's age", answer.by_age.words, 28);
  paper.line();
  paper.heading("ITS BATCHES");
}

void print_batch(Paper& paper, const std::string& name, const std::string& date, int readings) {
  paper.line(padded("", 8) + padded(name, 40) + padded(date, 14) +
             right(fmt::format("{} readings", readings), 14));
}

}  // namespace

void print(Paper& paper, const service::CultureAnswer& answer) {
  print_known(paper, answer);
  for (const estimation::BatchLesson& b : answer.culture.batches)
    print_batch(paper, b.batch, service::date_of(b.day), b.readings);
  if (answer.culture.batches.empty())
    paper.wrapped("none yet: barm culture learn FILE BAKE --readings FILE");
  if (!answer.done.empty()) {
    paper.line();
    paper.wrapped(answer.done);
  }
}

void print(Paper& paper, const service::KeptCulture& kept) {
  print_known(paper, service::shown(kept.culture));
  const time::Zone zone;
  for (const service::KeptBatch& batch : kept.batches) {
    print_batch(paper, batch.title, zone.day(batch.mixed_at).text(), batch.readings);
    std::string words = batch.taught.empty() ? "it did as a typical starter does" : "";
    for (const std::string& one : batch.taught) words += (words.empty() ? "" : "; ") + one;
    if (!batch.trouble.empty()) words = "nothing can be learned from it: " + batch.trouble;
    paper.wrapped(batch.left_out ? "left out" : words, 12);
  }
  for (const estimation::BatchLesson& b : service::from_elsewhere(kept))
    print_batch(paper, b.batch, service::date_of(b.day), b.readings);
  if (kept.batches.empty() && kept.culture.batches.empty())
    paper.wrapped("none yet: name this culture in a bake and read the dough twice");
}

}  // namespace barm::cli
