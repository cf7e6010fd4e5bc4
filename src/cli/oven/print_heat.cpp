#include "cli/oven/print_heat.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "cli/daybook/print_daybook.h"
#include "cli/print.h"
#include "service/words.h"

namespace barm::cli {

using service::share;
using service::warmth;
using service::weight;

namespace {

constexpr int heat_margin = 17;

std::string percent_vol(AlcoholByVolume strength) {
  return fmt::format("{:.1f} % vol", strength.percent());
}

std::string rounded_minutes(Time time) { return fmt::format("{:.0f} min", time.in(minute)); }

// A dozen moments of the pan, the last one among them.
void print_course(Paper& paper, const service::SimmerAnswer& answer) {
  const auto& course = answer.simmered.course;
  const std::size_t rows = std::min<std::size_t>(8, course.size());
  paper.heading("AS IT GOES", "after · left · boils at · strength");
  for (std::size_t row = 0; row < rows; ++row) {
    const std::size_t at = rows == 1 ? 0 : row * (course.size() - 1) / (rows - 1);
    const drink::Boiling& one = course[at];
    paper.line(padded("", 8) + right(rounded_minutes(one.after), 8) + right(weight(one.left), 11) +
               right(fmt::format("{:.1f} °C", one.temperature.celsius()), 11) +
               right(percent_vol(one.strength), 12));
  }
}

std::string kept(Mass before, Mass after) {
  return fmt::format("{:.1f} g of {:.1f} g", after.in(gram), before.in(gram));
}

std::string signed_kelvin(TemperatureDifference d) {
  return fmt::format("{:+.1f} °C", d.in(kelvin));
}

std::string too_warm_or_cold(TemperatureDifference d) {
  if (std::abs(d.in(kelvin)) < 0.05) return "as wanted";
  return fmt::format(
      "{:.1f} °C too {}", std::abs(d.in(kelvin)), d.in(kelvin) > 0 ? "warm" : "cold");
}

void print_where_from(Paper& paper, const service::MixAnswer& answer) {
  const heat::Warmth& w = answer.warmth;
  paper.item("        friction",
             fmt::format("{} in {}: {}",
                         signed_kelvin(w.by_friction),
                         rounded_minutes(answer.request.runs),
                         service::friction_in_words(answer)),
             heat_margin);
  if (std::abs(w.by_mixing_alcohol.in(kelvin)) >= 0.05) {
    paper.item("        alcohol",
               fmt::format("{} as the drink's alcohol meets the water",
                           signed_kelvin(w.by_mixing_alcohol)),
               heat_margin);
  }
  if (answer.liquid.ice.si() > 0)
    paper.item("        ice", signed_kelvin(w.by_ice) + " by melting", heat_margin);
  paper.item("        room", signed_kelvin(w.by_room) + " through bowl and air", heat_margin);
}

}  // namespace

void print(Paper& paper, const service::SimmerAnswer& answer) {
  const drink::Simmered& s = answer.simmered;
  paper.heading("SIMMER  " + answer.drink,
                fmt::format("{} to {}", weight(answer.request.pan.drink), weight(s.mass)));
  paper.item("        time",
             fmt::format("about {} on a ring that gives the pan {:.0f} W; {} of it to the boil",
                         rounded_minutes(s.lasts),
                         answer.request.pan.heat.si(),
                         rounded_minutes(s.to_the_boil)),
             heat_margin);
  paper.item("        alcohol",
             fmt::format("{}; {} then, {} before",
                         kept(answer.before.alcohol, answer.after.alcohol),
                         percent_vol(answer.strength_after),
                         percent_vol(answer.strength_before)),
             heat_margin);
  paper.item("        acid", kept(answer.before.acid, answer.after.acid), heat_margin);
  paper.item("        sugar", kept(answer.before.sugar, answer.after.sugar), heat_margin);
  if (answer.after.sulphite_high > 0.5) {
    paper.item("        sulphite",
               fmt::format("{:.0f} to {:.0f} mg: how much leaves is not known",
                           answer.after.sulphite_low,
                           answer.after.sulphite_high),
               heat_margin);
  }
  paper.line();
  print_course(paper, answer);
  paper.line();
  print_cautions(paper, answer.cautions);
}

void print(Paper& paper, const service::MixAnswer& answer) {
  paper.heading(answer.name, "for a dough of " + warmth(answer.wanted));
  paper.line();
  std::string of;
  for (const std::string& one : answer.free) of += (of.empty() ? "" : ", ") + one;
  paper.heading("LIQUID  " + paper.strong(warmth(answer.liquid.liquid)), fitted(of, 40));
  if (answer.liquid.ice.si() > 0)
    paper.wrapped(fmt::format("and {} of the water as ice", weight(answer.liquid.ice)));
  print_where_from(paper, answer);
  paper.line();
  if (!answer.by_factors) {
    paper.item("        by rule", "the factor rule has no answer: " + answer.no_rule, heat_margin);
  } else {
    paper.item("        by rule",
               fmt::format("the factor rule says {}: the dough would come out {}. It counts "
                           "flour, liquid and room alike, and alcohol as water.",
                           warmth(*answer.by_factors),
                           too_warm_or_cold(answer.factors_miss)),
               heat_margin);
  }
  print_kept(paper, answer.keep);
  if (answer.cautions.empty()) return;
  paper.line();
  print_cautions(paper, answer.cautions);
}

}  // namespace barm::cli
