#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "cli/testbake/print_testbake.h"
#include "service/words.h"

namespace barm::cli {

using service::span;
using testbakes::CauseFound;
using testbakes::Finding;

namespace {

std::string of_100(double weight) { return service::odds(Probability(weight), 1000); }

std::string hours_words(const CauseFound& found) {
  if (found.hours_high < 0.25) return "costs nothing";
  const auto say = [](double hours) { return span(std::max(0.0, hours) * hour); };
  return fmt::format("costs {}{} ({} to {})",
                     found.at_least ? "over " : "",
                     say(found.hours),
                     found.hours_low < 0.125 ? "nothing" : say(found.hours_low),
                     say(found.hours_high));
}

std::string acting(const testbakes::Verdict& verdict, testbakes::Hypothesis h) {
  std::string out;
  for (std::size_t c = 0; c < verdict.causes.size(); ++c) {
    if (((h >> c) & 1U) == 0) continue;
    out += (out.empty() ? "" : " and ") + std::string(name(verdict.causes[c].prior.cause));
  }
  return out.empty() ? "none of them" : out;
}

void print_causes(Paper& paper, const service::TestBakeAfter& after) {
  paper.heading("THE CAUSES", "chance that each holds the dough back");
  for (const CauseFound& found : after.verdict.causes) {
    paper.line(padded("", 8) + padded(name(found.prior.cause), 16) +
               padded(bar(18 * found.weight), 20) + of_100(found.weight));
    if (found.finding == Finding::does_not) {
      paper.wrapped(found.words, 24);
    } else {
      paper.wrapped(hours_words(found) + "; " + found.words, 24);
    }
  }
  paper.line();
  paper.heading("TOGETHER", "what acts at once");
  int shown = 0;
  for (const auto& one : after.verdict.hypotheses) {
    if (shown == 4 || (one.weight < 0.02 && shown > 0)) break;
    ++shown;
    paper.line(padded("", 8) + padded(acting(after.verdict, one.acting), 40) + of_100(one.weight));
  }
}

std::string contrast_words(const testbakes::Comparison& comparison, const testbakes::Contrast& c) {
  if (comparison.what == "speed") {
    const auto percent = [](double log) { return 100 * (std::exp(log) - 1); };
    return fmt::format(
        "{:+.0f} % ({:+.0f} to {:+.0f})", percent(c.difference), percent(c.low), percent(c.high));
  }
  const char* unit = comparison.what == "lag" ? "h" : "volumes";
  // Rounded first, so that a zero has no sign of its own.
  const auto tenths = [](double value) { return std::round(10 * value) / 10 + 0.0; };
  return fmt::format(
      "{:+.1f} {} ({:+.1f} to {:+.1f})", tenths(c.difference), unit, tenths(c.low), tenths(c.high));
}

void print_comparisons(Paper& paper, const service::TestBakeAfter& after) {
  if (after.comparisons.empty()) return;
  paper.line();
  paper.heading("COMPARED",
                "against " + after.rivals[after.control].name +
                    "; all ranges of all lists hold 9 times in 10");
  for (const auto& comparison : after.comparisons) {
    paper.line(padded("", 8) + comparison.what);
    for (const auto& contrast : comparison.contrasts) {
      paper.line(padded("", 10) + padded(after.rivals[contrast.dough].name, 30) +
                 padded(contrast_words(comparison, contrast), 30) +
                 (contrast.clear() ? "clear" : ""));
    }
    for (const auto& unseen : comparison.unseen)
      paper.line(padded("", 10) + padded(after.rivals[unseen.dough].name, 30) + unseen.words);
  }
}

void print_dose_curves(Paper& paper, const service::TestBakeAfter& after) {
  for (const auto& one : after.dose_curves) {
    paper.line();
    paper.heading("DOSE    " + std::string(name(one.cause)), "by the jars alone");
    paper.wrapped(fmt::format("half speed at {} {} (8 of 10: {} to {}); {} jars",
                              testbakes::two_figures(one.curve.half_speed_dose),
                              unit(one.cause),
                              testbakes::two_figures(one.curve.half_low),
                              testbakes::two_figures(one.curve.half_high),
                              one.dose.size()));
  }
}

}  // namespace

void print(Paper& paper, const AfterOnPaper& answer) {
  const service::TestBakeAfter& after = answer.after;
  paper.heading("VERDICT " + paper.strong(after.verdict.sentence));
  if (!after.test.question.empty()) paper.wrapped(after.test.question);
  paper.line();
  print_causes(paper, after);
  for (const auto& told : after.verdict.told_apart.told) {
    if (told.telling != testbakes::Telling::apart) {
      for (const std::string& words : after.verdict.told_apart.words) paper.item("      ·", words);
      break;
    }
  }
  print_comparisons(paper, after);
  print_dose_curves(paper, after);
  for (const std::string& odd : after.verdict.odd) paper.item("      ·", odd);
  if (!answer.working) return;
  paper.line();
  paper.heading("WORKING");
  paper.wrapped(fmt::format("jars stray {:.1f} % of the volume from the model's curves",
                            100 * after.verdict.shape));
  for (const std::string& line : after.verdict.told_apart.working) paper.wrapped(line);
  for (const auto& one : after.verdict.hypotheses)
    paper.wrapped(fmt::format("{}: weight {:.4f}, ln evidence {:.1f}",
                              acting(after.verdict, one.acting),
                              one.weight,
                              one.log_evidence));
}

// --- next ---

void print(Paper& paper, const NextOnPaper& answer) {
  const service::TestBakeNext& next = answer.next;
  paper.heading("NEXT    " + next.test.name,
                next.after ? "with what the jars have said" : "before any reading");
  if (!next.so_far.empty()) paper.wrapped(next.so_far);
  paper.line();
  paper.heading("BAKE", "share of the open question that it settles");
  int shown = 0;
  for (const auto& one : next.candidates) {
    if (++shown > answer.most) break;
    const std::string price =
        one.price ? fmt::format("; drink for {:.2f} {}", *one.price, one.currency) : "";
    const std::string rank =
        right(fmt::format("{}", shown), 6) + right(fmt::format("{:.0f} %", 100 * one.settles), 7);
    paper.item(rank, one.recipe.words, 15);
    paper.wrapped(one.reason + price + (one.baked ? "; baked already" : ""), 15);
  }
  const testbakes::Candidate* best = nullptr;
  for (const auto& one : next.candidates) {
    if (one.settles_per_money &&
        (best == nullptr || *one.settles_per_money > *best->settles_per_money))
      best = &one;
  }
  if (best == nullptr) return;
  paper.line();
  paper.wrapped(fmt::format("Most for the money: {}, {:.0f} % for {:.2f} {}",
                            best->recipe.words,
                            100 * best->settles,
                            *best->price,
                            best->currency));
}

// --- map ---

namespace {

constexpr int map_wide = 61;
constexpr int map_tall = 16;

// A tenth to a full chance; words stand below it, for shades alone say nothing.
const char* shade(double chance) {
  if (chance >= 0.9) return "█";
  if (chance >= 0.75) return "▓";
  if (chance >= 0.5) return "▒";
  if (chance >= 0.25) return "░";
  return " ";
}

std::string up_label(const testbakes::MapQuestion& q, double value) {
  switch (q.upward) {
    case testbakes::Upward::temperature:
      return fmt::format("{:.0f} °C", value);
    case testbakes::Upward::starter:
      return fmt::format("{:.0f} %", 100 * value);
    case testbakes::Upward::time:
      return fmt::format("{:.0f} h", value);
  }
  return "";
}

double chance_at(const forecast::Field& field, double across, double up) {
  const double x = across * (field.columns - 1);
  const double y = up * (field.rows - 1);
  const int x0 = std::min(static_cast<int>(x), field.columns - 2);
  const int y0 = std::min(static_cast<int>(y), field.rows - 2);
  const double u = x - x0;
  const double v = y - y0;
  return (1 - v) * ((1 - u) * field.at(x0, y0) + u * field.at(x0 + 1, y0)) +
         v * ((1 - u) * field.at(x0, y0 + 1) + u * field.at(x0 + 1, y0 + 1));
}

}  // namespace

void print(Paper& paper, const service::TestBakeMap& answer) {
  const auto& map = answer.map;
  const auto& q = map.question;
  const bool over_time = q.upward == testbakes::Upward::time;
  paper.heading("REACH   " + answer.name,
                over_time ? "chance to be ready by then"
                          : fmt::format("chance to be ready within {}", span(q.within)));
  if (!answer.culture.empty())
    paper.wrapped("starting from what " + answer.culture + " has taught");
  paper.line();
  const double now_x = map.now_share / map.room;
  const double now_y = (map.now_up - q.least) / (q.most - q.least);
  for (int row = map_tall - 1; row >= 0; --row) {
    const double up = static_cast<double>(row) / (map_tall - 1);
    std::string line = row % 3 == 0
                           ? right(up_label(q, q.least + up * (q.most - q.least)) + " ┤", 12)
                           : right("│", 12);
    for (int column = 0; column < map_wide; ++column) {
      const double across = static_cast<double>(column) / (map_wide - 1);
      const bool here = std::lround(now_x * (map_wide - 1)) == column &&
                        std::lround(now_y * (map_tall - 1)) == row;
      line += here ? "●" : shade(chance_at(map.field, across, up));
    }
    paper.line(line);
  }
  std::string axis = right("└", 12);
  for (int column = 0; column < map_wide; ++column) axis += column % 15 == 0 ? "┴" : "─";
  paper.line(axis);
  std::string labels = padded("", 11);
  for (int k = 0; k < 5; ++k) {
    const double share = map.room * k * 15.0 / (map_wide - 1);
    labels += padded(fmt::format("{:.0f} %", 100 * share), k < 4 ? 15 : 0);
  }
  paper.line(labels);
  paper.wrapped(map.drink + " as a share of the liquid", 12);
  paper.line();
  paper.wrapped("█ 9 in 10   ▓ 3 in 4   ▒ 1 in 2   ░ 1 in 4   blank: less   ● this bake", 12);
  paper.wrapped(fmt::format("this bake: {} of the liquid, {}: {}",
                            service::share(map.now_share),
                            up_label(q, map.now_up),
                            service::odds(Probability(map.chance_now), q.draws)),
                12);
}

void print(Paper& paper, const service::TestBakeShow& answer) {
  paper.heading("SHOWN   " + paper.strong(answer.folder));
  for (const auto& file : answer.files)
    paper.line(padded("", 8) + padded(file.name, 40) +
               fmt::format("{:6} kB", (file.bytes.size() + 999) / 1000));
}

}  // namespace barm::cli
