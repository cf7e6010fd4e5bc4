#include "shop/questions.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "base/letters.h"
#include "generated/constants.h"
#include "generated/tables.h"

namespace barm::shop {

using formula::Bake;
using formula::Portion;
using larder::Group;

namespace {

using Lines = std::vector<LabelLine>;

LabelLine line(std::string field, std::string text, std::vector<std::string> rules) {
  LabelLine out;
  out.field = std::move(field);
  out.text = {{std::move(text), false}};
  out.rules = std::move(rules);
  return out;
}

bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (static_cast<unsigned char>(c) & 0x80U) != 0;
}

/// Whether the word stands in the text as a word of its own.
bool holds_word(std::string_view where, std::string_view word) {
  const std::string text = small_letters(where);
  for (std::size_t at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) {
    const std::size_t end = at + word.size();
    const bool begins = at == 0 || !is_letter(text[at - 1]);
    const bool ends = end == text.size() || !is_letter(text[end]);
    if (begins && ends) return true;
  }
  return false;
}

/// A drink's name with its other names, for what is known of its sort.
bool is_of_sort(const larder::Ingredient& drink, std::string_view sort) {
  if (holds_word(drink.name, sort)) return true;
  return std::any_of(drink.also.begin(), drink.also.end(), [&](const std::string& other) {
    return holds_word(other, sort);
  });
}

/// "egg white (eggs)" of every sort the drink is of, each once.
std::string agents_of(const larder::Ingredient& drink, bool exempt) {
  std::set<std::string> found;
  for (const auto& row : tables::fining) {
    if ((row.exempt == "yes") == exempt && is_of_sort(drink, row.drink)) {
      found.insert(fmt::format("{} ({})", row.agent, row.allergen));
    }
  }
  std::string out;
  for (const std::string& agent : found) out += (out.empty() ? "" : ", ") + agent;
  return out;
}

void fining(const Bake& bake, Law law, Lines& lines) {
  for (const Portion& portion : bake.bowl) {
    if (portion.ingredient.group != Group::drink) continue;
    std::string agents = agents_of(portion.ingredient, false);
    const std::string exempt = agents_of(portion.ingredient, true);
    if (law == Law::us && !exempt.empty()) agents += (agents.empty() ? "" : ", ") + exempt;
    if (agents.empty()) continue;
    const bool say_exempt = law != Law::us && !exempt.empty();
    lines.push_back(line("fining",
                         fmt::format("Was the {} fined with {}? Ask its maker{}.",
                                     portion.ingredient.name,
                                     agents,
                                     say_exempt ? "; " + exempt + " is exempt" : ""),
                         {law == Law::us ? "us_allergens" : "allergen_fining"}));
  }
}

void alcohol_left(const Ranged& alcohol, Law law, Lines& lines) {
  if (alcohol.high < constants::left_in_loaf::alcohol_named.value.si() * 100) return;
  lines.push_back(line(
      "alcohol",
      fmt::format("About {:.1f} g of alcohol stay in 100 g of the loaf, {:.1f} to {:.1f} 4 times "
                  "of 5 (twelve loaves measured in 1926: {:g} to {:g}): tell those who must avoid "
                  "it, and ask what your law wants said.",
                  alcohol.middle,
                  alcohol.low,
                  alcohol.high,
                  100 * constants::left_in_loaf::measured_low.value.si(),
                  100 * constants::left_in_loaf::measured_high.value.si()),
      {law == Law::us ? "us_alcohol" : "residual_alcohol"}));
}

void protected_names(const Bake& bake, Law law, Lines& lines) {
  std::set<std::string> found;
  const auto look_in = [&](std::string_view text) {
    for (const auto& row : tables::protected_names) {
      if (holds_word(text, row.word)) found.emplace(row.word);
    }
  };
  look_in(bake.name);
  for (const Portion& portion : bake.bowl) look_in(portion.ingredient.name);
  for (const std::string& word : found) {
    lines.push_back(
        line("protected name",
             fmt::format("\"{}\" may be a protected name: may it stand on this bread?", word),
             {law == Law::us ? "us_protected" : "protected"}));
  }
}

bool holds_drink(const Bake& bake) {
  return std::any_of(bake.bowl.begin(), bake.bowl.end(), [](const Portion& portion) {
    return portion.ingredient.group == Group::drink;
  });
}

bool holds_fortified_flour(const Bake& bake) {
  return std::any_of(bake.bowl.begin(), bake.bowl.end(), [](const Portion& portion) {
    const auto& also = portion.ingredient.allergens;
    const bool wheat = std::find(also.begin(), also.end(), "wheat") != also.end();
    return portion.ingredient.is_flour() && wheat &&
           portion.ingredient.name.find("wholemeal") == std::string::npos;
  });
}

void of_the_kingdom(const Bake& bake, Lines& lines) {
  if (holds_fortified_flour(bake)) {
    lines.push_back(line("flour",
                         "Is the wheat flour fortified? Then its added calcium, iron, niacin, "
                         "thiamin and folic acid stand behind it in the list.",
                         {"uk_flour"}));
  }
  lines.push_back(line("sourdough", "May it be called sourdough?", {"uk_sourdough"}));
  lines.push_back(line("packed here", "Is it packed where it is sold?", {"uk_loose"}));
}

}  // namespace

std::vector<LabelLine> questions(const Bake& bake, const Ranged& alcohol, Law law) {
  Lines lines;
  fining(bake, law, lines);
  alcohol_left(alcohol, law, lines);
  protected_names(bake, law, lines);
  if (holds_drink(bake)) {
    lines.push_back(
        line("age and duty",
             "Does baking with or selling what holds alcohol need a licence, a duty or an "
             "age where you are?",
             {law == Law::us ? "us_alcohol" : "alcohol_duty"}));
  }
  if (law == Law::us) {
    if (holds_drink(bake)) {
      lines.push_back(
          line("name", "May it be called bread, or a name that describes it?", {"us_standard"}));
    }
    lines.push_back(
        line("small seller", "Are you exempt from the nutrition facts?", {"us_small_seller"}));
    return lines;
  }
  lines.push_back(line("small seller", "Do you sell small amounts yourself?", {"small_seller"}));
  lines.push_back(line("loose", "Is it sold unwrapped?", {"loose"}));
  lines.push_back(line("date and maker",
                       "Date, storage, your name and address still have to be added.",
                       {"date_and_maker"}));
  if (law == Law::uk) of_the_kingdom(bake, lines);
  return lines;
}

}  // namespace barm::shop
