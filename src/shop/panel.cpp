#include "shop/internal/panel.h"

#include <algorithm>
#include <cmath>

#include "shop/internal/say.h"

namespace barm::shop::internal {

namespace {

std::string name_cell(const NutritionLine& line, const std::string& said) {
  constexpr const char* classes[] = {"", " class=\"i\"", " class=\"j\""};
  return fmt::format("<td{}>{}</td>", classes[std::clamp(line.indent, 0, 2)], said);
}

/// A figure is never parted from its unit.
std::string with_unit(const std::string& said, const NutritionLine& line) {
  constexpr const char* unbroken = "\u00a0";
  return line.unit.empty() ? said : said + unbroken + line.unit;
}

std::string said_in(const Label& label, const std::string& said, const NutritionLine& line) {
  return with_unit(figure(said, label.tongue), line);
}

/// "Total Fat 1g", "Includes 2g Added Sugars".
std::string fact_words(const NutritionLine& line, const std::string& said) {
  constexpr std::string_view heavy[] = {
      "Total Fat", "Cholesterol", "Sodium", "Total Carbohydrate", "Protein"};
  if (line.name == "Includes Added Sugars")
    return escaped("Includes " + said + line.unit + " Added Sugars");
  const bool bold = std::find(std::begin(heavy), std::end(heavy), line.name) != std::end(heavy);
  const std::string name = bold ? "<b>" + escaped(line.name) + "</b>" : escaped(line.name);
  return name + " " + escaped(said + line.unit);
}

std::string percent(const std::string& daily) { return daily.empty() ? "" : daily + "%"; }

}  // namespace

/// By 100 g, and by the portion where one was asked for, with the number of them.
std::string nutrition_by_weight(const Label& label) {
  const bool portion = label.portion.si() > 0;
  std::string out = "<table><tr>" + head(term("nutrition", label.tongue), false) +
                    head("100 g", true) + (portion ? head(grams(label.portion), true) : "") +
                    "</tr>";
  for (const NutritionLine& line : label.nutrition) {
    out += "<tr>" + name_cell(line, escaped(term(line.name, label.tongue))) +
           cell(said_in(label, line.said_100_g, line), true) +
           (portion ? cell(said_in(label, line.said_portion, line), true) : "") + "</tr>";
  }
  out += "</table>";
  if (!portion || label.loaf.si() <= 0) return out;
  const double portions = label.loaf / label.portion;
  const bool whole = std::abs(portions - std::round(portions)) < 1e-6;
  return out + fmt::format("<p>{}: {}{:.0f}</p>",
                           escaped(term("portions", label.tongue)),
                           whole ? "" : escaped(term("about", label.tongue)) + " ",
                           portions);
}

/// The panel of 21 CFR 101.9(d): servings, their size, calories large, the rest against the day.
std::string nutrition_facts(const Label& label) {
  const bool whole = label.serving.whole_too;
  const NutritionLine& calories = label.nutrition.front();
  std::string out = "<div class=\"facts\"><p class=\"title\">Nutrition Facts</p>";
  const bool one = label.serving.number == "1";
  out += fmt::format("<p>{} {} per container</p><p><b>Serving size {} ({:.0f}g)</b></p>",
                     escaped(label.serving.number),
                     one ? "serving" : "servings",
                     escaped(label.serving.measure),
                     label.serving.mass.in(gram));
  out += fmt::format("<p class=\"calories\">Calories {}{}</p>",
                     escaped(calories.said_portion),
                     whole ? " · per container " + escaped(calories.said_whole) : "");
  out += "<table><tr>" + head("", false) + head("% Daily Value*", true) +
         (whole ? head("per container", false) + head("% Daily Value*", true) : "") + "</tr>";
  for (const NutritionLine& line : label.nutrition) {
    if (&line == &calories) continue;
    out += "<tr>" + name_cell(line, fact_words(line, line.said_portion)) +
           cell(percent(line.daily_value), true);
    if (whole)
      out += cell(line.said_whole + line.unit, false) + cell(percent(line.daily_whole), true);
    out += "</tr>";
  }
  return out +
         "</table><p class=\"foot\">*The % Daily Value (DV) tells you how much a nutrient in a "
         "serving of food contributes to a daily diet. 2,000 calories a day is used for general "
         "nutrition advice.</p></div>";
}

}  // namespace barm::shop::internal
