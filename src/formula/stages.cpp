#include "formula/internal/stages.h"

#include <fmt/format.h>

#include <array>
#include <optional>

#include "formula/feed.h"
#include "formula/internal/reading.h"
#include "formula/internal/surroundings.h"
#include "formula/words.h"

namespace barm::formula::internal {

namespace {

// --- levain ---

void read_feed(const Node& value, Levain& levain) {
  const auto feed = parse_feed(text_of(value, "1:2:1"));
  if (!feed) stop(value.place, "feed " + feed.error().message);
  levain.ripe = feed->ripe;
  levain.fresh_flour = feed->flour;
  levain.water = feed->water;
}

larder::Ingredient starter_of(const Node& value, Shelf& shelf) {
  const auto starter = shelf.take(text_of(value, "stiff ripe levain"), value.place).ingredient;
  if (starter.group == larder::Group::starter || starter.group == larder::Group::yeast)
    return starter;
  stop(value.place,
       in_quotes(starter.name) +
           " is no starter: write \"stiff ripe levain\", or \"fresh yeast\" for a poolish or biga");
}

larder::Ingredient flour_of(const Node& value, Shelf& shelf) {
  const auto flour = shelf.take(text_of(value, "white bread flour"), value.place).ingredient;
  if (flour.is_flour()) return flour;
  stop(value.place, in_quotes(flour.name) + " is no flour: write \"white bread flour\"");
}

// --- stages ---

Step step_of(const Node& value) {
  const std::string& word = text_of(value, "bulk");
  std::vector<std::string> names;
  for (int i = 0; i < step_count; ++i) {
    const auto step = static_cast<Step>(i);
    if (row(step).kind == StepKind::baked) continue;
    if (name(step) == word) return step;
    names.emplace_back(name(step));
  }
  stop(value.place, fmt::format("{} is no stage. {}", in_quotes(word), near_or_all(word, names)));
}

void check_stage_keys(Step step, const Node& table) {
  const std::string what = fmt::format("of the stage \"{}\"", name(step));
  switch (row(step).kind) {
    case StepKind::mixed:
      return check_keys(table, what, {"do", "order", "temperature", "for", "where"});
    case StepKind::stands:
      if (row(step).by_volume)
        return check_keys(table,
                          what,
                          {"do",
                           "temperature",
                           "for",
                           "until",
                           "where",
                           "vessel",
                           "width",
                           "each",
                           "air",
                           "opens_at",
                           "recovers"});
      return check_keys(table,
                        what,
                        {"do",
                         "temperature",
                         "for",
                         "where",
                         "vessel",
                         "width",
                         "each",
                         "air",
                         "opens_at",
                         "recovers"});
    case StepKind::inside:
      return check_keys(table, what, {"do", "after"});
    case StepKind::handled:
      return check_keys(table, what, {"do", "for", "where"});
    case StepKind::baked:
      return;  // no file's
  }
}

std::vector<std::string> order_of(const Node& value, const Bake& bake) {
  if (value.kind != Node::Kind::list) {
    stop(value.place, "is a list: write order = [\"white bread flour\", \"water\", \"levain\"]");
  }
  std::vector<std::string> order;
  for (const Node& item : value.items) {
    const std::string& words = text_of(item, "water");
    const auto at = bake.find(words);
    if (!at) stop(item.place, not_in_the_bowl(words, bake));
    const Portion& portion = bake.bowl[*at];
    order.push_back(portion.levain ? "levain" : portion.ingredient.name);
  }
  return order;
}

Stage read_stage(const Node& table, const Bake& bake) {
  if (table.kind != Node::Kind::table) stop(table.place, "a stage is a table: write [[stage]]");
  const Node* step = find(table, "do");
  if (step == nullptr) stop(table.place, "a stage says what to do: write do = \"bulk\"");
  Stage stage;
  stage.place = table.place;
  stage.step = step_of(*step);
  check_stage_keys(stage.step, table);
  stage.temperature = row(stage.step).place;
  if (const Node* at = find(table, "temperature")) {
    stage.temperature = dough_temperature(*at);
    stage.temperature_given = true;
  }
  stage.surroundings = read_surroundings(table);
  if (const Node* time = find(table, "for")) stage.lasts = time_of(*time);
  if (const Node* rise = find(table, "until")) stage.until = rise_of(*rise);
  if (const Node* time = find(table, "after")) stage.after = time_of(*time);
  if (const Node* order = find(table, "order")) stage.order = order_of(*order, bake);
  if (const Node* where = find(table, "where")) stage.where = text_of(*where, "proofing box");
  if (stage.step == Step::fold && !stage.after) {
    stop(stage.place, "a fold says when: write after = \"1 h\"");
  }
  return stage;
}

void check_order(const std::vector<Stage>& stages) {
  const Stage* before = nullptr;
  bool bulk = false;
  for (const Stage& stage : stages) {
    if (stage.step == Step::mix && &stage != &stages.front()) {
      stop(stage.place, "\"mix\" stands after another stage: it comes first");
    }
    if (stage.step == Step::fold && !bulk) {
      stop(stage.place, "\"fold\" stands before any bulk: a fold happens inside one");
    }
    bulk = bulk || stage.step == Step::bulk;
    const auto here = row(stage.step).along;
    if (!here) continue;
    if (before != nullptr && *here < *row(before->step).along) {
      stop(stage.place,
           fmt::format("\"{0}\" stands after \"{1}\" (line {2}): {0} comes before {1}",
                       name(stage.step),
                       name(before->step),
                       before->place.line));
    }
    before = &stage;
  }
}

Time doubling_of(const Node& value) {
  const Time time = time_of(value);
  if (time < 0.5 * hour || time > 48.0 * hour)
    stop(value.place, "a levain doubles in half an hour to two days: write \"4 h\"");
  return time;
}

}  // namespace

Levain read_levain(const Entry& entry, Shelf& shelf, const Entry* only_flour) {
  check_table(entry, "[levain]");
  const Node& table = entry.value;
  check_keys(table,
             "of the levain",
             {"starter",
              "feed",
              "flour",
              "temperature",
              "since_feeding",
              "in_the_cold",
              "cold",
              "doubled_in",
              "rose"});
  Levain levain;
  levain.place = entry.place;
  const Node* starter = find(table, "starter");
  if (starter == nullptr) stop(entry.place, "the levain needs starter = \"stiff ripe levain\"");
  levain.starter = starter_of(*starter, shelf);
  const Node* flour = find(table, "flour");
  if (flour != nullptr) {
    levain.flour = flour_of(*flour, shelf);
  } else if (only_flour != nullptr) {
    levain.flour = shelf.take(only_flour->key, only_flour->place).ingredient;
  } else {
    stop(entry.place,
         "the bowl has not just one flour: the levain needs flour = \"white bread flour\"");
  }
  const Node* feed = find(table, "feed");
  if (feed != nullptr) read_feed(*feed, levain);
  if (levain.too_much_yeast())
    stop(feed != nullptr ? feed->place : starter->place,
         "a poolish or biga needs feed = \"0.002:1:1\", yeast : flour : water by weight");
  if (const Node* at = find(table, "temperature")) levain.temperature = dough_temperature(*at);
  if (const Node* time = find(table, "since_feeding")) levain.since_feeding = time_of(*time);
  if (const Node* time = find(table, "in_the_cold")) levain.in_the_cold = time_of(*time);
  if (const Node* at = find(table, "cold")) levain.cold = dough_temperature(*at);
  if (const Node* time = find(table, "doubled_in")) levain.doubled_in = doubling_of(*time);
  if (const Node* rise = find(table, "rose")) levain.rose = rise_of(*rise);
  return levain;
}

std::vector<Stage> read_stages(const Entry& entry, const Bake& bake) {
  if (entry.value.kind != Node::Kind::list) {
    stop(entry.place, "stages are a list: write [[stage]] for each");
  }
  std::vector<Stage> stages;
  for (const Node& item : entry.value.items) stages.push_back(read_stage(item, bake));
  check_order(stages);
  return stages;
}

}  // namespace barm::formula::internal
