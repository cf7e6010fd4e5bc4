#include "formula/shelf.h"

#include <fmt/format.h>

#include <algorithm>

#include "formula/internal/prepared.h"
#include "formula/internal/reading.h"
#include "formula/words.h"
#include "larder/allergens.h"
#include "larder/larder.h"

namespace barm::formula {

using larder::Group;
using larder::Ingredient;

namespace {

constexpr int last_group = static_cast<int>(Group::other);

Group group_of(const Node& value) {
  const std::string& word = text_of(value, "drink");
  std::vector<std::string> names;
  for (int g = 0; g <= last_group; ++g) {
    const auto group = static_cast<Group>(g);
    if (larder::name(group) == word) return group;
    names.emplace_back(larder::name(group));
  }
  stop(value.place, fmt::format("{} is no group. {}", in_quotes(word), near_or_all(word, names)));
}

/// One allergen of the closed list, by any word of it.
std::string allergen_of(const Node& value) {
  const std::string& word = text_of(value, "wheat");
  if (const larder::Allergen* found = larder::find_allergen(trimmed(word)))
    return std::string(found->key);
  const std::string wanted = folded(word);
  if (wanted == "nuts" || wanted == "nut" || wanted == "tree nuts") {
    stop(value.place, "the law requires the nut by its name: write \"almonds\", \"walnuts\" …");
  }
  stop(value.place,
       fmt::format("{} is no allergen of the law's list. {}",
                   in_quotes(word),
                   near_or_all(word, larder::allergen_words())));
}

std::vector<std::string> allergens_of(const Node& value) {
  if (value.kind != Node::Kind::list) stop(value.place, "is a list: write [\"wheat\", \"milk\"]");
  std::vector<std::string> out;
  for (const Node& item : value.items) {
    std::string allergen = allergen_of(item);
    if (std::find(out.begin(), out.end(), allergen) == out.end())
      out.push_back(std::move(allergen));
  }
  return out;
}

/// Text of a label; each brace is closed, and what stands in braces is an allergen.
std::string set_off(const Node& value, std::string_view example) {
  const std::string& text = text_of(value, example);
  std::size_t at = 0;
  while ((at = text.find_first_of("{}", at)) != std::string::npos) {
    const std::size_t end = text.find_first_of("{}", at + 1);
    if (text[at] == '}' || end == std::string::npos || text[end] == '{') {
      stop(value.place, "has a brace that is not closed: write \"{milk} powder\"");
    }
    at = end + 1;
  }
  return text;
}

/// What the label says of it.
void read_on_label(const Node& table, larder::Ingredient& ingredient) {
  larder::OnLabel& label = ingredient.on_label;
  if (const Node* name = find(table, "label_name")) {
    label.name = set_off(*name, "dark chocolate");
  }
  if (const Node* list = find(table, "list")) {
    label.list = set_off(*list, "cocoa mass, sugar, {milk} powder");
  }
  if (const Node* share = find(table, "saturates"))
    label.saturates = share_of(*share, "12 %", 0, 1);
  if (const Node* share = find(table, "added_sugars"))
    label.added_sugars = share_of(*share, "40 %", 0, 1);
}

bool is_about_the_ingredient(std::string_view key) {
  return key == "group" || key == "like" || key == "allergens" || key == "note" ||
         key == "label_name" || key == "list" || key == "saturates" || key == "added_sugars";
}

}  // namespace

Shelf::Shelf(const Node* ingredients, const Node* bottles, const Node* prepared) {
  if (ingredients != nullptr) {
    for (const Entry& entry : ingredients->entries) {
      check_table(entry, "[ingredient.\"my perry\"]");
      own_.push_back(own_ingredient(entry));
    }
  }
  if (bottles != nullptr) {
    for (const Entry& entry : bottles->entries) {
      check_table(entry, "[bottle.\"dry mead\"]");
      const Ingredient& ingredient = look_up(entry.key, entry.place);
      bottles_.push_back({labelled(ingredient, entry.value), entry.key, entry.place});
    }
  }
  if (prepared == nullptr) return;
  for (const Entry& entry : prepared->entries) {
    check_table(entry, "[prepared.\"reduced stout\"]");
    const auto from_the_shelf = [this](std::string_view words, const FilePlace& place) {
      return take(words, place);
    };
    prepared_.push_back({internal::prepared(entry, from_the_shelf), entry.key, entry.place});
  }
}

Shelf::Bottle* Shelf::named(std::vector<Bottle>& among, std::string_view key) {
  for (Bottle& one : among) {
    if (one.labelled.ingredient.key == key) return &one;
  }
  return nullptr;
}

const Ingredient& Shelf::look_up(std::string_view words, const FilePlace& place) const {
  const std::string wanted = folded(words);
  for (const Ingredient& ingredient : own_) {
    if (ingredient.key == wanted) return ingredient;
  }
  if (const Ingredient* known = larder::find(words)) return *known;
  std::vector<std::string> names;
  for (const Ingredient& ingredient : own_) names.push_back(ingredient.name);
  auto near = near_words(words, names);
  constexpr std::size_t longest_name = 40;  // nonsense longer than any name has no near one
  if (wanted.size() <= longest_name) {
    for (const std::string& name : larder::near(words)) near.push_back(name);
  }
  if (near.size() > 3) near.resize(3);
  const std::string hint = near_it(near);
  stop(place,
       fmt::format("{} is not in the larder.{}", in_quotes(words), hint.empty() ? "" : " " + hint));
}

/// An ingredient of the file's own: from nothing, or from the one it is like.
Ingredient Shelf::own_ingredient(const Entry& entry) const {
  const Node* like = find(entry.value, "like");
  const Node* group = find(entry.value, "group");
  Ingredient ingredient;
  if (like != nullptr) ingredient = look_up(text_of(*like, "perry"), like->place);
  if (like == nullptr && group == nullptr) {
    stop(entry.place, "an ingredient of your own needs group = \"drink\" or like = \"perry\"");
  }
  if (group != nullptr) ingredient.group = group_of(*group);
  const bool like_an_own = ingredient.on_label.own;
  const std::string kind = like_an_own ? ingredient.on_label.like : ingredient.key;
  // Its kind, its list and what is known of it go on with an own one that is like it; whether it
  // holds another allergen is asked of each.
  ingredient.on_label.own = true;
  ingredient.on_label.like = kind;
  ingredient.on_label.allergens_said = false;
  ingredient.key = folded(entry.key);
  ingredient.name = std::string(trimmed(entry.key));
  ingredient.also.clear();
  if (ingredient.key.empty()) stop(entry.place, "an ingredient has a name");
  if (const Node* allergens = find(entry.value, "allergens")) {
    ingredient.allergens = allergens_of(*allergens);
    ingredient.on_label.allergens_said = true;
  }
  read_on_label(entry.value, ingredient);
  if (const Node* note = find(entry.value, "note")) ingredient.note = text_of(*note, "a note");
  Node label = entry.value;
  std::erase_if(label.entries, [](const Entry& one) { return is_about_the_ingredient(one.key); });
  if (find(label, "price") != nullptr) {
    stop(find(label, "price")->place, "a price stands in [bottle], not in [ingredient]");
  }
  return labelled(ingredient, label).ingredient;
}

Labelled Shelf::take(std::string_view words, const FilePlace& place) {
  Bottle* one = named(prepared_, folded(words));
  if (one == nullptr) {
    const Ingredient& ingredient = look_up(words, place);
    one = named(bottles_, ingredient.key);
    if (one == nullptr) return {ingredient, std::nullopt, "", "", {}};
  }
  one->taken = true;
  return one->labelled;
}

void Shelf::check_all_taken() const {
  for (const Bottle& bottle : bottles_) {
    if (!bottle.taken) stop(bottle.place, in_quotes(bottle.written) + " is not in the bowl");
  }
  for (const Bottle& one : prepared_) {
    if (!one.taken) stop(one.place, in_quotes(one.written) + " is prepared, but not in the bowl");
  }
}

}  // namespace barm::formula
