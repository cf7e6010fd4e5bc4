#include "formula/read.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <sstream>

#include "formula/bowl.h"
#include "formula/internal/checks.h"
#include "formula/internal/contents.h"
#include "formula/internal/label_table.h"
#include "formula/internal/liquid_total.h"
#include "formula/internal/oven_reader.h"
#include "formula/internal/reading.h"
#include "formula/internal/stages.h"
#include "formula/internal/surroundings.h"
#include "formula/shelf.h"
#include "formula/words.h"
#include "larder/larder.h"
#include "time/local_time.h"
#include "units/units.h"

namespace barm::formula {

namespace {

using namespace internal;

constexpr std::size_t most_ingredients = 200;

/// The tables of a bake file, each read by one function, in the order in which they need each
/// other.
class BakeReader {
 public:
  BakeReader(const Node& root, const std::string& file)
      : root_(root), shelf_(table("ingredient"), table("bottle"), table("prepared")) {
    bake_.file = file;
    places_.size = places_.liquid = FilePlace{file};
  }

  Bake read() {
    check_keys(root_,
               "at the top of a bake file",
               {"name", "note",  "mixed",  "pieces",     "piece",    "baked", "dough",
                "loss", "flour", "target", "bowl",       "levain",   "stage", "weighed",
                "jar",  "oven",  "bottle", "ingredient", "prepared", "label", "percent_of"});
    read_words();
    read_size();
    if (const Entry* levain = entry("levain"))
      bake_.levain = read_levain(*levain, shelf_, only_flour());
    read_bowl();
    check_levain_is_used();
    shelf_.check_all_taken();
    read_weighed();
    if (const Entry* stages = entry("stage")) bake_.stages = read_stages(*stages, bake_);
    if (const Entry* jar = entry("jar")) bake_.jar = read_jar(*jar);
    if (const Entry* oven = entry("oven")) bake_.oven = read_oven(*oven);
    if (const Entry* label = entry("label")) bake_.label = read_label(*label);
    check_bowl(bake_, places_);
    aim_of_the_bulk();
    return std::move(bake_);
  }

 private:
  const Entry* entry(std::string_view key) const {
    for (const Entry& one : root_.entries) {
      if (one.key == key) return &one;
    }
    return nullptr;
  }

  /// The table of that key, or nullptr; stops when it is something else.
  const Node* table(std::string_view key) const {
    const Entry* one = entry(key);
    if (one == nullptr) return nullptr;
    check_table(*one, fmt::format("[{}.\"dry mead\"]", key));
    return &one->value;
  }

  /// The line of the bowl's only flour, by the larder's names.
  const Entry* only_flour() const {
    const Entry* bowl = entry("bowl");
    if (bowl == nullptr || bowl->value.kind != Node::Kind::table) return nullptr;
    const Entry* only = nullptr;
    for (const Entry& line : bowl->value.entries) {
      const larder::Ingredient* known = larder::find(line.key);
      if (known == nullptr || !known->is_flour()) continue;
      if (only != nullptr) return nullptr;
      only = &line;
    }
    return only;
  }

  void read_words() {
    if (const Entry* one = entry("name")) bake_.name = text_of(one->value, "Mead loaf");
    if (const Entry* one = entry("note")) bake_.note = text_of(one->value, "A note");
    if (const Entry* one = entry("mixed")) bake_.mixed_at = moment_of(one->value);
    const Entry* target = entry("target");
    if (target == nullptr) return;
    bake_.target_follows = target->value.kind == Node::Kind::text &&
                           folded(target->value.text) == "by what comes after";
    if (!bake_.target_follows) bake_.target = rise_of(target->value);
  }

  /// Without a target it is what the bulk goes until; where nobody says, what comes after it
  /// allows, and where nothing comes after it, what its flour holds.
  void aim_of_the_bulk() {
    if (entry("target") != nullptr) return;
    const Stage* bulk = bake_.bulk();
    if (bulk != nullptr && bulk->until) {
      bake_.target = *bulk->until;
      return;
    }
    bake_.target = as_its_flour_holds();
    bake_.target_follows = bulk != nullptr && !bulk->lasts && bulk != &bake_.stages.back();
  }

