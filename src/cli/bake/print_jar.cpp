#include "cli/bake/print_jar.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "cli/chart.h"
#include "cli/print.h"
#include "service/now.h"
#include "service/words.h"

namespace barm::cli {

using service::span;

namespace {

constexpr int rows = 15;
constexpr int most_columns = 32;

int mm(Length length) { return static_cast<int>(std::lround(length.in(millimetre))); }

// The jar to scale: a row stands for so many millimetres, a column for half of that.
class Drawing {
 public:
  explicit Drawing(const forecast::JarMarks& marks) : marks_(marks) {
    const Length top = marks.jar.height.value_or(marks.at(marks.ratio.p90) * 1.25);
    row_ = top.in(millimetre) / rows;
    across_ =
        std::clamp(static_cast<int>(std::lround(2 * marks.jar.diameter.in(millimetre) / row_)),
                   6,
                   most_columns);
    start_ = row_of(marks.start);
    ready_ = std::max(row_of(marks.at(marks.ratio.p50)), start_ + 1);
    early_ = row_of(marks.at(marks.ratio.p10));
    late_ = row_of(marks.at(marks.ratio.p90));
  }

  void on(Paper& paper) const {
    for (int row = std::max(rows, std::max(late_, ready_) + 1); row-- > 0;) {
      paper.line(padded("", 10) + wall(row) + inside(row) + wall(row) + remark(row));
    }
    paper.line(padded("", 10) + "└" + repeated("─") + "┘");
  }

 private:
  // The row whose middle is nearest: a mark between 0 and one row's height is row 0.
  [[nodiscard]] int row_of(Length height) const {
    return static_cast<int>(height.in(millimetre) / row_);
  }

  [[nodiscard]] std::string repeated(const char* character) const {
    std::string text;
    for (int i = 0; i < across_; ++i) text += character;
    return text;
  }

  [[nodiscard]] const char* wall(int row) const { return row < rows ? "│" : " "; }

  [[nodiscard]] std::string inside(int row) const {
    if (row == ready_) return repeated("━");
    if (row == start_) return repeated("─");
    if (row < start_) return repeated("▒");
    if (row >= early_ && row <= late_) return repeated("░");
    return repeated(" ");
  }

  [[nodiscard]] std::string remark(int row) const {
    if (row == ready_) {
      return fmt::format("  READY  {} mm, {:.2f} times the start",
                         mm(marks_.at(marks_.ratio.p50)),
                         marks_.ratio.p50);
    }
    if (row == start_) return fmt::format("  START  {} mm", mm(marks_.start));
    if (row == rows - 1 && marks_.jar.height)
      return fmt::format("  rim    {} mm", mm(*marks_.jar.height));
    return "";
  }

