#include "cli/daybook/print_daybook.h"

#include <fmt/format.h>

#include <algorithm>

#include "service/words.h"

namespace barm::cli {

using service::grams;
using service::said;

namespace {

std::string local(const time::Zone& zone, const std::optional<time::Instant>& moment) {
  if (!moment) return "";
  std::string text = zone.local(*moment).text();
  text[10] = ' ';
  return text;
}

std::string cut(const std::string& text, int width) {
  if (columns(text) <= width) return text;
  std::string shorter = text;
  while (!shorter.empty() && columns(shorter) > width - 1) {
    shorter.pop_back();
    while (!shorter.empty() && (static_cast<unsigned char>(shorter.back()) & 0xC0U) == 0x80U)
      shorter.pop_back();
  }
  if (!shorter.empty() && (static_cast<unsigned char>(shorter.back()) & 0xC0U) == 0xC0U)
    shorter.pop_back();
  return shorter + "…";
}

std::string number(const std::optional<double>& value, int width) {
  return right(value ? fmt::format("{:.1f}", *value) : "", width);
}

void doughs(Paper& paper, const service::TodayAnswer& answer, const time::Zone& zone) {
  paper.heading("DOUGHS", answer.doughs.empty() ? "none alive, none to come in two days" : "");
  for (const service::DoughToday& dough : answer.doughs) {
    const std::string when = dough.next_at ? said(*dough.next_at, zone) : std::string("      ");
    paper.line(padded("        " + when, 20) + paper.strong(dough.title));
    const bool overdue = dough.next_at && *dough.next_at < answer.now;
    paper.wrapped(dough.next + (overdue ? " (its time has passed)" : ""), 20);
    if (dough.late)
      paper.wrapped(std::string("LATE: ") +
                        (dough.next_at ? "9 of 10 doughs like it were there by now"
                                       : "fewer than half of such doughs ever get there") +
                        "; barm rescue says what to do",
                    20);
    if (dough.ready_p50) paper.wrapped("ready " + dough.ready, 20);
    if (!dough.rests_on.empty()) paper.wrapped("from " + dough.rests_on, 20);
  }
}

void levains(Paper& paper, const service::TodayAnswer& answer, const time::Zone& zone) {
  if (answer.levains.empty()) return;
  paper.line();
  paper.heading("LEVAINS");
  for (const service::LevainToday& levain : answer.levains) {
    const std::string when = levain.next_at ? said(*levain.next_at, zone) : std::string();
    paper.line(padded("        " + when, 20) + paper.strong(levain.title));
    paper.wrapped(levain.next, 20);
    if (levain.fed_at) {
      std::string words = "fed " + said(*levain.fed_at, zone);
      if (levain.peak_at) words += ", at its best about " + said(*levain.peak_at, zone);
      paper.wrapped(words, 20);
    }
    if (!levain.wanted.empty()) paper.wrapped("ripe for doughs: " + levain.wanted, 20);
  }
}

/// What is next by the plan the house goes by.
void day(Paper& paper, const service::TodayAnswer& answer, const time::Zone& zone) {
  if (!answer.day) return;
  paper.line();
  const auto clock = [&](time::Instant at) {
    const time::LocalTime local = zone.local(at);
    return local.date->weekday() + " " + local.of_day();
  };
  paper.heading("BY THE PLAN", answer.day->name);
  for (const service::KeptStep& step : answer.day->next) {
    const bool due = step.begins <= answer.now;
    paper.line(padded("        " + (due ? std::string("now") : clock(step.begins)), 20) +
               cut(step.step + ": " + step.bake, 60));
  }
  if (answer.day->next.empty()) paper.wrapped("nothing is left to do but the bread", 20);
  for (const std::string& line : answer.day->anew) paper.wrapped(line, 20);
  if (!answer.day->anew.empty())
    paper.wrapped("barm day --daybook FILE shows all of it; --keep takes it, --stay does not", 20);
}

void list(Paper& paper, const std::string& heading, const std::vector<std::string>& lines) {
  if (lines.empty()) return;
  paper.line();
  paper.heading(heading);
  for (const std::string& line : lines) paper.wrapped(line);
}

void weigh(Paper& paper, const service::TodayAnswer& answer) {
  if (answer.weigh.empty()) return;
  paper.line();
  paper.heading("TO WEIGH, together", answer.weigh_day);
  std::string titles;
  for (const std::string& title : answer.ordinary) titles += (titles.empty() ? "" : ", ") + title;
  paper.wrapped(titles);
  for (const service::WeighToday& line : answer.weigh)
    paper.line("        " + padded(cut(line.ingredient, 40), 42) +
               right(service::weight(line.mass), 10));
}

void readings(Paper& paper, const service::BakeView& view) {
  if (view.readings.empty()) return;
  paper.line();
  paper.heading("READINGS", "height mm   times   dough C   room C     pH");
  for (const storage::ReadingRecord& reading : view.readings) {
    const auto dough = reading.bulk_C ? reading.bulk_C : reading.sample_C;
    paper.line(
        "        " + padded(local(view.zone, reading.at), 28) + number(reading.height_mm, 9) +
        right(reading.ratio ? fmt::format("{:.2f}", *reading.ratio) : "", 8) + number(dough, 10) +
        number(reading.room_C, 9) + right(reading.ph ? fmt::format("{:.1f}", *reading.ph) : "", 7));
    if (!reading.remark.empty()) paper.wrapped(reading.remark, 12);
  }
}

void loaves(Paper& paper, const service::BakeView& view) {
  if (view.loaves.empty()) return;
  paper.line();
  paper.heading("LOAVES");
  for (const storage::Loaf& loaf : view.loaves) {
    std::string words = loaf.title;
    const auto add = [&](const std::string& more) { words += (words.empty() ? "" : " · ") + more; };
    if (loaf.dough_g) add(grams(*loaf.dough_g * gram) + " g in");
    if (loaf.baked_g) add(grams(*loaf.baked_g * gram) + " g out");
    if (loaf.height_mm) add(fmt::format("{:.0f} mm high", *loaf.height_mm));
    if (loaf.width_mm) add(fmt::format("{:.0f} mm wide", *loaf.width_mm));
    if (loaf.spring) add(fmt::format("spring {:.2f} times", *loaf.spring));
    for (const auto& [scale, score] : loaf.scores) add(fmt::format("{} {}", scale, score));
    paper.wrapped(words);
    for (const std::string& remark : {loaf.crumb, loaf.crust, loaf.taste}) {
      if (!remark.empty()) paper.wrapped(remark, 12);
    }
  }
}

}  // namespace

void print(Paper& paper, const service::TodayAnswer& answer) {
  const time::Zone zone;
  paper.line("Today, " + local(zone, answer.now) +
             (answer.invented ? "   (an invented bakery, to show what a daybook holds)" : ""));
  if (answer.clock) paper.wrapped("Mind: " + *answer.clock);
  paper.line();
  doughs(paper, answer, zone);
  day(paper, answer, zone);
  levains(paper, answer, zone);
  list(paper, "FEED TONIGHT", answer.feed_tonight);
  list(paper, "BUY", answer.buy);
  weigh(paper, answer);
}

void print(Paper& paper, const service::BakesAnswer& answer) {
  paper.heading("BAKES", fmt::format("{} of {}", answer.lines.size(), answer.total));
  for (const storage::BakeLine& line : answer.lines) {
    const storage::Bake& bake = line.bake;
    paper.line(padded(cut(bake.title.empty() ? "(draft)" : bake.title, 24), 25) +
               padded(bake.state == "given_up" ? "given up" : bake.state, 10) +
               padded(local(answer.zone, bake.mixed_at), 17) +
               right(line.readings == 0 ? "" : fmt::format("{} read", line.readings), 9) + "  " +
               cut(bake.id, 17));
  }
}

void print(Paper& paper, const service::BakeView& view) {
  const storage::Bake& bake = view.bake;
  paper.line(paper.strong(bake.title) + "   " +
             (bake.state == "given_up" ? "given up" : bake.state) +
             (bake.deleted_at ? ", in the trash" : ""));
  paper.item("id", fmt::format("{}, revision {}", bake.id, bake.revision));
  if (bake.mixed_at) paper.item("mixed", local(view.zone, bake.mixed_at));
  if (bake.finished_at) paper.item("done", local(view.zone, bake.finished_at));
  if (bake.culture) paper.item("levain", "culture " + *bake.culture);
  std::string tags;
  for (const std::string& tag : bake.tags) tags += (tags.empty() ? "" : ", ") + tag;
  if (!tags.empty()) paper.item("tags", tags);
  if (!bake.note.empty()) paper.item("note", bake.note);
  paper.item("file", fmt::format("{} versions, {} bytes", view.versions.size(), bake.toml.size()));
  if (!view.photos.empty()) paper.item("photos", fmt::format("{}", view.photos.size()));
  readings(paper, view);
  loaves(paper, view);
  if (view.remarks.empty()) return;
  paper.line();
  paper.heading("REMARKS");
  for (const storage::Remark& remark : view.remarks)
    paper.wrapped(local(view.zone, remark.at) + "  " + remark.text);
}

void print(Paper& paper, const service::EquipmentAnswer& answer) {
  paper.heading("EQUIPMENT",
                answer.house.empty()
                    ? "none is kept: barm oven BAKE --daybook FILE --named NAME --keep"
                    : "");
  for (const storage::Equipment& one : answer.house) {
    paper.line(padded(one.what, 10) + paper.strong(service::said(one, answer.zone)));
    std::string lines = one.toml;
    std::replace(lines.begin(), lines.end(), '\n', ';');
    if (!lines.empty()) lines.pop_back();
    for (std::size_t at = lines.find(';'); at != std::string::npos; at = lines.find(';', at + 2))
      lines.insert(at + 1, " ");
    if (!lines.empty()) paper.wrapped(lines, 10);
    if (!one.remark.empty()) paper.wrapped(one.remark, 10);
    paper.wrapped("id " + one.id, 10);
  }
}

void print_kept(Paper& paper, const std::optional<storage::Equipment>& kept) {
  if (!kept) return;
  paper.line();
  paper.wrapped("In the daybook: " + service::said(*kept, time::Zone()) + ".");
}

void print(Paper& paper, const service::TrashAnswer& answer) {
  paper.heading("TRASH", answer.deleted.empty() ? "empty" : "can be taken back for 30 days");
  for (const storage::Deleted& deleted : answer.deleted) {
    std::string kind(storage::name(deleted.kind));
    paper.line(padded(cut(deleted.title, 28), 30) + padded(kind, 12) +
               padded(local(answer.zone, deleted.deleted_at), 18) + cut(deleted.id, 19));
  }
}

void print(Paper& paper, const service::Done& done) { paper.wrapped(done.words, 0); }

void print(Paper& paper, const service::CheckAnswer& answer) {
  if (answer.faults.empty()) {
    paper.wrapped(fmt::format("{} is whole: {} bakes, {} readings, {} photos",
                              answer.path,
                              answer.bakes,
                              answer.readings,
                              answer.photos),
                  0);
    return;
  }
  paper.wrapped(answer.path + " is damaged:", 0);
  for (const std::string& fault : answer.faults) paper.wrapped(fault);
  paper.wrapped("Put a copy in its place: barm daybook restore COPY", 0);
}

}  // namespace barm::cli
