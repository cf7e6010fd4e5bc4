#include "cli/testbake/print_testbake.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "cli/print.h"
#include "service/words.h"

namespace barm::cli {

using service::span;
using service::weight;
using testbakes::Rival;

namespace {

const Rival* control(const std::vector<Rival>& rivals) {
  const auto at =
      std::find_if(rivals.begin(), rivals.end(), [](const Rival& rival) { return rival.plain; });
  return at == rivals.end() ? nullptr : &*at;
}

std::string listed(const std::vector<std::string>& words) {
  std::string out;
  for (const std::string& word : words) out += (out.empty() ? "" : ", ") + word;
  return out;
}

std::string differs(const Rival& rival, const Rival& plain) {
  std::vector<std::string> words;
  for (const auto& d : testbakes::differences(rival.bowl, plain.bowl)) words.push_back(in_words(d));
  return words.empty() ? "nothing that matters" : listed(words);
}

void print_stock(Paper& paper, const testbakes::Stock& stock) {
  const std::string name = fmt::format("stock solution of {:g} %: ", stock.strength.percent());
  const std::string made =
      stock.in_two_steps
          ? fmt::format("{} potassium metabisulphite into {} water; {} of that and {} water",
                        weight(stock.first_salt),
                        weight(stock.first_water),
                        weight(stock.from_first),
                        weight(stock.water))
          : fmt::format("{} potassium metabisulphite into {} water",
                        weight(stock.salt),
                        weight(stock.water));
  paper.item(
      "      ·",
      fmt::format("{}{}. Weigh {} of it. Make it the same day", name, made, weight(stock.dose)));
}

void print_weigh_outs(Paper& paper, const std::vector<Rival>& rivals) {
  const Rival* plain = control(rivals);
  for (const Rival& rival : rivals) {
    paper.heading(rival.name,
                  fmt::format("{} · pH {:.1f}", weight(rival.bowl.dough), rival.bowl.ph.value()));
    for (const auto& line : rival.bowl.lines)
      paper.line(padded("", 8) + padded(line.name, 46) + right(weight(line.actual), 10));
    for (const auto& stock : rival.stocks) print_stock(paper, stock);
    for (const std::string& note : rival.notes) paper.item("      ·", note);
    if (plain != nullptr && plain != &rival)
      paper.item("      ·", "against plain: " + differs(rival, *plain));
    paper.line();
  }
}

// --- plan ---

void print_key(Paper& paper, const service::TestBakePlan& plan) {
  paper.heading("KEY     " + plan.test.name, "for whoever mixes; not for whoever reads");
  for (const auto& jar : plan.jars) {
    paper.line(padded("", 8) + padded(plan.test.days[jar.day], 14) +
               padded(fmt::format("place {}", jar.place), 10) + padded(jar.label, 6) +
               plan.rivals[jar.dough].name +
               (plan.test.jars > 1 ? fmt::format(" ({})", jar.repeat) : ""));
  }
}

void print_places(Paper& paper, const service::TestBakePlan& plan) {
  paper.heading("THE JARS", "left to right on the shelf, mixed in this order");
  for (std::size_t day = 0; day < plan.test.days.size(); ++day) {
    std::string labels;
    for (const auto& jar : plan.jars) {
      if (jar.day == day) labels += (labels.empty() ? "" : " · ") + jar.label;
    }
    paper.item("        " + plan.test.days[day], labels, 22);
  }
  paper.wrapped(
      "Places and labels are drawn at random. Who reads the jars sees the labels only; the key: "
      "barm testbake plan FILE --key");
}

}  // namespace

void print(Paper& paper, const PlanOnPaper& answer) {
  const service::TestBakePlan& plan = answer.plan;
  if (answer.key) {
    print_key(paper, plan);
    return;
  }
  paper.heading("TEST BAKE   " + paper.strong(plan.test.name),
                fmt::format("{} doughs, {} {}",
                            plan.rivals.size(),
                            plan.test.days.size(),
                            plan.test.days.size() == 1 ? "day" : "days"));
  if (!plan.test.question.empty()) paper.wrapped(plan.test.question);
  paper.line();
  print_weigh_outs(paper, plan.rivals);
  print_places(paper, plan);
  paper.line();
  print_cautions(paper, plan.cautions);
}

// --- before ---

namespace {

std::string ready_words(const service::Expected& expected) {
  if (!expected.ready.p50) return "not ready in most";
  std::string out = span(*expected.ready.p50);
  if (expected.ready.p10)
    out += " (" + span(*expected.ready.p10) + " to " +
           (expected.ready.p90 ? span(*expected.ready.p90) : "never") + ")";
  return out;
}

void print_needed(Paper& paper, const service::TestBakeBefore& before) {
  const long lost = std::lround(100 * before.difference);
  paper.heading("HOW MANY",
                fmt::format("to show that one dough is {} % slower than another", lost));
  for (const auto& way : before.needed) {
    paper.line(
        padded("", 8) +
        padded(fmt::format("{} {} of each a day", way.jars, way.jars == 1 ? "jar" : "jars"), 26) +
        fmt::format("{} {}", way.days, way.days == 1 ? "day" : "days"));
  }
  if (before.needed.empty())
    paper.wrapped("more than twelve days of four jars: look for a larger difference");
  const auto days = before.test.days.size();
  paper.wrapped(
      before.chance_as_planned <= 0
          ? std::string("As planned, one jar a day on so few days leaves nothing to judge "
                        "scatter by; the verdict then leans on what is known of jars")
          : fmt::format("As planned ({} {}, {} a day): {} to show it",
                        days,
                        days == 1 ? "day" : "days",
                        before.test.jars == 1 ? "one jar of each"
                                              : fmt::format("{} jars of each", before.test.jars),
                        service::odds(Probability(before.chance_as_planned), 1000)));
}

}  // namespace

void print(Paper& paper, const BeforeOnPaper& answer) {
  const service::TestBakeBefore& before = answer.before;
  paper.heading(
      "BEFORE  " + paper.strong(before.test.name),
      fmt::format("{} doughs, time allowed {}", before.rivals.size(), span(before.test.within)));
  if (!before.test.question.empty()) paper.wrapped(before.test.question);
  if (!before.culture.empty())
    paper.wrapped("starting from what " + before.culture + " has taught");
  paper.line();
  paper.heading("TOLD APART");
  for (const std::string& line : before.told_apart.words) paper.item("      ·", line);
  if (answer.working) {
    for (const std::string& line : before.told_apart.working) paper.item("        ", line, 10);
  }
  paper.line();
  paper.heading("KNOWN ALREADY");
  for (const auto& one : before.answered)
    paper.item("        " + std::string(name(one.cause)), one.words, 24);
  if (before.answered.empty()) paper.wrapped("nothing in these doughs is known to slow a culture");
  paper.line();
  paper.heading(
      "EXPECTED",
      fmt::format("4 of 5 doughs; chance to be ready within {}", span(before.test.within)));
  for (std::size_t i = 0; i < before.rivals.size(); ++i) {
    const auto& expected = before.expected[i];
    const std::string words = ready_words(expected);
    const std::string chance = service::odds(expected.in_time, before.draws);
    paper.item("        ", before.rivals[i].name, 8);
    paper.line(padded("", 12) + padded(words, 40) + right(chance, 20));
  }
  paper.line();
  print_needed(paper, before);
}

// --- taste ---

namespace {

void print_sheets(Paper& paper, const service::TasteAnswer& taste) {
  for (const auto& serving : taste.servings) {
    paper.heading(fmt::format("TASTER {}", serving.taster), "two are alike, one is not");
    paper.line();
    paper.wrapped(
        "Taste from left to right; water between. Which one is the odd one? Mark it. If "
        "you cannot tell, guess: every sheet needs one mark.");
    paper.line();
    std::string boxes;
    for (const std::string& label : serving.label) boxes += "[ ] " + label + "        ";
    paper.wrapped(boxes);
    paper.line();
    paper.wrapped("crumb, sourness, bitterness, alcohol, liking: 1 (none, not at all) to 9");
    for (const std::string& label : serving.label) {
      paper.line(padded("", 8) + label + "   crumb __  sour __  bitter __  alcohol __  liking __");
    }
    paper.line(padded("", 8) + "remarks " + std::string(50, '_'));
    paper.line();
    paper.line(std::string(sheet_width, '-'));
  }
}

void print_servings(Paper& paper, const service::TasteAnswer& taste) {
  paper.heading("WHO GETS WHAT", "left to right; keep this from the tasters");
  for (const auto& serving : taste.servings) {
    std::string tray;
    for (std::size_t i = 0; i < 3; ++i)
      tray += fmt::format("{} {}   ", serving.label[i], serving.tray[i] ? "B" : "A");
    paper.line(padded("", 8) + padded(fmt::format("taster {}", serving.taster), 14) + tray +
               "odd: " + serving.label[static_cast<std::size_t>(serving.odd - 1)]);
  }
}

}  // namespace

void print(Paper& paper, const TasteOnPaper& answer) {
  const service::TasteAnswer& taste = answer.taste;
  if (answer.sheets) {
    print_sheets(paper, taste);
    return;
  }
  const auto& request = taste.request;
  if (taste.result) {
    const auto& result = *taste.result;
    paper.heading("TASTED  " + paper.strong(result.words));
    paper.wrapped(
        fmt::format("who can really tell: about {:.0f} %, 9 times in 10 between {:.0f} and "
                    "{:.0f} %",
                    100 * result.tell,
                    100 * result.tell_low,
                    100 * result.tell_high));
    return;
  }
  paper.heading("TASTE   " + paper.strong(fmt::format("{} tasters", request.tasters)),
                request.a == "A" ? "A and B: the two doughs"
                                 : fmt::format("A is {}, B is {}", request.a, request.b));
  paper.wrapped(
      fmt::format("{} right answers will show that they can tell. If {:.0f} % of people can, the "
                  "chance to show "
                  "it is {}; {} tasters give {}.",
                  taste.right_needed,
                  100 * request.tell,
                  service::odds(Probability(taste.power), 1000),
                  taste.tasters_needed,
                  service::odds(Probability(request.power), 1000)));
  paper.line();
  print_servings(paper, taste);
  paper.line();
  print_cautions(paper, taste.cautions);
}

}  // namespace barm::cli
