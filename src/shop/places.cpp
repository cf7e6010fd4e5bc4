// What the United Kingdom and the United States want asked.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/letters.h"
#include "shop/internal/label_lines.h"
#include "shop/internal/questions.h"
#include "shop/internal/starter.h"

namespace barm::shop::internal {

using formula::Bake;
using formula::Portion;
using larder::Group;

namespace {

bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (static_cast<unsigned char>(c) & 0x80U) != 0;
}

bool is_wholemeal(const larder::Ingredient& ingredient) {
  const std::string& key = ingredient.on_label.own ? ingredient.on_label.like : ingredient.key;
  const std::string name = label_word(key, Tongue::en).name + " " + ingredient.name;
  return name.find("wholemeal") != std::string::npos;
}

/// Reg. 6 of the Bread and Flour Regulations: the name is kept for bread of wholemeal alone.
bool all_wholemeal(const Bake& bake) {
  return std::all_of(bake.bowl.begin(), bake.bowl.end(), [&](const Portion& portion) {
    const larder::Ingredient& one = composed_of(bake, portion);
    const bool starter = !portion.levain && one.group == Group::starter;
    if (!one.is_flour() && !starter) return true;
    return is_wholemeal(one) || one.key == "vital_gluten" || one.key == "wholemeal_levain";
  });
}

bool is_fortified(const larder::Ingredient& ingredient) {
  const std::string& key = ingredient.on_label.own ? ingredient.on_label.like : ingredient.key;
  return label_word(key, Tongue::en).kind == "fortified";
}

bool holds_fortified_flour(const Bake& bake) {
  return std::any_of(bake.bowl.begin(), bake.bowl.end(), [](const Portion& portion) {
    return is_fortified(portion.ingredient);
  });
}

bool holds_starter(const Bake& bake) {
  const bool yeasted = bake.levain && bake.levain->yeasted();
  return std::any_of(bake.bowl.begin(), bake.bowl.end(), [&](const Portion& portion) {
    return is_starter(portion) && !(portion.levain && yeasted);
  });
}

void weights_of_the_kingdom(const Label& label, Lines& lines) {
  constexpr double free_up_to = 300;
  constexpr double unit = 400;
  const double weight = label.loaf.in(gram);
  const double units = std::round(weight / unit);
  if (weight <= free_up_to + 0.5 || (units >= 1 && std::abs(weight - units * unit) < 0.5)) return;
  lines.push_back(asks("weight",
                       fmt::format("Sold unwrapped? Then a loaf above 300 g weighs 400 g or a "
                                   "multiple of it, and this one comes to {:.0f} g.",
                                   weight),
                       {"uk_weights"}));
}

/// Bread of a name that has a standard of its own in the United States.
void identities(const Bake& bake, Lines& lines) {
  struct Identity {
    const char* word;
    const char* asks;
  };

  constexpr Identity identities[] = {
      {"raisin",
       "does it hold 50 parts of raisins to 100 of flour, and nothing the standard does not name?"},
      {"milk", "is milk, or its solids in that proportion, all that moistens it?"},
      {"whole wheat", "is whole wheat the only flour in it?"},
      {"enriched",
       "does it hold the thiamin, riboflavin, niacin, folic acid and iron of the standard?"},
  };
  for (const Identity& one : identities) {
    if (!holds_word(bake.name, one.word)) continue;
    lines.push_back(
        asks("name",
             fmt::format("\"{}\" bread has a standard of identity: {}", one.word, one.asks),
             {"us_identity"}));
  }
  lines.push_back(
      asks("flour",
           "Is the flour enriched? Then it is \"enriched flour\" with what was added, in "
           "brackets.",
           {"us_identity", "us_compound"}));
}

}  // namespace

LabelLine asks(std::string field, std::string text, std::vector<std::string> rules) {
  return label_line(std::move(field), {{std::move(text), false}}, std::move(rules));
}

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

bool holds_drink(const Bake& bake) {
  return std::any_of(bake.bowl.begin(), bake.bowl.end(), [](const Portion& portion) {
    return portion.ingredient.group == Group::drink;
  });
}

void of_the_kingdom(const Bake& bake, const Label& label, Lines& lines) {
  if (holds_word(bake.name, "wholemeal") && !all_wholemeal(bake)) {
    lines.push_back(asks("name",
                         "\"Wholemeal\" may stand in the name of bread only when all of its flour "
                         "is wholemeal, and here it is not: give it another name.",
                         {"uk_wholemeal"}));
  }
  if (holds_fortified_flour(bake)) {
    const bool out = label.fields.fortified == "no";
    lines.push_back(asks(
        "flour",
        out ? "You say that the flour has nothing added: is its maker exempt?"
            : "The flour is drafted with the calcium, iron, niacin and thiamin that it must "
              "have, from 13 December 2026 folic acid too: write fortified = \"no\" in [label] "
              "where yours has none.",
        {"uk_flour"}));
  }
  weights_of_the_kingdom(label, lines);
  if (holds_starter(bake) || holds_word(bake.name, "sourdough"))
    lines.push_back(asks("sourdough", "May it be called sourdough?", {"uk_sourdough"}));
  lines.push_back(asks("packed here", "Is it packed where it is sold?", {"uk_loose"}));
}

void of_america(const Bake& bake, Lines& lines) {
  if (holds_drink(bake)) {
    lines.push_back(
        asks("name", "May it be called bread, or a name that describes it?", {"us_standard"}));
  }
  identities(bake, lines);
  lines.push_back(
      asks("small seller", "Are you exempt from the nutrition facts?", {"us_small_seller"}));
}

}  // namespace barm::shop::internal
