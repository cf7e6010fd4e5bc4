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

/// "44.9 to 46.5", "0.15 to 0.16", "210 to 220".
std::string reach_of(const shop::NutritionLine& line) {
  constexpr double many = 10;
  const auto said = [&](double value) {
    if (line.unit != "g") return fmt::format("{:.0f}", value);
    return value < many ? fmt::format("{:.2f}", value) : fmt::format("{:.1f}", value);
  };
  return said(line.in_100_g.low) + " to " + said(line.in_100_g.high);
}

void print_table(Paper& paper, const shop::Label& label) {
  const bool us = label.law == shop::Law::us;
  const auto row = [&](const std::string& name,
                       const std::string& in_100_g,
                       const std::string& portion,
                       const std::string& range) {
    paper.line(padded("", 8) + padded(name, 23) + right(in_100_g, 14) + right(portion, 20) +
               (range.empty() ? "" : right(range, 14)));
  };
  row("", "100 g", service::weight(label.portion) + (us ? " (% DV)" : ""), "4 of 5 loaves");
  for (const shop::NutritionLine& one : label.nutrition) {
    const std::string unit = one.unit.empty() ? "" : " " + one.unit;
    const std::string daily =
        one.daily_value.empty() ? "" : fmt::format(" ({} %)", one.daily_value);
    row((one.indented ? "  " : "") + one.name,
        one.said_100_g + unit,
        one.said_portion + unit + daily,
        one.known ? reach_of(one) : "");
  }
  if (us) paper.line(padded("", 8) + "% DV: of the Daily Value, in the portion");
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