  /// Half of what the flour holds above the start, to a twentieth, at most doubled (common
  /// practice, no source: white doughs are doubled, wholemeal rises less, rye by a third).
  [[nodiscard]] double as_its_flour_holds() const {
    constexpr double doubled = 2;
    const auto bowl = in_the_bowl(bake_);
    if (!bowl) return doubled;
    return std::min(doubled, std::round(20 * (1 + (bowl->rise_limit - 1) / 2)) / 20);
  }

  static barm::time::LocalTime moment_of(const Node& value) {
    if (value.kind == Node::Kind::date) stop(value.place, "is a date without a time of day");
    const bool text = value.kind == Node::Kind::text || value.kind == Node::Kind::date_time;
    const auto moment = text ? barm::time::parse_local(trimmed(value.text)) : std::nullopt;
    if (!moment) stop(value.place, "is no local time: write \"2026-11-28T07:00\" or \"07:00\"");
    return *moment;
  }

  void read_size() {
    if (const Entry* one = entry("percent_of")) bake_.percent_of_weighed = of_weighed(one->value);
    if (const Entry* one = entry("pieces")) bake_.pieces = pieces_of(sized(*one));
    if (const Entry* one = entry("piece")) bake_.piece = mass_of(sized(*one), "900 g");
    if (const Entry* one = entry("baked")) bake_.baked_piece = mass_of(sized(*one), "780 g");
    if (const Entry* one = entry("dough")) bake_.dough_total = mass_of(sized(*one), "1.8 kg");
    if (const Entry* one = entry("flour")) bake_.flour_total = mass_of(sized(*one), "3 kg");
    const char* said = nullptr;
    for (const char* key : {"piece", "baked", "dough"}) {
      if (entry(key) == nullptr) continue;
      if (said != nullptr)
        stop(entry(key)->place,
             std::string(said) + " and " + key + " both say how much: leave one out");
      said = key;
    }
    if (const Entry* one = entry("loss")) read_loss(*one);
  }

  static bool of_weighed(const Node& value) {
    const std::string words = folded(text_of(value, "the flour weighed"));
    if (words == "the flour weighed") return true;
    if (words == "all flour") return false;
    stop(value.place, "percent is of \"all flour\", the levain's too, or of \"the flour weighed\"");
  }

  /// Remembers the place for errors about the size of the whole.
  const Node& sized(const Entry& one) {
    if (places_.size.line == 0) places_.size = one.place;
    return one.value;
  }

  static int pieces_of(const Node& value) {
    constexpr double most = 100'000;
    const bool good = value.kind == Node::Kind::whole && value.number >= 1 && value.number <= most;
    if (!good) stop(value.place, "pieces is a whole number from 1 to 100000: write pieces = 6");
    return static_cast<int>(value.number);
  }

  void read_loss(const Entry& one) {
    check_table(one, "loss = { handling = \"2 %\", bake = \"12 %\" }");
    check_keys(one.value, "of the loss", {"handling", "bake"});
    constexpr double most = 0.6;
    if (const Node* share = find(one.value, "handling")) {
      bake_.handling_loss = share_of(*share, "12 %", 0, most);
    }
    if (const Node* share = find(one.value, "bake")) {
      bake_.bake_loss = share_of(*share, "12 %", 0, most);
      bake_.bake_loss_given = true;
    }
  }

  // --- the bowl ---

  void read_bowl() {
    const Entry* bowl = entry("bowl");
    if (bowl == nullptr) stop(FilePlace{bake_.file}, "has no [bowl]");
    check_table(*bowl, "[bowl]");
    if (bowl->value.entries.size() > most_ingredients) {
      stop(bowl->place, fmt::format("the bowl holds over {} ingredients", most_ingredients));
    }
    if (places_.size.line == 0) places_.size = bowl->place;
    for (const Entry& line : bowl->value.entries) {
      if (line.key == "liquid") {
        places_.liquid = line.place;
        liquid_ = &line;
      } else {
        add_portion(line);
      }
    }
    if (bake_.bowl.empty()) stop(bowl->place, "the bowl is empty");
    if (liquid_ != nullptr) bake_.liquid_total = liquid_of(liquid_->value);
  }