  const forecast::JarMarks& marks_;
  double row_ = 1;  // mm
  int across_ = 10, start_ = 0, ready_ = 1, early_ = 1, late_ = 1;
};

std::string minutes(double value) {
  if (!std::isfinite(value)) return "hours";
  return value < 10 ? fmt::format("{:.0f} min", std::max(1.0, value))
                    : fmt::format("{:.0f} min", 5 * std::round(value / 5));
}

void print_warmth(Paper& paper, const forecast::JarMarks& marks) {
  const double apart = marks.sample_at_ready.celsius() - marks.bulk_at_ready.celsius();
  const double ahead = marks.ratio.p50 / marks.target;
  const std::string how =
      std::abs(apart) < 0.4
          ? "the jar is as warm as the bulk by then"
          : fmt::format("by then the jar is {:.1f} °C {} than the bulk ({} against {})",
                        std::abs(apart),
                        apart > 0 ? "warmer" : "cooler",
                        service::warmth(marks.sample_at_ready),
                        service::warmth(marks.bulk_at_ready));
  const std::string so = ahead > 1.04   ? "so its dough stands higher than the bulk's own target"
                         : ahead < 0.96 ? "its dough stands lower than the bulk's own target"
                                        : "its mark is nearly the bulk's own target";
  paper.item("        warmth", how + "; " + so, 17);
}

void print_misreading(Paper& paper, const forecast::JarMarks& marks) {
  paper.item("        1 mm",
             fmt::format("read wrong at the ready mark moves the time by about {}; a start mark "
                         "1 mm off by about {}",
                         minutes(marks.minutes_per_mm.p50),
                         minutes(marks.minutes_per_mm.p50 * marks.ratio.p50)),
             17);
}

void print_how_much(Paper& paper, const service::JarAnswer& answer) {
  const forecast::JarMarks& marks = answer.marks;
  const Length late = marks.at(marks.ratio.p90);
  if (marks.jar.height && late > *marks.jar.height) {
    paper.item("        dough",
               fmt::format("too much: it may climb over the rim; {} suits this jar",
                           service::weight(answer.suits)),
               17);
    return;
  }
  if (marks.jar.dough.in(gram) < 0.8 * answer.suits.in(gram)) {
    paper.item("        dough",
               fmt::format("{} suits this jar better: 1 mm is then about {}",
                           service::weight(answer.suits),
                           minutes(marks.minutes_per_mm.p50 * (marks.jar.dough / answer.suits))),
               17);
    return;
  }
  paper.item("        dough",
             marks.jar.height
                 ? "as much as the jar takes with room to spare; a narrower jar reads finer"
                 : "40 mm and more to start with read well; a narrower jar reads finer",
             17);
}

std::string steps(const forecast::ReadyFor& ready_for) {
  std::string text;
  for (const formula::Step step : ready_for.after) {
    std::string one(formula::name(step));
    if (step == formula::Step::cold) one = span(ready_for.cold) + " cold";
    if (step == formula::Step::proof) one = span(ready_for.proof) + " proof";
    if (text.find(one) != std::string::npos) continue;
    text += (text.empty() ? "" : ", ") + one;
  }
  return text;
}

}  // namespace

void print_ready_for(Paper& paper, const forecast::ReadyFor& ready_for) {
  paper.heading("READY FOR WHAT", "after the bulk: " + steps(ready_for));
  const int room = static_cast<int>(std::lround(100 * ready_for.room));
  if (ready_for.too_long.value() > 0.5) {
    paper.wrapped(fmt::format(
        "What comes after is too long for most such doughs: even the shortest bulk leaves less "
        "than "
        "{} % of further rise for the oven. Shorten the proof or the cold, or make it colder.",
        room));
  } else {
    paper.wrapped(fmt::format(
        "End the bulk at {:.1f} times (4 of 5 doughs: {:.1f} to {:.1f}) and the loaf goes into the "
        "oven still able to rise by {} %.",
        ready_for.p50,
        ready_for.p10,
        ready_for.p90,
        room));
    if (ready_for.oven) {
      paper.wrapped(fmt::format("It then stands at {:.1f} times, pH {:.1f}, {:.0f} °C.",
                                ready_for.oven->rise,
                                ready_for.oven->ph,
                                ready_for.oven->dough.celsius()));
    }
  }
  paper.wrapped(fmt::format("Your own {:.2g} times does that for {} doughs.",
                            ready_for.asked,
                            service::odds(ready_for.asked_leaves, ready_for.draws)));
  const forecast::TradeFigure& own =
      ready_for.starter_is_stiff ? ready_for.stiff_mild : ready_for.liquid_sour;
  paper.wrapped(fmt::format(
      "Common practice in the trade (no source): stiff mild starter {:.2g} to {:.2g} times, "
      "liquid sour one {:.2g} to {:.2g}; yours is {}.",
      ready_for.stiff_mild.least,
      ready_for.stiff_mild.most,
      ready_for.liquid_sour.least,
      ready_for.liquid_sour.most,
      own.stiff ? "stiff" : "liquid"));
}

void print(Paper& paper, const service::JarAnswer& answer) {
  const time::WallClock& clock = answer.clock;
  const forecast::JarMarks& marks = answer.marks;
  paper.heading(answer.name, clock.known() ? "mixed " + clock.moment(Time{}) : "");
  paper.line();
  paper.heading("THE JAR",
                fmt::format("{} mm across, {} of dough, bulk {}",
                            mm(marks.jar.diameter),
                            service::weight(marks.jar.dough),
                            service::risen(marks.target)));
  Drawing(marks).on(paper);
  paper.line();
  if (marks.ready.p50 && marks.ready.p10 && marks.ready.p90) {
    paper.item("        when",
               fmt::format("the bulk is ready about {} (4 of 5: {} to {})",
                           clock.moment(*marks.ready.p50),
                           clock.moment(*marks.ready.p10),
                           clock.moment(*marks.ready.p90)),
               17);
  }
  paper.item(
      "        mark",
      fmt::format("where your dough stands when it is in and level; ready is {:.2f} times that "
                  "(4 of 5 doughs: {:.2f} to {:.2f}), whatever the drawing says",
                  marks.ratio.p50,
                  marks.ratio.p10,
                  marks.ratio.p90),
      17);
  print_warmth(paper, marks);
  print_misreading(paper, marks);
  print_how_much(paper, answer);
  paper.line();
  if (answer.ready_for) print_ready_for(paper, *answer.ready_for);
  paper.line();
  print_cautions(paper, answer.cautions);
}

}  // namespace barm::cli
