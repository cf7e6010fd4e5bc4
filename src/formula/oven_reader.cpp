#include "formula/internal/oven_reader.h"

#include <fmt/format.h>

#include "formula/internal/reading.h"
#include "formula/words.h"

namespace barm::formula::internal {

namespace {

constexpr std::size_t most_settings = 20;
constexpr std::size_t learned_numbers = 10;

Temperature oven_temperature(const Node& value, std::string_view text) {
  const Temperature at = at_place(parse_temperature(text), value.place);
  if (at.celsius() >= 100 && at.celsius() <= 350) return at;
  stop(value.place,
       fmt::format("an oven at {:.0f} °C bakes no bread: from 100 °C to 350 °C, such as \"230 C\"",
                   at.celsius()));
}

// "15 min 220 C": the time after which the dial stands so.
OvenSetting setting_of(const Node& value) {
  const std::string& text = text_of(value, "15 min 220 C");
  std::size_t cut = text.find_last_of("0123456789");
  cut = cut == std::string::npos ? 0 : text.find_last_not_of("0123456789.,", cut);
  if (cut == std::string::npos) return {Time{}, oven_temperature(value, text)};
  const Time from = at_place(parse_time(text.substr(0, cut + 1)), value.place);
  return {from, oven_temperature(value, text.substr(cut + 1))};
}

std::vector<OvenSetting> settings_of(const Node& value) {
  if (value.kind != Node::Kind::list)
    return {{Time{}, oven_temperature(value, text_of(value, "230 C"))}};
  std::vector<OvenSetting> out;
  for (const Node& item : value.items) {
    out.push_back(setting_of(item));
    const bool first = out.size() == 1;
    if (first && out[0].from.si() > 0)
      stop(item.place,
           "the first setting is what it goes in at: write [\"250 C\", \"15 min 220 C\"]");
    if (!first && out.back().from <= out[out.size() - 2].from)
      stop(item.place, "settings stand in the order of time: write [\"250 C\", \"15 min 220 C\"]");
  }
  if (out.empty() || out.size() > most_settings)
    stop(value.place, "an oven is set to something: write set = \"230 C\"");
  return out;
}

bool truth_of(const Node& value) {
  if (value.kind == Node::Kind::truth) return value.number != 0;
  stop(value.place, "is true or false");
}

int count_of_loaves(const Node& value) {
  const bool good = value.kind == Node::Kind::whole && value.number >= 1 && value.number <= 1000;
  if (!good) stop(value.place, "is a whole number of loaves from 1 to 1000");
  return static_cast<int>(value.number);
}

Volume volume_of(const Node& value) {
  const WrittenAmount amount = amount_of(value);
  if (amount.kind == WrittenAmount::Kind::volume && amount.value >= 5e-3 && amount.value <= 50)
    return Volume::from_si(amount.value);
  stop(value.place, "an oven holds 5 L to 50000 L: write cavity = \"60 L\"");
}

double kilowatts_of(const Node& value) {
  const auto number = at_place(parse_number(text_of(value, "3 kW")), value.place);
  const bool good = folded(number.unit) == "kw" && number.value >= 0.2 && number.value <= 1000;
  if (!good) stop(value.place, "an oven draws 0.2 kW to 1000 kW: write power = \"3 kW\"");
  return number.value;
}

std::string form_of(const Node& value) {
  const std::string& word = text_of(value, "round");
  for (const char* form : {"round", "long", "tin", "flat"}) {
    if (word == form) return word;
  }
  stop(value.place,
       fmt::format("{} is no form: write \"round\", \"long\", \"tin\" or \"flat\"",
                   in_quotes(word)));
}

std::vector<double> learned_of(const Node& value) {
  std::vector<double> out;
  for (const Node& item : value.items) {
    const bool number = item.kind == Node::Kind::whole || item.kind == Node::Kind::real;
    if (number && item.number > -6 && item.number < 6) out.push_back(item.number);
  }
  if (value.kind == Node::Kind::list && out.size() == learned_numbers &&
      value.items.size() == learned_numbers)
    return out;
  stop(value.place, "is the list of ten numbers that `barm oven --probe` gives");
}

// What no oven can do, where it is written.
void check_oven(const Node& table, const OvenTable& oven) {
  if (oven.loaves && oven.holds && *oven.loaves > *oven.holds) {
    stop(find(table, "loaves")->place,
         fmt::format("{} loaves do not fit: this oven holds {}", *oven.loaves, *oven.holds));
  }
  for (const auto& [key, lasts] : {std::pair{"steam", oven.steam}, std::pair{"lid", oven.lid}}) {
    if (!lasts || !oven.bake || *lasts <= *oven.bake) continue;
    stop(find(table, key)->place,
         fmt::format("lasts no longer than the bake, {:g} min", oven.bake->in(minute)));
  }
}

}  // namespace

OvenTable read_oven(const Entry& entry) {
  check_table(entry, "[oven]");
  const Node& table = entry.value;
  check_keys(table,
             "of the oven",
             {"name",
              "form",
              "set",
              "bake",
              "steam",
              "lid",
              "stone",
              "fan",
              "loaves",
              "holds",
              "cavity",
              "power",
              "room",
              "learned"});
  OvenTable out;
  if (const Node* value = find(table, "name")) out.name = text_of(*value, "deck oven");
  if (const Node* value = find(table, "form")) out.form = form_of(*value);
  if (const Node* value = find(table, "set")) out.set = settings_of(*value);
  if (const Node* value = find(table, "bake")) out.bake = time_of(*value);
  if (const Node* value = find(table, "steam")) out.steam = time_of(*value);
  if (const Node* value = find(table, "lid")) out.lid = time_of(*value);
  if (const Node* value = find(table, "stone")) out.stone = truth_of(*value);
  if (const Node* value = find(table, "fan")) out.fan = truth_of(*value);
  if (const Node* value = find(table, "loaves")) out.loaves = count_of_loaves(*value);
  if (const Node* value = find(table, "holds")) out.holds = count_of_loaves(*value);
  if (const Node* value = find(table, "cavity")) out.cavity = volume_of(*value);
  if (const Node* value = find(table, "power")) out.kilowatts = kilowatts_of(*value);
  if (const Node* value = find(table, "room")) out.room = dough_temperature(*value);
  if (const Node* value = find(table, "learned")) out.learned = learned_of(*value);
  check_oven(table, out);
  return out;
}

}  // namespace barm::formula::internal