  void add_portion(const Entry& line) {
    Portion portion = named(line);
    if (const Portion* twice = same_as(portion)) {
      stop(
          line.place,
          fmt::format(
              "{} stands in the bowl already, in line {}", in_quotes(line.key), twice->place.line));
    }
    portion.place = line.place;
    measure(line.value, portion);
    bake_.bowl.push_back(std::move(portion));
  }

  Portion named(const Entry& line) {
    Portion portion;
    if (line.key == "levain" && bake_.levain) {
      portion.ingredient = bake_.levain->starter;
      portion.levain = true;
      return portion;
    }
    const std::string words = line.key == "levain" ? "stiff ripe levain" : line.key;
    Labelled labelled = shelf_.take(words, line.place);
    portion.ingredient = std::move(labelled.ingredient);
    portion.price = labelled.price;
    portion.currency = std::move(labelled.currency);
    portion.reading = std::move(labelled.reading);
    portion.made_of = std::move(labelled.made_of);
    return portion;
  }

  const Portion* same_as(const Portion& portion) const {
    for (const Portion& other : bake_.bowl) {
      if (other.levain == portion.levain && other.ingredient.key == portion.ingredient.key)
        return &other;
    }
    return nullptr;
  }

  static void measure(const Node& value, Portion& portion) {
    const WrittenAmount amount = amount_of(value);
    portion.amount = amount.value;
    if (amount.rest) {
      portion.measure = Measure::rest_of_liquid;
    } else if (amount.of_liquid) {
      portion.measure = Measure::of_liquid;
    } else if (amount.kind == WrittenAmount::Kind::percent) {
      portion.measure = Measure::of_flour;
    } else {
      portion.measure = Measure::mass;
      portion.amount = kilograms(amount, portion, value.place);
    }
  }

  static double kilograms(const WrittenAmount& amount,
                          const Portion& portion,
                          const FilePlace& place) {
    if (amount.kind == WrittenAmount::Kind::mass) return amount.value;
    return amount.value * density_of(portion.ingredient, place);
  }

  void check_levain_is_used() const {
    if (!bake_.levain) return;
    for (const Portion& portion : bake_.bowl) {
      if (portion.levain) return;
    }
    stop(bake_.levain->place, "the bowl holds no levain: write levain = \"20 %\" in [bowl]");
  }

  // --- what was really poured ---

  void read_weighed() {
    const Entry* weighed = entry("weighed");
    if (weighed == nullptr) return;
    check_table(*weighed, "[weighed]");
    for (const Entry& line : weighed->value.entries) {
      const auto at = bake_.find(line.key);
      if (!at) stop(line.place, not_in_the_bowl(line.key, bake_));
      Portion& portion = bake_.bowl[*at];
      if (portion.weighed) stop(line.place, in_quotes(line.key) + " is weighed twice");
      const WrittenAmount amount = amount_of(line.value);
      if (amount.kind == WrittenAmount::Kind::percent) {
        stop(line.value.place, "what was poured is a weight: write \"600 g\"");
      }
      portion.weighed = kilograms(amount, portion, line.value.place) * kilogram;
    }
  }

  const Node& root_;
  Shelf shelf_;
  Bake bake_;
  SizePlaces places_;
  const Entry* liquid_ = nullptr;  // the line of the liquid total
};

}  // namespace

Result<Bake> parse_bake(std::string_view text, const std::string& file) {
  const auto root = parse_document(text, file);
  if (!root) return failure(root);
  try {
    return BakeReader(*root, file).read();
  } catch (const Stopped& stopped) {
    return tl::unexpected<Error>(stopped.error);
  }
}

Result<Bake> read_bake(const std::string& path) {
  const auto text = read_text(path);
  if (!text) return failure(text);
  return parse_bake(*text, path);
}

}  // namespace barm::formula
