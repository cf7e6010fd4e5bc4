#include <fmt/format.h>

#include <cmath>

#include "cli/print.h"
#include "service/bake/prepared.h"
#include "service/words.h"

namespace barm::cli {

using service::grams;
using service::share;
using service::weight;

namespace {

std::string title(const formula::Bake& bake, const formula::Bowl& bowl) {
  std::string out = bake.name;
  if (bowl.pieces > 0 && bowl.piece.si() > 0) {
    out += fmt::format(
        " · {} {} of {}", bowl.pieces, bowl.pieces == 1 ? "loaf" : "loaves", weight(bowl.piece));
  }
  return out;
}

bool poured_otherwise(const formula::Weighed& line) {
  return std::abs((line.actual - line.plan).in(gram)) > 0.5;
}

void print_weighing(Paper& paper, const formula::Bowl& bowl) {
  bool otherwise = false;
  for (const formula::Weighed& line : bowl.lines) otherwise = otherwise || poured_otherwise(line);
  paper.heading("WEIGH OUT",
                (otherwise ? "plan · in the bowl · % of " : "% of ") + bowl.percent_of_what());
  for (const formula::Weighed& line : bowl.lines) {
    std::string out = padded("", 8) + padded(line.name, 30) + right(grams(line.plan) + " g", 9);
    if (otherwise) out += right(poured_otherwise(line) ? grams(line.actual) + " g" : "", 10);
    out += right(fmt::format("{:.1f} %", 100 * line.share.value()), 10);
    if (line.volume.si() > 0) out += "   " + service::volume(line.volume);
    paper.line(out);
  }
  paper.line(padded("", 8) + padded("dough", 30) + right(grams(bowl.dough) + " g", 9));
  if (bowl.levain_flour.si() > 0)
    paper.wrapped(bowl.percent_of_weighed
                      ? "percent_of = \"all flour\" counts the levain's flour too"
                      : "percent_of = \"the flour weighed\" leaves the levain's flour out of it");
  if (bowl.baked_piece.si() > 0 && bowl.piece.si() > 0) {
    paper.wrapped(fmt::format("a loaf of {} dough comes to about {} baked",
                              weight(bowl.piece),
                              weight(bowl.baked_piece)));
  }
}

void print_sums(Paper& paper, const formula::Bowl& bowl) {
  paper.heading("IN THE BOWL");
  paper.item("        water",
             fmt::format("real water {} of all flour; liquid as bakers count it {}",
                         share(bowl.real_hydration()),
                         share(bowl.liquid_hydration())),
             20);
  if (bowl.ethanol.in(gram) > 0.5) {
    paper.item("        alcohol",
               fmt::format("{} of pure alcohol: {} of the dough by weight, {} vol of the liquid, "
                           "{:.0f} g in a litre of the "
                           "dough's water",
                           weight(bowl.ethanol),
                           share(bowl.ethanol_of_dough().value()),
                           share(bowl.strength_of_liquid().value()),
                           bowl.ethanol_in_water().in(gram / litre)),
               20);
  } else {
    paper.item("        alcohol", "none worth counting", 20);
  }
  paper.item("        salt",
             fmt::format("{} of the flour, {:.0f} g in a litre of the dough's water",
                         share((bowl.salt / bowl.flour).si()),
                         bowl.salt_in_water().in(gram / litre)),
             20);
  paper.item("        sugar",
             fmt::format("{:.0f} g in a litre of the dough's water, brought by what is added",
                         bowl.sugar_in_water().in(gram / litre)),
             20);
  std::string sour = fmt::format("pH {:.1f} to start", bowl.ph.value());
  const double sulphite = bowl.total_sulphite.in(milligram) / bowl.dough.in(kilogram);
  if (sulphite > 0.5) {
    sour += fmt::format("; sulphite {:.0f} mg in a kilogram of dough, {:.0f} of it free",
                        sulphite,
                        bowl.free_sulphite.in(milligram) / bowl.dough.in(kilogram));
  }
  paper.item("        acid", sour, 20);
  if (bowl.contraction.in(millilitre) > 0.5) {
    paper.item(
        "        volume",
        fmt::format(
            "drink and water together are {} less than their volumes added: weigh, do not measure",
            service::volume(bowl.contraction)),
        20);
  }
}

void print_mend(Paper& paper, const formula::Mend& mend) {
  if (!mend.needed) return;
  paper.heading("MEND");
  paper.wrapped(mend.words);
}

}  // namespace

void print_cautions(Paper& paper, const std::vector<std::string>& cautions) {
  if (cautions.empty()) return;
  paper.heading("TAKE CARE");
  for (const std::string& caution : cautions) paper.item("      ·", caution, 8);
}

void print(Paper& paper, const service::BowlAnswer& answer) {
  paper.heading(title(answer.bake, answer.bowl));
  if (!answer.bake.note.empty()) paper.wrapped(answer.bake.note, 0);
  paper.line();
  print_weighing(paper, answer.bowl);
  for (const service::ToPrepare& one : service::to_prepare(answer.bake, answer.bowl))
    paper.item("        before", service::words(one), 20);
  print_mend(paper, answer.mend);
  paper.line();
  print_sums(paper, answer.bowl);
  for (const std::string& doubt : answer.doubts) paper.item("        doubt", doubt, 20);
  paper.line();
  print_cautions(paper, answer.cautions);
}

}  // namespace barm::cli
