#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "cli/shop/print_shop.h"
#include "service/words.h"

namespace barm::cli {

namespace {

std::string upper(std::string text) {
  for (char& c : text) {
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  }
  return text;
}

/// A rule is said once and then named.
class Rules {
 public:
  explicit Rules(shop::Law law) : law_(law) {}

  void print(Paper& paper, const std::vector<std::string>& ids) {
    for (const std::string& id : ids) paper.item("        rule", said(id), 16);
  }

  std::string said(const std::string& id) {
    const shop::LabelRule rule = shop::label_rule(id, law_);
    if (!said_.insert(id).second) return std::string(rule.law) + ", as above";
    return fmt::format("{}: {}{}",
                       rule.law,
                       rule.says,
                       rule.standing == "published" ? "" : " (from memory: look it up)");
  }

 private:
  shop::Law law_;
  std::set<std::string> said_;
};

void print_unknown(Paper& paper, const std::vector<std::string>& unknown) {
  for (const std::string& one : unknown) paper.item("        unknown", one, 16);
}

/// "44.9 to 46.5", "0.15 to 0.16", "210 to 220".
std::string reach_of(const shop::NutritionLine& line) {
  constexpr double many = 10;
  const auto said = [&](double value) {
    if (line.unit != "g") return fmt::format("{:.0f}", value);
    return value < many ? fmt::format("{:.2f}", value) : fmt::format("{:.1f}", value);
  };
  return said(line.in_100_g.low) + " to " + said(line.in_100_g.high);
}

std::string of_the_day(const std::string& daily) {
  return daily.empty() ? "" : fmt::format(" ({} %)", daily);
}

void print_table(Paper& paper, const shop::Label& label) {
  const bool us = label.law == shop::Law::us;
  const bool portion = label.portion.si() > 0;
  const auto row = [&](const std::string& name,
                       const std::string& in_100_g,
                       const std::string& by_portion,
                       const std::string& range) {
    // Room for "less than 5 mg (1 %)" and a blank before it.
    paper.line(padded("", 6) + padded(name, 25) + right(in_100_g, 14) +
               (portion ? right(by_portion, 21) : "") + (range.empty() ? "" : right(range, 14)));
  };
  if (us && !label.serving.measure.empty()) {
    paper.wrapped(fmt::format("A serving: {} ({:.0f} g); servings: {}",
                              label.serving.measure,
                              label.serving.mass.in(gram),
                              label.serving.number));
  }
  row("",
      "100 g",
      portion ? service::weight(label.portion) + (us ? " (% DV)" : "") : "",
      "4 of 5 loaves");
  for (const shop::NutritionLine& one : label.nutrition) {
    const std::string unit = one.unit.empty() ? "" : " " + one.unit;
    row(std::string(2 * static_cast<std::size_t>(one.indent), ' ') + one.name,
        one.said_100_g + unit,
        one.said_portion + unit + of_the_day(one.daily_value),
        one.known ? reach_of(one) : "");
  }
  if (us) paper.line(padded("", 6) + "% DV: of the Daily Value, in the serving");
}

/// How the order and the quantities come about: used, what the order goes by, what is left.
void print_weights(Paper& paper, const shop::Label& label) {
  paper.line(padded("", 8) + padded("in this order", 24) + right("weighed", 9) +
             right("counted", 9) + right("of loaf", 9) + right("left in", 9));
  for (const shop::Listed& item : label.ingredients.items) {
    paper.line(padded("", 8) + padded(fitted(shop::plain(item.name), 23), 24) +
               right(service::weight(item.used), 9) + right(service::weight(item.counted), 9) +
               right(fmt::format("{:.1f} %", 100 * item.of_loaf), 9) +
               right(service::weight(item.left), 9) +
               (item.under_two_percent ? "  under 2 %" : ""));
  }
}

void print_missing(Paper& paper, const shop::Label& label) {
  if (label.missing.empty()) return;
  paper.heading("NOT TO BE PRINTED YET");
  for (const std::string& one : label.missing) paper.item("        missing", one, 16);
  paper.line();
}

/// The rules that nobody has read again, those first whose error can hurt.
void print_remembered(Paper& paper, const shop::Label& label) {
  if (label.remembered.empty()) return;
  constexpr const char* harm[] = {"", "can hurt", "misleads", "a form"};
  paper.line();
  paper.heading("FROM MEMORY: TO BE LOOKED UP, THE WORST FIRST");
  for (const std::string& id : label.remembered) {
    const shop::LabelRule rule = shop::label_rule(id, label.law);
    paper.item(std::string("        ") + harm[std::clamp(rule.harm, 1, 3)], rule.law, 24);
  }
}

}  // namespace

void print(Paper& paper, const service::LabelAnswer& answer) {
  const shop::Label& label = answer.label;
  paper.heading(label.name, "rules of: " + std::string(shop::name(label.law)));
  paper.wrapped(label.draft);
  paper.line();
  print_missing(paper, label);
  Rules rules(label.law);
  for (const shop::LabelLine& line : label.lines) {
    paper.heading(upper(line.field));
    if (!shop::plain(line.text).empty()) paper.wrapped(shop::plain(line.text, true));
    if (line.field == "ingredients") print_weights(paper, label);
    if (line.field == "nutrition") print_table(paper, label);
    rules.print(paper, line.rules);
    print_unknown(paper, line.unknown);
    paper.line();
  }
  paper.heading("ASK BEFORE YOU PRINT");
  for (const shop::LabelLine& line : label.questions) {
    paper.item("        " + line.field, shop::plain(line.text), 24);
    for (const std::string& id : line.rules) paper.wrapped(rules.said(id), 24);
  }
  print_remembered(paper, label);
}

}  // namespace barm::cli
