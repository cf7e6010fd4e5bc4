#include "cli/oven/print_oven.h"

#include <fmt/format.h>

#include <algorithm>

#include "cli/daybook/print_daybook.h"
#include "cli/print.h"
#include "formula/equipment.h"
#include "service/house/equipment.h"
#include "service/oven/words.h"
#include "service/words.h"

namespace barm::cli {

using service::warmth;
using service::weight;

namespace {

constexpr int margin_of_oven = 17;
constexpr double not_at_all = 1e8;  // s

std::string minutes_or_hours(double seconds) {
  if (seconds >= not_at_all) return "later";
  if (seconds < 5400) return fmt::format("{:.0f} min", seconds / 60);
  return fmt::format("{:.1f} h", seconds / 3600);
}

std::string times(const oven::Range& r) {
  if (r.p50 >= not_at_all) return "more than was looked at";
  return fmt::format("about {} (4 of 5: {} to {})",
                     minutes_or_hours(r.p50),
                     minutes_or_hours(r.p10),
                     minutes_or_hours(r.p90));
}

std::string percents(const oven::Range& r) {
  return fmt::format(
      "{:.0f} % (4 of 5: {:.0f} to {:.0f} %)", 100 * r.p50, 100 * r.p10, 100 * r.p90);
}

std::string colours(const oven::Range& r) {
  const auto low = oven::name(oven::colour_of(r.p10));
  const auto middle = oven::name(oven::colour_of(r.p50));
  const auto high = oven::name(oven::colour_of(r.p90));
  if (low == high) return fmt::format("{} in nearly all", middle);
  return fmt::format("{} (4 of 5: {} to {})", middle, low, high);
}

void oven_line(Paper& paper, const char* label, const std::string& text) {
  paper.item("        " + std::string(label), text, margin_of_oven);
}

void print_oven_course(Paper& paper, const oven::Many& many) {
  paper.heading("MINUTE BY MINUTE", "core · crust · lighter by");
  const std::size_t rows = std::min<std::size_t>(9, many.course.size());
  for (std::size_t row = 0; row < rows; ++row) {
    const std::size_t at = rows == 1 ? 0 : row * (many.course.size() - 1) / (rows - 1);
    const oven::AtMoment& m = many.course[at];
    const auto& core = m.range[static_cast<std::size_t>(oven::Asked::core)];
    const auto& surface = m.range[static_cast<std::size_t>(oven::Asked::surface)];
    const auto& loss = m.range[static_cast<std::size_t>(oven::Asked::loss)];
    paper.line(
        padded("", 8) + right(minutes_or_hours(m.seconds), 8) +
        right(fmt::format("{:.0f} °C ({:.0f} to {:.0f})", core.p50, core.p10, core.p90), 22) +
        right(fmt::format("{:.0f} °C", surface.p50), 10) +
        right(fmt::format("{:.1f} %", 100 * loss.p50), 10));
  }
}

void print_left_alcohol(Paper& paper, const service::OvenAnswer& answer) {
  if (answer.ethanol.in(gram) < 0.5) return;
  const oven::Many& m = answer.many;
  oven_line(
      paper,
      "alcohol",
      fmt::format("of the {:.0f} g in a loaf {} stays: {} in the crumb, next to none in the crust",
                  answer.ethanol.in(gram),
                  percents(m.alcohol),
                  percents(m.in_crumb)));
  oven_line(
      paper,
      "vapour",
      fmt::format(
          "with the vent open at most {:.2f} % of the oven's air (4 of 5: {:.2f} to {:.2f} %), "
          "about {:.0f} min in; it burns from {:.1f} %, and a quarter is {:.2f} %",
          100 * m.vented.p50,
          100 * m.vented.p10,
          100 * m.vented.p90,
          m.vapour.vented_at.in(minute),
          100 * m.vapour.limit,
          100 * m.vapour.warn_from));
}

void print_learned(Paper& paper, const service::OvenAnswer& answer) {
  if (!answer.learned) return;
  paper.line();
  paper.heading("YOUR OVEN", service::how_near(*answer.learned));
  for (const std::string& note : answer.notes) paper.wrapped(note);
  if (answer.keep) return;  // said by print_kept()
  formula::OvenTable table;
  table.learned = service::numbers_of(answer.known);
  paper.wrapped(
      "Into the bake's [oven], so that the next bake knows it; or with --daybook FILE --named NAME "
      "--keep, and every bake of that daybook does:");
  std::string line = formula::lines_of(table);
  line.pop_back();
  paper.wrapped(line);
}

}  // namespace

void print(Paper& paper, const service::OvenAnswer& answer) {
  const oven::Many& m = answer.many;
  paper.heading(
      answer.name,
      fmt::format("{} of {}, {}",
                  answer.oven.loaves == 1 ? "a loaf" : fmt::format("{} loaves", answer.oven.loaves),
                  weight(answer.loaf.mass),
                  oven::name(answer.loaf.form)));
  paper.line();
  paper.heading(
      "OVEN    " + paper.strong(fmt::format("{:.0f} °C", answer.oven.set.front().to.celsius())),
      service::how_long(answer));
  if (!answer.with.empty()) oven_line(paper, "with", answer.with);
  oven_line(paper, "load", service::how_to_load(answer));
  oven_line(paper,
            "core",
            answer.typed ? fmt::format("{:.0f} °C (4 of 5: {:.0f} to {:.0f}); {:.0f} °C after {}",
                                       m.core.p50,
                                       m.core.p10,
                                       m.core.p90,
                                       oven::done_core().celsius(),
                                       times(m.done_after))
                         : fmt::format("{:.0f} °C: done", oven::done_core().celsius()));
  oven_line(paper, "lighter", "by " + percents(m.loss));
  oven_line(
      paper,
      "crust",
      fmt::format("{}, {:.0f} mm of it dry", colours(m.colour), 1000 * m.book.course.back().crust));
  oven_line(paper,
            "spring",
            fmt::format("{:.0f} % (4 of 5: {:.0f} to {:.0f} %)",
                        100 * (answer.rise.p50 - 1),
                        100 * (answer.rise.p10 - 1),
                        100 * (answer.rise.p90 - 1)));
  oven_line(paper, "dough", service::how_ripe(answer.ripeness, answer.room));
  for (std::size_t i = 0; i < answer.further.size(); ++i) {
    const int load = static_cast<int>(i) + 2;
    oven_line(paper, fmt::format("load {}", load).c_str(), service::as_it_goes_in(answer, load));
  }
  oven_line(paper, "cut", times(m.cut_after) + " out of the oven");
  oven_line(paper, "bag", times(m.bag_after));
  print_left_alcohol(paper, answer);
  oven_line(paper, "current", fmt::format("about {:.1f} kWh", m.book.course.back().energy / 3.6e6));
  if (!answer.assumed.empty()) {
    std::string text;
    for (const std::string& one : answer.assumed) text += (text.empty() ? "" : ", ") + one;
    oven_line(paper, "assumed", text);
  }
  paper.line();
  print_oven_course(paper, m);
  paper.wrapped(
      fmt::format("{} loaves simulated, {} of them in full and the rest by what lies between: "
                  "core within {:.1f} °C, weight within {:.1f} %.",
                  m.draws,
                  m.laid.solved,
                  m.laid.core,
                  100 * m.laid.loss));
  print_learned(paper, answer);
  print_kept(paper, answer.keep);
  if (answer.cautions.empty()) return;
  paper.line();
  print_cautions(paper, answer.cautions);
}

void print(Paper& paper, const service::FridgeAnswer& answer) {
  paper.heading(answer.name,
                fmt::format("{} {} of {}",
                            answer.request.pieces,
                            answer.request.pieces == 1 ? "piece" : "pieces",
                            weight(answer.each)));
  paper.line();
  paper.heading("FRIDGE  " + paper.strong(warmth(answer.fridge.set)),
                fmt::format("from {}", warmth(answer.start)));
  oven_line(paper,
            "air",
            fmt::format(
                "warms to {:.1f} °C, {:.1f} h after loading", answer.air_peak, answer.air_peak_h));
  oven_line(
      paper,
      "middle",
      answer.cold_after
          ? fmt::format("{} after {:.1f} h", warmth(answer.wanted), answer.cold_after->in(hour))
          : fmt::format(
                "not {} within {:.0f} h", warmth(answer.wanted), answer.request.lasts.in(hour)));
  oven_line(paper,
            "at once",
            answer.at_once > 0
                ? fmt::format("{} {} so that each is at {} within {:.0f} h, if there is room",
                              answer.at_once,
                              answer.at_once == 1 ? "piece" : "pieces",
                              warmth(answer.wanted),
                              answer.within.in(hour))
                : fmt::format("not even one is at {} within {:.0f} h",
                              warmth(answer.wanted),
                              answer.within.in(hour)));
  oven_line(paper,
            "power",
            fmt::format("{:.0f} W{}",
                        answer.fridge.power,
                        answer.air_off        ? fmt::format(", learned; air within {:.1f} °C "
                                                            "of the probe",
                                                     *answer.air_off)
                        : answer.with.empty() ? ", a guess until you give a probe's file"
                                              : ": " + answer.with));
  for (const std::string& note : answer.notes) oven_line(paper, "", note);
  paper.line();
  paper.heading("HOUR BY HOUR", "air · middle · mean");
  const std::size_t rows = std::min<std::size_t>(9, answer.course.size());
  for (std::size_t row = 0; row < rows; ++row) {
    const std::size_t at = rows == 1 ? 0 : row * (answer.course.size() - 1) / (rows - 1);
    const heat::Chilled& one = answer.course[at];
    paper.line(padded("", 8) + right(fmt::format("{:.1f} h", one.hours), 8) +
               right(fmt::format("{:.1f} °C", one.air), 12) +
               right(fmt::format("{:.1f} °C", one.middle), 12) +
               right(fmt::format("{:.1f} °C", one.mean), 12));
  }
  print_kept(paper, answer.keep);
}

}  // namespace barm::cli
