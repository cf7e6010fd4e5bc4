#include "formula/bake.h"

#include <algorithm>
#include <array>

#include "formula/words.h"
#include "larder/larder.h"

namespace barm::formula {

namespace {

bool is_called(const Portion& portion, const std::string& word) {
  if (word == "levain") return portion.levain || portion.ingredient.group == larder::Group::starter;
  return folded(portion.ingredient.name) == word || folded(portion.ingredient.key) == word;
}

}  // namespace

double Levain::hydration() const {
  if (yeasted()) return (water + ripe) / fresh_flour;
  const auto& known = starter[larder::Property::hydration];
  const double h = known ? known->typical : 1;
  return (water + ripe * h / (1 + h)) / (fresh_flour + ripe / (1 + h));
}

const Stage* Bake::bulk() const {
  for (const Stage& stage : stages) {
    if (stage.step == Step::bulk) return &stage;
  }
  return nullptr;
}

Temperature Bake::bulk_temperature() const {
  const Stage* stage = bulk();
  return stage != nullptr ? stage->temperature : Temperature::from_celsius(24);
}

std::optional<Temperature> Bake::mixed_temperature() const {
  for (const Stage& stage : stages) {
    if (stage.step == Step::mix && stage.temperature_given) return stage.temperature;
  }
  return std::nullopt;
}

std::optional<std::size_t> Bake::find(std::string_view words) const {
  const std::string word = folded(words);
  for (std::size_t i = 0; i < bowl.size(); ++i) {
    if (is_called(bowl[i], word)) return i;
  }
  const larder::Ingredient* known = larder::find(words);
  for (std::size_t i = 0; known != nullptr && i < bowl.size(); ++i) {
    if (bowl[i].ingredient.key == known->key) return i;
  }
  return std::nullopt;
}

}  // namespace barm::formula
