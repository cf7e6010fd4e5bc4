#include "formula/internal/shelf.h"

#include <fmt/format.h>

#include <algorithm>

#include "formula/internal/reading.h"
#include "formula/internal/words.h"
#include "larder/larder.h"

namespace barm::formula::internal {

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

std::vector<std::string> words_of(const Node& value) {
  if (value.kind != Node::Kind::list) stop(value.place, "is a list: write [\"wheat\", \"milk\"]");
  std::vector<std::string> words;
  for (const Node& item : value.items) words.push_back(text_of(item, "wheat"));
  return words;
}

bool is_about_the_ingredient(std::string_view key) {
  return key == "group" || key == "like" || key == "allergens" || key == "note";
}

}  // namespace

Shelf::Shelf(const Node* ingredients, const Node* bottles) {
  if (ingredients != nullptr) {
    for (const Entry& entry : ingredients->entries) {
      check_table(entry, "[ingredient.\"my perry\"]");
      own_.push_back(own_ingredient(entry));
    }
  }
  if (bottles == nullptr) return;
  for (const Entry& entry : bottles->entries) {
    check_table(entry, "[bottle.\"dry mead\"]");
    const Ingredient& ingredient = look_up(entry.key, entry.place);
    bottles_.push_back({labelled(ingredient, entry.value), entry.key, entry.place});
  }
}

const Ingredient& Shelf::look_up(std::string_view words, const Place& place) const {
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
  ingredient.key = folded(entry.key);
  ingredient.name = std::string(trimmed(entry.key));
  ingredient.also.clear();
  if (ingredient.key.empty()) stop(entry.place, "an ingredient has a name");
  if (const Node* allergens = find(entry.value, "allergens"))
    ingredient.allergens = words_of(*allergens);
  if (const Node* note = find(entry.value, "note")) ingredient.note = text_of(*note, "a note");
  Node label = entry.value;
  std::erase_if(label.entries, [](const Entry& one) { return is_about_the_ingredient(one.key); });
  if (find(label, "price") != nullptr) {
    stop(find(label, "price")->place, "a price stands in [bottle], not in [ingredient]");
  }
  return labelled(ingredient, label).ingredient;
}

Labelled Shelf::take(std::string_view words, const Place& place) {
  const Ingredient& ingredient = look_up(words, place);
  for (Bottle& bottle : bottles_) {
    if (bottle.labelled.ingredient.key != ingredient.key) continue;
    bottle.taken = true;
    return bottle.labelled;
  }
  return {ingredient, std::nullopt, "", ""};
}

void Shelf::check_all_taken() const {
  for (const Bottle& bottle : bottles_) {
    if (!bottle.taken) stop(bottle.place, in_quotes(bottle.written) + " is not in the bowl");
  }
}

}  // namespace barm::formula::internal
