#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "base/markup.h"
#include "service/internal/object.h"
#include "service/testbake/show.h"
#include "service/words.h"

namespace barm::service {

using internal::object;
using nlohmann::json;
using testbakes::Rival;

namespace {

constexpr std::string_view style = R"(
:root { color: #2b2723; background: #fbf8f3; font: 18px/1.5 Georgia, serif; }
body { max-width: 46rem; margin: 2rem auto; padding: 0 1rem; }
h1 { font-size: 2rem; line-height: 1.2; } h2 { margin-top: 2.5rem; border-bottom: 1px solid #c9c0b4; }
.verdict { font-size: 1.5rem; font-weight: bold; border-left: .4rem solid #b4541e; padding-left: 1rem; }
.note { color: #6c645b; font-size: .9rem; }
table { border-collapse: collapse; width: 100%; } td, th { text-align: left; padding: .15rem .6rem .15rem 0; vertical-align: top; }
td.number { text-align: right; white-space: nowrap; }
figure { margin: 1.5rem 0; } svg { width: 100%; height: auto; }
section.dough { break-inside: avoid; }
@media print { :root { background: none; font-size: 11pt; } body { max-width: none; margin: 0; } figure { break-inside: avoid; } }
)";

std::string row(const std::string& name, const std::string& value) {
  return fmt::format(
      "<tr><td>{}</td><td class=\"number\">{}</td></tr>\n", escaped(name), escaped(value));
}

const Rival* control(const TestBakePlan& plan) {
  for (const Rival& rival : plan.rivals)
    if (rival.plain) return &rival;
  return nullptr;
}

std::optional<std::string> price_of(const Rival& rival) {
  double sum = 0;
  std::string currency;
  for (const auto& portion : rival.bake.bowl) {
    if (!portion.price) continue;
    sum += *portion.price * portion.amount;
    currency = portion.currency;
  }
  return currency.empty() ? std::nullopt
                          : std::optional<std::string>(fmt::format("{:.2f} {}", sum, currency));
}

std::string dough_section(const TestBakePlan& plan,
                          const Rival& rival,
                          const ShowRequest& request) {
  std::string out =
      fmt::format("<section class=\"dough\"><h3>{}</h3>\n<table>\n", escaped(rival.name));
  for (const auto& line : rival.bowl.lines) out += row(line.name, weight(line.actual));
  out += row("pH to start", fmt::format("{:.1f}", rival.bowl.ph.value()));
  if (request.prices) {
    if (const auto price = price_of(rival)) out += row("what is priced in it", *price);
  }
  out += "</table>\n";
  for (const auto& stock : rival.stocks)
    out += fmt::format(
        "<p class=\"note\">Stock solution of {:g} % potassium metabisulphite: weigh {}.</p>\n",
        stock.strength.percent(),
        escaped(weight(stock.dose)));
  const Rival* plain = control(plan);
  if (plain != nullptr && plain != &rival) {
    std::string differs;
    for (const auto& d : testbakes::differences(rival.bowl, plain->bowl))
      differs += (differs.empty() ? "" : ", ") + testbakes::in_words(d);
    out += fmt::format("<p class=\"note\">Against plain: {}.</p>\n",
                       escaped(differs.empty() ? "nothing that matters" : differs));
  }
  for (const std::string& note : rival.notes)
    out += fmt::format("<p class=\"note\">{}.</p>\n", escaped(note));
  return out + "</section>\n";
}

// https://schema.org/Recipe, an open vocabulary.
json recipe(const TestBakePlan& plan, const Rival& rival) {
  json ingredients = json::array();
  for (const auto& line : rival.bowl.lines)
    ingredients.push_back(weight(line.actual) + " " + line.name);
  json steps = json::array();
  for (const auto& stage : plan.test.base.stages) {
    std::string words(formula::name(stage.step));
    if (stage.step != formula::Step::mix) words += " at " + warmth(stage.temperature);
    if (stage.lasts) words += " for " + span(*stage.lasts);
    if (stage.until) words += " until " + risen(*stage.until);
    steps.push_back(object({{"@type", "HowToStep"}, {"text", words}}));
  }
  return object({{"@context", "https://schema.org"},
                 {"@type", "Recipe"},
                 {"name", plan.test.name + ": " + rival.name},
                 {"recipeIngredient", ingredients},
                 {"recipeInstructions", steps},
                 {"recipeYield", weight(rival.bowl.dough) + " dough"}});
}

std::string linked_data(const TestBakePlan& plan) {
  json all = json::array();
  for (const Rival& rival : plan.rivals) all.push_back(recipe(plan, rival));
  std::string text = all.dump();
  // No "<" of a name may end the element or open another.
  for (std::size_t at = text.find('<'); at != std::string::npos; at = text.find('<', at))
    text.replace(at, 1, "\\u003c");
  return "<script type=\"application/ld+json\">" + text + "</script>\n";
}

std::string figure(const Drawn& drawn) {
  return fmt::format("<figure>{}<figcaption class=\"note\">{}</figcaption></figure>\n",
                     drawn.picture.svg(drawn.title),
                     escaped(drawn.title));
}

std::string verdict_section(const TestBakeAfter& after) {
  std::string out = fmt::format("<p class=\"verdict\">{}</p>\n", escaped(after.verdict.sentence));
  out += figure(curves_picture(after, Format::wide));
  out += "<h2>What was found</h2>\n<table>\n";
  for (const auto& found : after.verdict.causes)
    out += fmt::format("<tr><td>{}</td><td class=\"number\">{}</td><td>{}</td></tr>\n",
                       name(found.prior.cause),
                       odds(Probability(found.weight), 1000),
                       escaped(found.words));
  out += "</table>\n" + figure(causes_picture(after, Format::wide));
  for (const auto& dose : after.dose_curves) out += figure(dose_picture(dose, Format::wide));
  for (const std::string& words : after.verdict.told_apart.words)
    out += fmt::format("<p class=\"note\">{}.</p>\n", escaped(words));
  return out;
}

/// `draw` makes the picture in a format.
template <class Draw>
void add_pictures(std::vector<ShownFile>& files, const Draw& draw) {
  for (const auto& [format, shape] : {std::pair{Format::wide, "16x9"},
                                      std::pair{Format::square, "1x1"},
                                      std::pair{Format::tall, "9x16"}}) {
    const Drawn drawn = draw(format);
    const std::string name = drawn.name + "-" + shape;
    files.push_back({name + ".svg", drawn.picture.svg(drawn.title)});
    files.push_back({name + ".png", drawn.picture.png()});
  }
}

}  // namespace

std::string testbake_page(const TestBakePlan& plan,
                          const std::optional<TestBakeAfter>& after,
                          const std::optional<TestBakeMap>& map,
                          const ShowRequest& request) {
  const auto& test = plan.test;
  std::string out = fmt::format(
      "<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">\n<meta name=\"viewport\" "
      "content=\"width=device-width, "
      "initial-scale=1\">\n<title>{}</title>\n<style>{}</style>\n{}</head>\n<body>\n",
      escaped(test.name),
      style,
      linked_data(plan));
  out += fmt::format("<h1>{}</h1>\n<p>{}</p>\n", escaped(test.name), escaped(test.question));
  if (request.remarks && !test.remark.empty())
    out += fmt::format("<p class=\"note\">{}</p>\n", escaped(test.remark));
  if (after) out += verdict_section(*after);
  out += "<h2>The doughs</h2>\n";
  for (const Rival& rival : plan.rivals) out += dough_section(plan, rival, request);
  if (map) out += "<h2>How far the drink can go</h2>\n" + figure(map_picture(*map, Format::wide));
  out += "<h2>The whiteboard</h2>\n" + figure(whiteboard_picture(plan, Format::wide));
  out += "<h2>Take care</h2>\n<ul>\n";
  for (const std::string& caution : plan.cautions)
    out += fmt::format("<li>{}</li>\n", escaped(caution));
  return out + "</ul>\n</body></html>\n";
}

Result<TestBakeShow> testbake_show(const testbakes::TestBake& test,
                                   const ShowRequest& request,
                                   const testbakes::VerdictOptions& options) {
  const auto plan = testbake_plan(test);
  if (!plan) return failure(plan);
  std::optional<TestBakeAfter> after;
  if (request.observed || test.readings) {
    auto judged = request.observed ? testbake_after(test, *request.observed, options)
                                   : testbake_after(test, options);
    if (!judged) return failure(judged);
    after = *std::move(judged);
  }
  testbakes::MapQuestion question;
  question.least = 16;
  question.within = test.within;
  question.cancelled = options.cancelled;
  std::optional<TestBakeMap> map;
  auto mapped = testbake_map(test.base, question);
  // A base without a drink has no map; anything else is an error.
  if (!mapped && mapped.error().code != ErrorCode::not_found) return failure(mapped);
  if (mapped) map = *std::move(mapped);

  TestBakeShow out;
  out.files.push_back({"page.html", testbake_page(*plan, after, map, request)});
  add_pictures(out.files, [&](Format format) { return whiteboard_picture(*plan, format); });
  if (map) add_pictures(out.files, [&](Format format) { return map_picture(*map, format); });
  if (after) {
    add_pictures(out.files, [&](Format format) { return curves_picture(*after, format); });
    add_pictures(out.files, [&](Format format) { return causes_picture(*after, format); });
    for (const auto& dose : after->dose_curves)
      add_pictures(out.files, [&](Format format) { return dose_picture(dose, format); });
  }
  return out;
}

json to_json(const TestBakeShow& answer) {
  json files = json::array();
  for (const auto& file : answer.files)
    files.push_back(object({{"name", file.name}, {"bytes", file.bytes.size()}}));
  return object({{"schema", "barm.testbake-show/1"}, {"folder", answer.folder}, {"files", files}});
}

}  // namespace barm::service
