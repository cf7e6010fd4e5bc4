#include <fmt/format.h>

#include <set>

#include "cli/print_shop.h"
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
  void print(Paper& paper, const std::vector<std::string>& ids) {
    for (const std::string& id : ids) paper.item("        rule", said(id), 16);
  }

  std::string said(const std::string& id) {
    const shop::LabelRule rule = shop::label_rule(id);
    if (!said_.insert(id).second) return std::string(rule.law) + ", as above";
    return fmt::format("{}: {}{}",
                       rule.law,
                       rule.says,
                       rule.standing == "published" ? "" : " (from memory: look it up)");
  }

 private:
  std::set<std::string> said_;
};

void print_unknown(Paper& paper, const std::vector<std::string>& unknown) {
  for (const std::string& one : unknown) paper.item("        unknown", one, 16);
}

void print_table(Paper& paper, const shop::Label& label) {
  paper.line(padded("", 8) + padded("", 26) + right("100 g", 13) +
             right(service::weight(label.portion), 15) + right("4 of 5 loaves", 17));
  for (const shop::NutritionLine& one : label.nutrition) {
    const auto range = [&](double value) {
      return one.unit == "g" ? fmt::format("{:.2f}", value) : fmt::format("{:.0f}", value);
    };
    const std::string unit = one.unit == "calories" ? "" : " " + one.unit;
    paper.line(padded("", 8) + padded((one.indented ? "  " : "") + one.name, 26) +
               right(one.said_100_g + unit, 13) + right(one.said_portion + unit, 15) +
               right(range(one.in_100_g.low) + " to " + range(one.in_100_g.high), 17));
  }
}

void print_weights(Paper& paper, const shop::Label& label) {
  paper.line(padded("", 8) + padded("in the order of the list", 37) + right("weighed", 11) +
             right("in the loaf", 13));
  for (const shop::Listed& item : label.ingredients.items) {
    paper.line(padded("", 8) + padded(fitted(shop::plain(item.name), 36), 37) +
               right(service::weight(item.used), 11) +
               right(fmt::format("{:.1f} %", 100 * item.of_loaf), 13) +
               (item.under_two_percent ? "  under 2 %" : ""));
  }
}

}  // namespace

void print(Paper& paper, const service::LabelAnswer& answer) {
  const shop::Label& label = answer.label;
  paper.heading(label.name, "rules of: " + std::string(shop::name(label.law)));
  paper.wrapped(label.draft);
  paper.line();
  Rules rules;
  for (const shop::LabelLine& line : label.lines) {
    paper.heading(upper(line.field));
    if (!line.text.empty()) paper.wrapped(shop::plain(line.text, true));
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
}

}  // namespace barm::cli
